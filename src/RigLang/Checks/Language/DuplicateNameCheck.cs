using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class DuplicateNameCheck : FaultCheck<DuplicateName>
{
    public override string Name => "duplicate-name";
    public override Severity Severity => Severity.Error;
    public override string Title => "Two things with one name";
    public override string Why => "A line that uses the name cannot say which of the two it means; the first is taken.";
    public override string Advice => "Give one of them another name, or delete it if it is the same thing twice.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm
          out line : midi on din-5
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm
          out midi : midi on din-5
        }
        """;

    protected override void Tell(DuplicateName fault, Rig rig, Report report) =>
        report.Add(this, fault.At, $"There is already a {fault.Kind} called `{fault.Name}`.",
            related: [Wording.Also(fault.First, $"the first `{fault.Name}`")]);
}
