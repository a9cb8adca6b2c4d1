using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Audio;

public sealed class OneSideSilent : Check
{
    public override string Name => "one-side-silent";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A stereo input that hears one side only";
    public override string Why => "One ear stays empty, and a recording made this way is half a recording.";
    public override string Advice => "Take a lead that brings a signal to both contacts: a breakout from two outputs, or one that feeds both sides.";
    public override string Source => "plug geometry of IEC 60603-11; common practice";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Recorder {
          in line : audio stereo line on trs 6.35 mm
        }
        device bass : Wren
        device tape : Recorder
        connect bass.line to tape.line with Balanced 1.5 m
        """;
    public override string GoodExample => """
        lead OneToBoth : ts 6.35 mm to trs 6.35 mm {
          tip    to tip
          tip    to ring
          sleeve to sleeve
        }
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Recorder {
          in line : audio stereo line on trs 6.35 mm
        }
        device bass : Wren
        device tape : Recorder
        connect bass.line to tape.line with OneToBoth 1.5 m
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var (left, right, hookup) in AudioWalk.StereoJacks(rig))
        {
            // A channel that the plug shorts is silent too; that is told where the output is.
            if (AudioWalk.IsOneSided(left, right) && !AudioWalk.HasShortedChannel(rig, hookup))
            {
                report.Add(this, hookup.Connection.At,
                    $"{rig.Nets.Jack(left.Seat)} hears nothing on the {(left.IsSilent ? "left" : "right")} with {Wording.LeadOf(hookup)}.");
            }
        }
    }
}
