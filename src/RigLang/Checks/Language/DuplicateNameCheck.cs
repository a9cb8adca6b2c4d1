using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class DuplicateNameCheck : Check
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

    public override void Run(Rig rig, Report report)
    {
        foreach (var fault in rig.Names.Faults)
        {
            switch (fault)
            {
                case DuplicateName twice:
                    report.Add(this, twice.At, $"There is already a {twice.Kind} called `{twice.Name}`.",
                        related: [Wording.Also(twice.First, $"the first `{twice.Name}`")]);
                    break;
                case NameClash clash:
                    TellClash(clash, report);
                    break;
            }
        }
    }

    private void TellClash(NameClash clash, Report report)
    {
        var file = clash.Other.Source.Path;
        report.Add(this, clash.At, $"Two imports bring a {clash.Kind} called `{clash.Name}`, and they differ: {Place(clash.One)} and {Place(clash.Other)}.",
            why: "Nothing says which of the two this rig means, so nothing is checked about it.",
            advice: $"Rename one of the two, or import one file under a name of its own, such as import \"{file}\" as other, "
                + $"and write other.{clash.Name} where you mean that one.",
            related: [Wording.Also(clash.One, $"one `{clash.Name}`"), Wording.Also(clash.Other, $"the other `{clash.Name}`")]);
    }

    private static string Place(Text.Location at) => $"{at.Source.Path} line {at.Source.PositionOf(at.Span.Start).Line + 1}";
}
