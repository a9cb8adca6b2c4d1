using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Findings;

/// <summary>
/// Which devices could pass something on to which, generously: every cable of the kind, what is inside a device always joined, and the
/// cables with a mistake as if they worked both ways.
/// </summary>
internal sealed class DeviceWays
{
    private readonly Dictionary<DeviceSymbol, List<DeviceSymbol>> _next = [];
    private readonly Dictionary<DeviceSymbol, List<DeviceSymbol>> _before = [];

    public DeviceWays(Rig rig, ExpectedSignal flow, IEnumerable<(IReadOnlySet<DeviceSymbol> Near, IReadOnlySet<DeviceSymbol> Far)> broken)
    {
        foreach (var link in rig.Links.Links)
        {
            if (IsOf(link.Kind, flow))
            {
                Join(link.From.Device, link.To.Device);
                if (link.Kind == SignalKind.Usb)
                {
                    Join(link.To.Device, link.From.Device);
                }
            }
        }
        foreach (var (near, far) in broken)
        {
            JoinBothWays(near, far);
        }
        // A link goes through strips and splitters without stopping at them; where one hangs on a broken cable there is no link.
        foreach (var hookup in rig.Wiring.Hookups)
        {
            if (hookup.Jacks.Any(j => j.Jack.Port.IsPassive) && hookup.Jacks.Any(j => j.Jack.Port.Signal is not { } signal || IsOf(signal.Kind, flow)))
            {
                var devices = hookup.Jacks.Select(j => j.Device).ToHashSet();
                JoinBothWays(devices, devices);
            }
        }
    }

    public HashSet<DeviceSymbol> From(DeviceSymbol start) => Reach(start, _next);

    public HashSet<DeviceSymbol> To(DeviceSymbol end) => Reach(end, _before);

    private static HashSet<DeviceSymbol> Reach(DeviceSymbol start, Dictionary<DeviceSymbol, List<DeviceSymbol>> edges) =>
        [.. Spreading.From([start], (device, into) => into.AddRange(edges.GetValueOrDefault(device) ?? []))];

    private void JoinBothWays(IEnumerable<DeviceSymbol> near, IEnumerable<DeviceSymbol> far)
    {
        foreach (var a in near)
        {
            foreach (var b in far)
            {
                Join(a, b);
                Join(b, a);
            }
        }
    }

    private void Join(DeviceSymbol from, DeviceSymbol to)
    {
        Add(_next, from, to);
        Add(_before, to, from);

        static void Add(Dictionary<DeviceSymbol, List<DeviceSymbol>> edges, DeviceSymbol from, DeviceSymbol to)
        {
            if (!edges.TryGetValue(from, out var all))
            {
                edges[from] = all = [];
            }
            all.Add(to);
        }
    }

    internal static bool IsOf(SignalKind kind, ExpectedSignal flow) => flow switch
    {
        ExpectedSignal.Messages => kind is SignalKind.Midi or SignalKind.Usb or SignalKind.Pulse or SignalKind.DinSync,
        ExpectedSignal.Audio => kind is SignalKind.Audio or SignalKind.Insert or SignalKind.Usb,
        _ => kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains or SignalKind.Usb,
    };
}
