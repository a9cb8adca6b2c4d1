using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Power;

public sealed class BarrelVoltageClass : Check
{
    public override string Name => "barrel-voltage-class";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A standard barrel at a voltage it does not stand for";
    public override string Why => "This size of plug is reserved for a range of voltages; a supply that fits by size may have another voltage.";
    public override string Advice => "Look at the jack and the label again: is the size right, and the voltage? If both are, keep this supply labelled and apart.";
    public override string Source => "JEITA RC-5320A";
    public override string BadExample => """
        gear Tern {
          in power : dc 9 V centre-positive, 250 mA on barrel 4.0x1.7 mm
        }
        """;
    public override string GoodExample => BadExample.Replace("4.0x1.7", "4.75x1.7", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var gear in rig.Names.AllGear)
        {
            foreach (var port in gear.Ports)
            {
                Tell(port, report);
            }
        }
    }

    private void Tell(PortSymbol port, Report report)
    {
        if (port is not { Signal: { Kind: SignalKind.Dc, Volts: { } volts }, Jacks: [{ Form: { IsBarrel: true } form }, ..] }
            || UnifiedBarrels.OfSize(form.BarrelMillimetres.Outer, form.BarrelMillimetres.Inner) is not { } size
            || (volts.Low.Value > size.Above.Value && volts.High.Value <= size.UpTo.Value))
        {
            return;
        }
        var right = UnifiedBarrels.ForVoltage(volts.High);
        report.Add(this, port.At, $"A {form} plug is class {size.Name}, for {size.Above} to {size.UpTo}; {port.Gear.Name}.{port.Name} has {volts}"
            + (right is null ? "." : $", which is class {right.Name} ({Forms.Barrel(right.OuterMillimetres, right.InnerMillimetres).Name["barrel ".Length..]})."));
    }
}
