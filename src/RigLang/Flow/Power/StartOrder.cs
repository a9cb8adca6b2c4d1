using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>
/// What is switched on last and off first, so that no thump of another box goes through it: power amplifiers and active
/// speakers. Source: common practice.
/// </summary>
public static class StartOrder
{
    /// <summary>Devices on the mains that hear audio and hand none on but to loudspeakers, in the order of the rig.</summary>
    public static IReadOnlyList<DeviceSymbol> LastOn(this Rig rig)
    {
        var hears = new HashSet<DeviceSymbol>();
        var handsOn = new HashSet<DeviceSymbol>();
        foreach (var link in rig.Links.Links)
        {
            if (link.Kind != SignalKind.Audio)
            {
                continue;
            }
            hears.Add(link.To.Device);
            // A speaker that hands on to its twin is a speaker still.
            if (link.From.Port.Signal is { Level: not AudioLevel.Speaker } && !ReferenceEquals(link.From.Device.Gear, link.To.Device.Gear))
            {
                handsOn.Add(link.From.Device);
            }
        }
        return [.. rig.Power.Nodes.Where(n => n is { IsMains: true, IsPassive: false } && hears.Contains(n.Device) && !handsOn.Contains(n.Device) && IsLast(n.Device.Gear!))
            .Select(n => n.Device).Distinct().OrderBy(d => d.Index)];
    }

    /// <summary>A power amplifier, or an active speaker, which has at most one output, to its twin; a desk or recorder has more, or phones.</summary>
    private static bool IsLast(GearSymbol gear)
    {
        var outputs = gear.Ports.FindAll(p => p is { IsOutput: true, Signal.Kind: SignalKind.Audio });
        return outputs.Exists(p => p.Signal!.Level == AudioLevel.Speaker) || outputs is [] or [{ Signal.Level: not AudioLevel.Headphone }];
    }

    /// <summary>True when so much hangs on one wall device that its inrush is better taken in steps: five supplies or more (common practice).</summary>
    public static bool NeedsSteps(this Rig rig) =>
        rig.Power.Roots.Any(root => root.Children.Where(c => c.IsMains).SelectMany(c => c.Loads).Skip(4).Any());
}
