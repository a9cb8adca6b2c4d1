using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Power;

public sealed class UsbPortOverloaded : Check
{
    public override string Name => "usb-port-overloaded";
    public override Severity Severity => Severity.Error;
    public override string Title => "A USB port that has to give more than its limit";
    public override string Why => "The computer or hub refuses the device or switches the port off, often only when it is asked for its full current.";
    public override string Advice => "Plug it straight into the computer, into a hub with a supply of its own, or into a charger if it needs no data.";
    public override string Source => "USB 2.0, 7.2.1: unit loads of 100 mA; each port has its own limit, whatever the others leave";
    public override string BadExample => """
        gear Laptop {
          out usb : usb host 5 V 500 mA on usb-a
        }
        gear Hub {
          in  up           : usb device 5 V 500 mA on usb-b
          out port1..port4 : usb host 5 V 100 mA   on usb-a
          route up to port1..port4
        }
        gear Rook {
          in usb : usb device 5 V 150 mA on usb-b
        }
        device laptop : Laptop
        device hub    : Hub
        device seq    : Rook
        connect laptop.usb to hub.up
        connect hub.port1  to seq.usb
        """;
    public override string GoodExample => BadExample.Replace("150 mA", "90 mA", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var node in rig.Power.Nodes)
        {
            if (node is { IsOver: true, IsUsb: true, Hookup: { } hookup } && !HubBehindHub.IsOne(node))
            {
                report.Add(this, hookup.Connection.At,
                    $"{PowerWords.Giver(node)} gives {node.Amount(node.Rating!.Value)}, but {PowerWords.Takers(node)}.",
                    related: PowerWords.Places(node));
            }
        }
    }
}
