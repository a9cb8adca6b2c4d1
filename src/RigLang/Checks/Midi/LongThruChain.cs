using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class LongThruChain : Check
{
    public override string Name => "long-thru-chain";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A chain of thru jacks deeper than is good";
    public override string Why => "Every box adds delay and blurs the edges of the bits; at the end of a long chain notes are lost.";
    public override string Advice => "Split near the source with a thru box, so that each instrument has its own cable.";
    public override string Source => "common practice: at most 3 devices in a chain; MIDI 1.0 states that there is a limit and gives no number";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
        }
        device seq : Rook
        device one   : Tern
        device two   : Tern
        device three : Tern
        device four  : Tern
        device five  : Tern
        connect seq.midi   to one.midi
        connect one.thru   to two.midi
        connect two.thru   to three.midi
        connect three.thru to four.midi
        connect four.thru  to five.midi
        """;
    public override string GoodExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
        }
        device seq   : Rook
        device one   : Tern
        device two   : Tern
        device three : Tern
        connect seq.midi to one.midi
        connect one.thru to two.midi
        connect two.thru to three.midi
        """;

    /// <summary>Devices one behind the other that a player still trusts. Common practice.</summary>
    private const int MostDevices = 4;

    public override void Run(Rig rig, Report report)
    {
        var graph = rig.Midi.Graph;
        foreach (var source in rig.Midi.Sources)
        {
            foreach (var kind in new[] { MessageKinds.Notes, MessageKinds.Clock })
            {
                var walk = MidiPaths.WalkOf(rig, source, kind);
                foreach (var step in walk.Reached.Where(s => MidiGraph.IsIn(s.Node)))
                {
                    var way = walk.WayTo(step);
                    // Told where the chain grows past the limit, not again for each device behind it.
                    if (Passed(graph, way) == MostDevices && step.Cable is { } cable && !report.Findings.Any(f => f.Check == this && f.Location == cable.Connection.At))
                    {
                        report.Add(this, cable.Connection.At, $"{graph.PortOf(step.Node)} is behind {MostDevices} others on the way from {source.Text}.",
                            related: MidiPaths.Related(walk.HopsTo(step)));
                    }
                }
            }
        }
    }

    /// <summary>
    /// Devices that the message has passed through by a plain thru. A box that filters, merges or drives several outputs sends afresh,
    /// and the count starts anew behind it.
    /// </summary>
    private static int Passed(MidiGraph graph, List<WalkStep> way)
    {
        var count = 0;
        foreach (var step in way.Where(s => !MidiGraph.IsIn(s.Node) && s.Parent >= 0))
        {
            var port = graph.PortOf(step.Node);
            var gear = port.Device.Gear!;
            var outputs = gear.Routes.Count(r => ReferenceEquals(r.From, graph.PortOf(way[way.IndexOf(step) - 1].Node).Port));
            count = outputs > 1 || graph.To(step.Node).Length > 1 || gear.Filters != MessageKinds.None ? 0 : count + 1;
        }
        return count;
    }
}
