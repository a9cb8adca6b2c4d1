using RigLang.Checks.Audio;
using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Checks.Wiring;

public sealed class OutputShorted : Check
{
    public override string Name => "output-shorted";
    public override Severity Severity => Severity.Error;
    public override string Title => "A pulse or control output that the lead ties to ground";
    public override string Why => "Nothing arrives: no clock, no gate, no pitch. The output drives a short as long as the plug is in.";
    public override string Advice => "Take a straight lead with the same plugs at both ends: tip to tip, sleeve to sleeve.";
    public override string Source => "plug geometry of IEC 60603-11; common practice: pulses and control voltages are on the tip";
    public override string BadExample => """
        lead Crossed : trs 3.5 mm to trs 3.5 mm {
          tip    to ring
          ring   to tip
          sleeve to sleeve
        }
        gear Rook {
          out sync : pulse 2 ppqn 5 V on ts 3.5 mm
        }
        gear Drum {
          in sync : pulse 2 ppqn 5 V on ts 3.5 mm
        }
        device seq   : Rook
        device drums : Drum
        connect seq.sync to drums.sync with Crossed 1 m
        """;
    public override string GoodExample => """
        lead MiniMono : ts 3.5 mm to ts 3.5 mm
        gear Rook {
          out sync : pulse 2 ppqn 5 V on ts 3.5 mm
        }
        gear Drum {
          in sync : pulse 2 ppqn 5 V on ts 3.5 mm
        }
        device seq   : Rook
        device drums : Drum
        connect seq.sync to drums.sync with MiniMono 1 m
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var role in (ReadOnlySpan<Role>)[Role.Pulse, Role.Control])
        {
            foreach (var (contact, seat, hookup) in AudioWalk.PluggedOutputs(rig, role))
            {
                // A foot switch is a contact to ground, and so is a trigger that is inverted: that is how they work.
                if (rig.Nets.IsGrounded(contact) && rig.Nets.Jack(seat).Jack.Port.Signal is not { Kind: SignalKind.Control, Control: ControlKind.Switch } and not { Inverted: true })
                {
                    report.Add(this, hookup.Connection.At, $"{Prose.Capital(Wording.LeadOf(hookup))} ties {rig.Nets.Jack(seat)} to ground.");
                }
            }
        }
    }
}
