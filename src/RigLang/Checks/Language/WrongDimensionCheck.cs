using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Language;

public sealed class WrongDimensionCheck : FaultCheck<WrongDimension>
{
    public override string Name => "wrong-dimension";
    public override Severity Severity => Severity.Error;
    public override string Title => "A figure of the wrong kind";
    public override string Why => "A voltage is not a current and a length is not a time: the figure cannot be what this place asks for.";
    public override string Advice => "Look at the label again and write the figure with its own unit.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Tern {
          in power : dc 9 V centre-negative, 250 mV on barrel 5.5x2.1 mm
        }
        """;
    public override string GoodExample => """
        gear Tern {
          in power : dc 9 V centre-negative, 250 mA on barrel 5.5x2.1 mm
        }
        """;

    protected override void Tell(WrongDimension fault, Rig rig, Report report)
    {
        var wanted = fault.Wanted.Count == 0
            ? "no figure at all"
            : Wording.Or(fault.Wanted.Select(d => $"{Units.Describe(d)} ({string.Join(", ", Units.Of(d).Take(2))})"));
        report.Add(this, fault.At, $"`{fault.Text}` is {Units.Describe(fault.Found)}; what belongs here is {wanted}.");
    }
}
