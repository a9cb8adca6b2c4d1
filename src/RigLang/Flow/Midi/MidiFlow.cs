using System.Numerics;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>A source's messages on one channel; 0 for messages that have none, or whose channel nobody said.</summary>
public readonly record struct MidiAtom(int Source, int Channel);

/// <summary>
/// What reaches every port: for each node and each atom (source and channel) the set of message kinds, as the least fixed
/// point over the graph. Sets only grow, so loops come to an end. Nodes at which the same must be share one row
/// (<see cref="SameMessages"/>); a row is one array, and a step is a few machine words for every sixteen atoms.
/// </summary>
public sealed class MidiFlow
{
    /// <summary>Channel 0 stands for none, or one that nobody said. Source: MIDI 1.0, sixteen channels.</summary>
    private const int Channels = 17;

    private readonly Dictionary<int, IReadOnlyList<int>[]> _moves = [];
    private SameMessages _same = null!;
    private ushort[]?[] _rows = [];
    private MessageKinds[] _any = [];
    private int[] _atomOn = [];
    private readonly List<MidiAtom> _atoms = [];
    private readonly List<int> _firstAtom = [];
    private readonly Dictionary<int, MessageKinds> _sent = [];

    private MidiFlow(MidiGraph graph, IReadOnlyList<MidiSource> sources)
    {
        Graph = graph;
        Sources = sources;
    }

    public MidiGraph Graph { get; }
    public IReadOnlyList<MidiSource> Sources { get; }
    public IReadOnlyList<MidiAtom> Atoms => _atoms;

    public static MidiFlow Of(MidiGraph graph, IReadOnlyList<MidiSource> sources)
    {
        var flow = new MidiFlow(graph, sources);
        flow.NumberAtoms();
        flow.Run();
        return flow;
    }

    /// <summary>The kinds of an atom that reach a node.</summary>
    public MessageKinds At(int node, int atom) => RowOf(node) is { } row ? (MessageKinds)row[atom] : MessageKinds.None;

    /// <summary>What reaches a node of each atom, as bits of <see cref="MessageKinds"/>; empty when nothing ever does.</summary>
    internal ReadOnlySpan<ushort> RowAt(int node) => RowOf(node);

    /// <summary>A number that nodes share at which the same is; -1 where nothing is.</summary>
    internal int GroupOf(int node) => node >= 0 ? _same.Of(node) : -1;

    private ushort[]? RowOf(int node) => node >= 0 && _same.Of(node) is >= 0 and var group ? _rows[group] : null;

    /// <summary>The atoms of a source: its own channel first, then those that maps can move it to.</summary>
    internal Range AtomsOf(int source) => _firstAtom[source].._firstAtom[source + 1];

    /// <summary>The kinds of a source that reach a node, on whatever channel.</summary>
    public MessageKinds OfSource(int node, int source)
    {
        var kinds = 0;
        if (RowAt(node) is { IsEmpty: false } row)
        {
            foreach (var cell in row[AtomsOf(source)])
            {
                kinds |= cell;
            }
        }
        return (MessageKinds)kinds;
    }

    /// <summary>Every atom that is at a node with any of the kinds.</summary>
    public IEnumerable<(MidiAtom Atom, MessageKinds Kinds)> AtomsAt(int node, MessageKinds kinds)
    {
        if (RowOf(node) is not { } row)
        {
            yield break;
        }
        for (var atom = NextWith(row, 0, kinds); atom < row.Length; atom = NextWith(row, atom + 1, kinds))
        {
            yield return (_atoms[atom], (MessageKinds)row[atom] & kinds);
        }
    }

    /// <summary>The next atom of a row with any of the kinds; the length of the row when there is none.</summary>
    private static int NextWith(ushort[] row, int atom, MessageKinds kinds)
    {
        var mask = new Vector<ushort>((ushort)kinds);
        while (atom <= row.Length - Vector<ushort>.Count && (new Vector<ushort>(row, atom) & mask) == Vector<ushort>.Zero)
        {
            atom += Vector<ushort>.Count;
        }
        while (atom < row.Length && (row[atom] & (ushort)kinds) == 0)
        {
            atom++;
        }
        return atom;
    }

    /// <summary>The kinds of any source that would come to a port before its own filters.</summary>
    public MessageKinds BeforeFiltersAt(int node)
    {
        var kinds = _sent.GetValueOrDefault(node);
        foreach (var edge in Graph.To(node))
        {
            kinds |= _same.Of(edge.From) is >= 0 and var group ? _any[group] & edge.Carries : MessageKinds.None;
        }
        return kinds;
    }

