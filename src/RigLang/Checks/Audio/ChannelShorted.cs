using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class ChannelShorted : Check
{
    public override string Name => "channel-shorted";
    public override Severity Severity => Severity.Error;
    public override string Title => "An output tied to ground by the plug";
    public override string Why => "That channel is lost, and its output works into a short circuit: distortion at best.";
    public override string Advice => "Take a lead whose plug has a ring of its own for this channel, such as a breakout with two mono plugs.";
    public override string Source => "plug geometry of IEC 60603-11; common practice";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Pad {
          out phones : audio stereo headphone on trs 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device pad  : Pad
        device desk : Desk
        connect pad.phones to desk.ch1 with Patch 1.5 m
        """;
    public override string GoodExample => """
        import "shared/leads.rig"
        gear Pad {
          out phones : audio stereo headphone on trs 6.35 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
        }
        device pad  : Pad
        device desk : Desk
        connect pad.phones to desk.ch1, desk.ch2 with BreakoutJack 1.5 m
        """;

    public override void Run(Rig rig, Report report)
    {
        var told = new HashSet<Hookup>();
        foreach (var (contact, _, hookup) in AudioWalk.PluggedOutputs(rig, Role.Hot))
        {
            if (rig.Nets.IsGrounded(contact) && told.Add(hookup))
            {
                var lost = AudioWalk.ChannelName(rig.Nets, contact);
                report.Add(this, hookup.Connection.At, $"{Prose.Capital(lost)} is lost: {Wording.LeadOf(hookup)} ties it to ground.");
            }
        }
    }
}
