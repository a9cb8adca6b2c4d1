using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>
/// Who listens to what comes in at a port: parts on its channel, devices that follow its clock, that start and stop with it. Every
/// answer about hearing is made of these.
/// </summary>
internal sealed class Hearing(MidiGraph graph, ChannelTable channels, IReadOnlyList<Listener> listeners)
{
    private readonly ILookup<int, Listener> _listeners = listeners
        .SelectMany(l => l.Nodes.Distinct(), (listener, node) => (listener, node))
        .ToLookup(x => x.node, x => x.listener);

    public IEnumerable<Listener> ListenersAt(int node) => _listeners[node];

    /// <summary>Whether a device, or one part of it, listens to a message that comes in; null when that cannot be told.</summary>
    /// <param name="kind">One kind (one bit).</param>
    public bool? Of(DeviceSymbol device, PartSymbol? part, int node, MessageKinds kind, int channel)
    {
        var port = graph.PortOf(node).Port;
        var gear = device.Gear!;
        if ((kind & MessageKinds.Clock) != 0)
        {
            return Takes(device.Clock, gear.ClockFollows, port);
        }
        if ((kind & MessageKinds.Transport) != 0)
        {
            return Takes(TransportOf(device), TransportChoices(gear), port);
        }
        if ((kind & MessageKinds.Channel) == 0 || gear.Parts.Count == 0)
        {
            return true;
        }
        bool? heard = false;
        foreach (var own in gear.Parts.Values)
        {
            if ((part is null || ReferenceEquals(part, own)) && own.Receives.Contains(port))
            {
                var answer = channels.Of(device, own).Hears(channel);
                heard = answer == true || heard == true ? true : answer is null ? null : heard;
            }
        }
        return heard;
    }

    /// <summary>Without a setting of its own, transport is taken from wherever the clock is taken.</summary>
    public static ClockSource? TransportOf(DeviceSymbol device) => device.Transport ?? device.Clock;

    public static GatheredList<ClockSource> TransportChoices(GearSymbol gear) => gear.TransportFollows.Count > 0 ? gear.TransportFollows : gear.ClockFollows;

    /// <summary>
    /// Whether a device takes its clock or transport at a port: as it is set; if it is not set, unknown where it could be set to the port,
    /// and a device that follows nothing (a thru box, a recorder) takes what comes.
    /// </summary>
    public static bool? Takes(ClockSource? setting, GatheredList<ClockSource> choices, PortSymbol port) =>
        setting is { } source ? ReferenceEquals(source.Port, port)
            : choices.Count == 0 ? true
            : choices.Exists(s => ReferenceEquals(s.Port, port)) ? null
            : false;

    public static string Arrives(MessageKinds kind, int channel)
    {
        var name = MessageKindNames.Describe(kind);
        return $"{name}{((kind & MessageKinds.Channel) != 0 && channel > 0 ? $" on channel {channel}" : "")} {(IsMany(name) ? "arrive" : "arrives")}";
    }

    /// <summary>Whether the name of a kind of message takes a verb in the plural.</summary>
    public static bool IsMany(string name) => name is "notes" or "controllers" || name.Contains(',', StringComparison.Ordinal);

    /// <summary>Why a target does not listen to what comes in at its door, as half a sentence: <c>bass keeps its own clock</c>.</summary>
    public string WhyNotHeard(Target to, int node, MessageKinds kind) => SettingAgainst(node, kind) is { Length: > 0 } setting
        ? $"{to.Device.Name} {setting}"
        : (kind & MessageKinds.Channel) == 0 ? $"{to.Text} does not listen to it there"
        : to.Part is { } part ? $"{to.Text} is on {channels.Of(to.Device, part)}"
        : $"{to.Text} does not listen there on that channel";

    /// <summary>Where else a device that could hear here takes its clock or transport; empty when no setting is in the way.</summary>
    public string SettingAgainst(int node, MessageKinds kind)
    {
        var port = graph.PortOf(node);
        var what = (kind & MessageKinds.Clock) != 0 ? "clock" : (kind & MessageKinds.Transport) != 0 ? "transport" : "";
        var setting = what switch { "clock" => port.Device.Clock, "transport" => TransportOf(port.Device), _ => null };
        return setting is not { } source || ReferenceEquals(source.Port, port.Port) ? ""
            : source.Port is null ? $"keeps its own {what}" : $"takes its {what} at {source.Name}";
    }
}
