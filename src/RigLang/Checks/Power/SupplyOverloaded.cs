using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class SupplyOverloaded : Check
{
    public override string Name => "supply-overloaded";
    public override Severity Severity => Severity.Error;
    public override string Title => "A supply that has to give more than it can";
    public override string Why => "It may start up and then sag or switch off in the middle of the set, when everything plays at once.";
    public override string Advice => "Move a load to another outlet or supply, or take a supply with a higher rating of the same voltage.";
    public override string Source => "common practice: the rating must be at least the sum of what the loads declare; USB 2.0, 7.2.1.1 for hubs fed by the bus";
    public override string BadExample => """
        gear Brick {
          out out : dc 9 V centre-positive, 1 A on captive barrel 5.5x2.1 mm
        }
        gear Split {
          in  in         : dc on barrel 5.5x2.1 mm
          out out1, out2 : dc on captive barrel 5.5x2.1 mm
          join in to out1, out2
        }
        gear Tern {
          in power : dc 9 V centre-positive, 540 mA on barrel 5.5x2.1 mm
        }
        device brick : Brick
        device split : Split
        device bass  : Tern
        device lead  : Tern
        connect brick.out  to split.in
        connect split.out1 to bass.power
        connect split.out2 to lead.power
        """;
    public override string GoodExample => BadExample.Replace("540 mA", "300 mA", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var node in rig.Power.Nodes)
        {
            if (node is { IsOver: true, IsUsb: false, Hookup: { } hookup })
            {
                report.Add(this, hookup.Connection.At,
                    $"{PowerWords.Giver(node)} {(node.IsMains ? "carries" : "gives")} {node.Amount(node.Rating!.Value)}, but {PowerWords.Takers(node)}: {node.Amount(node.Takes.Value - node.Rating.Value)} too much.",
                    advice: Needed(node),
                    related: PowerWords.Places(node),
                    fixes: plan => Stronger(plan, node, hookup));
            }
            if (node.Hookup is { } feed && TooMuchInAll(node) is { } words)
            {
                report.Add(this, feed.Connection.At, words);
            }
        }
    }

    /// <summary>What to take instead, in figures; null where the general advice says all.</summary>
    private static string? Needed(PowerNode node) => node is { IsMains: false, Source.Port.Signal: { Kind: SignalKind.Dc, Volts: { } volts } given }
        ? $"Take a supply of {volts} {(given.Polarity == Polarity.CentreNegative ? "centre-negative" : "centre-positive")} that gives {node.Amount(node.Takes.Value)} or more, or move a load to another outlet."
        : null;

    /// <summary>A supply with the current needed, of the same voltage and polarity; or, for one load alone, another outlet.</summary>
    private static IEnumerable<Fix> Stronger(FixPlan plan, PowerNode node, Hookup hookup)
    {
        var loads = node.Loads.Select(load => load.In!).ToList();
        if (node.IsMains || node.Takes.IsLeast || loads.Exists(load => load.Signal is not { Kind: SignalKind.Dc })
            || !plan.Mend(node.Device.FirstJack + node.In!.Jacks[0].Index))
        {
            return [];
        }
        var fixes = new SupplyFix(plan);
        var fix = fixes.StrongerAdapter(node.Parent!.Device, hookup, [.. loads.Select(load => load.Signal!)], node.Takes.Value)
            ?? (node.IsPassive ? null : fixes.Own(hookup));
        return fix is null ? [] : [fix];
    }

    /// <summary>Each outlet may be within its limit and the supply as a whole not: it cannot hand on more than it takes.</summary>
    private static string? TooMuchInAll(PowerNode node)
    {
        if (node.IsPassive || node.Device.Gear!.HasBattery || node.Children.Count < 2 || node.Children.Any(c => c.IsOver))
        {
            return null;
        }
        if (node.IsBusPoweredHub)
        {
            var left = UsbPower.LeftBehindHub(new Ampere(node.Takes.Value));
            var amperes = node.Children.Sum(c => c.Takes.Value);
            return amperes > left.Value * (1 + 1e-6)
                ? $"{node.Device.Name} has {left} of {node.Amount(node.Takes.Value)} left for its ports, but what is plugged into it takes {node.Amount(amperes)}."
                : null;
        }
        var most = node.In!.Signal is { Kind: SignalKind.Mains, Watts: { } watts } ? watts : node.In.Signal is { Kind: not SignalKind.Mains, Current: not null } ? node.Watts : null;
        var given = node.Children.Sum(c => c.Watts ?? 0);
        return most is { } limit && given > limit * (1 + 1e-6)
            ? $"{node.Device.Name} takes {Units.Figure(Math.Round(limit, 1))} W at most, but has to give {Units.Figure(Math.Round(given, 1))} W to {Wording.And(node.Children.SelectMany(c => c.Loads).Select(l => l.Device.Name))}."
            : null;
    }
}
