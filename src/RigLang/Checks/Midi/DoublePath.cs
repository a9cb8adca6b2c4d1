using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class DoublePath : Check
{
    public override string Name => "double-path";
    public override Severity Severity => Severity.Error;
    public override string Title => "The same message by two paths";
    public override string Why => "Every note sounds twice and a clock runs at double tempo.";
    public override string Advice => "Unplug one of the two ways, or filter the message out of it.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Split {
          in  in         : midi on din-5
          out out1, out2 : midi on din-5
          route in to out1, out2
        }
        gear Join {
          in  in1, in2 : midi on din-5
          out out      : midi on din-5
          route in1, in2 to out
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
        }
        device thru  : Split
        device merge : Join
        device bass  : Tern {
          voice on channel 2
        }
        connect seq.midi  to thru.in
        connect thru.out1 to merge.in1
        connect thru.out2 to merge.in2
        connect merge.out to bass.midi
        """;
    public override string GoodExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Split {
          in  in         : midi on din-5
          out out1, out2 : midi on din-5
          route in to out1, out2
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
        }
        device thru : Split
        device bass : Tern {
          voice on channel 2
        }
        connect seq.midi  to thru.in
        connect thru.out1 to bass.midi
        """;

    public override void Run(Rig rig, Report report)
    {
        // A device whose notes come twice sends its clock twice by the same ways: that is one mistake.
        var told = new HashSet<DeviceSymbol>();
        // Two ways meet where a device lets two inputs out at one output, not one at a time.
        foreach (var (source, kinds, node) in FirstMeetings(rig))
        {
            int[] inputs = [.. rig.Midi.Graph.To(node).ToArray().Select(e => e.From)];
            told.Add(source.Device);
            Tell(rig, source, kinds, inputs, $"meets itself at {rig.Midi.Graph.PortOf(node)}", report);
        }
        foreach (var listener in rig.Midi.Listeners.Where(l => l.Nodes.Count > 1))
        {
            TellListener(rig, listener, told, report);
        }
    }

    private void TellListener(Rig rig, Listener listener, HashSet<DeviceSymbol> told, Report report)
    {
        foreach (var (source, kinds) in Repeated(rig, listener.Nodes))
        {
            if (!told.Contains(rig.Midi.Sources[source].Device)
                && IsHeard(rig.Midi.Flow, listener, source))
            {
                told.Add(rig.Midi.Sources[source].Device);
                Tell(rig, rig.Midi.Sources[source], kinds, listener.Nodes, $"comes to {listener.Text} at two ports", report);
            }
        }
    }

    /// <summary>Whether a part hears notes of a source at its first port: only the source's own channels are looked at, since in a mesh everything is everywhere.</summary>
    private static bool IsHeard(MidiFlow flow, Listener listener, int source)
    {
        var (first, count) = flow.AtomsOf(source).GetOffsetAndLength(flow.Atoms.Count);
        for (var atom = first; atom < first + count; atom++)
        {
            if ((flow.At(listener.Nodes[0], atom) & MessageKinds.Notes) != 0 && listener.Channel.Hears(flow.Atoms[atom].Channel) == true)
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>The sources whose notes, on the same channel, are at two of the nodes.</summary>
    private static IEnumerable<(int Source, MessageKinds Kinds)> Repeated(Rig rig, IReadOnlyList<int> nodes)
    {
        for (var atom = 0; atom < rig.Midi.Flow.Atoms.Count; atom++)
        {
            if (Twice(rig.Midi.Flow, atom, nodes, MessageKinds.Notes) is not MessageKinds.None and var twice)
            {
                yield return (rig.Midi.Flow.Atoms[atom].Source, twice);
            }
        }
    }

    /// <summary>The kinds of an atom that are at two of the nodes.</summary>
    private static MessageKinds Twice(MidiFlow flow, int atom, IReadOnlyList<int> nodes, MessageKinds wanted)
    {
        MessageKinds once = MessageKinds.None, twice = MessageKinds.None;
        for (var i = 0; i < nodes.Count; i++)
        {
            var here = flow.At(nodes[i], atom) & wanted;
            twice |= once & here;
            once |= here;
        }
        return twice;
    }

    /// <summary>
    /// For each device that sends something by two paths, the first output where they meet. Behind it everything comes by two paths;
    /// that is not told again.
    /// </summary>
    private static IEnumerable<(MidiSource Source, MessageKinds Kinds, int Node)> FirstMeetings(Rig rig)
    {
        var graph = rig.Midi.Graph;
        var meetings = new List<(int Node, int[] Inputs, MessageKinds Passing)>();
        for (var node = 0; node < graph.NodeCount; node++)
        {
            if (graph.To(node) is { Length: > 1 } edges && !edges[0].IsSwitched && InputsInUse(edges) is { Length: > 1 } inputs)
            {
                meetings.Add((node, inputs, MessageKinds.All & ~graph.DropsAt(node)));
            }
        }
        var found = new Dictionary<DeviceSymbol, (MidiSource Source, MessageKinds Kinds, int Node)>();
        foreach (var source in meetings.Count == 0 ? [] : rig.Midi.Sources)
        {
            // Of the sources of a device, the one that meets itself at the earliest output stands for all.
            var before = found.TryGetValue(source.Device, out var other) ? other.Node : graph.NodeCount;
            if (!IsMetAtOnce(rig, source) && FirstOf(source, before) is { } first)
            {
                found[source.Device] = (source, first.Kinds, first.Node);
            }
        }
        var earliest = found.Values.ToList();
        earliest.Sort((a, b) => (a.Node, a.Source.Index).CompareTo((b.Node, b.Source.Index)));
        return earliest;

        int[] InputsInUse(MidiEdges edges)
        {
            var inputs = new List<int>();
            foreach (var edge in edges)
            {
                if (!rig.Midi.Flow.RowAt(edge.From).IsEmpty)
                {
                    inputs.Add(edge.From);
                }
            }
            return [.. inputs];
        }

        (MessageKinds Kinds, int Node)? FirstOf(MidiSource source, int before)
        {
            var ways = new Dictionary<MessageKinds, WaysOnce>();
            var (first, count) = rig.Midi.Flow.AtomsOf(source.Index).GetOffsetAndLength(rig.Midi.Flow.Atoms.Count);
            foreach (var (node, inputs, passing) in meetings.TakeWhile(m => m.Node < before))
            {
                for (var atom = first; atom < first + count; atom++)
                {
                    var kinds = Twice(rig.Midi.Flow, atom, inputs, passing);
                    if (kinds == MessageKinds.None)
                    {
                        continue;
                    }
                    if (!ways.TryGetValue(kinds, out var way))
                    {
                        ways[kinds] = way = new WaysOnce(rig, source, kinds);
                    }
                    if (way.MeetFirstAt(node, inputs))
                    {
                        return (kinds, node);
                    }
                }
            }
            return null;
        }
    }

    /// <summary>True where all that a source sends comes back to where it leaves by two ways, as in a mesh: then nowhere is the first place.</summary>
    private static bool IsMetAtOnce(Rig rig, MidiSource source)
    {
        foreach (var (node, kinds) in source.Starts)
        {
            MessageKinds once = MessageKinds.None, twice = MessageKinds.None;
            foreach (var edge in rig.Midi.Graph.To(node))
            {
                var here = edge.IsSwitched ? MessageKinds.None : rig.Midi.Flow.OfSource(edge.From, source.Index) & kinds;
                twice |= once & here;
                once |= here;
            }
            if (twice != kinds)
            {
                return false;
            }
        }
        return source.Starts.Count > 0;
    }

    /// <summary>The ways of a source, as far as no two of them have met: in a mesh that is not far, however large it is.</summary>
    private sealed class WaysOnce
    {
        private readonly Rig _rig;
        private readonly MidiSource _source;
        private readonly MessageKinds _kinds;
        private readonly MessageWalk _walk;

        public WaysOnce(Rig rig, MidiSource source, MessageKinds kinds)
        {
            (_rig, _source, _kinds) = (rig, source, kinds);
            _walk = MidiPaths.WalkOf(rig, source, Lowest(kinds), endsAt: HasTwo);
        }

        /// <summary>False when one of the inputs already gets the message by two paths, or by way of this very output.</summary>
        public bool MeetFirstAt(int node, int[] inputs) => Array.TrueForAll(inputs, input => _walk.FirstAt(input) is { } step
            ? !HasTwo(input) && _walk.WayTo(step).TrueForAll(s => s.Node != node)
            : (_rig.Midi.Flow.OfSource(input, _source.Index) & Lowest(_kinds)) == MessageKinds.None);

        private bool HasTwo(int node)
        {
            var carrying = 0;
            foreach (var edge in _rig.Midi.Graph.To(node))
            {
                // A switch lets one of its inputs through.
                carrying += !edge.IsSwitched && (_rig.Midi.Flow.OfSource(edge.From, _source.Index) & _kinds) != 0 ? 1 : 0;
            }
            return carrying > 1;
        }
    }

    private void Tell(Rig rig, MidiSource source, MessageKinds kinds, IReadOnlyList<int> nodes, string how, Report report)
    {
        var kind = Lowest(kinds);
        // Which two of many are told: those at the first ports by their names.
        var reached = nodes.Where(n => (rig.Midi.Flow.OfSource(n, source.Index) & kind) != 0).ToList();
        var few = reached.Count <= Prose.MostWays ? reached : reached.OrderBy(n => rig.Midi.Graph.PortOf(n).ToString(), StringComparer.Ordinal).Take(Prose.MostWays);
        var ways = few.Select(n => MidiPaths.To(rig, source, kind, n)).Where(w => w.Count > 0).ToList();
        var last = ways[^1].LastOrDefault(step => step is WayStep.Cable) ?? ways[^1][^1];
        report.Add(this, last.At, $"{Named(kinds)} from {source.Text} {how}: {Wording.Ways(ways, ways.Count + Math.Max(0, reached.Count - Prose.MostWays))}.",
            why: (kinds & MessageKinds.Clock) != 0 && (kinds & MessageKinds.Notes) == 0 ? "Two clocks in one stream: the tempo doubles, or stumbles." : null,
            related: ways.SelectMany(MidiPaths.Related));
    }

    private static string Named(MessageKinds kinds) => (kinds & MessageKinds.Notes) != 0 ? "Every note" : "The " + MessageKindNames.Describe(Lowest(kinds));

    private static MessageKinds Lowest(MessageKinds kinds) => (MessageKinds)((int)kinds & -(int)kinds);
}
