using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>What is drawn from a supply at one voltage.</summary>
/// <param name="Gives">Null when an output of that voltage does not say.</param>
/// <param name="IsLeast">True when something that it feeds does not say what it takes.</param>
internal sealed record PowerRail(string Voltage, Ampere Takes, Ampere? Gives, bool IsLeast)
{
    public override string ToString() => $"{(IsLeast ? "at least " : "")}{(Gives is { } gives ? Of(gives) : Takes)} at {Voltage}";

    /// <summary>Both in one unit: 420 of 500 mA.</summary>
    private string Of(Ampere gives) => gives.Value < 1 ? $"{Units.Figure(Takes.Value * 1000)} of {gives}"
        : Takes.Value is > 0 and < 1 ? $"{Takes} of {gives}"
        : $"{Units.Figure(Takes.Value)} of {gives}";
}

/// <summary>
/// Adds up what a supply feeds, by voltage, and counts its outlets. Each output's own limit is told where it is passed; what a battery or
/// a charger does over an evening is not.
/// </summary>
internal static class PowerSums
{
    public static IReadOnlyList<PowerRail> RailsOf(Flow.Rig rig, DeviceSymbol device) =>
    [
        .. Outlets(device).Where(p => !p.IsPassive && p.Signal is { Volts: not null, Kind: SignalKind.Dc or SignalKind.Ac or SignalKind.Usb })
            .GroupBy(p => p.Signal!.Describe() is var words && p.Signal.Kind == SignalKind.Ac ? words : p.Signal.Volts!.Value.ToString())
            .Select(rail =>
            {
                var loads = rail.SelectMany(p => FedBy(rig, device, p)).ToList();
                return new PowerRail(
                    rail.Key,
                    new Ampere(loads.Sum(l => l.Current?.Value ?? 0)),
                    rail.All(p => p.Signal!.Current is not null) ? new Ampere(rail.Sum(p => p.Signal!.Current!.Value.Value)) : null,
                    loads.Exists(l => l.Current is null));
            }),
    ];

    /// <summary>Outputs from which more is drawn than they give.</summary>
    public static IReadOnlyList<PortSymbol> Overdrawn(Flow.Rig rig, DeviceSymbol device) =>
        [.. Outlets(device).Where(p => p.Signal?.Current is { } gives && FedBy(rig, device, p).Sum(l => l.Current?.Value ?? 0) > gives.Value + 1e-9)];

    /// <summary>How many of its power outlets have a plug in them.</summary>
    public static (int Used, int All) OutletsOf(Flow.Rig rig, DeviceSymbol device)
    {
        var outlets = Outlets(device).ToList();
        return (outlets.Count(p => rig.Wiring.IsPlugged(device, p)), outlets.Count);
    }

    /// <summary>In a few words; null for a device that supplies nothing, or of which nothing is known but that its one outlet is used.</summary>
    public static string? Describe(Flow.Rig rig, DeviceSymbol device)
    {
        var (used, all) = OutletsOf(rig, device);
        if (all == 0)
        {
            return null;
        }
        var parts = RailsOf(rig, device).Select(r => r.ToString()).ToList();
        parts.AddRange(Overdrawn(rig, device).Select(p => $"{p.Name} gives too little"));
        if (all > 1 || used == 0)
        {
            parts.Add(all == 1 ? "outlet free" : $"{used} of {all} outlets used");
        }
        return parts.Count == 0 ? null : string.Join(" · ", parts);
    }

    private static IEnumerable<PortSymbol> Outlets(DeviceSymbol device) =>
        device.Gear?.Ports.Where(p => p.IsOutput && p.Jacks.Count > 0 && p.Signal is { IsPower: true }) ?? [];

    private static IEnumerable<Signal> FedBy(Flow.Rig rig, DeviceSymbol device, PortSymbol port)
    {
        var loads = new List<Signal>();
        foreach (var link in rig.Links.From[LinkTable.NumberOf(device, port)])
        {
            // A USB device with a supply of its own takes nothing worth counting from the bus.
            if (link.Kind is SignalKind.Dc or SignalKind.Ac && link.To.Port.Signal is { IsPower: true } signal)
            {
                loads.Add(signal);
            }
        }
        return loads;
    }
}
