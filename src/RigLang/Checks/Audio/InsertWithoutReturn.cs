using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Audio;

public sealed class InsertWithoutReturn : Check
{
    public override string Name => "insert-without-return";
    public override Severity Severity => Severity.Error;
    public override string Title => "An insert whose return gets nothing";
    public override string Why => "A plug in the insert breaks the channel's path; with nothing on the return, the channel is silent.";
    public override string Advice => "Take an insert lead: one plug to the insert, send and return to the effect's input and output.";
    public override string Source => "common practice: tip sends, ring returns";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Desk {
          out ins1 : insert on trs 6.35 mm
        }
        gear Press {
          in  in  : audio mono line balanced on trs 6.35 mm
          out out : audio mono line on ts 6.35 mm
          route in to out
        }
        device desk : Desk
        device comp : Press
        connect desk.ins1 to comp.in with Balanced 1 m
        """;
    public override string GoodExample => """
        import "shared/leads.rig"
        gear Desk {
          out ins1 : insert on trs 6.35 mm
        }
        gear Press {
          in  in  : audio mono line balanced on trs 6.35 mm
          out out : audio mono line on ts 6.35 mm
          route in to out
        }
        device desk : Desk
        device comp : Press
        connect desk.ins1 to comp.in, comp.out with InsertY 1 m
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var arrival in rig.Links.Arrivals)
        {
            var jack = rig.Nets.Jack(arrival.Seat);
            if (jack.Jack.Port.Signal is { Kind: SignalKind.Insert } && arrival.IsSilent && rig.Wiring.Plugged[arrival.Seat] is { IsSound: true } hookup)
            {
                report.Add(this, hookup.Connection.At, $"Nothing comes back to {jack}: its channel falls silent as soon as the plug is in.");
            }
        }
    }
}
