using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class ColdShorted : Check
{
    public override string Name => "cold-shorted";
    public override Severity Severity => Severity.Warning;
    public override string Title => "The cold half of a balanced output tied to ground";
    public override string Why => "The signal is 6 dB quieter, and one of the two output amplifiers works into a short circuit: it may distort or fail.";
    public override string Advice => "Take a lead that leaves the cold contact open, or go into a balanced input. If the manual says impedance-balanced or transformer-balanced, declare it so: those do not mind.";
    public override string Source => "common practice";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Wren {
          out line : audio mono line balanced on trs 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device bass : Wren
        device desk : Desk
        connect bass.line to desk.ch1 with Patch 1.5 m
        """;
    public override string GoodExample => BadExample.Replace("with Patch", "with Unbalancing", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var told = new HashSet<Hookup>();
        var oneSided = new HashSet<Hookup>();
        foreach (var (left, right, hookup) in AudioWalk.StereoJacks(rig))
        {
            if (AudioWalk.IsOneSided(left, right))
            {
                oneSided.Add(hookup);
            }
        }
        foreach (var (contact, seat, hookup) in AudioWalk.PluggedOutputs(rig, Role.Cold))
        {
            if (rig.Nets.Jack(seat).Jack.Port.Signal!.Balance == Balance.Balanced && rig.Nets.IsGrounded(contact)
                && !AudioWalk.HasShortedChannel(rig, hookup) && !oneSided.Contains(hookup) && told.Add(hookup))
            {
                report.Add(this, hookup.Connection.At,
                    $"{Prose.Capital(Wording.LeadOf(hookup))} ties the cold contact of {rig.Nets.Jack(seat)} to ground: the signal arrives 6 dB quieter.");
            }
        }
    }
}
