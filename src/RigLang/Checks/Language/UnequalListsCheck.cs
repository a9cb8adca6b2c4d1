using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Language;

public sealed class UnequalListsCheck : FaultCheck<UnequalLists>
{
    public override string Name => "unequal-lists";
    public override Severity Severity => Severity.Error;
    public override string Title => "Two lists that go together one by one and differ in length";
    public override string Why => "Somebody at the end of the longer list is left without a partner.";
    public override string Advice => "Make both lists equally long, or write the odd one on a line of its own.";
    public override string Source => "the language";
    public override string BadExample => """
        gear Multicore {
          in  in1..in4     : audio mono line on trs 6.35 mm
          out core1..core3 : audio mono line on trs 6.35 mm
          join in1..in4 to core1..core3 in pairs
        }
        """;
    public override string GoodExample => """
        gear Multicore {
          in  in1..in4     : audio mono line on trs 6.35 mm
          out core1..core4 : audio mono line on trs 6.35 mm
          join in1..in4 to core1..core4 in pairs
        }
        """;

    protected override void Tell(UnequalLists fault, Rig rig, Report report) => report.Add(this, fault.At,
        $"`{fault.One}` is {fault.OneCount}, `{fault.Other}` is {fault.OtherCount}: they cannot go together {fault.How}.");
}
