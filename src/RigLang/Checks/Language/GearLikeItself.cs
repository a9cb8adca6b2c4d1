using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Checks.Language;

public sealed class GearLikeItself : FaultCheck<LikeItself>
{
    public override string Name => "gear-like-itself";
    public override Severity Severity => Severity.Error;
    public override string Title => "Gear that is like itself, directly or by way of others";
    public override string Why => "Each waits for the other to say what it is: nothing is known of any of them.";
    public override string Advice => "Write one of them out in full, without `like`.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern like TernTwo {
          battery 4 h
        }
        gear TernTwo like Tern {
          battery 5 h
        }
        """;
    public override string GoodExample => """
        gear Tern {
          out line : audio mono line on ts 6.35 mm
          battery 4 h
        }
        gear TernTwo like Tern {
          battery 5 h
        }
        """;

    protected override void Tell(LikeItself fault, Rig rig, Report report) => report.Add(this, fault.At,
        fault.Circle.Count == 1
            ? $"{fault.Circle[0]} is like itself."
            : $"{Prose.Round(fault.Circle, " is like ")}: a circle.");
}
