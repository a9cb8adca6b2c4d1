using CsCheck;
using QuikGraph;
using QuikGraph.Algorithms;
using QuikGraph.Algorithms.Search;
using RigLang.Checks.Midi;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Tests.Support;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>
/// The message flow of random small rigs, compared with a simulator that pushes one message at a time (<see cref="HopByHop"/>)
/// and with QuikGraph. The rigs are text, and go through the whole compiler.
/// </summary>
public class MidiFlowOracles
{
    private const int Iterations = 350;

    [Fact]
    public void What_reaches_each_port_is_what_single_messages_reach_hop_by_hop()
    {
        var (arrived, bySync, bySwitch) = (0, 0, 0);
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var expected = new HopByHop(rig).Everything().Select(Told).ToHashSet();
                Interlocked.Add(ref arrived, expected.Count);
                AssertSame(expected, FixedPointOf(rig.Midi), text);
                Interlocked.Add(ref bySync, expected.Count(told => told.Contains(".follow ", StringComparison.Ordinal)));
                Interlocked.Add(ref bySwitch, SwitchPosition.AllOf(rig).Count > 1 ? 1 : 0);
            },
            iter: Iterations);
        Assert.True(arrived > 100 * Iterations, $"only {arrived} messages arrived anywhere: the rigs show nothing");
        Assert.True(bySync > Iterations / 8, $"only {bySync} messages came by DIN sync: the rigs show nothing of it");
        Assert.True(bySwitch > Iterations / 10, $"only {bySwitch} rigs had a switch: they show nothing of it");

        static string Told(Arrived a) => $"{a.From} {a.At} {a.Kind} on {a.Channel}";

        static HashSet<string> FixedPointOf(MidiModel midi) =>
        [
            .. from node in Enumerable.Range(0, midi.Graph.NodeCount)
               from found in midi.Flow.AtomsAt(node, MessageKinds.All)
               from kind in HopByHop.SingleKinds
               where (found.Kinds & kind) != 0
               select Told(new Arrived(midi.Sources[found.Atom.Source].Text, PlaceOf(midi.Graph, node), kind, found.Atom.Channel)),
        ];
    }

    [Fact]
    public void A_walk_comes_to_the_same_places_and_is_stopped_where_a_filter_stops_the_single_message()
    {
        var stopped = 0;
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var simulator = new HopByHop(rig);
                foreach (var source in rig.Midi.Sources)
                {
                    foreach (var kind in HopByHop.SingleKinds.Where(k => (source.Kinds & k) != 0))
                    {
                        var walk = MidiPaths.WalkOf(rig, source, kind);
                        var message = simulator.Push(source.Device, source.Track, kind);
                        AssertSame(message.Arrived.Select(a => $"{a.At} on {a.Channel}"), walk.Reached.Select(s => $"{PlaceOf(walk.Graph, s.Node)} on {s.Channel}"), text);
                        AssertSame(message.StoppedAt.Select(p => p.ToString()), walk.Stopped.Select(s => PlaceOf(walk.Graph, s.Node).ToString()), text);
                        Interlocked.Add(ref stopped, message.StoppedAt.Count);
                    }
                }
            },
            iter: Iterations);
        Assert.True(stopped > Iterations, $"only {stopped} messages met a filter: the rigs show nothing");
    }

    [Fact]
    public void The_way_of_a_walk_is_made_of_hops_that_the_rig_has()
    {
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                foreach (var source in rig.Midi.Sources)
                {
                    foreach (var kind in new[] { MessageKinds.Notes, MessageKinds.Clock, MessageKinds.Stop }.Where(k => (source.Kinds & k) != 0))
                    {
                        var hops = HopByHop.Hops(rig, kind).ToLookup(h => h.Source, h => h.Target);
                        var walk = MidiPaths.WalkOf(rig, source, kind);
                        foreach (var step in walk.Steps)
                        {
                            var way = walk.WayTo(step).Select(s => PlaceOf(walk.Graph, s.Node)).ToList();
                            Assert.Contains(way[0], HopByHop.Starts(source.Device, source.Track, kind));
                            for (var i = 1; i < way.Count; i++)
                            {
                                Assert.Contains(way[i], hops[way[i - 1]]);
                            }
                        }
                    }
                }
            },
            iter: Iterations / 2);
    }

    [Fact]
    public void Ports_lead_to_one_another_as_a_search_of_the_same_graph_says()
    {
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var graph = rig.Midi.Graph;
                var nodes = NodesOf(graph);
                foreach (var kind in new[] { MessageKinds.Notes, MessageKinds.Clock, MessageKinds.Start })
                {
                    var passing = PassingGraph(rig, kind);
                    foreach (var from in nodes)
                    {
                        var search = new BreadthFirstSearchAlgorithm<Place, Edge<Place>>(passing);
                        var expected = new HashSet<Place>();
                        search.DiscoverVertex += place => expected.Add(place);
                        search.SetRootVertex(PlaceOf(graph, from));
                        search.Compute();
                        var found = nodes.Where(to => MidiLoops.Leads(graph, from, to, kind)).Select(to => PlaceOf(graph, to));
                        AssertSame(expected.Select(p => p.ToString()), found.Select(p => p.ToString()), text);
                    }
                }
            },
            iter: Iterations / 8);
    }

    [Fact]
    public void Knots_are_the_strongly_connected_components_of_more_than_one_port()
    {
        var knots = 0;
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                foreach (var kind in HopByHop.SingleKinds)
                {
                    var components = new Dictionary<Place, int>();
                    PassingGraph(rig, kind).StronglyConnectedComponents(components);
                    var expected = components.GroupBy(c => c.Value, c => c.Key).Where(g => g.Count() > 1).Select(Joined).ToList();
                    Interlocked.Add(ref knots, expected.Count);
                    AssertSame(expected, MidiLoops.Knots(rig.Midi.Graph, kind).Select(knot => Joined(knot.Select(n => PlaceOf(rig.Midi.Graph, n)))), text);
                }
            },
            iter: Iterations);
        Assert.True(knots > Iterations, $"only {knots} knots: the rigs show nothing");

        static string Joined(IEnumerable<Place> places) => string.Join(" ", places.Select(p => p.ToString()).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_loop_that_is_told_can_be_gone_round_hop_by_hop()
    {
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var loops = MidiLoops.Of(rig.Midi.Graph);
                Assert.Equal(HopByHop.SingleKinds.Any(kind => !PassingGraph(rig, kind).IsDirectedAcyclicGraph()), loops.Count > 0);
                foreach (var loop in loops)
                {
                    Assert.Equal(loop.Edges[0].From, loop.Edges[^1].To);
                    Assert.NotEqual(MessageKinds.None, loop.Kinds);
                    foreach (var kind in HopByHop.SingleKinds.Where(k => (loop.Kinds & k) != 0))
                    {
                        var passing = PassingGraph(rig, kind);
                        Assert.All(loop.Edges, edge => Assert.True(passing.ContainsEdge(PlaceOf(rig.Midi.Graph, edge.From), PlaceOf(rig.Midi.Graph, edge.To))));
                        Assert.Contains(SwitchPosition.AllOf(rig), position => loop.Edges.All(edge => position.Passes(PlaceOf(rig.Midi.Graph, edge.From), PlaceOf(rig.Midi.Graph, edge.To))));
                    }
                }
            },
            iter: Iterations / 2);
    }

    [Fact]
    public void Leaders_and_commanders_are_those_whose_single_messages_come_to_the_port()
    {
        var led = 0;
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var all = new HopByHop(rig).Everything();
                foreach (var follower in rig.Midi.Clock.Followers)
                {
                    AssertSame(SendersAt(follower.Device, follower.Port, MessageKinds.Clock), follower.Leaders.Select(l => l.Name), text);
                    Interlocked.Add(ref led, follower.Leaders.Count);
                }
                foreach (var obeyer in rig.Midi.Clock.Obeyers)
                {
                    AssertSame(SendersAt(obeyer.Device, obeyer.Port, MessageKinds.Start | MessageKinds.Stop), obeyer.Commanders.Select(c => c.Name), text);
                }

                IEnumerable<string> SendersAt(DeviceSymbol device, PortSymbol port, MessageKinds kinds) =>
                    all.Where(a => a.At == new Place(device, port, true) && (a.Kind & kinds) != 0).Select(a => a.From).Distinct();
            },
            iter: Iterations);
        Assert.True(led > Iterations / 8, $"only {led} leaders: the rigs show nothing");
    }

    [Fact]
    public void Devices_with_one_leader_each_follow_in_a_circle_where_the_leader_graph_has_one()
    {
        var circles = 0;
        // leaders[i] leads device i: a number past the last device leaves it without one.
        Gen.Int[0, 11].Array[1, 10].Sample(
            leaders =>
            {
                var rig = Rigs.Compile(LeaderRig(leaders)).Rig;
                var graph = new BidirectionalGraph<string, Edge<string>>();
                graph.AddVertexRange(rig.Names.Devices.Select(d => d.Name));
                for (var i = 0; i < leaders.Length; i++)
                {
                    if (leaders[i] < leaders.Length)
                    {
                        graph.AddEdge(new Edge<string>($"d{leaders[i]}", $"d{i}"));
                    }
                }
                var cycles = rig.Midi.Clock.Cycles();
                Assert.Equal(graph.IsDirectedAcyclicGraph(), cycles.Count == 0);
                // With one leader each, a circle is a component of its own: several devices, or one that leads itself.
                var components = new Dictionary<string, int>();
                graph.StronglyConnectedComponents(components);
                var expected = components.GroupBy(c => c.Value, c => c.Key).Where(g => g.Count() > 1 || graph.ContainsEdge(g.Single(), g.Single()));
                AssertSame(expected.Select(Joined), cycles.Select(c => Joined(c.Select(f => f.Device.Name))), string.Join(' ', leaders));
                Interlocked.Add(ref circles, cycles.Count);

                // The head is the one device without a leader from which this one can be reached, and none behind a circle.
                for (var i = 0; i < leaders.Length; i++)
                {
                    var head = rig.Midi.Clock.HeadOf(rig.Names.Devices[i]);
                    var above = Above(graph, $"d{i}");
                    var unled = above.Where(d => graph.InDegree(d) == 0).ToList();
                    Assert.True(head is null || unled.Count == 0 || head.Name == unled.Single(), $"d{i} is led by {head?.Name}, not {string.Join(' ', unled)}: {string.Join(' ', leaders)}");
                    Assert.Equal(unled.Count == 0 || rig.Midi.Clock.Of(rig.Names.Devices.Single(d => d.Name == unled[0])) is not null, head is null);
                }
            },
            iter: Iterations);
        Assert.True(circles > Iterations / 4, $"only {circles} circles: the rigs show nothing");

        static string Joined(IEnumerable<string> names) => string.Join(" ", names.Order(StringComparer.Ordinal));

        static HashSet<string> Above(BidirectionalGraph<string, Edge<string>> graph, string from)
        {
            var above = new HashSet<string>();
            var search = new BreadthFirstSearchAlgorithm<string, SReversedEdge<string, Edge<string>>>(new ReversedBidirectionalGraph<string, Edge<string>>(graph));
            search.DiscoverVertex += name => above.Add(name);
            search.SetRootVertex(from);
            search.Compute();
            return above;
        }
    }

    /// <summary>Each device takes its clock from another's own output; the last of the rig that no number names runs on its own.</summary>
    private static string LeaderRig(int[] leaders)
    {
        var outputs = Math.Max(leaders.Length, 2);
        var lines = new List<string>
        {
            $"gear Pair {{\n  in  midi : midi on din-5\n  out out1..out{outputs} : midi on din-5\n  clock follows internal, midi\n  clock sends out1..out{outputs}\n}}",
        };
        for (var i = 0; i < leaders.Length; i++)
        {
            lines.Add($"device d{i} : Pair {{\n  clock {(leaders[i] < leaders.Length ? "midi" : "internal")}\n}}");
        }
        lines.AddRange(leaders.Select((leader, i) => (leader, i)).Where(l => l.leader < leaders.Length).Select(l => $"connect d{l.leader}.out{l.i + 1} to d{l.i}.midi"));
        return string.Join('\n', lines) + "\n";
    }

    private static Place PlaceOf(MidiGraph graph, int node) => new(graph.PortOf(node).Device, graph.PortOf(node).Port, MidiGraph.IsIn(node));

    private static List<int> NodesOf(MidiGraph graph) => [.. Enumerable.Range(0, graph.NodeCount)];

    /// <summary>The places of a rig, and the hops between them that a filter lets a kind of message make.</summary>
    private static AdjacencyGraph<Place, Edge<Place>> PassingGraph(Rig rig, MessageKinds kind)
    {
        var graph = new AdjacencyGraph<Place, Edge<Place>>();
        graph.AddVertexRange(NodesOf(rig.Midi.Graph).Select(n => PlaceOf(rig.Midi.Graph, n)));
        graph.AddEdgeRange(HopByHop.Hops(rig, kind).Where(h => !HopByHop.IsDropped(h.Target, kind)));
        return graph;
    }

    internal static void AssertSame(IEnumerable<string> expected, IEnumerable<string> found, string text)
    {
        var (wanted, got) = (expected.ToHashSet(), found.ToHashSet());
        Assert.True(wanted.SetEquals(got),
            $"missing: {Some(wanted.Except(got))}\nnot expected: {Some(got.Except(wanted))}\nin the rig\n{text}");

        static string Some(IEnumerable<string> items) => string.Join("; ", items.Order(StringComparer.Ordinal).Take(4)) is { Length: > 0 } some ? some : "nothing";
    }
}
