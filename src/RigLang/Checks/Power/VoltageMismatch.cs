using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Power;

public sealed class VoltageMismatch : Check
{
    /// <summary>Nominal bus voltage. Source: USB 2.0.</summary>
    private static readonly VoltRange UsbVolts = new(new Volt(5), new Volt(5));

    public override string Name => "voltage-mismatch";
    public override Severity Severity => Severity.Error;
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
        foreach (var link in rig.Links.Links)
        {
            if (link.Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains
                && VoltsOf(link.From, rig) is { } supply && VoltsOf(link.To, rig) is { } load && !Suits(load, supply))
            {
                report.Add(this, link.Hookup.Connection.At, $"{link.From} gives {supply}, but {link.To} wants {load}.",
                    why: supply.High.Value > load.High.Value
                        ? "Too high a voltage can destroy the device in the moment the plug goes in."
                        : "With too low a voltage the device hangs, resets or sounds wrong, often only when it gets loud.",
                    related: [Wording.Also(link.From.Port.At, $"{link.From} is declared here"), Wording.Also(link.To.Port.At, $"{link.To} is declared here")]);
            }
        }
    }

    private static bool Suits(VoltRange load, VoltRange supply) => load.Accepts(supply.Low) && load.Accepts(supply.High);

    private static VoltRange? VoltsOf(PortRef port, Rig rig) => port.Port.Signal switch
    {
        { Volts: { } volts } => volts,
        { Kind: SignalKind.Usb } => UsbVolts,
        { Kind: SignalKind.Mains } when port.Port.IsOutput => rig.Names.MainsVolts,
        _ => null,
    };
}
