using System.Numerics;
using CsCheck;
using MathNet.Numerics.LinearAlgebra;
using QuikGraph;
using QuikGraph.Algorithms;
using RigLang.Flow.Ground;
using Xunit;

namespace RigLang.Tests.Flow.Ground;

/// <summary>Circuit rank, bridges, minimum cycle basis and cure, each against another way to find it, on random multigraphs.</summary>
public class GroundOracles
{
    private static Gen<Multigraph> Graphs(int mostNodes, int mostEdges) =>
        from nodes in Gen.Int[1, mostNodes]
        from edges in Gen.Select(Gen.Int[0, nodes - 1], Gen.Int[0, nodes - 1], (a, b) => (a, b)).Array[0, mostEdges]
        select new Multigraph(nodes, edges);

    [Fact]
    public void The_circuit_rank_is_edges_less_the_rank_of_the_incidence_matrix() => Graphs(10, 25).Sample(
        graph =>
        {
            if (graph.Edges.Count == 0)
            {
                return graph.CircuitRank == 0;
            }
            var incidence = Matrix<double>.Build.Dense(graph.NodeCount, graph.Edges.Count);
            for (var edge = 0; edge < graph.Edges.Count; edge++)
            {
                incidence[graph.Edges[edge].A, edge] += 1;
                incidence[graph.Edges[edge].B, edge] -= 1;
            }
            return graph.CircuitRank == graph.Edges.Count - incidence.Rank();
        },
        iter: 400);

    [Fact]
    public void The_circuit_rank_is_that_of_the_components_of_QuikGraph() => Graphs(30, 60).Sample(
        graph => graph.CircuitRank == graph.Edges.Count - graph.NodeCount + Components(graph, except: -1), iter: 400);

    [Fact]
    public void A_bridge_is_an_edge_without_which_QuikGraph_counts_one_component_more() => Graphs(12, 20).Sample(
        graph =>
        {
            var bridges = graph.Bridges();
            var whole = Components(graph, except: -1);
            for (var edge = 0; edge < graph.Edges.Count; edge++)
            {
                Assert.Equal(Components(graph, edge) > whole, bridges[edge]);
            }
        },
        iter: 300);

    private static int Components(Multigraph graph, int except)
    {
        var other = new UndirectedGraph<int, TaggedUndirectedEdge<int, int>>(allowParallelEdges: true);
        other.AddVertexRange(Enumerable.Range(0, graph.NodeCount));
        for (var edge = 0; edge < graph.Edges.Count; edge++)
        {
            var (a, b) = graph.Edges[edge];
            if (edge != except)
            {
                other.AddEdge(new TaggedUndirectedEdge<int, int>(Math.Min(a, b), Math.Max(a, b), edge));
            }
        }
        return other.ConnectedComponents(new Dictionary<int, int>());
    }

    [Fact]
    public void The_loops_are_independent_circles_and_no_set_is_shorter() => Graphs(7, 12).Sample(
        graph =>
        {
            var (circles, isShortest) = CycleBasis.Of(graph);
            Assert.True(isShortest);
            var masks = circles.Select(c => c.Aggregate(0, (mask, edge) => mask | (1 << edge))).ToList();
            Assert.All(circles, c => Assert.True(IsOneWalk(graph, c)));
            Assert.Equal(graph.CircuitRank, Rank(masks));
            Assert.Equal(graph.CircuitRank, circles.Count);
            Assert.Equal(ShortestByTrial(graph), circles.Sum(c => c.Count));
        },
        iter: 500);

    /// <summary>Each edge shares a point with the next, all points are met twice: one circle, in walking order.</summary>
    private static bool IsOneWalk(Multigraph graph, IReadOnlyList<int> circle) =>
        circle.Distinct().Count() == circle.Count
        && circle.SelectMany(e => new[] { graph.Edges[e].A, graph.Edges[e].B }).GroupBy(n => n).All(g => g.Count() == 2)
        && circle.Zip(circle.Skip(1).Append(circle[0])).All(p =>
            new[] { graph.Edges[p.First].A, graph.Edges[p.First].B }.Intersect([graph.Edges[p.Second].A, graph.Edges[p.Second].B]).Any());

