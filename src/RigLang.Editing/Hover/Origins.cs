using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Editing;

/// <summary>Where what stands on a jack comes from when the box only joins it through: a strip, a splitter, a passive box.</summary>
internal static class Origins
{
    /// <summary>The outputs that drive the contacts of a passive port, as <c>device.port</c>.</summary>
    public static IReadOnlyList<string> Of(Flow.Rig rig, DeviceSymbol device, PortSymbol port)
    {
        var found = new List<string>();
        if (!port.IsPassive)
        {
            return found;
        }
        foreach (var jack in port.Jacks)
        {
            for (var contact = 0; contact < jack.Roles.Count; contact++)
            {
                if (jack.Roles[contact].Role is Role.Unused or Role.Ground or Role.Earth)
                {
                    continue;
                }
                foreach (var member in rig.Nets.Members(rig.Nets.Contact(device.FirstJack + jack.Index, contact)))
                {
                    if (rig.Nets.RoleOf(member).Drive == Drive.Out)
                    {
                        var driver = rig.Nets.Jack(rig.Nets.SeatOf(member));
                        found.Add($"{driver.Device.Name}.{driver.Jack.Port.Name}");
                    }
                }
            }
        }
        return [.. found.Distinct()];
    }
}
