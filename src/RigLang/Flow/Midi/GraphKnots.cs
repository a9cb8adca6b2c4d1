namespace RigLang.Flow;

/// <summary>Nodes of a message graph that reach one another.</summary>
internal static class GraphKnots
{
    /// <summary>The sets of two nodes and more that reach one another (strongly connected, Tarjan 1972), without recursion.</summary>
    /// <param name="passes">The edges that can be gone.</param>
    /// <param name="within">The nodes to look at; null for all.</param>
    public static List<List<int>> Of(MidiGraph graph, Func<MidiEdge, bool> passes, bool[]? within = null)
    {
        var knots = new List<List<int>>();
        var index = new int[graph.NodeCount];
        var low = new int[graph.NodeCount];
        var onStack = new bool[graph.NodeCount];
        var stack = new Stack<int>();
        var path = new Stack<(int Node, int NextEdge)>();
        var next = 1;
        for (var root = 0; root < graph.NodeCount; root++)
        {
            if (index[root] != 0 || graph.From(root).Length == 0 || within?[root] == false)
            {
                continue;
            }
            path.Push((root, 0));
            while (path.TryPop(out var at))
            {
                var (node, edgeAt) = at;
                if (edgeAt == 0 && index[node] == 0)
                {
                    index[node] = low[node] = next++;
                    stack.Push(node);
                    onStack[node] = true;
                }
                var edges = graph.From(node);
                var descended = false;
                for (; edgeAt < edges.Length && !descended; edgeAt++)
                {
                    if (!passes(edges[edgeAt]) || within?[edges[edgeAt].To] == false)
                    {
                        continue;
                    }
                    var to = edges[edgeAt].To;
                    if (index[to] == 0)
                    {
                        path.Push((node, edgeAt));
                        path.Push((to, 0));
                        descended = true;
                    }
                    else if (onStack[to])
                    {
                        low[node] = Math.Min(low[node], low[to]);
                    }
                }
                if (descended || low[node] != index[node])
                {
                    if (!descended && path.TryPeek(out var parent))
                    {
                        low[parent.Node] = Math.Min(low[parent.Node], low[node]);
                    }
                    continue;
                }
                var knot = new List<int>();
                int member;
                do
                {
                    member = stack.Pop();
                    onStack[member] = false;
                    knot.Add(member);
                }
                while (member != node);
                if (knot.Count > 1)
                {
                    knots.Add(knot);
                }
            }
        }
        return knots;
    }
}
