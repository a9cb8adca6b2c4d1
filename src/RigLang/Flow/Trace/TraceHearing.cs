using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>Who hears what comes in at a port: parts on its channel, devices that follow its clock, that start and stop with it.</summary>
internal sealed class TraceHearing(Rig rig)
{
    private readonly Hearing _hearing = rig.Midi.Hearing;

    public List<TraceHearer> At(int node, MessageKinds kinds, int channel)
    {
        var heard = new List<TraceHearer>();
        if (!MidiGraph.IsIn(node))
        {
            return heard;
        }
        var port = rig.Midi.Graph.PortOf(node);
        if ((kinds & MessageKinds.Channel) != 0)
        {
            AddParts(heard, node, (kinds & MessageKinds.Notes) != 0 ? HearingWay.Plays : HearingWay.Hears, channel);
        }
        var gear = port.Device.Gear!;
        if ((kinds & MessageKinds.Clock) != 0)
        {
            AddSetting(heard, port, port.Device.Clock, gear.ClockFollows, HearingWay.FollowsClock);
        }
        if ((kinds & MessageKinds.Transport) != 0)
        {
            AddSetting(heard, port, Hearing.TransportOf(port.Device), Hearing.TransportChoices(gear), HearingWay.StartsAndStops);
        }
        const MessageKinds Others = MessageKinds.SystemExclusive | MessageKinds.SongPosition | MessageKinds.ActiveSensing;
        // Of a device that does something better known with what arrives, that says enough.
        if (heard.Count == 0 && (kinds & Others) != 0 && (gear.Parts.Count > 0 || gear.ClockFollows.Count > 0 || IsEnd(node)))
        {
            heard.Add(new TraceHearer(port.Device.Name, HearingWay.Gets, 0, true));
        }
        return heard;
    }

    /// <summary>Why a place where something could hear hears nothing; empty where nothing is to be said.</summary>
    public string Silence(int node, MessageKinds kind, int channel)
    {
        if ((kind & MessageKinds.Channel) != 0 && _hearing.ListenersAt(node).Any())
        {
            return channel > 0 ? $"no part is on channel {channel}" : "no part hears it";
        }
        return _hearing.SettingAgainst(node, kind) is { Length: > 0 } setting ? setting : IsEnd(node) ? "nobody hears it here" : "";
    }

    private void AddParts(List<TraceHearer> heard, int node, HearingWay how, int channel)
    {
        foreach (var listener in _hearing.ListenersAt(node))
        {
            if (listener.Channel.Hears(channel) is not false and var answer)
            {
                heard.Add(new TraceHearer(listener.Text, how, channel, answer == true));
            }
        }
        // A computer or recorder has no parts, and takes all that comes; a box that only passes on does not hear.
        var device = rig.Midi.Graph.PortOf(node).Device;
        if (device.Gear!.Parts.Count == 0 && IsEnd(node))
        {
            heard.Add(new TraceHearer(device.Name, HearingWay.Hears, channel, true));
        }
    }

    private static void AddSetting(List<TraceHearer> heard, PortRef port, ClockSource? setting, GatheredList<ClockSource> choices, HearingWay how)
    {
        // A box that follows nothing takes what comes, and does nothing with it that is worth telling.
        if ((setting is not null || choices.Count > 0) && Hearing.Takes(setting, choices, port.Port) is not false and var answer)
        {
            heard.Add(new TraceHearer(port.Device.Name, how, 0, answer == true));
        }
    }

    private bool IsEnd(int node) => rig.Midi.Graph.From(node).Length == 0;
}