    /// <summary>Each source's own channel, and every channel that maps can move it to.</summary>
    private void NumberAtoms()
    {
        _atomOn = new int[Sources.Count * Channels];
        Array.Fill(_atomOn, -1);
        var moves = Graph.AllMaps.SelectMany(map => map.To.Select(to => (map.From, To: to))).Distinct().ToLookup(move => move.From, move => move.To);
        var open = new Queue<int>();
        foreach (var source in Sources)
        {
            _firstAtom.Add(_atoms.Count);
            open.Enqueue(source.Channel);
            while (open.TryDequeue(out var channel))
            {
                ref var atom = ref _atomOn[(source.Index * Channels) + channel];
                if (atom < 0)
                {
                    atom = _atoms.Count;
                    _atoms.Add(new MidiAtom(source.Index, channel));
                    foreach (var to in moves[channel])
                    {
                        open.Enqueue(to);
                    }
                }
            }
        }
        _firstAtom.Add(_atoms.Count);
    }

    private void Run()
    {
        var sent = new SortedDictionary<int, (ulong, ulong)>();
        foreach (var source in Sources)
        {
            foreach (var (node, kinds) in source.Starts)
            {
                _sent[node] = _sent.GetValueOrDefault(node) | kinds;
                sent[node] = Mixed(sent.GetValueOrDefault(node), ((ulong)_firstAtom[source.Index] << 16) | (ushort)(kinds & ~Graph.DropsAt(node)));
            }
        }
        // Each node after those it hears from, so that one sweep does all but loops, wherever sources join on the way.
        var order = DownstreamOrder(sent.Keys);
        _same = SameMessages.Among(Graph, order, Numbered(sent));
        _rows = new ushort[]?[_same.Count];
        var isOpen = new bool[_same.Count];
        foreach (var source in Sources)
        {
            foreach (var (node, kinds) in source.Starts)
            {
                isOpen[_same.Of(node)] |= Add(_same.Of(node), _firstAtom[source.Index], kinds & ~Graph.DropsAt(node));
            }
        }
        Sweep(StepsBetween(order), isOpen);
        _any = [.. _rows.Select(row => row is null ? MessageKinds.None : (MessageKinds)row.Aggregate(0, (all, cell) => all | cell))];
    }

    /// <summary>A number for what is sent at a node, the same for those that send the same; 0 where nothing is.</summary>
    private static Func<int, int> Numbered(SortedDictionary<int, (ulong, ulong)> sent)
    {
        var numbers = new Dictionary<(ulong, ulong), int>();
        var numberAt = new Dictionary<int, int>();
        foreach (var (node, mixed) in sent)
        {
            numberAt[node] = numbers.TryGetValue(mixed, out var number) ? number : numbers[mixed] = numbers.Count + 1;
        }
        return node => numberAt.GetValueOrDefault(node);
    }

    /// <summary>Tells one list of numbers from another by 128 bits, however long it is. Source: FNV-1a and the finalizer of SplitMix64.</summary>
    private static (ulong, ulong) Mixed((ulong First, ulong Second) before, ulong next)
    {
        var second = before.Second + next + 0x9E3779B97F4A7C15UL;
        second = (second ^ (second >> 30)) * 0xBF58476D1CE4E5B9UL;
        second = (second ^ (second >> 27)) * 0x94D049BB133111EBUL;
        return ((before.First ^ next) * 1099511628211UL, second ^ (second >> 31));
    }

    /// <summary>A step from one group of nodes to another.</summary>
    /// <param name="MappedAt">The port that moves channels on it; -1 for none.</param>
    private readonly record struct Step(int From, int To, MessageKinds Passes, int MappedAt);

    /// <summary>Every step between groups once, those of one group together, in the order in which messages come to the groups.</summary>
    private List<Step> StepsBetween(List<int> order)
    {
        var groups = new List<int>();
        var steps = new HashSet<Step>?[_same.Count];
        foreach (var node in order)
        {
            var group = _same.Of(node);
            if (steps[group] is null)
            {
                steps[group] = [];
                groups.Add(group);
            }
            foreach (var edge in Graph.From(node))
            {
                if (_same.Of(edge.To) != group || Graph.IsMapped(edge.To))
                {
                    steps[group]!.Add(new Step(group, _same.Of(edge.To), edge.Carries & ~Graph.DropsAt(edge.To), Graph.IsMapped(edge.To) ? edge.To : -1));
                }
            }
        }
        return [.. groups.SelectMany(group => steps[group]!)];
    }

