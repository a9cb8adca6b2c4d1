using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Usb;

public sealed class UsbTwoHosts : Check
{
    public override string Name => "usb-two-hosts";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.Gear;
    public override string Title => "Two USB hosts on one cable";
    public override string Why => "A bus has one host: the two do not see each other, and their 5 V supplies feed into one another.";
    public override string Advice => "Connect each computer to a device; two computers talk by MIDI, audio or network.";
    public override string Source => "USB 2.0, 4.1 (from memory)";
    public override string BadExample => """
        gear Laptop {
          out usb : usb host 5 V 900 mA on usb-c
        }
        device left  : Laptop
        device right : Laptop
        connect left.usb to right.usb
        """;
    public override string GoodExample => """
        gear Laptop {
          out usb : usb host 5 V 900 mA on usb-c
        }
        gear Rook {
          in usb : usb device 5 V 450 mA on usb-c
        }
        device left : Laptop
        device seq  : Rook
        connect left.usb to seq.usb
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            var (from, to) = (hookup.Connection.From[0], hookup.Connection.To[0]);
            if (IsHost(from) && IsHost(to))
            {
                report.Add(this, hookup.Connection.At, $"{from.Text} and {to.Text} are both USB hosts.");
            }
        }
    }

    private static bool IsHost(Endpoint end) => end.Port.Signal is { Kind: SignalKind.Usb, Usb: UsbRole.Host or UsbRole.Charger };
}
