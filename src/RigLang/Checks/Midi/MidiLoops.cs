using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

/// <summary>A way round in the message graph, and the kinds that pass all of it.</summary>
internal sealed record MidiLoop(IReadOnlyList<MidiEdge> Edges, MessageKinds Kinds);

/// <summary>Finds the loops of a message graph, one for each knot of ports that reach one another.</summary>
internal static class MidiLoops
{
    private static readonly MessageKinds[] Kinds = [.. MessageKindNames.Table.Values.Where(k => k is not (MessageKinds.Transport or MessageKinds.All)).Order()];

    /// <summary>For each knot the shortest loop through its first port, with all the kinds that can go round it.</summary>
    public static List<MidiLoop> Of(MidiGraph graph)
    {
        var loops = new List<MidiLoop>();
        // What one kind can go round lies in a knot of all the kinds together, and most rigs have none.
        var wide = new bool[graph.NodeCount];
        var isAny = false;
        foreach (var node in Knots(graph, MessageKinds.All).SelectMany(k => k))
        {
            wide[node] = isAny = true;
        }
        var told = new HashSet<int>();
        foreach (var kind in isAny ? Kinds : [])
        {
            foreach (var knot in Knots(graph, kind, wide))
            {
                if (!knot.Exists(told.Contains))
                {
                    told.UnionWith(knot);
                    var way = WayRound(graph, [.. knot], knot.Min(), kind);
                    loops.Add(new MidiLoop(way, Passing(graph, way)));
                }
            }
        }
        return loops;
    }

    /// <summary>True when a message that gets past the first node could come to the second.</summary>
    public static bool Leads(MidiGraph graph, int from, int to, MessageKinds kind) => Spreading.From([from], (node, into) =>
    {
        foreach (var edge in graph.From(node))
        {
            if (Passes(graph, edge, kind))
            {
                into.Add(edge.To);
            }
        }
    }).Contains(to);

    /// <summary>Sets of nodes that reach one another by messages of a kind, or by any of several.</summary>
    /// <param name="within">The nodes to look at; null for all.</param>
    public static List<List<int>> Knots(MidiGraph graph, MessageKinds kind, bool[]? within = null) =>
        GraphKnots.Of(graph, edge => Passes(graph, edge, kind), within);

    private static List<MidiEdge> WayRound(MidiGraph graph, HashSet<int> knot, int start, MessageKinds kind)
    {
        var cameBy = new Dictionary<int, MidiEdge>();
        var open = new Queue<int>([start]);
        while (open.TryDequeue(out var node) && !cameBy.ContainsKey(start))
        {
            foreach (var edge in graph.From(node))
            {
                if (Passes(graph, edge, kind) && knot.Contains(edge.To) && cameBy.TryAdd(edge.To, edge))
                {
                    open.Enqueue(edge.To);
                }
            }
        }
        var way = new List<MidiEdge>();
        var at = start;
        do
        {
            way.Add(cameBy[at]);
            at = cameBy[at].From;
        }
        while (at != start);
        way.Reverse();
        return way;
    }

    private static MessageKinds Passing(MidiGraph graph, List<MidiEdge> way) =>
        way.Aggregate(MessageKinds.All, (kinds, edge) => kinds & edge.Carries & ~graph.DropsAt(edge.To));

    private static bool Passes(MidiGraph graph, in MidiEdge edge, MessageKinds kind) => (edge.Carries & ~graph.DropsAt(edge.To) & kind) != 0;
}