    /// <summary>Every set of edges that meets each point an even number of times, shortest first, taken when independent: a matroid, so exact.</summary>
    private static int ShortestByTrial(Multigraph graph)
    {
        var even = Enumerable.Range(1, (1 << graph.Edges.Count) - 1).Where(IsEven).OrderBy(m => BitOperations.PopCount((uint)m));
        var taken = new List<int>();
        var length = 0;
        foreach (var mask in even)
        {
            if (taken.Count == graph.CircuitRank)
            {
                break;
            }
            if (Rank([.. taken, mask]) > taken.Count)
            {
                taken.Add(mask);
                length += BitOperations.PopCount((uint)mask);
            }
        }
        return length;

        bool IsEven(int mask)
        {
            var odd = 0;
            for (var edge = 0; edge < graph.Edges.Count; edge++)
            {
                if ((mask & (1 << edge)) != 0)
                {
                    odd ^= (1 << graph.Edges[edge].A) ^ (1 << graph.Edges[edge].B);
                }
            }
            return odd == 0;
        }
    }

    private static int Rank(IEnumerable<int> masks)
    {
        var rows = new List<int>();
        foreach (var mask in masks)
        {
            var rest = rows.Aggregate(mask, (m, row) => Math.Min(m, m ^ row));
            if (rest != 0)
            {
                rows.Add(rest);
                rows.Sort((a, b) => b.CompareTo(a));
            }
        }
        return rows.Count;
    }

    private static readonly Gen<(int Nodes, CureEdge[] Edges)> Cures =
        from nodes in Gen.Int[1, 6]
        from edges in Gen.Select(Gen.Int[0, nodes - 1], Gen.Int[0, nodes - 1], Gen.Int[0, 5], Gen.Bool,
            (a, b, cost, heard) => new CureEdge(a, b, cost == 0 ? null : cost, heard && cost > 0)).Array[0, 11]
        select (nodes, edges);

    [Fact]
    public void The_cure_leaves_nothing_that_is_heard_and_costs_what_trying_every_set_finds() => Cures.Sample(
        rig =>
        {
            var (cut, isProven) = LoopCure.Of(rig.Nodes, rig.Edges);
            Assert.True(isProven);
            Assert.All(cut, i => Assert.NotNull(rig.Edges[i].Cost));
            Assert.True(IsCured(rig.Nodes, rig.Edges, i => cut.Contains(i)));
            Assert.Equal(CheapestByTrial(rig.Nodes, rig.Edges), cut.Sum(i => rig.Edges[i].Cost!.Value));
        },
        iter: 2_000);

    private static int CheapestByTrial(int nodes, CureEdge[] edges) =>
        Enumerable.Range(0, 1 << edges.Length)
            .Where(set => Enumerable.Range(0, edges.Length).All(i => (set & (1 << i)) == 0 || edges[i].Cost is not null))
            .Where(set => IsCured(nodes, edges, i => (set & (1 << i)) != 0))
            .Min(set => Enumerable.Range(0, edges.Length).Where(i => (set & (1 << i)) != 0).Sum(i => edges[i].Cost!.Value));

    /// <summary>No heard link that is left has another way round between its ends.</summary>
    private static bool IsCured(int nodes, CureEdge[] edges, Func<int, bool> isCut)
    {
        for (var heard = 0; heard < edges.Length; heard++)
        {
            if (!edges[heard].IsHeard || isCut(heard))
            {
                continue;
            }
            var reached = new HashSet<int> { edges[heard].A };
            for (var round = 0; round < nodes; round++)
            {
                for (var i = 0; i < edges.Length; i++)
                {
                    if (i != heard && !isCut(i) && (reached.Contains(edges[i].A) || reached.Contains(edges[i].B)))
                    {
                        reached.Add(edges[i].A);
                        reached.Add(edges[i].B);
                    }
                }
            }
            if (reached.Contains(edges[heard].B))
            {
                return false;
            }
        }
        return true;
    }
}
