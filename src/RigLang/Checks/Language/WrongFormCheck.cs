using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class WrongFormCheck : FaultCheck<WrongForm>
{
    public override string Name => "wrong-form";
    public override Severity Severity => Severity.Error;
    public override string Title => "Something that the language says otherwise";
    public override string Why => "The line could be meant in more than one way, so it is not taken.";
    public override string Advice => "Write it in one of the forms that the finding names; the quick fixes do so.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          out line : audio stereo line on jack 6.35 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio stereo line on trs 6.35 mm
        }
        """;

    protected override void Tell(WrongForm fault, Rig rig, Report report) => report.Add(this, fault.At, fault.What, advice: fault.Do,
        // One way is certain; of several the player chooses, so that none of them is safe to take unasked.
        fixes: fault.Rewrites.Select(r => new Fix(r.Title, fault.Rewrites.Count == 1, [new TextEdit(fault.At.Source, r.Span, r.Text)])));
}
