using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
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
        var chains = ChainsOf(rig.Midi.Graph);
        if (chains.Count == 0)
        {
            return;
        }
        var whole = chains.FindAll(chain => chain.IsWhole);
        var parts = chains.Where(chain => !chain.IsWhole).ToLookup(chain => chain.Before);
        var told = new HashSet<Location>();
        foreach (var source in rig.Midi.Sources)
        {
            foreach (var kind in new[] { MessageKinds.Notes, MessageKinds.Clock })
            {
                // Most rigs have no such chain, and the first message that comes along tells of it: few need following.
                if (whole.Exists(Takes) || (parts.Count > 0 && source.Starts.Any(s => (s.Kinds & kind) != MessageKinds.None && parts[s.Node].Any(Takes))))
                {
                    TellWalk(rig.Midi.Graph, source, MidiPaths.WalkOf(rig, source, kind), told, report);
                }

                bool Takes(Chain chain) =>
                    (rig.Midi.Flow.OfSource(chain.Last, source.Index) & kind) != MessageKinds.None && !told.Contains(chain.At);
            }
        }
    }

    private void TellWalk(MidiGraph graph, MidiSource source, MessageWalk walk, HashSet<Location> told, Report report)
    {
        // Plain thrus in a row before each step; a step comes after the one it is reached from.
        var passed = new int[walk.Steps.Count];
        foreach (var step in walk.Reached.Where(s => s.Parent >= 0))
        {
            var before = passed[step.Parent];
            passed[step.Index] = MidiGraph.IsIn(step.Node) ? before : IsPlainThru(graph, step.Node) ? before + 1 : 0;
            // Told where the chain grows past the limit, not again for each device behind it.
            if (MidiGraph.IsIn(step.Node) && before == MostDevices && step.Cable is { } cable && told.Add(cable.Connection.At))
            {
                report.Add(this, cable.Connection.At, $"{graph.PortOf(step.Node)} is behind {MostDevices} others on the way from {source.Text}.",
                    related: MidiPaths.Related(walk.StepsTo(step)));
            }
        }
    }

    /// <summary>As many plain thrus in a row as are still good, and one more device behind them.</summary>
    /// <param name="Before">The output that feeds the first of them.</param>
    /// <param name="IsWhole">False when that output is a plain thru too: then the chain counts only for what starts there.</param>
    /// <param name="Last">The input behind them.</param>
    /// <param name="At">The cable that comes to it.</param>
    private readonly record struct Chain(int Before, bool IsWhole, int Last, Location At);

    private static List<Chain> ChainsOf(MidiGraph graph)
    {
        var chains = new List<Chain>();
        for (var node = 0; node < graph.NodeCount; node++)
        {
            if (!MidiGraph.IsIn(node))
            {
                continue;
            }
            foreach (var edge in graph.To(node))
            {
                if (edge.Cable is { } cable)
                {
                    Follow(node, cable.Connection.At, edge.From, MostDevices);
                }
            }
        }
        return chains;

        void Follow(int last, Location at, int output, int devices)
        {
            var isPlain = IsPlainThru(graph, output);
            if (devices == 0)
            {
                chains.Add(new Chain(output, !isPlain, last, at));
            }
            else if (isPlain)
            {
                foreach (var edge in graph.To(graph.To(output)[0].From))
                {
                    Follow(last, at, edge.From, devices - 1);
                }
            }
        }
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
        return gear.Filters == MessageKinds.None && gear.Routes.From(input).Count == 1;
    }
}
