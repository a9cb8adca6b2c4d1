using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// A step that messages take: along a cable, or inside a device from an input to an output.
/// </summary>
/// <param name="Carries">The kinds that can take it: a pulse cable carries clock and nothing else.</param>
/// <param name="Cable">Null inside a device.</param>
/// <param name="IsSwitched">Inside a device: one of several inputs at a time.</param>
public readonly record struct MidiEdge(int From, int To, MessageKinds Carries, Hookup? Cable, bool IsSwitched);

/// <summary>
/// Where messages can go. Each port of the rig has two nodes, one for what comes in and one for what goes out, so that a USB
/// cable carries both ways without turning messages round.
/// </summary>
public sealed class MidiGraph
{
    private readonly LinkTable _links;
    private readonly int[] _firstEdge;
    private readonly int[] _firstBack;
    private readonly MidiEdge[] _edges;
    private readonly MidiEdge[] _back;
    private readonly MessageKinds[] _drops;
    private readonly Dictionary<int, List<ChannelMap>> _maps = [];

    /// <summary>The wide routes at their inputs and at their outputs; hardly any rig has one.</summary>
    private readonly Dictionary<int, WideRoute[]> _wide = [];

    private MidiGraph(LinkTable links, List<MidiEdge> edges)
    {
        _links = links;
        NodeCount = 2 * links.PortCount;
        (_edges, _firstEdge) = Sorted(edges, e => e.From);
        (_back, _firstBack) = Sorted(edges, e => e.To);
        _drops = new MessageKinds[NodeCount];
    }

    public int NodeCount { get; }

    /// <summary>The node of what comes in at a port; -1 for a port without a jack.</summary>
    public static int In(DeviceSymbol device, PortSymbol port) => LinkTable.NumberOf(device, port) is >= 0 and var number ? 2 * number : -1;

    /// <summary>The node of what goes out at a port; -1 for a port without a jack.</summary>
    public static int Out(DeviceSymbol device, PortSymbol port) => LinkTable.NumberOf(device, port) is >= 0 and var number ? (2 * number) + 1 : -1;

    public static bool IsIn(int node) => node % 2 == 0;

    public PortRef PortOf(int node) => _links.PortAt(node / 2);

    public MidiEdges From(int node) => new(_edges.AsSpan(_firstEdge[node].._firstEdge[node + 1]), IsIn(node) ? WideAt(node) : null, node, isBack: false);

    public MidiEdges To(int node) => new(_back.AsSpan(_firstBack[node].._firstBack[node + 1]), IsIn(node) ? null : WideAt(node), node, isBack: true);

    private WideRoute[]? WideAt(int node) => _wide.Count == 0 ? null : _wide.GetValueOrDefault(node);

    /// <summary>The kinds that a port's filters keep from passing.</summary>
    public MessageKinds DropsAt(int node) => _drops[node];

    /// <summary>The channel maps of a port; empty for nearly all.</summary>
    public IReadOnlyList<ChannelMap> MapsAt(int node) => _maps.TryGetValue(node, out var maps) ? maps : [];

    /// <summary>True for a port that moves channels.</summary>
    public bool IsMapped(int node) => HasMaps && _maps.ContainsKey(node);

    /// <summary>False when no port of the rig moves channels: then every message stays on its own.</summary>
    public bool HasMaps => _maps.Count > 0;

    public IEnumerable<ChannelMap> AllMaps => _maps.Values.SelectMany(m => m);

