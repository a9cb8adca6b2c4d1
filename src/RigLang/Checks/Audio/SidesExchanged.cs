using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Audio;

public sealed class SidesExchanged : Check
{
    public override string Name => "sides-exchanged";
    public override Severity Severity => Severity.Warning;
    public override string Title => "Left and right exchanged";
    public override string Why => "The drums turn round, what moves on stage moves the other way in the recording, and two recordings of one evening do not match.";
    public override string Advice => "Exchange the two plugs.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Drums {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Recorder {
          in line : audio stereo line on 2 ts 6.35 mm
        }
        device drums : Drums
        device tape  : Recorder
        connect drums.main.left  to tape.line.right with 2 m
        connect drums.main.right to tape.line.left  with 2 m
        """;
    public override string GoodExample => BadExample.Replace("main.left ", "main.x ", StringComparison.Ordinal).Replace("main.right", "main.left", StringComparison.Ordinal)
        .Replace("main.x ", "main.right ", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var (step, shares) in ShapeChanges.Of(rig, share => share.Shape == AudioShape.Swapped))
        {
            report.Add(this, step.At, $"Left and right of {ShapeChanges.Sources(shares)} are exchanged from {step.Port} on: left is on the right at {ShapeChanges.Ends(shares)}.",
                missing: new ShapeChanged(step),
                about: [new Subject(step.Port.Device, step.Port.Port)]);
        }
    }
}
