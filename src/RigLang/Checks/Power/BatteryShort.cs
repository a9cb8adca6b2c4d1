using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Power;

public sealed class BatteryShort : Check
{
    public override string Name => "battery-short";
    public override Severity Severity => Severity.Error;
    public override string Title => "A battery that is empty before the set ends";
    public override string Why => "The device goes dark while you play; an old or cold battery lasts shorter still.";
    public override string Advice => "Plug it into a supply, take a second battery for a change between two pieces, or a larger one.";
    public override string Source => "Wh x 0.85 / W (common practice for the 0.85); Wh of a lithium-ion battery are Ah x 3.7 V";
    public override string BadExample => """
        rig "Long evening" {
          set 150 min
        }
        gear Tern {
          in  power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
          out line  : audio mono line                on ts 6.35 mm
          battery 2 h
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device bass : Tern {
          runs on battery
        }
        device desk : Desk
        connect bass.line to desk.ch1
        """;
    public override string GoodExample => BadExample.Replace("battery 2 h", "battery 4 h", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        if (rig.Names.SetLength is not { } set)
        {
            return;
        }
        foreach (var battery in rig.Batteries())
        {
            if (battery.Lasts is { } lasts && lasts.Value < set.Value)
            {
                report.Add(this, battery.Device.At, $"The battery of {battery.Device.Name} lasts about {BatteryRun.Words(lasts)}, and the set is {BatteryRun.Words(set)}.",
                    related: [Wording.Also(battery.Device.Gear!.At, battery.Watts is { } watts && battery.Device.Gear.Battery!.Value.WattHours is { } hours
                        ? $"it holds {Units.Figure(Math.Round(hours, 1))} Wh, and {Units.Figure(Math.Round(watts, 2))} W are drawn"
                        : "its gear says how long")]);
            }
        }
    }
}
