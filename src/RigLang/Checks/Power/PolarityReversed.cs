using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class PolarityReversed : Check
{
    public override string Name => "polarity-reversed";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.Gear;
    public override string Title => "A supply connected with plus and minus swapped";
    public override string Why => "Reversed polarity can destroy the device in the moment the plug goes in.";
    public override string Advice => "Take a supply with the polarity printed at the jack, or a polarity-reversing lead.";
    public override string Source => "IEC 60417-5926 for the symbol; common practice";
    public override string BadExample => """
        gear Brick {
          out out : dc 9 V centre-negative, 500 mA on captive barrel 5.5x2.1 mm
        }
        gear Tern {
          in power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
        }
        device brick : Brick
        device bass  : Tern
        connect brick.out to bass.power
        """;
    public override string GoodExample => BadExample.Replace("centre-negative", "centre-positive", StringComparison.Ordinal);

    /// <summary>Where the reversed load also shorts the supply, `mixed-polarity` tells it.</summary>
    public override void Run(Rig rig, Report report)
    {
        foreach (var (loads, supply, hookup) in PowerWalk.ByCause(rig, Reversed(rig)))
        {
            report.Add(this, hookup.Connection.At, $"{supply} puts its minus on the plus of {Wording.And(loads.Select(l => l.ToString()))}{Words(supply, loads[0])}.",
                related: [.. loads.Prepend(supply).Select(jack => Wording.Also(jack.Jack.Port.At, $"{jack} is declared here"))],
                fixes: plan => PowerWalk.RightSupply(plan, loads, supply, hookup));
        }
    }

    private static IEnumerable<(JackRef Load, JackRef Supply, Hookup Hookup)> Reversed(Rig rig)
    {
        foreach (var (load, plus, hookup) in PowerWalk.Loads(rig, Role.Plus))
        {
            if (load.Jack.Port.Signal is { Polarity: not Polarity.Either } && PowerWalk.ReversedSupply(rig, load, plus) is { } supply && MixedPolarity.ShortOf(rig, load) is null)
            {
                yield return (load, supply, hookup);
            }
        }
    }

    /// <summary>": centre-negative into centre-positive"; nothing where the two do not say.</summary>
    internal static string Words(JackRef supply, JackRef load) =>
        (supply.Jack.Port.Signal?.Polarity, load.Jack.Port.Signal?.Polarity) switch
        {
            (Polarity.CentreNegative, Polarity.CentrePositive) => ": centre-negative into centre-positive",
            (Polarity.CentrePositive, Polarity.CentreNegative) => ": centre-positive into centre-negative",
            _ => "",
        };
}