    public static MidiGraph Of(RigNames names, LinkTable links)
    {
        var edges = new List<MidiEdge>();
        foreach (var link in links.Links)
        {
            var carries = CarriedBy(link.Kind);
            if (carries == MessageKinds.None)
            {
                continue;
            }
            edges.Add(new MidiEdge(Out(link.From.Device, link.From.Port), In(link.To.Device, link.To.Port), carries, link.Hookup, false));
            if (link.Kind == SignalKind.Usb)
            {
                edges.Add(new MidiEdge(Out(link.To.Device, link.To.Port), In(link.From.Device, link.From.Port), carries, link.Hookup, false));
            }
        }
        var wide = new List<(int[] Inputs, int[] Outputs, DeviceSymbol Device)>();
        foreach (var device in names.Devices)
        {
            foreach (var group in device.Gear?.Routes.Groups ?? [])
            {
                if (group.From.Count >= WideRoute.Wide && group.To.Count >= WideRoute.Wide)
                {
                    wide.Add((NodesOf(group.From, port => In(device, port)), NodesOf(group.To, port => device.ThruOff.Contains(port) ? -1 : Out(device, port)), device));
                    continue;
                }
                foreach (var from in group.From)
                {
                    foreach (var to in group.To)
                    {
                        if (CarriesMessages(from) && CarriesMessages(to) && In(device, from) >= 0 && Out(device, to) >= 0 && !device.ThruOff.Contains(to))
                        {
                            var switched = device.Gear!.Switches.Contains(from, to);
                            edges.Add(new MidiEdge(In(device, from), Out(device, to), MessageKinds.All, null, switched));
                        }
                    }
                }
            }
        }
        var graph = new MidiGraph(links, edges);
        foreach (var (inputs, outputs, device) in wide)
        {
            graph.AddWide(new WideRoute(device, links, inputs, outputs), inputs, outputs);
        }
        foreach (var device in names.Devices)
        {
            graph.AddSettings(device);
        }
        return graph;
    }

    private static int[] NodesOf(IReadOnlyList<PortSymbol> ports, Func<PortSymbol, int> nodeOf) =>
        [.. ports.Where(CarriesMessages).Select(nodeOf).Where(node => node >= 0)];

    private void AddWide(WideRoute route, int[] inputs, int[] outputs)
    {
        WideRoute[] only = [route];
        foreach (var node in inputs.Concat(outputs))
        {
            _wide[node] = _wide.TryGetValue(node, out var others) ? [.. others, route] : only;
        }
    }

    private void AddSettings(DeviceSymbol device)
    {
        foreach (var filter in device.Filters)
        {
            if (In(device, filter.Port) is >= 0 and var node)
            {
                _drops[node] |= filter.Stands(isComingIn: true) ? filter.Drops : MessageKinds.None;
                _drops[node + 1] |= filter.Stands(isComingIn: false) ? filter.Drops : MessageKinds.None;
            }
        }
        foreach (var map in device.Maps)
        {
            if (In(device, map.Port) is >= 0 and var node)
            {
                var at = (map.Way == PortWay.Both ? map.Port.IsOutput : map.Way == PortWay.GoingOut) ? node + 1 : node;
                if (!_maps.TryGetValue(at, out var list))
                {
                    _maps[at] = list = [];
                }
                list.Add(map);
            }
        }
    }

    /// <summary>Whether a kind of message could come from here to a node that is wanted, if no filter stood in the way.</summary>
    public bool CouldLead(int start, MessageKinds kind, Func<int, bool> isWanted) => Spreading.From([start], (node, into) =>
    {
        foreach (var edge in From(node))
        {
            if ((edge.Carries & kind) != 0)
            {
                into.Add(edge.To);
            }
        }
    }).Any(isWanted);

    /// <summary>The channels on which a message goes on from a port; unmapped ones stay.</summary>
    public IReadOnlyList<int> Mapped(int node, int channel)
    {
        var targets = new List<int>();
        foreach (var map in MapsAt(node))
        {
            if (map.From == channel)
            {
                targets.AddRange(map.To.Where(to => !targets.Contains(to)));
            }
        }
        return targets.Count == 0 ? [channel] : targets;
    }

    /// <summary>A pulse is clock and nothing else; DIN sync has a wire for clock and one that says run.</summary>
    private static MessageKinds CarriedBy(SignalKind kind) => kind switch
    {
        SignalKind.Midi or SignalKind.Usb => MessageKinds.All,
        SignalKind.Pulse => MessageKinds.Clock,
        SignalKind.DinSync => MessageKinds.Clock | MessageKinds.Start | MessageKinds.Stop,
        _ => MessageKinds.None,
    };

    internal static bool CarriesMessages(PortSymbol port) => port.Signal is { } signal && CarriedBy(signal.Kind) != MessageKinds.None;

    private (MidiEdge[] Edges, int[] First) Sorted(List<MidiEdge> edges, Func<MidiEdge, int> key)
    {
        var first = new int[NodeCount + 1];
        foreach (var edge in edges)
        {
            first[key(edge) + 1]++;
        }
        for (var i = 0; i < NodeCount; i++)
        {
            first[i + 1] += first[i];
        }
        var sorted = new MidiEdge[edges.Count];
        var next = (int[])first.Clone();
        foreach (var edge in edges)
        {
            sorted[next[key(edge)]++] = edge;
        }
        return (sorted, first);
    }
}
