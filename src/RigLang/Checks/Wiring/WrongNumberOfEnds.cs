using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Wiring;

public sealed class WrongNumberOfEnds : Check
{
    public override string Name => "wrong-number-of-ends";
    public override Severity Severity => Severity.Error;
    public override string Title => "More plugs than jacks, or fewer";
    public override string Why => "A plug is left hanging, or a jack stays empty and half of a stereo pair is missing.";
    public override string Advice => "Name as many jacks as the lead has plugs: desk.ch34 is a pair, desk.ch34.left is one jack.";
    public override string Source => "common practice";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Pad {
          out phones : audio stereo headphone on trs 3.5 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
          in ch2 : audio mono line on ts 6.35 mm
        }
        device pad  : Pad
        device desk : Desk
        connect pad.phones to desk.ch1 with Breakout 1.5 m
        """;
    public override string GoodExample => BadExample.Replace("to desk.ch1 with", "to desk.ch1, desk.ch2 with", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups)
        {
            if (hookup.Harness is not { Fault: HarnessFault.EndCount, Count: { } count })
            {
                continue;
            }
            var connection = hookup.Connection;
            var (from, to) = (connection.FromJacks.Count(), connection.ToJacks.Count());
            report.Add(this, connection.At,
                $"{Prose.Capital(Wording.LeadOf(hookup))} offers {Wording.Count(count.Plugs, "plug")} where there {(count.Jacks == 1 ? "is" : "are")} {Wording.Count(count.Jacks, "jack")}.",
                advice: from == to ? null : $"This line names {Wording.Count(from, "jack")} before `to` and {Wording.Count(to, "jack")} after it. Name as many as the lead has plugs; .left or .right picks one of a pair.");
        }
    }
}
