namespace RigLang.Flow.Ground;

/// <summary>
/// Points joined by edges; two edges may join the same points, and an edge may come back to its own. Counts what is in a circle.
/// Terms and formulas: Diestel, Graph Theory, sections 1.4 (bridges), 1.9 (cycle space) and 3.1 (blocks).
/// </summary>
public sealed class Multigraph
{
    private readonly int[] _first;
    private readonly int[] _incident;

    public Multigraph(int nodeCount, IReadOnlyList<(int A, int B)> edges)
    {
        NodeCount = nodeCount;
        Edges = edges;
        _first = new int[nodeCount + 1];
        foreach (var (a, b) in edges)
        {
            _first[a + 1]++;
            _first[b + 1] += a == b ? 0 : 1;
        }
        for (var node = 0; node < nodeCount; node++)
        {
            _first[node + 1] += _first[node];
        }
        _incident = new int[_first[nodeCount]];
        var fill = _first.AsSpan(0, nodeCount).ToArray();
        for (var edge = 0; edge < edges.Count; edge++)
        {
            var (a, b) = edges[edge];
            _incident[fill[a]++] = edge;
            if (a != b)
            {
                _incident[fill[b]++] = edge;
            }
        }
        (BlockOf, BlockCount, ComponentCount) = Search();
    }

    public int NodeCount { get; }
    public IReadOnlyList<(int A, int B)> Edges { get; }
    public int ComponentCount { get; }

    /// <summary>The block (largest part that falls apart at no single point) of each edge. Edges share a circle only within a block.</summary>
    public IReadOnlyList<int> BlockOf { get; }

    public int BlockCount { get; }

    /// <summary>Number of independent circles: E − V + C.</summary>
    public int CircuitRank => Edges.Count - NodeCount + ComponentCount;

    /// <summary>The edges at a point.</summary>
    public ReadOnlySpan<int> At(int node) => _incident.AsSpan(_first[node], _first[node + 1] - _first[node]);

    /// <summary>The end of an edge that is not this one.</summary>
    public int Other(int edge, int node) => Edges[edge].A == node ? Edges[edge].B : Edges[edge].A;

    /// <summary>True for each edge that is in no circle.</summary>
    public bool[] Bridges()
    {
        var size = new int[BlockCount];
        foreach (var block in BlockOf)
        {
            size[block]++;
        }
        var bridges = new bool[Edges.Count];
        for (var edge = 0; edge < bridges.Length; edge++)
        {
            bridges[edge] = size[BlockOf[edge]] == 1 && Edges[edge].A != Edges[edge].B;
        }
        return bridges;
    }

    /// <summary>The edges of each block, in their order.</summary>
    public IReadOnlyList<IReadOnlyList<int>> Blocks()
    {
        var blocks = new List<int>[BlockCount];
        for (var edge = 0; edge < Edges.Count; edge++)
        {
            (blocks[BlockOf[edge]] ??= []).Add(edge);
        }
        return blocks;
    }

    /// <summary>A way of fewest edges between two points without some of the edges, or null.</summary>
    public List<int>? ShortestWay(int from, int to, Func<int, bool> isOpen)
    {
        // Only what is near is looked at, so nothing here may be as large as the rig.
        var reachedBy = new Dictionary<int, int>();
        var queue = new Queue<int>([from]);
        while (queue.TryDequeue(out var node))
        {
            if (node == to)
            {
                return WayBack();
            }
            foreach (var edge in At(node))
            {
                var next = Other(edge, node);
                if (next != from && isOpen(edge) && reachedBy.TryAdd(next, edge))
                {
                    queue.Enqueue(next);
                }
            }
        }
        return null;

        List<int> WayBack()
        {
            var way = new List<int>();
            for (var node = to; node != from; node = Other(way[^1], node))
            {
                way.Add(reachedBy[node]);
            }
            way.Reverse();
            return way;
        }
    }

    // Hopcroft and Tarjan, Communications of the ACM 16 (1973), with a stack of its own: a chain of ten thousand boxes must not overflow.
    private (int[] BlockOf, int Blocks, int Components) Search()
    {
        var blockOf = new int[Edges.Count];
        Array.Fill(blockOf, -1);
        var (blocks, components, time) = (0, 0, 0);
        var entered = new int[NodeCount];
        var low = new int[NodeCount];
        var next = _first.AsSpan(0, NodeCount).ToArray();
        var by = new int[NodeCount];
        var open = new Stack<int>();
        var way = new Stack<int>();
        for (var root = 0; root < NodeCount; root++)
        {
            if (entered[root] > 0)
            {
                continue;
            }
            components++;
            Enter(root, -1);
            while (way.TryPeek(out var node))
            {
                if (next[node] < _first[node + 1])
                {
                    Follow(node, _incident[next[node]++]);
                }
                else
                {
                    way.Pop();
                    Leave(node);
                }
            }
        }
        return (blockOf, blocks, components);

        void Enter(int node, int edge)
        {
            entered[node] = low[node] = ++time;
            by[node] = edge;
            way.Push(node);
        }

        void Follow(int node, int edge)
        {
            var to = Other(edge, node);
            if (to == node)
            {
                blockOf[edge] = blocks++;
            }
            else if (entered[to] == 0)
            {
                open.Push(edge);
                Enter(to, edge);
            }
            else if (edge != by[node] && entered[to] < entered[node])
            {
                open.Push(edge);
                low[node] = Math.Min(low[node], entered[to]);
            }
        }

        void Leave(int node)
        {
            var edge = by[node];
            if (edge < 0)
            {
                return;
            }
            var above = Other(edge, node);
            low[above] = Math.Min(low[above], low[node]);
            if (low[node] < entered[above])
            {
                return;
            }
            int last;
            do
            {
                last = open.Pop();
                blockOf[last] = blocks;
            }
            while (last != edge);
            blocks++;
        }
    }
}
