using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class FeedbackLoop : Check
{
    public override string Name => "feedback-loop";
    public override Severity Severity => Severity.Error;
    public override string Title => "A loop through which messages run round and round";
    public override string Why => "The first note or clock comes back to where it was, again and again: stuck notes, a frozen synthesizer, a tempo that runs away.";
    public override string Advice => "Unplug one cable of the loop, switch off one thru (`out thru off`), or filter what runs round.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Echo {
          in  in  : midi on din-5
          out out : midi on din-5
          route in to out
        }
        device left  : Echo
        device right : Echo
        connect left.out  to right.in
        connect right.out to left.in
        """;
    public override string GoodExample => """
        gear Echo {
          in  in  : midi on din-5
          out out : midi on din-5
          route in to out
        }
        device left  : Echo
        device right : Echo
        connect left.out to right.in
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var loop in MidiLoops.Of(rig.Midi.Graph))
        {
            var cables = loop.Edges.Where(e => e.Cable is not null).ToList();
            if (cables.Count == 0)
            {
                continue;
            }
            var graph = rig.Midi.Graph;
            // The last cable by place is the one that closed the loop as the player wrote it.
            var closing = cables.MaxBy(e => e.Cable!.Connection.At.Span.Start);
            var ports = loop.Edges.Select(e => graph.PortOf(e.From).ToString()).ToList();
            report.Add(this, closing.Cable!.Connection.At, $"{MessageKindNames.Describe(loop.Kinds)} can run round: {Prose.Round(ports)}.",
                related: cables.Select(e => new RelatedPlace(e.Cable!.Connection.At, $"{graph.PortOf(e.From)} to {graph.PortOf(e.To)}")));
        }
    }
}
