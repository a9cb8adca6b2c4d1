using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class StereoIntoBalanced : Check
{
    public override string Name => "stereo-into-balanced";
    public override Severity Severity => Severity.Error;
    public override string Title => "A stereo output into one balanced input";
    public override string Why => "The input takes the difference of left and right: everything in the middle of the stereo picture (bass, kick, voice) cancels.";
    public override string Advice => "Take a breakout lead to two inputs, or to a stereo channel.";
    public override string Source => "common practice: a balanced input takes the difference of its two contacts (IEC 60268-3)";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Pad {
          out phones : audio stereo headphone on trs 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line balanced on trs 6.35 mm
        }
        device pad  : Pad
        device desk : Desk
        connect pad.phones to desk.ch1 with Balanced 1.5 m
        """;
    public override string GoodExample => """
        import "shared/leads.rig"
        gear Pad {
          out phones : audio stereo headphone on trs 6.35 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line balanced on trs 6.35 mm
        }
        device pad  : Pad
        device desk : Desk
        connect pad.phones to desk.ch1, desk.ch2 with BreakoutJack 1.5 m
        """;

    public override void Run(Rig rig, Report report)
    {
        var told = new HashSet<Hookup>();
        foreach (var arrival in rig.Links.Arrivals)
        {
            var opposed = arrival.Terms.FirstOrDefault(t => t.Channel == AudioChannel.Left && arrival.Terms.Any(o =>
                o.Seat == t.Seat && o.Channel == AudioChannel.Right && Math.Sign(o.Amount) != Math.Sign(t.Amount)));
            if (opposed != default && rig.Wiring.Plugged[arrival.Seat] is { } hookup && told.Add(hookup))
            {
                report.Add(this, hookup.Connection.At,
                    $"{rig.Nets.Jack(arrival.Seat)} hears left minus right of {rig.Nets.Jack(opposed.Seat)}: what is the same on both sides cancels to silence.");
            }
        }
    }
}
