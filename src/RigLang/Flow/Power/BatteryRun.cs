using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>A device that runs on its battery tonight.</summary>
/// <param name="Lasts">Null when the gear does not say enough.</param>
/// <param name="Watts">What is drawn from the battery, where it is known.</param>
public sealed record BatteryRun(DeviceSymbol Device, Second? Lasts, double? Watts)
{
    /// <summary>Hours above two hours, minutes below.</summary>
    public static string Words(Second time) =>
        time.Value >= 7200 ? Units.Figure(Math.Round(time.Value / 3600, 1)) + " h" : Units.Figure(Math.Round(time.Value / 60)) + " min";
}

public static class BatteryRuns
{
    public static IEnumerable<BatteryRun> Batteries(this Rig rig) =>
        rig.Names.Devices.Where(d => d is { OnBattery: true, Gear: not null }).Select(rig.BatteryOf);

    /// <summary>How the device does on its battery, with all that hangs on it, whether it runs on it tonight or not.</summary>
    public static BatteryRun BatteryOf(this Rig rig, DeviceSymbol device)
    {
        var watts = WattsOf(device, rig.Power.NodeOf(device));
        return new BatteryRun(device, device.Gear!.Battery switch
        {
            { Lasts: { } lasts } => lasts,
            { WattHours: { } hours } when watts is { } drawn => BatteryLife.RunTime(hours, drawn),
            _ => null,
        }, watts);
    }

    /// <summary>Of a power bank what hangs on it; of any other device what it would take from a supply, and what hangs on it besides.</summary>
    private static double? WattsOf(DeviceSymbol device, PowerNode? node)
    {
        var handedOn = node?.Children.Sum(c => c.Watts ?? 0) ?? 0;
        var isBank = device.Gear!.Ports.Exists(p => p is { IsOutput: true, Signal: { IsPower: true, Usb: not UsbRole.Host } });
        if (isBank)
        {
            return handedOn;
        }
        foreach (var port in device.Gear.Ports)
        {
            if (!port.IsOutput && port.Signal is { IsPower: true } signal && OwnWatts(signal) is { } own)
            {
                return own + handedOn;
            }
        }
        return null;
    }

    private static double? OwnWatts(Signal signal) => signal switch
    {
        { Kind: SignalKind.Mains, IsApparent: false } => signal.Watts,
        { Kind: SignalKind.Mains } => signal.Watts * PowerFigures.PowerFactor,
        { Current: { } current, Kind: SignalKind.Usb } => current.Value * (signal.Volts?.High ?? UsbPower.Nominal).Value,
        { Current: { } current, Volts: { } volts } => current.Value * volts.High.Value,
        _ => null,
    };
}
