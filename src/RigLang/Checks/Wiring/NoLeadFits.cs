using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Checks.Wiring;

public sealed class NoLeadFits : Check
{
    public override string Name => "no-lead-fits";
    public override Severity Severity => Severity.Error;
    public override string Title => "No lead in the box fits both ends";
    public override string Why => "Nothing that is declared here or in the library can be plugged into these jacks.";
    public override string Advice => "Name other jacks, or declare the lead you have with a `lead` statement.";
    public override string Source => "the leads of the rig and of the library";
    public override string BadExample => """
        gear Wren {
          out line : audio mono line on ts 2.5 mm
        }
        gear Desk {
          in ch1 : audio mono line on xlr-3
        }
        device bass : Wren
        device desk : Desk
        connect bass.line to desk.ch1
        """;
    public override string GoodExample => """
        lead Odd : ts 2.5 mm to xlr-3 {
          tip    to 2
          sleeve to 1, 3
        }
        gear Wren {
          out line : audio mono line on ts 2.5 mm
        }
        gear Desk {
          in ch1 : audio mono line on xlr-3
        }
        device bass : Wren
        device desk : Desk
        connect bass.line to desk.ch1
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsLeadMissing))
        {
            var connection = hookup.Connection;
            var from = Prose.InOrder(connection.FromJacks.Select(j => $"{j} ({j.Jack.Form})"), most: Wording.MostEnds);
            var to = Prose.InOrder(connection.ToJacks.Select(j => $"{j} ({j.Jack.Form})"), most: Wording.MostEnds);
            report.Add(this, connection.At, $"No lead goes from {from} to {to}.");
        }
    }
}
