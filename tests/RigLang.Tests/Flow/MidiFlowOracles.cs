using CsCheck;
using QuikGraph;
using QuikGraph.Algorithms;
using QuikGraph.Algorithms.Search;
using RigLang.Checks.Midi;
using RigLang.Connectors;
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
    private const int Iterations = 400;

    [Fact]
    public void What_reaches_each_port_is_what_single_messages_reach_hop_by_hop()
    {
        var arrived = 0;
        RandomMidiRig.Texts.Sample(
            text =>
            {
                var rig = RandomMidiRig.Compile(text);
                var expected = HopByHop.Everything(rig).Select(Told).ToHashSet();
                Interlocked.Add(ref arrived, expected.Count);
                AssertSame(expected, FixedPointOf(rig.Midi), text);
            },
            iter: Iterations);
        Assert.True(arrived > 100 * Iterations, $"only {arrived} messages arrived anywhere: the rigs show nothing");

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
                foreach (var source in rig.Midi.Sources)
                {
                    foreach (var kind in HopByHop.SingleKinds.Where(k => (source.Kinds & k) != 0))
                    {
                        var walk = MidiPaths.WalkOf(rig, source, kind);
                        var message = HopByHop.Push(rig, source.Device, source.Track, kind);
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
                var all = HopByHop.Everything(rig);
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
                var rig = Rigs.Compile(LeaderRig(leaders)).Rig!;
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

    private static void AssertSame(IEnumerable<string> expected, IEnumerable<string> found, string text)
    {
        var (wanted, got) = (expected.ToHashSet(), found.ToHashSet());
        Assert.True(wanted.SetEquals(got),
            $"missing: {Some(wanted.Except(got))}\nnot expected: {Some(got.Except(wanted))}\nin the rig\n{text}");

        static string Some(IEnumerable<string> items) => string.Join("; ", items.Order(StringComparer.Ordinal).Take(4)) is { Length: > 0 } some ? some : "nothing";
    }
}

/// <summary>One side of a device's port: what comes in there, or what goes out.</summary>
internal sealed record Place(DeviceSymbol Device, PortSymbol Port, bool IsInward)
{
    public bool Equals(Place? other) => other is not null && ReferenceEquals(Device, other.Device) && ReferenceEquals(Port, other.Port) && IsInward == other.IsInward;

    public override int GetHashCode() => HashCode.Combine(Device.Name, Port.Name, IsInward);

    public override string ToString() => $"{(IsInward ? "into" : "out of")} {Device.Name}.{Port.Name}";
}

/// <summary>A message of a source that came to a place.</summary>
internal sealed record Arrived(string From, Place At, MessageKinds Kind, int Channel);

/// <summary>
/// Pushes single messages through a rig, one hop at a time, reading the links, the gear's routes and the devices' settings itself:
/// slow, plain, and independent of the graph and the flow under test.
/// </summary>
internal static class HopByHop
{
    public static readonly MessageKinds[] SingleKinds = [.. Enum.GetValues<MessageKinds>().Where(k => int.PopCount((int)k) == 1)];

    private static readonly MessageKinds[] WithChannel =
        [MessageKinds.Notes, MessageKinds.Velocity, MessageKinds.Aftertouch, MessageKinds.Controllers, MessageKinds.ProgramChange, MessageKinds.PitchBend];

    /// <summary>Every message of every track and every clock section, wherever it comes.</summary>
    public static List<Arrived> Everything(Rig rig) =>
    [
        .. from device in rig.Names.Devices
           from track in device.Gear!.Tracks.Values.Cast<TrackSymbol?>().Append(null)
           from kind in SingleKinds
           from arrived in Push(rig, device, track, kind).Arrived
           select arrived,
    ];

    /// <summary>One kind of message of a track (null: the clock section): where it arrives, and where a filter stops it.</summary>
    public static (List<Arrived> Arrived, HashSet<Place> StoppedAt) Push(Rig rig, DeviceSymbol device, TrackSymbol? track, MessageKinds kind)
    {
        var arrived = new List<Arrived>();
        var stopped = new HashSet<Place>();
        var visited = new HashSet<(Place, int)>();
        var from = track is null ? device.Name : $"{device.Name}.{track.Name}";
        var channel = track is null ? 0 : ChannelOf(device, track);
        foreach (var start in Starts(device, track, kind))
        {
            Come(start, channel);
        }
        return (arrived, stopped);

        void Come(Place place, int on)
        {
            if (IsDropped(place, kind))
            {
                stopped.Add(place);
            }
            else if (visited.Add((place, on)))
            {
                arrived.Add(new Arrived(from, place, kind, on));
                foreach (var hop in Hops(rig, kind).Where(h => h.Source == place))
                {
                    foreach (var next in Moved(hop.Target, kind, on))
                    {
                        Come(hop.Target, next);
                    }
                }
            }
        }
    }

    /// <summary>Where a message of this kind leaves: a track sends what is on a channel, a clock section the rest.</summary>
    public static IEnumerable<Place> Starts(DeviceSymbol device, TrackSymbol? track, MessageKinds kind)
    {
        var gear = device.Gear!;
        IEnumerable<PortSymbol> ports = track is not null
            ? WithChannel.Contains(kind) && !IsOff(device, track) ? track.Sends : []
            : kind switch
            {
                MessageKinds.Clock => gear.ClockSends,
                MessageKinds.Start or MessageKinds.Stop or MessageKinds.Continue or MessageKinds.SongPosition =>
                    gear.TransportSends.Count == 0 ? gear.ClockSends : gear.TransportSends,
                MessageKinds.SystemExclusive or MessageKinds.ActiveSensing => gear.Tracks.Values.SelectMany(t => t.Sends),
                _ => [],
            };
        return ports.Select(p => new Place(device, p, false)).Distinct();
    }

    /// <summary>Every hop that a kind of message can make, filters left aside: along a cable, or through a device.</summary>
    public static IEnumerable<Edge<Place>> Hops(Rig rig, MessageKinds kind)
    {
        foreach (var link in rig.Links.Links)
        {
            var carries = link.Kind switch
            {
                SignalKind.Midi or SignalKind.Usb => true,
                SignalKind.Pulse => kind == MessageKinds.Clock,
                _ => false,
            };
            if (carries)
            {
                yield return new Edge<Place>(new Place(link.From.Device, link.From.Port, false), new Place(link.To.Device, link.To.Port, true));
            }
            if (carries && link.Kind == SignalKind.Usb)
            {
                yield return new Edge<Place>(new Place(link.To.Device, link.To.Port, false), new Place(link.From.Device, link.From.Port, true));
            }
        }
        foreach (var device in rig.Names.Devices)
        {
            foreach (var (from, to) in device.Gear!.Routes.Where(r => !device.ThruOff.Contains(r.To)))
            {
                yield return new Edge<Place>(new Place(device, from, true), new Place(device, to, false));
            }
        }
    }

    public static bool IsDropped(Place place, MessageKinds kind) =>
        place.Device.Filters.Any(f => ReferenceEquals(f.Port, place.Port) && (f.Drops & kind) != 0);

    /// <summary>A map moves what comes to its port: at an input what comes in, at an output what goes out.</summary>
    private static IEnumerable<int> Moved(Place place, MessageKinds kind, int channel)
    {
        var to = place.Device.Maps
            .Where(m => ReferenceEquals(m.Port, place.Port) && m.Port.IsOutput != place.IsInward && m.From == channel)
            .SelectMany(m => m.To).ToList();
        return to.Count == 0 || !WithChannel.Contains(kind) ? [channel] : to;
    }

    private static int ChannelOf(DeviceSymbol device, TrackSymbol track) =>
        device.Channels.TryGetValue(track.Name, out var set) ? set.Channel ?? 0 : track.Channels.IsFixed ? track.Channels.First : 0;

    private static bool IsOff(DeviceSymbol device, TrackSymbol track) => device.Channels.TryGetValue(track.Name, out var set) && set.Word == "off";
}

/// <summary>
/// Small rigs in any topology: each device of gear of its own, with inputs, outputs, a USB jack or two, routes from any to any (a thru,
/// a splitter, a merger, a computer that routes or does not), tracks, a clock section, filters, maps, and cables anyhow.
/// </summary>
internal static class RandomMidiRig
{
    public static readonly Gen<string> Texts = Gen.Int[0, 9_999].Array[500].Select(numbers => Write(new Draws(numbers)));

    /// <summary>Mistakes that would leave out a part of what was generated; a rig of this kind makes none.</summary>
    private static readonly string[] Unread =
    [
        "syntax-error", "unbalanced-block", "unknown-name", "duplicate-name", "unknown-word", "out-of-range", "incomplete-declaration", "impossible-connector",
        "missing-ability", "jack-in-use", "plug-does-not-fit", "wrong-number-of-ends", "no-lead-fits", "signal-mismatch", "midi-loop-open", "ends-swapped",
    ];

    /// <summary>The rig, after a look that the compiler understood all of it and every cable carries what it is for.</summary>
    public static Rig Compile(string text)
    {
        var compilation = Rigs.Compile(text);
        Assert.True(!compilation.Names().Intersect(Unread).Any(), compilation.Told() + "\n" + text);
        Assert.Equal(text.Split('\n').Count(line => line.StartsWith("connect ", StringComparison.Ordinal)),
            compilation.Rig!.Links.Links.Count(l => l.Kind is SignalKind.Midi or SignalKind.Usb or SignalKind.Pulse));
        return compilation.Rig;
    }

    private sealed class Draws(int[] numbers)
    {
        private int _next;

        public int Below(int limit) => numbers[_next++ % numbers.Length] % limit;

        public int Between(int least, int most) => least + Below(most - least + 1);

        public bool Chance(int percent) => Below(100) < percent;

        public List<T> Some<T>(IEnumerable<T> all, int percent) => [.. all.Where(_ => Chance(percent))];

        public List<T> Shuffled<T>(IEnumerable<T> all) => [.. all.Select(item => (item, order: Below(10_000))).OrderBy(i => i.order).Select(i => i.item)];
    }

    private static string Write(Draws draw)
    {
        var lines = new List<string>();
        List<string> outs = [], ins = [], hosts = [], usbs = [], pulses = [], syncs = [];
        for (var i = draw.Between(2, 6); i > 0; i--)
        {
            WriteDevice($"d{i}", $"G{i}");
        }
        Connect(outs, ins, 90);
        Connect(hosts, usbs, 90);
        Connect(pulses, syncs, 70);
        return string.Join('\n', lines) + "\n";

        void WriteDevice(string device, string gear)
        {
            var myIns = Numbered("in", draw.Between(0, 3));
            var myOuts = Numbered("out", draw.Between(1, 3));
            var myHosts = draw.Chance(20) ? Numbered("host", 2) : [];
            var myUsb = draw.Chance(30) ? new[] { "usb" } : [];
            var (mySync, myPulse) = (draw.Chance(20) ? new[] { "sync" } : [], draw.Chance(20) ? new[] { "pulse" } : []);
            string[] froms = [.. myIns, .. myUsb, .. myHosts, .. mySync], tos = [.. myOuts, .. myUsb, .. myHosts, .. myPulse];
            outs.AddRange(myOuts.Select(p => $"{device}.{p}"));
            ins.AddRange(myIns.Select(p => $"{device}.{p}"));
            hosts.AddRange(myHosts.Select(p => $"{device}.{p}"));
            usbs.AddRange(myUsb.Select(p => $"{device}.{p}"));
            pulses.AddRange(myPulse.Select(p => $"{device}.{p}"));
            syncs.AddRange(mySync.Select(p => $"{device}.{p}"));

            lines.Add($"gear {gear} {{");
            lines.AddRange(myIns.Select(p => $"  in {p} : midi on din-5"));
            lines.AddRange(myOuts.Select(p => $"  out {p} : midi on din-5"));
            lines.AddRange(myHosts.Select(p => $"  out {p} : usb host 5 V 900 mA on usb-a"));
            lines.AddRange(myUsb.Select(p => $"  in {p} : usb device on usb-b"));
            lines.AddRange(mySync.Select(p => $"  in {p} : pulse 2 ppqn 5 V on ts 3.5 mm"));
            lines.AddRange(myPulse.Select(p => $"  out {p} : pulse 2 ppqn 5 V on ts 3.5 mm"));
            var routed = draw.Chance(80) ? 65 : 0;
            var fed = new HashSet<string>();
            foreach (var from in froms)
            {
                var routes = draw.Some(tos.Where(to => to != from), routed);
                fed.UnionWith(routes);
                AddList($"  route {from} to ", routes);
            }
            var tracks = draw.Chance(50) ? Numbered("t", draw.Between(1, 2)) : [];
            var setByPlayer = draw.Some(tracks, 80);
            foreach (var track in tracks)
            {
                var sends = draw.Some(tos.Except(myPulse), 60);
                var channel = setByPlayer.Contains(track) ? "" : $" on channel {draw.Between(1, 4)}";
                lines.Add($"  track {track} sends {(sends.Count > 0 ? string.Join(", ", sends) : myOuts[0])}{channel}");
            }
            if (draw.Chance(40))
            {
                AddList("  clock sends ", draw.Some(tos, 60));
            }
            if (draw.Chance(30))
            {
                AddList("  transport sends ", draw.Some(tos.Except(myPulse), 60));
            }
            lines.Add($"  clock follows {string.Join(", ", ["internal", .. froms])}");
            lines.Add("  filters any");
            lines.Add("  maps channels");
            lines.Add("}");

            lines.Add($"device {device} : {gear} {{");
            if (froms.Length > 0 && draw.Chance(70))
            {
                lines.Add($"  clock {froms[draw.Below(froms.Length)]}");
            }
            // One that is left out here has a channel that nobody knows.
            lines.AddRange(draw.Some(setByPlayer, 85).Select(track => $"  {track} on channel {(draw.Chance(10) ? "off" : draw.Between(1, 4))}"));
            foreach (var port in draw.Some(froms.Concat(tos).Distinct(), 25))
            {
                var kinds = draw.Some(MessageKindNames.Table.Keys.Where(k => k != "any"), 30);
                AddList($"  {port} {(draw.Chance(70) ? "drops" : "passes only")} ", kinds);
            }
            // Tracks and maps are kept apart: what a map at an output does to the device's own tracks is not settled here.
            foreach (var port in draw.Some(tracks.Length == 0 ? froms.Concat(tos).Except(mySync).Except(myPulse).Distinct() : [], 35))
            {
                lines.Add($"  {port} maps channel {draw.Between(1, 4)} to {string.Join(", ", Enumerable.Range(0, draw.Between(1, 2)).Select(_ => draw.Between(1, 5)).Distinct())}");
            }
            lines.AddRange(draw.Some(myOuts.Where(fed.Contains), 8).Select(port => $"  {port} thru off"));
            lines.Add("}");
        }

        void AddList(string start, List<string> items)
        {
            if (items.Count > 0)
            {
                lines.Add(start + string.Join(", ", items));
            }
        }

        void Connect(List<string> from, List<string> to, int percent) =>
            lines.AddRange(draw.Some(draw.Shuffled(from).Zip(draw.Shuffled(to)), percent).Select(c => $"connect {c.First} to {c.Second}"));
    }

    private static string[] Numbered(string name, int count) => [.. Enumerable.Range(1, count).Select(i => $"{name}{i}")];
}
