using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Audio;

public sealed class SidesCancel : Check
{
    public override string Name => "sides-cancel";
    public override Severity Severity => Severity.Warning;
    public override string Title => "One side inverted: what is in the middle cancels";
    public override string Why => "Voice, bass and bass drum are in the middle. With one side inverted they grow thin and hollow, and vanish wherever the two sides are summed: on a telephone, in a mono loudspeaker.";
    public override string Advice => "Take straight leads on both sides, or the same on both.";
    public override string Source => "signal algebra: L + R with R = -L is nothing; common practice";
    public override string BadExample => """
        lead Straight : xlr-3 to xlr-3
        lead Reversed : xlr-3 to xlr-3 {
          1 to 1
          2 to 3
          3 to 2
        }
        gear Drums {
          out main : audio stereo line balanced on 2 xlr-3
        }
        gear Recorder {
          in line : audio stereo line balanced on 2 xlr-3
        }
        device drums : Drums
        device tape  : Recorder
        connect drums.main.left  to tape.line.left  with Straight 2 m
        connect drums.main.right to tape.line.right with Reversed 2 m
        """;
    public override string GoodExample => BadExample.Replace("with Reversed", "with Straight", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var (step, shares) in ShapeChanges.Of(rig, share => share.Shape is AudioShape.OneSideInverted or AudioShape.OutOfPhase or AudioShape.Difference))
        {
            // What one plug does to the two contacts of one jack, the plug tells.
            if (step is WayStep.Cable && (shares[0].Shape == AudioShape.Difference || (shares[0].Shape == AudioShape.OutOfPhase && step.Port.Port.Jacks.Count == 1)))
            {
                continue;
            }
            var what = shares[0].Shape == AudioShape.Difference ? "only the difference of left and right is left of" : "one side is inverted of";
            report.Add(this, step.At, $"From {step.Port} on {what} {ShapeChanges.Sources(shares)}: what is in the middle cancels at {ShapeChanges.Ends(shares)}.",
                missing: new ShapeChanged(step),
                about: [new Subject(step.Port.Device, step.Port.Port)]);
        }
    }
}
