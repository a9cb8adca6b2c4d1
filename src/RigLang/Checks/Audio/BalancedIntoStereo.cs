using RigLang.Findings;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class BalancedIntoStereo : Check
{
    public override string Name => "balanced-into-stereo";
    public override Severity Severity => Severity.Error;
    public override string Title => "A balanced output into a stereo input";
    public override string Why => "Both sides carry the same signal, one of them upside down: hollow on headphones, and gone when the recording is played in mono.";
    public override string Advice => "Take a lead that uses only the hot contact, into a mono input or both sides of the stereo one.";
    public override string Source => "common practice: a balanced output puts the inverted signal on its cold contact (IEC 60268-3)";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Desk {
          out main : audio mono line balanced on trs 6.35 mm
        }
        gear Camera {
          in mic : audio stereo line on trs 3.5 mm
        }
        device desk   : Desk
        device camera : Camera
        connect desk.main to camera.mic with MiniToJack 1.5 m
        """;
    public override string GoodExample => """
        lead OneToBoth : ts 6.35 mm to trs 3.5 mm {
          tip    to tip
          tip    to ring
          sleeve to sleeve
        }
        gear Desk {
          out main : audio mono line impedance-balanced on trs 6.35 mm
        }
        gear Camera {
          in mic : audio stereo line on trs 3.5 mm
        }
        device desk   : Desk
        device camera : Camera
        connect desk.main to camera.mic with OneToBoth 1.5 m
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var (left, right, hookup) in AudioWalk.StereoJacks(rig))
        {
            var inverted = left.Terms.FirstOrDefault(l => right.Terms.Any(r =>
                r.Seat == l.Seat && r.Channel == l.Channel && Math.Sign(r.Amount) != Math.Sign(l.Amount)));
            if (inverted != default)
            {
                report.Add(this, hookup.Connection.At,
                    $"{rig.Nets.Jack(left.Seat)} hears {rig.Nets.Jack(inverted.Seat)} on both sides, inverted on one of them.");
            }
        }
    }
}
