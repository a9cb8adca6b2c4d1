using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Checks.Language;

public sealed class IncompleteDeclarationCheck : FaultCheck<IncompleteDeclaration>
{
    public override string Name => "incomplete-declaration";
    public override Severity Severity => Severity.Error;
    public override string Title => "Something that has to be said is missing";
    public override string Why => "Without it nobody can tell whether a plug, a supply or a signal suits this gear.";
    public override string Advice => "Add it to the line.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          in power : dc 9 V, 250 mA on barrel 5.5x2.1 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          in power : dc 9 V centre-negative, 250 mA on barrel 5.5x2.1 mm
        }
        """;

    protected override void Tell(IncompleteDeclaration fault, Rig rig, Report report) =>
        report.Add(this, fault.At, $"{Prose.Capital(fault.What)} does not say {fault.Missing}.");
}
