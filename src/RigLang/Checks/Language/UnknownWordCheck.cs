using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class UnknownWordCheck : FaultCheck<UnknownWord>
{
    public override string Name => "unknown-word";
    public override Severity Severity => Severity.Error;
    public override string Title => "A word that means nothing where it stands";
    public override string Why => "What it should say about the gear is not known, so nothing that depends on it is checked.";
    public override string Advice => "Use one of the words of the language for this place.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          out line : audio mono loud on ts 6.35 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm
        }
        """;

    protected override void Tell(UnknownWord fault, Rig rig, Report report)
    {
        var near = Wording.Nearest(fault.Word, fault.Known);
        report.Add(this, fault.At, $"`{fault.Word}` means nothing for {fault.Where}.",
            advice: near is not null ? $"Did you mean `{near}`?"
                : fault.Known.Count == 0 ? "Take the word away."
                : $"Use one of {Wording.Or(fault.Known, 30)}.",
            fixes: near is null ? null : [Wording.Replace($"Change to {near}", fault.At, near)]);
    }
}
