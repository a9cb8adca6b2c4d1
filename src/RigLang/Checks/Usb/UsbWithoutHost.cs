using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Usb;

public sealed class UsbWithoutHost : Check
{
    public override string Name => "usb-without-host";
    public override Severity Severity => Severity.Error;
    public override string Title => "USB devices without a host";
    public override string Why => "Two devices never speak to each other over USB: no notes, no clock, no audio goes through this cable.";
    public override string Advice => "Put a computer or a USB host box between them, or use their DIN or TRS MIDI jacks.";
    public override string Source => "USB 2.0, 4.1 (from memory)";
    public override string BadExample => """
        gear Rook {
          in usb : usb device on usb-c
        }
        device seq  : Rook
        device keys : Rook
        connect seq.usb to keys.usb
        """;
    public override string GoodExample => """
        gear Laptop {
          out usb1, usb2 : usb host 5 V 900 mA on usb-c
        }
        gear Rook {
          in usb : usb device on usb-c
        }
        device laptop : Laptop
        device seq    : Rook
        device keys   : Rook
        connect laptop.usb1 to seq.usb
        connect laptop.usb2 to keys.usb
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            var (from, to) = (hookup.Connection.From[0], hookup.Connection.To[0]);
            if (IsDevice(from) && IsDevice(to))
            {
                report.Add(this, hookup.Connection.At, $"{from.Text} and {to.Text} are both USB devices: neither is the host.");
            }
        }
        foreach (var device in rig.Names.Devices)
        {
            TellHubWithoutHost(rig, device, report);
        }
    }

    private void TellHubWithoutHost(Rig rig, DeviceSymbol device, Report report)
    {
        if (device.Gear is not { } gear || rig.Names.NamesInBrokenLines.Contains(device.Name))
        {
            return;
        }
        var hosts = gear.Ports.Where(port => IsUsb(port, UsbRole.Host)).ToList();
        var upstream = hosts.Count == 0 ? []
            : gear.Ports.Where(port => IsUsb(port, UsbRole.Device) && gear.Routes.From(port).Any(to => IsUsb(to, UsbRole.Host))).ToList();
        if (upstream.Count == 0 || upstream.Exists(port => rig.Wiring.IsPlugged(device, port)))
        {
            return;
        }
        if (hosts.Exists(host => gear.Routes.To(host).Any(upstream.Contains) && rig.Wiring.IsPlugged(device, host)))
        {
            report.Add(this, device.At, $"{device.Name}.{upstream[0].Name} is not connected to a computer, so what is plugged into {device.Name} has no host.",
                advice: $"Connect {device.Name}.{upstream[0].Name} to a host; for power alone use a charger.",
                about: [new Subject(device, upstream[0])]);
        }
    }

    private static bool IsUsb(PortSymbol port, UsbRole role) => port.Signal is { Kind: SignalKind.Usb } signal && signal.Usb == role;

    private static bool IsDevice(Endpoint end) => IsUsb(end.Port, UsbRole.Device);
}
