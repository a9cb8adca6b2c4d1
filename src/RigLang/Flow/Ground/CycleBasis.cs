namespace RigLang.Flow.Ground;

/// <summary>
/// A set of independent circles that every other is made of, with as few edges in all as possible (a minimum cycle basis).
/// Horton, SIAM Journal on Computing 16 (1987): such a set is among the circles that a shortest-path tree and one more edge make, and is
/// picked out of them greedily, shortest first. Bridges, parallel edges and chains are taken out first, which leaves little of a real rig.
/// </summary>
public static class CycleBasis
{
    /// <summary>Points times edges of a block's kernel up to which the set is the shortest; above it is that of one search tree.</summary>
    private const long LargestKernel = 400_000;

    /// <summary>The circles, each as its edges in the order one walks them, shortest first; and whether the set is the shortest for sure.</summary>
    public static (IReadOnlyList<IReadOnlyList<int>> Circles, bool IsShortest) Of(Multigraph graph)
    {
        var circles = new List<List<int>>();
        var isShortest = true;
        foreach (var block in graph.Blocks())
        {
            if (block is [var only])
            {
                if (graph.Edges[only].A == graph.Edges[only].B)
                {
                    circles.Add([only]);
                }
                continue;
            }
            isShortest &= OfBlock(graph, block, circles);
        }
        return ([.. circles.Select(c => Walked(graph, c)).OrderBy(c => c.Count)], isShortest);
    }

    private static bool OfBlock(Multigraph graph, IReadOnlyList<int> block, List<List<int>> circles)
    {
        var single = new Dictionary<(int, int), int>();
        foreach (var edge in block)
        {
            var (a, b) = graph.Edges[edge];
            if (!single.TryAdd((Math.Min(a, b), Math.Max(a, b)), edge))
            {
                circles.Add([single[(Math.Min(a, b), Math.Max(a, b))], edge]);
            }
        }
        var chains = Chains(graph, single.Values);
        if (chains.Count == 0)
        {
            return true;
        }
        var numbers = new Dictionary<int, int>();
        var kernel = new Multigraph(
            chains.SelectMany(c => new[] { c.A, c.B }).Distinct().Count(),
            chains.ConvertAll(c => (NumberOf(c.A), NumberOf(c.B))));
        if (kernel.CircuitRank == 0)
        {
            return true;
        }
        var found = (long)kernel.NodeCount * kernel.Edges.Count <= LargestKernel ? Horton(kernel, chains) : OfTree(kernel);
        circles.AddRange(found.Select(circle => circle.SelectMany(c => chains[c].Edges).ToList()));
        return (long)kernel.NodeCount * kernel.Edges.Count <= LargestKernel;

        int NumberOf(int node)
        {
            numbers.TryAdd(node, numbers.Count);
            return numbers[node];
        }
    }

    private sealed record Chain(int A, int B, List<int> Edges);

    /// <summary>Edges in a row, with nothing else at the points between, drawn together; of a block that is one circle, one chain.</summary>
    private static List<Chain> Chains(Multigraph graph, IEnumerable<int> edges)
    {
        var at = new Dictionary<int, List<int>>();
        foreach (var edge in edges)
        {
            foreach (var end in (ReadOnlySpan<int>)[graph.Edges[edge].A, graph.Edges[edge].B])
            {
                if (!at.TryGetValue(end, out var here))
                {
                    at[end] = here = [];
                }
                here.Add(edge);
            }
        }
        var used = new HashSet<int>();
        var chains = new List<Chain>();
        foreach (var start in at.Keys.Where(n => at[n].Count != 2).Concat(at.Keys))
        {
            foreach (var first in at[start].Where(used.Add))
            {
                var row = new List<int> { first };
                var node = graph.Other(first, start);
                while (node != start && at[node].Count == 2)
                {
                    var next = at[node][0] == row[^1] ? at[node][1] : at[node][0];
                    used.Add(next);
                    row.Add(next);
                    node = graph.Other(next, node);
                }
                chains.Add(new Chain(start, node, row));
            }
        }
        return chains;
    }

    private static List<List<int>> Horton(Multigraph kernel, List<Chain> chains)
    {
        // A trace of chance on every length makes each shortest way the only one, which the theorem wants. The seed is fixed: the same rig, the same loops.
        var chance = new Random(1987);
        var lengths = chains.ConvertAll(c => ((long)c.Edges.Count << 40) + chance.NextInt64(1L << 26));
        var candidates = new List<(long Length, int Root, int Edge)>();
        var trees = new List<(long[] Distance, int[] By, int[] Branch)>();
        for (var root = 0; root < kernel.NodeCount; root++)
        {
            var tree = Tree(kernel, lengths, root);
            trees.Add(tree);
            for (var edge = 0; edge < kernel.Edges.Count; edge++)
            {
                var (a, b) = kernel.Edges[edge];
                var isOneCircle = a == b ? a == root : tree.Branch[a] != tree.Branch[b] && tree.By[a] != edge && tree.By[b] != edge;
                if (isOneCircle)
                {
                    candidates.Add((tree.Distance[a] + tree.Distance[b] + lengths[edge], root, edge));
                }
            }
        }
        candidates.Sort();
        var picked = new List<List<int>>();
        var independent = new Independence(kernel);
        foreach (var (_, root, edge) in candidates)
        {
            var circle = new List<int> { edge };
            foreach (var end in (ReadOnlySpan<int>)[kernel.Edges[edge].A, kernel.Edges[edge].B])
            {
                for (var node = end; node != root; node = kernel.Other(trees[root].By[node], node))
                {
                    circle.Add(trees[root].By[node]);
                }
            }
            if (independent.Add(circle))
            {
                picked.Add(circle);
                if (picked.Count == kernel.CircuitRank)
                {
                    break;
                }
            }
        }
        return picked;
    }