    private void Sweep(List<Step> steps, bool[] isOpen)
    {
        for (var isGrown = true; isGrown;)
        {
            isGrown = false;
            for (var first = 0; first < steps.Count;)
            {
                var group = steps[first].From;
                var wasOpen = isOpen[group];
                isOpen[group] = false;
                var at = first;
                for (; at < steps.Count && steps[at].From == group; at++)
                {
                    if (wasOpen && Cross(steps[at]))
                    {
                        isOpen[steps[at].To] = true;
                        isGrown = true;
                    }
                }
                first = at;
            }
        }
    }

    /// <summary>All nodes that can be reached from the given ones, in reverse postorder of a depth-first search.</summary>
    private List<int> DownstreamOrder(IEnumerable<int> starts)
    {
        var order = new List<int>();
        var isSeen = new bool[Graph.NodeCount];
        var path = new Stack<(int Node, int NextEdge)>();
        foreach (var start in starts)
        {
            Enter(start);
            while (path.TryPop(out var at))
            {
                var edges = Graph.From(at.Node);
                if (at.NextEdge == edges.Length)
                {
                    order.Add(at.Node);
                    continue;
                }
                path.Push((at.Node, at.NextEdge + 1));
                Enter(edges[at.NextEdge].To);
            }
        }
        order.Reverse();
        return order;

        void Enter(int node)
        {
            if (!isSeen[node])
            {
                isSeen[node] = true;
                path.Push((node, 0));
            }
        }
    }

    /// <summary>Takes everything at the start of a step to its end; true when something is new there.</summary>
    private bool Cross(in Step step)
    {
        var from = _rows[step.From]!;
        return step.MappedAt >= 0 ? CrossMapped(from, step.To, step.MappedAt, (ushort)step.Passes) : CrossUnmapped(from, step.To, (ushort)step.Passes);
    }

    private bool CrossUnmapped(ushort[] from, int group, ushort passes)
    {
        var to = _rows[group] ??= new ushort[_atoms.Count];
        var mask = new Vector<ushort>(passes);
        var grown = Vector<ushort>.Zero;
        var i = 0;
        for (; i <= from.Length - Vector<ushort>.Count; i += Vector<ushort>.Count)
        {
            var arriving = new Vector<ushort>(from, i) & mask;
            var here = new Vector<ushort>(to, i);
            grown |= Vector.AndNot(arriving, here);
            (here | arriving).CopyTo(to, i);
        }
        var rest = 0;
        for (; i < from.Length; i++)
        {
            var arriving = (ushort)(from[i] & passes);
            rest |= arriving & ~to[i];
            to[i] |= arriving;
        }
        return rest != 0 || grown != Vector<ushort>.Zero;
    }

    private bool CrossMapped(ushort[] from, int group, int port, ushort passes)
    {
        var isGrown = false;
        var moves = MovesAt(port);
        for (var atom = NextWith(from, 0, (MessageKinds)passes); atom < from.Length; atom = NextWith(from, atom + 1, (MessageKinds)passes))
        {
            var kinds = (MessageKinds)(from[atom] & passes);
            // A map moves channel messages; the others have no channel to be moved from.
            isGrown |= Add(group, atom, kinds & ~MessageKinds.Channel);
            if ((kinds & MessageKinds.Channel) is not MessageKinds.None and var moved)
            {
                foreach (var channel in moves[_atoms[atom].Channel])
                {
                    isGrown |= Add(group, _atomOn[(_atoms[atom].Source * Channels) + channel], moved);
                }
            }
        }
        return isGrown;
    }

    /// <summary>For each channel, 0 among them, those on which a message goes on from a port.</summary>
    private IReadOnlyList<int>[] MovesAt(int port)
    {
        if (!_moves.TryGetValue(port, out var moves))
        {
            _moves[port] = moves = [.. Enumerable.Range(0, Channels).Select(channel => Graph.Mapped(port, channel))];
        }
        return moves;
    }

    private bool Add(int group, int atom, MessageKinds kinds)
    {
        var row = _rows[group] ??= new ushort[_atoms.Count];
        var before = row[atom];
        row[atom] |= (ushort)kinds;
        return row[atom] != before;
    }
}
