using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Power;

public sealed class HubBehindHub : Check
{
    public override string Name => "hub-behind-hub";
    public override Severity Severity => Severity.Error;
    public override string Title => "A hub fed by the bus behind another such hub";
    public override string Why => "A port of the first gives 100 mA, which the second needs for itself: nothing is left for what is plugged into it.";
    public override string Advice => "Plug it straight into the computer, or give one of the two a supply of its own.";
    public override string Source => "USB 2.0, 7.2.1.1";
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
          in usb : usb device 5 V 90 mA on usb-b
        }
        device laptop : Laptop
        device near   : Hub
        device far    : Hub
        device seq    : Rook
        connect laptop.usb to near.up
        connect near.port1 to far.up
        connect far.port1  to seq.usb
        """;
    public override string GoodExample => """
        gear Laptop {
          out usb1, usb2 : usb host 5 V 500 mA on usb-a
        }
        gear Hub {
          in  up           : usb device 5 V 500 mA on usb-b
          out port1..port4 : usb host 5 V 100 mA   on usb-a
          route up to port1..port4
        }
        gear Rook {
          in usb : usb device 5 V 90 mA on usb-b
        }
        device laptop : Laptop
        device near   : Hub
        device far    : Hub
        device seq    : Rook
        device keys   : Rook
        connect laptop.usb1 to near.up
        connect laptop.usb2 to far.up
        connect near.port1  to keys.usb
        connect far.port1   to seq.usb
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var node in rig.Power.Nodes)
        {
            if (IsOne(node))
            {
                report.Add(this, node.Hookup!.Connection.At, $"{node.Device.Name} lives on its USB cable, and so does {node.Parent!.Device.Name}, which it hangs on.");
            }
        }
    }

    internal static bool IsOne(PowerNode node) => node is { IsBusPoweredHub: true, Hookup: not null, Parent.IsBusPoweredHub: true };
}
