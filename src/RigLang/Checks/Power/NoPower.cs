using RigLang.Checks.Whole;
using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class NoPower : Check
{
    public override string Name => "no-power";
    public override Severity Severity => Severity.Error;
    public override string Title => "A device that gets no power";
    public override string Why => "It stays dark, and so does everything that it feeds.";
    public override string Advice => "Connect one of its power jacks, or write `runs on battery` in its block if it has one.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Tern {
          in  power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
          out line  : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device bass : Tern
        device desk : Desk
        connect bass.line to desk.ch1
        """;
    public override string GoodExample => """
        gear Brick {
          out out : dc 9 V centre-positive, 500 mA on captive barrel 5.5x2.1 mm
        }
        gear Tern {
          in  power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
          out line  : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1 : audio mono line on ts 6.35 mm
        }
        device brick : Brick
        device bass  : Tern
        device desk  : Desk
        connect brick.out to bass.power
        connect bass.line to desk.ch1
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var device in rig.Names.Devices)
        {
            if (device.Gear is not { IsIncomplete: false } gear || device.OnBattery || rig.Names.NamesInBrokenLines.Contains(device.Name)
                || !UnwiredDevice.IsWired(rig, device))
            {
                continue;
            }
            var inputs = gear.Ports.FindAll(p => !p.IsOutput && p.Signal is { IsPower: true } && p.Jacks.Count > 0);
            if (inputs.Count == 0)
            {
                continue;
            }
            var plugged = inputs.FindAll(p => rig.Wiring.IsPlugged(device, p));
            if (plugged.Count == 0)
            {
                var jacks = Wording.Or(inputs.Select(p => $"{device.Name}.{p.Name} ({p.Signal!.Describe()})"));
                report.Add(this, device.At, $"Nothing is plugged into {jacks}.", about: inputs.Select(p => new Subject(device, p)));
            }
            else if (plugged.TrueForAll(p => IsDead(rig, device, p)))
            {
                var hookup = rig.Wiring.Plugged[device.FirstJack + plugged[0].Jacks[0].Index]!;
                report.Add(this, hookup.Connection.At, $"{Prose.Capital(Wording.LeadOf(hookup))} brings no power to {device.Name}.{plugged[0].Name}: plus and minus do not both arrive.",
                    advice: "Take a lead whose contacts are all wired.");
            }
        }
    }

    /// <summary>
    /// True when a sound cable runs straight from a supply to this jack and brings nothing, without a reversed or AC contact
    /// that other checks tell of.
    /// </summary>
    private static bool IsDead(Rig rig, DeviceSymbol device, PortSymbol port)
    {
        var seat = device.FirstJack + port.Jacks[0].Index;
        if (port.IsPassive || rig.Wiring.Plugged[seat] is not { IsSound: true } hookup || rig.Links.ArrivingAt(new PortRef(device, port)).Any(l => l.Kind != SignalKind.Usb))
        {
            return false;
        }
        var supply = hookup.Jacks.Any(j => j.Jack.Port is { IsOutput: true, IsPassive: false } && j.Device != device);
        return supply && !port.Jacks[0].Roles.Select((_, i) => rig.Nets.Contact(seat, i)).Any(contact => MeetsSupply(rig.Nets, contact));
    }

    private static bool MeetsSupply(Nets nets, int contact)
    {
        if (nets.RoleOf(contact).Drive != Drive.In || nets.RoleOf(contact).Role is Role.DataMinus or Role.DataPlus)
        {
            return false;
        }
        foreach (var member in nets.Members(contact))
        {
            if (nets.RoleOf(member) is { Drive: Drive.Out, Role: Role.Plus or Role.Minus or Role.Ac } other && other.Role != nets.RoleOf(contact).Role)
            {
                return true;
            }
        }
        return false;
    }
}
