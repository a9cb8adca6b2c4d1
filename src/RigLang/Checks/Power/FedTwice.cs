using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Power;

public sealed class FedTwice : Check
{
    public override string Name => "fed-twice";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.Gear;
    public override string Title => "One jack fed by two USB sources";
    public override string Why => "The one with the higher voltage feeds back into the other, which is not built for that and can be damaged.";
    public override string Advice => "Leave one of the two out. A device that needs more than one port gives belongs on a hub with a supply of its own.";
    public override string Source => "USB 2.0, 7.2.1 (from memory): a source must not be fed through its own port";
    public override string BadExample => """
        gear Laptop {
          out usb : usb host 5 V 900 mA on usb-a
        }
        gear Charger {
          out out : usb charger 5 V 2 A on usb-a
        }
        gear Rook {
          in usb : usb device 5 V 400 mA on usb-b mini
        }
        lead TwoTails : usb-a data, usb-a power to usb-b mini {
          data.vbus   to vbus
          data.dminus to dminus
          data.dplus  to dplus
          data.gnd    to gnd
          power.vbus  to vbus
          power.gnd   to gnd
        }
        device laptop  : Laptop
        device charger : Charger
        device seq     : Rook
        connect laptop.usb, charger.out to seq.usb with TwoTails 1 m
        """;
    public override string GoodExample => """
        gear Laptop {
          out usb : usb host 5 V 900 mA on usb-a
        }
        gear Rook {
          in usb : usb device 5 V 400 mA on usb-b mini
        }
        lead UsbMini : usb-a to usb-b mini
        device laptop : Laptop
        device seq    : Rook
        connect laptop.usb to seq.usb with UsbMini 1 m
        """;

    /// <summary>Other outputs that are joined are told by `outputs-joined`, two hosts on one plain cable by `usb-two-hosts`.</summary>
    public override void Run(Rig rig, Report report)
    {
        var walked = new HashSet<int>();
        foreach (var (load, contact, hookup) in PowerWalk.Loads(rig, Role.Plus))
        {
            if (walked.Contains(contact))
            {
                continue;
            }
            var sources = new List<JackRef>();
            var isAllUsb = true;
            foreach (var member in rig.Nets.Members(contact))
            {
                walked.Add(member);
                if (rig.Nets.RoleOf(member).Drive == Drive.Out)
                {
                    var source = rig.Nets.Jack(rig.Nets.SeatOf(member));
                    isAllUsb &= source.Jack.Port.Signal is { Kind: SignalKind.Usb };
                    sources.Add(source);
                }
            }
            if (isAllUsb && sources.Select(s => s.Device).Distinct().Count() > 1)
            {
                report.Add(this, hookup.Connection.At, $"{load} is fed by {Wording.And(sources.Select(s => s.ToString()).Order(StringComparer.Ordinal))} at once.");
            }
        }
    }
}
