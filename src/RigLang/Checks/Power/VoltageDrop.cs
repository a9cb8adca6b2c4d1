using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Power;

public sealed class VoltageDrop : Check
{
    public override string Name => "voltage-drop";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A lead so long or thin that too little voltage arrives";
    public override string Why => "The device resets, hums or loses its USB connection when it draws its full current.";
    public override string Advice => "Take a shorter lead, or a thicker one (a lower gauge number), or put the supply nearer to the device.";
    public override string Source => "Ohm's law, 2 x L x R' x I with the resistance of its gauge (ASTM B258); within 5 % of nominal (common practice); 4.4 V on a bus (USB 2.0, 7.2.2)";
    public override string BadExample => """
        gear Brick {
          out out : dc 9 V centre-positive, 2 A on barrel 5.5x2.1 mm
        }
        gear Tern {
          in power : dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm
        }
        lead ThinDc : barrel 5.5x2.1 mm to barrel 5.5x2.1 mm {
          centre to centre
          outer  to outer
          gauge 26 awg
        }
        device brick : Brick
        device bass  : Tern
        connect brick.out to bass.power with ThinDc 3 m
        """;
    public override string GoodExample => BadExample.Replace("26 awg", "20 awg", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var node in rig.Power.Nodes)
        {
            if (node is { IsPassive: false, IsMains: false, Drop.Value: > 0, SourceVolts: { } given, Arrives: { } arrives, WorksFrom: { } least, Hookup: { } hookup }
                && given.Value >= least.Value && arrives.Value < least.Value)
            {
                report.Add(this, hookup.Connection.At,
                    $"{node.Device.Name}.{node.In!.Name} gets {Figure(arrives)} of {given}: {PowerWords.Least(node.Takes)}{Figure(node.Drop)} are lost on the way. It works from {least}.");
            }
        }
    }

    private static string Figure(Volt volts) => new Volt(Math.Round(volts.Value, 2)).ToString();
}
