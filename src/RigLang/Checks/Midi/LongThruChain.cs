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
        // Most rigs have no such chain, whatever is sent along it: then no message needs following.
        if (!Enumerable.Range(0, graph.NodeCount).Any(node => MidiGraph.IsIn(node) && EndsChain(graph, node, MostDevices)))
        {
            return;
        }
        foreach (var source in rig.Midi.Sources)
        {
            foreach (var kind in new[] { MessageKinds.Notes, MessageKinds.Clock })
            {
                TellWalk(graph, source, MidiPaths.WalkOf(rig, source, kind), report);
            }
        }
    }

    private void TellWalk(MidiGraph graph, MidiSource source, MessageWalk walk, Report report)
    {
        // Plain thrus in a row before each step; a step comes after the one it is reached from.
        var passed = new int[walk.Steps.Count];
        foreach (var step in walk.Reached.Where(s => s.Parent >= 0))
        {
            var before = passed[step.Parent];
            passed[step.Index] = MidiGraph.IsIn(step.Node) ? before : IsPlainThru(graph, step.Node) ? before + 1 : 0;
            // Told where the chain grows past the limit, not again for each device behind it.
            if (MidiGraph.IsIn(step.Node) && before == MostDevices && step.Cable is { } cable && !report.Findings.Any(f => f.Check == this && f.Location == cable.Connection.At))
            {
                report.Add(this, cable.Connection.At, $"{graph.PortOf(step.Node)} is behind {MostDevices} others on the way from {source.Text}.",
                    related: MidiPaths.Related(walk.HopsTo(step)));
            }
        }
    }

    /// <summary>True when a cable comes here from a row of that many devices, each a plain thru.</summary>
    private static bool EndsChain(MidiGraph graph, int input, int devices)
    {
        if (devices == 0)
        {
            return true;
        }
        foreach (var cable in graph.To(input))
        {
            if (IsPlainThru(graph, cable.From) && EndsChain(graph, graph.To(cable.From)[0].From, devices - 1))
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>
    /// True for an output that passes on one input and nothing else. A box that filters, merges or drives several outputs sends afresh,
    /// and the count starts anew behind it.
    /// </summary>
    private static bool IsPlainThru(MidiGraph graph, int output)
    {
        if (graph.To(output) is not [var route])
        {
            return false;
        }
        var gear = graph.PortOf(output).Device.Gear!;
        var input = graph.PortOf(route.From).Port;
        return gear.Filters == MessageKinds.None && gear.Routes.Count(r => ReferenceEquals(r.From, input)) == 1;
    }
}
