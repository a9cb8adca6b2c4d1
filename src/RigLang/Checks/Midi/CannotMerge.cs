using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Midi;

public sealed class CannotMerge : Check
{
    public override string Name => "cannot-merge";
    public override Severity Severity => Severity.Error;
    public override string Title => "Two inputs in use where the box takes one at a time";
    public override string Why => "What comes in at the input that is not selected is lost.";
    public override string Advice => "Take a box that merges, or use one input only.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Choice {
          in  in1, in2 : midi on din-5
          out out      : midi on din-5
          switch in1, in2 to out
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook
        device keys : Rook
        device box  : Choice
        device bass : Tern
        connect seq.midi  to box.in1
        connect keys.midi to box.in2
        connect box.out   to bass.midi
        """;
    public override string GoodExample => BadExample.Replace("switch in1, in2 to out", "route in1, in2 to out", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var graph = rig.Midi.Graph;
        for (var node = 0; node < graph.NodeCount; node++)
        {
            if (graph.To(node) is not { Length: > 1 } edges || !edges[0].IsSwitched)
            {
                continue;
            }
            var used = new List<MidiEdge>();
            foreach (var edge in edges)
            {
                if (rig.Midi.Flow.RowAt(edge.From).ContainsAnyExcept((ushort)0))
                {
                    used.Add(edge);
                }
            }
            if (used.Count > 1)
            {
                var cables = used.Select(e => graph.To(e.From)[0].Cable!.Connection.At).OrderBy(at => at.Span.Start).ToList();
                report.Add(this, cables[^1], $"{Wording.And(used.Select(e => graph.PortOf(e.From).ToString()))} both get messages, and {graph.PortOf(node).Device.Name} passes one of them at a time.",
                    related: cables.SkipLast(1).Select(at => Wording.Also(at, "the other input in use")));
            }
        }
    }
}
