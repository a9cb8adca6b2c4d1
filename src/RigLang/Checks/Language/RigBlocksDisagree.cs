using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class RigBlocksDisagree : FaultCheck<RigDisagreement>
{
    public override string Name => "rig-blocks-disagree";
    public override Severity Severity => Severity.Error;
    public override string Title => "Two rig blocks that say different things";
    public override string Why => "A stage has one mains. Every check of mains runs against one of the two figures, and may clear gear that the other destroys.";
    public override string Advice => "Keep the figure of the place you play at, and delete the other.";
    public override string Source => "the language";
    public override string BadExample => """
        rig "Harbour hall" {
          mains 230 V 50 Hz
        }
        rig {
          mains 120 V 50 Hz
        }
        """;
    public override string GoodExample => """
        rig "Harbour hall" {
          mains 230 V 50 Hz
        }
        rig {
          tempo 112 bpm
        }
        """;

    protected override void Tell(RigDisagreement fault, Rig rig, Report report)
    {
        var what = $"`{fault.What}` is {fault.Text} here and {fault.FirstText} in another rig block; {fault.FirstText} is taken.";
        var related = new[] { Wording.Also(fault.First, "what is taken") };
        if (fault.IsMains)
        {
            report.Add(this, fault.At, what, related: related);
            return;
        }
        report.Add(this, fault.At, what,
            why: fault.What == "tempo"
                ? "Delays and the load of MIDI cables are worked out at one tempo; at the other they may be late."
                : "Whether the batteries last is worked out for one length; a longer set may end without sound.",
            advice: "Keep the figure of this set, and delete the other.", related: related, severity: Severity.Warning);
    }
}
