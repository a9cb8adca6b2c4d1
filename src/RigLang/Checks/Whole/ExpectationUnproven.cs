using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Whole;

public sealed class ExpectationUnproven : Check
{
    public override string Name => "expectation-unproven";
    public override Severity Severity => Severity.Warning;
    public override string Title => "An expectation that can be neither proved nor denied";
    public override string Why => "Something on the way is not said, so nobody knows whether the promise holds.";
    public override string Advice => "Say it: set the channel of the track and of the part, as in `voice on channel 2`.";
    public override string Source => "the rig's own expectations";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
        }
        device seq  : Rook
        device bass : Tern {
          voice on channel 2
        }
        connect seq.midi to bass.midi
        must notes from seq.a reach bass
        """;
    public override string GoodExample => BadExample.Replace("device seq  : Rook", """
        device seq  : Rook {
          a on channel 2
        }
        """, StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var outcome in rig.Outcomes.Where(o => o.Verdict == Verdict.Unproven && rig.Midi.AutoConflicts.Count == 0))
        {
            // What is not said stands most likely in the line that could not be read.
            if (rig.Names.NamesInBrokenLines.Contains(outcome.Target.Device.Name) || rig.Names.NamesInBrokenLines.Contains(outcome.Expectation.From.Device.Name))
            {
                continue;
            }
            report.Add(this, outcome.Target.At, $"{outcome.Expectation.What} from {outcome.Expectation.From.Text} come by {outcome.Target.Text}, but {outcome.Stopped}.",
                related: Wording.Places(outcome.Hops));
        }
    }
}
