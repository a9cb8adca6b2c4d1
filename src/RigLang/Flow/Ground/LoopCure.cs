namespace RigLang.Flow.Ground;

/// <summary>A link as the cure sees it.</summary>
/// <param name="Cost">What it takes to isolate it; null where it is never to be isolated.</param>
/// <param name="IsHeard">True when a current in it is heard. A link that is never isolated counts as not heard.</param>
public readonly record struct CureEdge(int A, int B, int? Cost, bool IsHeard);

/// <summary>
/// The cheapest set of links to isolate. Defined as: a set of least total cost without which no link that is heard lies in a circle.
/// Circles of links that are not heard may stay.
/// <para>
/// Where the links that are not heard make no circle among themselves, every circle must go, and the set is the complement of a forest
/// of the greatest cost (Kruskal). That holds, block by block, for nearly every rig once the links that are never isolated are drawn
/// together to one point. Elsewhere a search decides for one such circle's links after the other whether they stay. It is bounded below by
/// the price of breaking every circle less the price of breaking those that are not heard, for whoever has broken the heard ones can
/// break the rest at no more than that.
/// </para>
/// </summary>
public static class LoopCure
{
    /// <summary>More decisions than this and the best that was found is given, as not proven.</summary>
    public const int MostDecisions = 20_000;

    private readonly record struct Edge(int Id, int A, int B, int Cost, bool IsHeard);

    /// <summary>The links to isolate, in order; and whether no cheaper set exists for sure.</summary>
    public static (IReadOnlyList<int> Cut, bool IsProven) Of(int nodeCount, IReadOnlyList<CureEdge> edges)
    {
        var together = new Groups(nodeCount);
        foreach (var edge in edges.Where(e => e.Cost is null))
        {
            together.Join(edge.A, edge.B);
        }
        var open = new List<Edge>();
        for (var i = 0; i < edges.Count; i++)
        {
            if (edges[i] is { Cost: { } cost } edge)
            {
                open.Add(new Edge(i, together.Of(edge.A), together.Of(edge.B), cost, edge.IsHeard));
            }
        }
        var left = MostDecisions;
        var cut = Best(open, ref left);
        cut.Sort();
        return (cut, left >= 0);
    }

    private static List<int> Best(List<Edge> edges, ref int decisions)
    {
        var cut = new List<int>();
        edges = Numbered(edges, out var nodeCount);
        var graph = new Multigraph(nodeCount, edges.ConvertAll(e => (e.A, e.B)));
        foreach (var block in graph.Blocks())
        {
            var inside = block.Select(i => edges[i]).ToList();
            if (!inside.Exists(e => e.IsHeard) || (inside is [var only] && only.A != only.B))
            {
                continue;
            }
            cut.AddRange(inside.Count == 1 ? [inside[0].Id] : OfBlock(inside, ref decisions));
        }
        return cut;
    }

    private static List<int> OfBlock(List<Edge> edges, ref int decisions)
    {
        edges = Numbered(edges, out var nodeCount);
        var best = Circles(edges, nodeCount);
        var silent = edges.FindAll(e => !e.IsHeard);
        if (Circles(silent, nodeCount).Count == 0)
        {
            return Ids(best);
        }
        var least = LeastCost(edges);
        var bestCost = CostOf(best);
        var bestIds = Ids(best);
        var together = new Groups(nodeCount);
        silent.ForEach(e => together.Join(e.A, e.B));
        var keepSilent = Circles(Drawn(edges.FindAll(e => e.IsHeard), together), nodeCount);
        if (CostOf(keepSilent) < bestCost)
        {
            (bestCost, bestIds) = (CostOf(keepSilent), Ids(keepSilent));
        }
        if (bestCost <= least || --decisions < 0)
        {
            return bestIds;
        }
        // The dearest of the links whose fate is open: it is the likeliest to stay, and to leave little to decide.
        var graph = new Multigraph(nodeCount, silent.ConvertAll(e => (e.A, e.B)));
        var bridges = graph.Bridges();
        var chosen = silent.Where((_, i) => !bridges[i]).MaxBy(e => e.Cost);
        var others = edges.FindAll(e => e != chosen);

        var one = new Groups(nodeCount);
        one.Join(chosen.A, chosen.B);
        var kept = Drawn(others, one);
        if (LeastCost(kept) < bestCost)
        {
            Take(Best(kept, ref decisions));
        }
        if (LeastCost(others) + chosen.Cost < bestCost)
        {
            Take([chosen.Id, .. Best(others, ref decisions)]);
        }
        return bestIds;

        void Take(List<int> ids)
        {
            var wanted = ids.ToHashSet();
            var cost = edges.Where(e => wanted.Contains(e.Id)).Sum(e => e.Cost);
            if (cost < bestCost)
            {
                (bestCost, bestIds) = (cost, ids);
            }
        }
    }

    /// <summary>Below this no cure of these links can be.</summary>
    private static int LeastCost(List<Edge> edges)
    {
        var numbered = Numbered(edges, out var nodeCount);
        return CostOf(Circles(numbered, nodeCount)) - CostOf(Circles(numbered.FindAll(e => !e.IsHeard), nodeCount));
    }

    /// <summary>The cheapest links without which there is no circle at all: what a forest of the greatest cost leaves out.</summary>
    private static List<Edge> Circles(List<Edge> edges, int nodeCount)
    {
        var forest = new Groups(nodeCount);
        return [.. edges.OrderByDescending(e => e.Cost).ThenBy(e => e.Id).Where(e => !forest.Join(e.A, e.B))];
    }

    private static List<Edge> Drawn(List<Edge> edges, Groups together) =>
        edges.ConvertAll(e => e with { A = together.Of(e.A), B = together.Of(e.B) });

    /// <summary>The same with points numbered from 0 without a gap.</summary>
    private static List<Edge> Numbered(List<Edge> edges, out int nodeCount)
    {
        var numbers = new Dictionary<int, int>();
        var numbered = edges.ConvertAll(e => e with { A = NumberOf(e.A), B = NumberOf(e.B) });
        nodeCount = numbers.Count;
        return numbered;

        int NumberOf(int node)
        {
            if (!numbers.TryGetValue(node, out var number))
            {
                numbers[node] = number = numbers.Count;
            }
            return number;
        }
    }

    private static int CostOf(List<Edge> edges) => edges.Sum(e => e.Cost);

    private static List<int> Ids(List<Edge> edges) => edges.ConvertAll(e => e.Id);

    /// <summary>Points that are one for the purpose.</summary>
    private sealed class Groups(int count)
    {
        private readonly int[] _parent = [.. Enumerable.Range(0, count)];

        public int Of(int node)
        {
            while (_parent[node] != node)
            {
                node = _parent[node] = _parent[_parent[node]];
            }
            return node;
        }

        /// <summary>False when they were one before.</summary>
        public bool Join(int a, int b)
        {
            (a, b) = (Of(a), Of(b));
            _parent[a] = b;
            return a != b;
        }
    }
}
