using System.Numerics;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>A source's messages on one channel; 0 for messages that have none, or whose channel nobody said.</summary>
public readonly record struct MidiAtom(int Source, int Channel);

/// <summary>
/// What reaches every port: for each node and each atom (source and channel) the set of message kinds, as the least fixed
/// point over the graph. Sets only grow, so loops come to an end; a node's row is one array, and a step is a few machine
/// words for every sixteen atoms.
/// </summary>
public sealed class MidiFlow
{
    private readonly ushort[]?[] _rows;
    private readonly Dictionary<MidiAtom, int> _atomIndex = [];
    private readonly List<MidiAtom> _atoms = [];
    private readonly List<int> _firstAtom = [];
    private readonly Dictionary<int, MessageKinds> _sent = [];

    private MidiFlow(MidiGraph graph, IReadOnlyList<MidiSource> sources)
    {
        Graph = graph;
        Sources = sources;
        _rows = new ushort[]?[graph.NodeCount];
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
    public MessageKinds At(int node, int atom) => node >= 0 && _rows[node] is { } row ? (MessageKinds)row[atom] : MessageKinds.None;

    /// <summary>What reaches a node of each atom, as bits of <see cref="MessageKinds"/>; empty when nothing ever does.</summary>
    internal ReadOnlySpan<ushort> RowAt(int node) => node >= 0 ? _rows[node] : default(ReadOnlySpan<ushort>);

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
        if (node < 0 || _rows[node] is not { } row)
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
            var all = 0;
            foreach (var cell in RowAt(edge.From))
            {
                all |= cell;
            }
            kinds |= (MessageKinds)all & edge.Carries;
        }
        return kinds;
    }

    /// <summary>Each source's own channel, and every channel that maps can move it to.</summary>
    private void NumberAtoms()
    {
        var maps = Graph.AllMaps.ToList();
        foreach (var source in Sources)
        {
            _firstAtom.Add(_atoms.Count);
            var open = new Queue<int>([source.Channel]);
            while (open.TryDequeue(out var channel))
            {
                if (_atomIndex.TryAdd(new MidiAtom(source.Index, channel), _atoms.Count))
                {
                    _atoms.Add(new MidiAtom(source.Index, channel));
                    foreach (var to in maps.Where(m => m.From == channel).SelectMany(m => m.To))
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
        var isOpen = new bool[Graph.NodeCount];
        foreach (var source in Sources)
        {
            var atom = _atomIndex[new MidiAtom(source.Index, source.Channel)];
            foreach (var (node, kinds) in source.Starts)
            {
                _sent[node] = _sent.GetValueOrDefault(node) | kinds;
                isOpen[node] |= Add(node, atom, kinds & ~Graph.DropsAt(node));
            }
        }
        // Each node after those it hears from, so that one sweep does all but loops, wherever sources join on the way.
        var order = DownstreamOrder(isOpen);
        for (var isGrown = true; isGrown;)
        {
            isGrown = false;
            for (var place = 0; place < order.Count; place++)
            {
                var node = order[place];
                if (!isOpen[node])
                {
                    continue;
                }
                isOpen[node] = false;
                foreach (var edge in Graph.From(node))
                {
                    if (Cross(edge))
                    {
                        isOpen[edge.To] = true;
                        isGrown = true;
                    }
                }
            }
        }
    }

    /// <summary>All nodes that can be reached from the given ones, in reverse postorder of a depth-first search.</summary>
    private List<int> DownstreamOrder(bool[] isStart)
    {
        var order = new List<int>();
        var isSeen = new bool[Graph.NodeCount];
        var path = new Stack<(int Node, int NextEdge)>();
        for (var start = 0; start < isStart.Length; start++)
        {
            if (isStart[start])
            {
                Enter(start);
            }
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

    /// <summary>Takes everything at the start of an edge to its end; true when something is new there.</summary>
    private bool Cross(in MidiEdge edge)
    {
        var passes = (ushort)(edge.Carries & ~Graph.DropsAt(edge.To));
        var from = _rows[edge.From]!;
        return Graph.IsMapped(edge.To) ? CrossMapped(from, edge.To, passes) : CrossUnmapped(from, edge.To, passes);
    }

    private bool CrossUnmapped(ushort[] from, int toNode, ushort passes)
    {
        var to = _rows[toNode] ??= new ushort[_atoms.Count];
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

    private bool CrossMapped(ushort[] from, int toNode, ushort passes)
    {
        var isGrown = false;
        for (var atom = 0; atom < from.Length; atom++)
        {
            var kinds = (MessageKinds)(from[atom] & passes);
            if (kinds == MessageKinds.None)
            {
                continue;
            }
            // A map moves channel messages; the others have no channel to be moved from.
            isGrown |= Add(toNode, atom, kinds & ~MessageKinds.Channel);
            if ((kinds & MessageKinds.Channel) is not MessageKinds.None and var moved)
            {
                foreach (var channel in Graph.Mapped(toNode, _atoms[atom].Channel))
                {
                    isGrown |= Add(toNode, _atomIndex[new MidiAtom(_atoms[atom].Source, channel)], moved);
                }
            }
        }
        return isGrown;
    }

    private bool Add(int node, int atom, MessageKinds kinds)
    {
        var row = _rows[node] ??= new ushort[_atoms.Count];
        var before = row[atom];
        row[atom] |= (ushort)kinds;
        return row[atom] != before;
    }
}
