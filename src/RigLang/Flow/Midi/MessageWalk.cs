using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// One place a message comes to. <see cref="Parent"/> is the step before it (-1: the start). A step that a filter stops
/// is the end of its way.
/// </summary>
/// <param name="Channel">0 when the message has none, or nobody said.</param>
/// <param name="StoppedBy">The filter that drops it here, or null.</param>
/// <param name="MappedFrom">The channel it was on before a map at this port moved it; 0 when none did.</param>
public sealed record WalkStep(int Index, int Node, int Channel, int Parent, Hookup? Cable, PortFilter? StoppedBy, int MappedFrom);

/// <summary>
/// One kind of message on one channel, followed from where it starts to everywhere it can go: the tree of its ways, the shortest
/// to each place first, with what stops or moves it. This is the flow seen from one message, and says why.
/// </summary>
public sealed class MessageWalk
{
    private readonly MidiGraph _graph;
    private readonly List<WalkStep> _steps = [];
    private readonly Dictionary<(int Node, int Channel), int> _seen = [];

    private MessageWalk(MidiGraph graph, MessageKinds kind)
    {
        _graph = graph;
        Kind = kind;
    }

    public MessageKinds Kind { get; }

    /// <summary>In the order in which places are reached; a stopped step is in it too.</summary>
    public IReadOnlyList<WalkStep> Steps => _steps;

    public MidiGraph Graph => _graph;

    /// <summary>A walk of one kind (one bit) from output nodes.</summary>
    public static MessageWalk From(MidiGraph graph, IEnumerable<int> starts, MessageKinds kind, int channel)
    {
        var walk = new MessageWalk(graph, kind);
        foreach (var node in starts.Where(n => n >= 0))
        {
            walk.Come(node, channel, -1, null);
        }
        for (var at = 0; at < walk._steps.Count; at++)
        {
            var step = walk._steps[at];
            if (step.StoppedBy is not null)
            {
                continue;
            }
            foreach (var edge in graph.From(step.Node))
            {
                if ((edge.Carries & kind) != MessageKinds.None)
                {
                    walk.Come(edge.To, step.Channel, at, edge.Cable);
                }
            }
        }
        return walk;
    }

    /// <summary>The places that messages really come to.</summary>
    public IEnumerable<WalkStep> Reached => _steps.Where(s => s.StoppedBy is null);

    /// <summary>Those of them that belong to a device, the first reached first.</summary>
    public IEnumerable<WalkStep> ReachedOf(DeviceSymbol device) => ByDevice[device];

    private ILookup<DeviceSymbol, WalkStep> ByDevice => field ??= Reached.ToLookup(s => _graph.PortOf(s.Node).Device);

    /// <summary>The places where filters stop it.</summary>
    public IEnumerable<WalkStep> Stopped => _steps.Where(s => s.StoppedBy is not null);

    /// <summary>The devices it gets to, the one it starts from among them.</summary>
    public IReadOnlyCollection<DeviceSymbol> Devices => [.. _steps.Select(s => _graph.PortOf(s.Node).Device).Distinct()];

    /// <summary>The steps from the start to this one.</summary>
    public List<WalkStep> WayTo(WalkStep step)
    {
        var way = new List<WalkStep>();
        for (var at = step.Index; at >= 0; at = _steps[at].Parent)
        {
            way.Add(_steps[at]);
        }
        way.Reverse();
        return way;
    }

    /// <summary>The same as places in the text: each cable at its line, each device at its name.</summary>
    public List<Hop> HopsTo(WalkStep step) => [.. WayTo(step).Select(HopOf)];

    public Hop HopOf(WalkStep step)
    {
        var port = _graph.PortOf(step.Node);
        var name = MessageKindNames.Describe(Kind);
        if (step.StoppedBy is { } filter)
        {
            return new Hop(filter.At, $"{port} drops {name}");
        }
        var moved = step.MappedFrom > 0 ? $", channel {step.MappedFrom} moved to {step.Channel}" : "";
        return step.Cable is { } cable
            ? new Hop(cable.Connection.At, $"{_graph.PortOf(_steps[step.Parent].Node)} to {port}{moved}")
            : new Hop(port.Device.At, $"{port}{moved}");
    }

    private void Come(int node, int channel, int parent, Hookup? cable)
    {
        if ((_graph.DropsAt(node) & Kind) != MessageKinds.None)
        {
            // A filter counts once, whichever channel it stops.
            if (_seen.TryAdd((node, -1), _steps.Count))
            {
                Add(node, channel, parent, cable, FilterAt(node), 0);
            }
            return;
        }
        var isChannelMessage = (Kind & MessageKinds.Channel) != MessageKinds.None;
        foreach (var to in isChannelMessage && parent >= 0 ? _graph.Mapped(node, channel) : [channel])
        {
            if (_seen.TryAdd((node, to), _steps.Count))
            {
                Add(node, to, parent, cable, null, to == channel ? 0 : channel);
            }
        }
    }

    private void Add(int node, int channel, int parent, Hookup? cable, PortFilter? stoppedBy, int mappedFrom) =>
        _steps.Add(new WalkStep(_steps.Count, node, channel, parent, cable, stoppedBy, mappedFrom));

    private PortFilter FilterAt(int node)
    {
        var port = _graph.PortOf(node);
        return port.Device.Filters.First(f => ReferenceEquals(f.Port, port.Port) && (f.Drops & Kind) != MessageKinds.None);
    }
}
