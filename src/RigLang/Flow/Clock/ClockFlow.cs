using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>A device that takes its tempo from a port, and the devices whose clock comes in there.</summary>
public sealed record Follower(DeviceSymbol Device, PortSymbol Port, int Node, IReadOnlyList<DeviceSymbol> Leaders);

/// <summary>A device that lets others start and stop it, at a port, and the devices whose start or stop comes in there.</summary>
public sealed record Obeyer(DeviceSymbol Device, PortSymbol Port, int Node, IReadOnlyList<DeviceSymbol> Commanders);

/// <summary>Who leads whom, and who starts and stops whom, read off the message flow.</summary>
public sealed class ClockFlow
{
    private readonly Dictionary<DeviceSymbol, Follower> _byDevice = new(ReferenceEqualityComparer.Instance);

    private ClockFlow(List<Follower> followers, List<Obeyer> obeyers)
    {
        Followers = followers;
        Obeyers = obeyers;
        foreach (var follower in followers)
        {
            _byDevice[follower.Device] = follower;
        }
    }

    public IReadOnlyList<Follower> Followers { get; }
    public IReadOnlyList<Obeyer> Obeyers { get; }

    public Follower? Of(DeviceSymbol device) => _byDevice.GetValueOrDefault(device);

    /// <summary>
    /// Devices that follow one another in a circle, each once, starting with the first of the rig; empty when there is none. Only
    /// a device with exactly one leader is followed on.
    /// </summary>
    public IReadOnlyList<IReadOnlyList<Follower>> Cycles()
    {
        var cycles = new List<IReadOnlyList<Follower>>();
        var state = new Dictionary<DeviceSymbol, int>(ReferenceEqualityComparer.Instance);
        for (var i = 0; i < Followers.Count; i++)
        {
            var way = new List<Follower>();
            for (var at = Followers[i]; at is not null && state.TryAdd(at.Device, i);)
            {
                way.Add(at);
                var next = at.Leaders.Count == 1 ? Of(at.Leaders[0]) : null;
                if (next is not null && state.TryGetValue(next.Device, out var round) && round == i)
                {
                    cycles.Add(way[way.FindIndex(f => ReferenceEquals(f.Device, next.Device))..]);
                }
                at = next;
            }
        }
        return cycles;
    }

    /// <summary>The device at the head: followed from leader to leader. Null in a circle, or when one has none or several.</summary>
    public DeviceSymbol? HeadOf(DeviceSymbol device)
    {
        var seen = new HashSet<DeviceSymbol>(ReferenceEqualityComparer.Instance);
        while (Of(device) is { } follower)
        {
            if (follower.Leaders.Count != 1 || !seen.Add(device))
            {
                return null;
            }
            device = follower.Leaders[0];
        }
        return device;
    }

    public static ClockFlow Of(RigNames names, MidiFlow flow)
    {
        var followers = new List<Follower>();
        var obeyers = new List<Obeyer>();
        foreach (var device in names.Devices)
        {
            if (device.Clock?.Port is { } port && MidiGraph.In(device, port) is >= 0 and var node)
            {
                followers.Add(new Follower(device, port, node, DevicesAt(flow, node, MessageKinds.Clock)));
            }
            if ((device.Transport ?? device.Clock)?.Port is { } from && MidiGraph.In(device, from) is >= 0 and var at)
            {
                obeyers.Add(new Obeyer(device, from, at, DevicesAt(flow, at, MessageKinds.Start | MessageKinds.Stop)));
            }
        }
        return new ClockFlow(followers, obeyers);
    }

    /// <summary>
    /// How fast a follower runs when its port counts other pulses than it is sent: tempo x sent / expected. Null when the two agree
    /// or one is not known.
    /// </summary>
    public static double? RateFactor(Link link) =>
        link is { Kind: SignalKind.Pulse or SignalKind.DinSync, From.Port.Signal.Rate: { } sent, To.Port.Signal.Rate: { } expected } && sent != expected
            ? sent.Value / expected.Value
            : null;

    private static List<DeviceSymbol> DevicesAt(MidiFlow flow, int node, MessageKinds kinds) =>
        [.. flow.AtomsAt(node, kinds).Select(a => flow.Sources[a.Atom.Source].Device).Distinct()];
}
