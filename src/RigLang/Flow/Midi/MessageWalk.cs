using System.Collections;
using System.Runtime.InteropServices;
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
    private readonly List<Place> _places = [];
    private readonly BitArray _isSeen;
    private readonly HashSet<(int Node, int Channel)>? _seenOn;
    private WalkStep?[] _steps = [];

    private readonly Cut? _cut;
    private Func<int, bool>? _endsAt;

    private MessageWalk(MidiGraph graph, MessageKinds kind, Cut? cut = null)
    {
        _graph = graph;
        _cut = cut;
        Kind = kind;
        _isSeen = new BitArray(graph.NodeCount);
        // Where no port moves channels, a node is come to on one channel only.
        _seenOn = IsChannelMessage && graph.HasMaps ? [] : null;
    }

    public MessageKinds Kind { get; }

    /// <summary>In the order in which places are reached; a stopped step is in it too.</summary>
    public IReadOnlyList<WalkStep> Steps => field ??= [.. Indices.Select(StepAt)];

    public MidiGraph Graph => _graph;

    /// <summary>The steps that nothing comes before.</summary>
    public IEnumerable<WalkStep> Starts => Indices.TakeWhile(at => _places[at].Parent < 0).Select(StepAt);

    /// <summary>A walk of one kind (one bit) from output nodes.</summary>
    /// <param name="cut">What is to be thought away.</param>
    /// <param name="endsAt">Nodes that are come to but not gone on from; null for none.</param>
    public static MessageWalk From(MidiGraph graph, IEnumerable<int> starts, MessageKinds kind, int channel, Cut? cut = null, Func<int, bool>? endsAt = null)
    {
        var walk = new MessageWalk(graph, kind, cut) { _endsAt = endsAt };
        walk.Run(starts, channel, until: -1);
        return walk;
    }

    /// <summary>As much of the same walk as is gone before a node is come to: the first way to it is that of the whole walk.</summary>
    public static MessageWalk Towards(MidiGraph graph, IEnumerable<int> starts, MessageKinds kind, int channel, int node)
    {
        var walk = new MessageWalk(graph, kind);
        walk.Run(starts, channel, node);
        return walk;
    }

    /// <summary>The places that messages really come to.</summary>
    public IEnumerable<WalkStep> Reached => Indices.Where(i => !IsStopped(i)).Select(StepAt);

    /// <summary>Those of them that belong to a device, the first reached first.</summary>
    public IEnumerable<WalkStep> ReachedOf(DeviceSymbol device)
    {
        for (var at = ByDevice.First.GetValueOrDefault(device, -1); at >= 0; at = ByDevice.Next[at])
        {
            yield return StepAt(at);
        }
    }

    /// <summary>The first of them at a node; null when it is not reached.</summary>
    public WalkStep? FirstAt(int node) => FirstByNode.TryGetValue(node, out var at) && !IsStopped(at) ? StepAt(at) : null;

    /// <summary>True when messages really come to a node.</summary>
    public bool Reaches(int node) => _isSeen[node] && (_graph.DropsAt(node) & Kind) == MessageKinds.None;

    /// <summary>The one with the most steps before it, the first of several; null when there is none.</summary>
    public WalkStep? Farthest
    {
        get
        {
            var before = new int[_places.Count];
            var farthest = -1;
            for (var at = 0; at < before.Length; at++)
            {
                before[at] = _places[at].Parent is >= 0 and var parent ? before[parent] + 1 : 0;
                farthest = IsStopped(at) || (farthest >= 0 && before[at] <= before[farthest]) ? farthest : at;
            }
            return farthest >= 0 ? StepAt(farthest) : null;
        }
    }

    /// <summary>The places where filters stop it.</summary>
    public IEnumerable<WalkStep> Stopped => Indices.Where(IsStopped).Select(StepAt);

    /// <summary>The devices it gets to, the one it starts from among them.</summary>
    public IReadOnlyCollection<DeviceSymbol> Devices => field ??= [.. _places.Select(p => _graph.PortOf(p.Node).Device).Distinct()];

    /// <summary>The steps from the start to this one.</summary>
    public List<WalkStep> WayTo(WalkStep step)
    {
        var way = new List<WalkStep>();
        for (var at = step.Index; at >= 0; at = _places[at].Parent)
        {
            way.Add(StepAt(at));
        }
        way.Reverse();
        return way;
    }

    /// <summary>The same way as steps in the text: a place that moves or stops what comes is two steps, that it comes and what happens.</summary>
    public List<WayStep> StepsTo(WalkStep step)
    {
        var steps = new List<WayStep>();
        foreach (var at in WayTo(step))
        {
            var port = _graph.PortOf(at.Node);
            steps.Add(at.Parent < 0 ? new WayStep.Start(port)
                : at.Cable is { } cable ? new WayStep.Cable(_graph.PortOf(_places[at.Parent].Node), port, cable)
                : new WayStep.Through(_graph.PortOf(_places[at.Parent].Node), port));
            if (MapOf(at) is { } map)
            {
                steps.Add(new WayStep.Moved(port, at.MappedFrom, at.Channel, map.At));
            }
            if (StopOf(at) is { } stop)
            {
                steps.Add(stop);
            }
        }
        return steps;
    }

    /// <summary>What stops the message at this step; null where nothing does.</summary>
    public WayStep.Stopped? StopOf(WalkStep step) =>
        step.StoppedBy is { } filter ? new WayStep.Stopped(_graph.PortOf(step.Node), Kind, filter) : null;

    /// <summary>The map that moved the message at this step; null where none did.</summary>
    public ChannelMap? MapOf(WalkStep step)
    {
        if (step.MappedFrom > 0)
        {
            foreach (var map in _graph.MapsAt(step.Node))
            {
                if (map.From == step.MappedFrom && map.To.Contains(step.Channel))
                {
                    return map;
                }
            }
        }
        return null;
    }

    /// <summary>A step as the walk keeps it: thousands are walked, and few are looked at.</summary>
    private readonly record struct Place(int Node, int Channel, int Parent, int MappedFrom, Hookup? Cable);

    private bool IsChannelMessage => (Kind & MessageKinds.Channel) != MessageKinds.None;

    private IEnumerable<int> Indices => Enumerable.Range(0, _places.Count);

    private (Dictionary<DeviceSymbol, int> First, int[] Next) ByDevice => field.First is null ? field = ChainByDevice() : field;

    private Dictionary<int, int> FirstByNode => field ??= FirstOfEachNode();

    /// <param name="until">A node at which the walk is over; -1 for none.</param>
    private void Run(IEnumerable<int> starts, int channel, int until)
    {
        foreach (var node in starts.Where(n => n >= 0))
        {
            Come(node, channel, -1, null);
        }
        for (var at = 0; at < _places.Count && (until < 0 || !_isSeen[until]); at++)
        {
            if (IsStopped(at))
            {
                continue;
            }
            var place = _places[at];
            if (_endsAt?.Invoke(place.Node) == true)
            {
                continue;
            }
            foreach (var edge in _graph.From(place.Node))
            {
                if ((edge.Carries & Kind) != MessageKinds.None && !(edge.Cable is { } plugged && ReferenceEquals(_cut?.Cable, plugged)))
                {
                    Come(edge.To, place.Channel, at, edge.Cable);
                }
            }
        }
    }

    private void Come(int node, int channel, int parent, Hookup? cable)
    {
        if (_cut?.Port is { } closed && _graph.PortOf(node) == closed)
        {
            return;
        }
        // A filter counts once, whichever channel it stops.
        if (_seenOn is null || (_graph.DropsAt(node) & Kind) != MessageKinds.None)
        {
            if (!_isSeen[node])
            {
                _isSeen[node] = true;
                _places.Add(new Place(node, channel, parent, 0, cable));
            }
            return;
        }
        _isSeen[node] = true;
        foreach (var to in parent >= 0 && _graph.IsMapped(node) ? _graph.Mapped(node, channel) : [channel])
        {
            if (_seenOn.Add((node, to)))
            {
                _places.Add(new Place(node, to, parent, to == channel ? 0 : channel, cable));
            }
        }
    }

    private bool IsStopped(int at) => (_graph.DropsAt(_places[at].Node) & Kind) != MessageKinds.None;

    private WalkStep StepAt(int at)
    {
        if (_steps.Length == 0)
        {
            _steps = new WalkStep?[_places.Count];
        }
        var place = _places[at];
        return _steps[at] ??= new WalkStep(at, place.Node, place.Channel, place.Parent, place.Cable, IsStopped(at) ? FilterAt(place.Node) : null, place.MappedFrom);
    }

    private PortFilter FilterAt(int node)
    {
        var port = _graph.PortOf(node);
        return port.Device.Filters.First(f =>
            ReferenceEquals(f.Port, port.Port) && f.Stands(MidiGraph.IsIn(node)) && (f.Drops & Kind) != MessageKinds.None);
    }

    /// <summary>The first step that reaches each device, and after each step the next one there; -1 after the last.</summary>
    private (Dictionary<DeviceSymbol, int> First, int[] Next) ChainByDevice()
    {
        var first = new Dictionary<DeviceSymbol, int>(ReferenceEqualityComparer.Instance);
        var next = new int[_places.Count];
        for (var at = next.Length - 1; at >= 0; at--)
        {
            if (!IsStopped(at))
            {
                ref var head = ref CollectionsMarshal.GetValueRefOrAddDefault(first, _graph.PortOf(_places[at].Node).Device, out var isThere);
                next[at] = isThere ? head : -1;
                head = at;
            }
        }
        return (first, next);
    }

    private Dictionary<int, int> FirstOfEachNode()
    {
        var first = new Dictionary<int, int>(_places.Count);
        for (var at = 0; at < _places.Count; at++)
        {
            first.TryAdd(_places[at].Node, at);
        }
        return first;
    }
}