    /// <summary>Dijkstra: distances, the edge by which each point is reached, and the first point on the way there.</summary>
    private static (long[] Distance, int[] By, int[] Branch) Tree(Multigraph graph, List<long> lengths, int root)
    {
        var distance = new long[graph.NodeCount];
        Array.Fill(distance, long.MaxValue);
        var by = new int[graph.NodeCount];
        Array.Fill(by, -1);
        var branch = new int[graph.NodeCount];
        var queue = new PriorityQueue<int, long>();
        distance[root] = 0;
        branch[root] = -1;
        queue.Enqueue(root, 0);
        while (queue.TryDequeue(out var node, out var reached))
        {
            if (reached > distance[node])
            {
                continue;
            }
            foreach (var edge in graph.At(node))
            {
                var next = graph.Other(edge, node);
                if (reached + lengths[edge] is var length && length < distance[next])
                {
                    distance[next] = length;
                    by[next] = edge;
                    branch[next] = node == root ? next : branch[node];
                    queue.Enqueue(next, length);
                }
            }
        }
        return (distance, by, branch);
    }

    /// <summary>The circles that each edge outside one breadth-first tree makes with it.</summary>
    private static List<List<int>> OfTree(Multigraph graph)
    {
        var (_, by, _) = Tree(graph, [.. Enumerable.Repeat(1L, graph.Edges.Count)], 0);
        var isTree = new bool[graph.Edges.Count];
        foreach (var edge in by.Where(e => e >= 0))
        {
            isTree[edge] = true;
        }
        return [.. Enumerable.Range(0, graph.Edges.Count).Where(e => !isTree[e]).Select(edge =>
        {
            var ways = new HashSet<int> { edge };
            foreach (var end in (int[])[graph.Edges[edge].A, graph.Edges[edge].B])
            {
                for (var node = end; by[node] >= 0; node = graph.Other(by[node], node))
                {
                    if (!ways.Add(by[node]))
                    {
                        ways.Remove(by[node]);
                    }
                }
            }
            return ways.ToList();
        })];
    }

    /// <summary>The edges of a circle in the order in which one walks it.</summary>
    private static List<int> Walked(Multigraph graph, List<int> circle)
    {
        var left = circle.Skip(1).ToList();
        var walked = new List<int> { circle[0] };
        var node = graph.Edges[circle[0]].B;
        while (left.FindIndex(e => graph.Edges[e].A == node || graph.Edges[e].B == node) is >= 0 and var at)
        {
            walked.Add(left[at]);
            node = graph.Other(left[at], node);
            left.RemoveAt(at);
        }
        return walked;
    }

    /// <summary>Elimination over the field of two elements: is a circle the sum of others that were added?</summary>
    private sealed class Independence
    {
        private readonly int[] _column;
        private readonly ulong[]?[] _rows;

        public Independence(Multigraph graph)
        {
            // A circle is told by its edges outside one spanning tree.
            var (_, by, _) = Tree(graph, [.. Enumerable.Repeat(1L, graph.Edges.Count)], 0);
            _column = new int[graph.Edges.Count];
            foreach (var edge in by.Where(e => e >= 0))
            {
                _column[edge] = -1;
            }
            var columns = 0;
            for (var edge = 0; edge < _column.Length; edge++)
            {
                _column[edge] = _column[edge] < 0 ? -1 : columns++;
            }
            _rows = new ulong[columns][];
        }

        public bool Add(List<int> circle)
        {
            var row = new ulong[(_rows.Length + 63) / 64];
            foreach (var edge in circle)
            {
                if (_column[edge] is >= 0 and var column)
                {
                    row[column / 64] ^= 1UL << (column % 64);
                }
            }
            for (var word = 0; word < row.Length; word++)
            {
                while (row[word] != 0)
                {
                    var lead = (word * 64) + System.Numerics.BitOperations.TrailingZeroCount(row[word]);
                    if (_rows[lead] is not { } known)
                    {
                        _rows[lead] = row;
                        return true;
                    }
                    for (var i = word; i < row.Length; i++)
                    {
                        row[i] ^= known[i];
                    }
                }
            }
            return false;
        }
    }
}
