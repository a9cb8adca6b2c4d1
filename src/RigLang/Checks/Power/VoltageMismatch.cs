using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class VoltageMismatch : Check
{
    /// <summary>Nominal bus voltage. Source: USB 2.0.</summary>
    private static readonly VoltRange UsbVolts = new(new Volt(5), new Volt(5));

    public override string Name => "voltage-mismatch";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.Gear;
    public override string Title => "A supply of the wrong voltage";
    public override string Why => "Too high a voltage destroys the device; with too low a one it hangs, resets or sounds wrong.";
    public override string Advice => "Take a supply with the voltage that is printed at the jack.";
    public override string Source => "common practice: the voltage must match within 5 %; USB 2.0 for 5 V on the bus";
    public override string BadExample => """
        gear Brick {
          out out : dc 12 V centre-positive, 500 mA on captive barrel 5.5x2.1 mm
        }
        gear Tern {
          in power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
        }
        device brick : Brick
        device bass  : Tern
        connect brick.out to bass.power
        """;
    public override string GoodExample => BadExample.Replace("dc 12 V", "dc 9 V", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var (loads, from, hookup) in PowerWalk.ByCause(rig, Mismatches(rig)))
        {
            var supply = VoltsOf(from, rig)!.Value;
            report.Add(this, hookup.Connection.At,
                $"{from} gives {supply}, but {Wording.And(loads.Select(load => $"{load} wants {VoltsOf(load, rig)}"))}.",
                why: supply.High.Value > VoltsOf(loads[0], rig)!.Value.High.Value
                    ? "Too high a voltage can destroy the device in the moment the plug goes in."
                    : "With too low a voltage the device hangs, resets or sounds wrong, often only when it gets loud.",
                related: [.. loads.Prepend(from).Select(jack => Wording.Also(jack.Jack.Port.At, $"{jack} is declared here"))],
                harm: supply.High.Value > VoltsOf(loads[0], rig)!.Value.High.Value ? null : Harm.Stage,
                fixes: plan => PowerWalk.RightSupply(plan, loads, from, hookup));
        }
    }

    private static IEnumerable<(JackRef Load, JackRef Supply, Hookup Hookup)> Mismatches(Rig rig)
    {
        foreach (var link in rig.Links.Links)
        {
            if (link.Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains)
            {
                var supply = new JackRef(link.From.Device, link.From.Port.Jacks[0]);
                var load = new JackRef(link.To.Device, link.To.Port.Jacks[0]);
                if (VoltsOf(supply, rig) is { } given && VoltsOf(load, rig) is { } wanted && !Suits(wanted, given))
                {
                    yield return (load, supply, link.Hookup);
                }
            }
        }
    }

    private static bool Suits(VoltRange load, VoltRange supply) => load.Accepts(supply.Low) && load.Accepts(supply.High);

    private static VoltRange? VoltsOf(JackRef jack, Rig rig) => jack.Jack.Port.Signal switch
    {
        { Volts: { } volts } => volts,
        { Kind: SignalKind.Usb } => UsbVolts,
        { Kind: SignalKind.Mains } when jack.Jack.Port.IsOutput => rig.Names.MainsVolts,
        _ => null,
    };
}
