using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Power;

public sealed class SupplyMargin : Check
{
    public override string Name => "supply-margin";
    public override Severity Severity => Severity.Hint;
    public override string Title => "A supply with little to spare";
    public override string Why => "Supplies run hot near their rating, and age; many sag before they reach it.";
    public override string Advice => "Leave a fifth of the rating spare: move a load elsewhere, or take the next larger supply of the same voltage.";
    public override string Source => "common practice: 20 to 30 % spare";
    public override string BadExample => """
        gear Brick {
          out out : dc 9 V centre-positive, 300 mA on captive barrel 5.5x2.1 mm
        }
        gear Tern {
          in power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
        }
        device brick : Brick
        device bass  : Tern
        connect brick.out to bass.power
        """;
    public override string GoodExample => BadExample.Replace("300 mA", "500 mA", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var node in rig.Power.Nodes)
        {
            if (node is { IsMains: false, IsUsb: false, IsOver: false, Hookup: { } hookup, Spare: { } spare } && spare < PowerFigures.Spare - 1e-6 && !IsMadeForEachOther(node))
            {
                report.Add(this, hookup.Connection.At,
                    $"{PowerWords.Giver(node)} gives {node.Amount(node.Rating!.Value)}, and {PowerWords.Takers(node)}: {Math.Max(0, Math.Round(spare * 100))} % is spare.");
            }
        }
    }

    /// <summary>One device that takes exactly what its supply gives was sold with it.</summary>
    private static bool IsMadeForEachOther(PowerNode node) => !node.IsPassive && Math.Abs(node.Spare!.Value) < 1e-6;
}
