using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
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
        for (var node = 0; node < rig.Midi.Graph.NodeCount; node++)
        {
            // Two ways meet where a device lets two inputs out at one output, not one at a time.
            if (rig.Midi.Graph.To(node) is { Length: > 1 } edges && !edges[0].IsSwitched)
            {
                TellMeeting(rig, node, edges.ToArray(), told, report);
            }
        }
        foreach (var listener in rig.Midi.Listeners.Where(l => l.Nodes.Count > 1))
        {
            TellListener(rig, listener, told, report);
        }
    }

    private void TellMeeting(Rig rig, int node, MidiEdge[] edges, HashSet<DeviceSymbol> told, Report report)
    {
        foreach (var (source, kinds) in Repeated(rig, [.. edges.Select(e => e.From)], MessageKinds.All & ~rig.Midi.Graph.DropsAt(node)))
        {
            // Behind the meeting everything comes by two paths; only the place where they meet is told.
            if (IsFirstMeeting(rig, source, kinds, edges) && told.Add(rig.Midi.Sources[source].Device))
            {
                Tell(rig, rig.Midi.Sources[source], kinds, [.. edges.Select(e => e.From)], $"meets itself at {rig.Midi.Graph.PortOf(node)}", report);
            }
        }
    }

    private void TellListener(Rig rig, Listener listener, HashSet<DeviceSymbol> told, Report report)
    {
        foreach (var (source, kinds) in Repeated(rig, listener.Nodes, MessageKinds.Notes))
        {
            var heard = rig.Midi.Flow.AtomsAt(listener.Nodes[0], MessageKinds.Notes).Any(a => a.Atom.Source == source && listener.Channel.Hears(a.Atom.Channel) == true);
            if (heard && told.Add(rig.Midi.Sources[source].Device))
            {
                Tell(rig, rig.Midi.Sources[source], kinds, listener.Nodes, $"comes to {listener.Text} at two ports", report);
            }
        }
    }

    /// <summary>The sources of which the same kinds, on the same channel, are at two of the nodes.</summary>
    private static IEnumerable<(int Source, MessageKinds Kinds)> Repeated(Rig rig, IReadOnlyList<int> nodes, MessageKinds wanted)
    {
        var flow = rig.Midi.Flow;
        for (var atom = 0; atom < flow.Atoms.Count; atom++)
        {
            MessageKinds once = MessageKinds.None, twice = MessageKinds.None;
            foreach (var node in nodes)
            {
                var here = flow.At(node, atom) & wanted;
                twice |= once & here;
                once |= here;
            }
            if (twice != MessageKinds.None)
            {
                yield return (flow.Atoms[atom].Source, twice);
            }
        }
    }

    /// <summary>False when one of the inputs already gets the message by two paths, or by way of this very output.</summary>
    private static bool IsFirstMeeting(Rig rig, int source, MessageKinds kinds, MidiEdge[] edges)
    {
        var walk = MidiPaths.WalkOf(rig, rig.Midi.Sources[source], Lowest(kinds));
        return edges.All(edge => walk.Reached.FirstOrDefault(s => s.Node == edge.From) is { } step
            ? walk.WayTo(step).TrueForAll(s => s.Node != edge.To && !HasTwo(rig, source, kinds, s.Node))
            : true);
    }

    private static bool HasTwo(Rig rig, int source, MessageKinds kinds, int node)
    {
        var carrying = 0;
        foreach (var edge in rig.Midi.Graph.To(node))
        {
            carrying += (rig.Midi.Flow.OfSource(edge.From, source) & kinds) != 0 ? 1 : 0;
        }
        return carrying > 1;
    }

    private void Tell(Rig rig, MidiSource source, MessageKinds kinds, IReadOnlyList<int> nodes, string how, Report report)
    {
        var kind = Lowest(kinds);
        var ways = nodes.Select(n => MidiPaths.To(rig, source, kind, n)).Where(w => w.Count > 0).ToList();
        var last = ways[^1].LastOrDefault(h => h.Text.Contains(" to ", StringComparison.Ordinal)) ?? ways[^1][^1];
        report.Add(this, last.At, $"{Named(kinds)} from {source.Text} {how}: {string.Join(" and ", ways.Select(Wording.Way))}.",
            why: (kinds & MessageKinds.Clock) != 0 && (kinds & MessageKinds.Notes) == 0 ? "Two clocks in one stream: the tempo doubles, or stumbles." : null,
            related: ways.SelectMany(MidiPaths.Related));
    }

    private static string Named(MessageKinds kinds) => (kinds & MessageKinds.Notes) != 0 ? "Every note" : "The " + MessageKindNames.Describe(Lowest(kinds));

    private static MessageKinds Lowest(MessageKinds kinds) => (MessageKinds)((int)kinds & -(int)kinds);
}
