using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;

namespace RigLang.Checks.Language;

public sealed class UnbalancedBlock : FaultCheck<BadSyntax>
{
    public override string Name => "unbalanced-block";
    public override Severity Severity => Severity.Error;
    public override string Title => "A brace without its partner";
    public override string Why => "Braces say which lines belong to which device; without the pair, lines may count for the wrong one.";
    public override string Advice => "Give each { its } on a line of its own, after the last line that belongs to it.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm

        gear Weir {
          in in : midi on din-5
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm
        }

        gear Weir {
          in in : midi on din-5
        }
        """;

    protected override void Tell(BadSyntax fault, Rig rig, Report report)
    {
        switch (fault.Fault.Outline)
        {
            case OutlineFault.Unclosed:
                report.Add(this, fault.At, "This block is never closed.", advice: "Put a } on a line of its own after its last line.");
                break;
            case OutlineFault.StrayClose:
                report.Add(this, fault.At, "This } closes nothing.", advice: "Take it away, or put the missing { above.");
                break;
            case OutlineFault.NestedBlock:
                report.Add(this, fault.At, "A block inside a block: the language has only one level.",
                    advice: "Close the outer block first, or take this pair of braces away.");
                break;
            case OutlineFault.BareBlock:
                report.Add(this, fault.At, "This { has no statement in front of it.",
                    advice: "Start the line with what the block describes, such as `device bass : Tern {`.");
                break;
        }
    }
}
