using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>What a supply, a strip or a splitter hands on at one voltage: amperes, or volt-amperes of mains.</summary>
/// <param name="Gives">Null when an outlet of that voltage does not say.</param>
internal sealed record PowerRail(string Voltage, Draw Takes, double? Gives, bool IsMains)
{
    public override string ToString() => $"{(Takes.IsLeast ? "at least " : "")}{Amount()} at {Voltage}";

    /// <summary>Both in one unit: 420 of 500 mA.</summary>
    private string Amount()
    {
        if (IsMains)
        {
            var taken = Units.Figure(Math.Round(Takes.Value));
            return Gives is { } most ? $"{taken} of {Units.Figure(Math.Round(most))} VA" : $"{taken} VA";
        }
        var takes = new Ampere(Math.Round(Takes.Value, 4));
        return Gives is not { } gives ? takes.ToString()
            : gives < 1 ? $"{Units.Figure(takes.Value * 1000)} of {new Ampere(gives)}"
            : takes.Value is > 0 and < 1 ? $"{takes} of {new Ampere(gives)}"
            : $"{Units.Figure(takes.Value)} of {new Ampere(gives)}";
    }
}

/// <summary>
/// What the power tree says of a device that hands on power, in a few words: what is taken from it at each voltage, which outlet gives too
/// little, and how many are in use. What a battery or a charger does over an evening is not told.
/// </summary>
internal static class PowerSums
{
    /// <summary>Null for a device that supplies nothing, or of which nothing is known but that its one outlet is used.</summary>
    public static string? Describe(Flow.Rig rig, DeviceSymbol device)
    {
        var outlets = device.Gear?.Ports.Where(p => p.IsOutput && p.Jacks.Count > 0 && p.Signal is { IsPower: true }).ToList() ?? [];
        if (outlets.Count == 0)
        {
            return null;
        }
        var nodes = rig.Power.NodesOf(device).ToList();
        var fed = nodes.SelectMany(n => n.Children).ToLookup(n => n.Outlet);
        var used = outlets.Count(p => rig.Wiring.IsPlugged(device, p));
        List<string> parts =
        [
            .. Rails(rig, device, outlets, fed).Concat(nodes.Where(n => n.IsPassive).Select(n => HandedOn(rig, n)))
                .Where(r => r.Takes.Value > 0 || r.Gives is not null).Select(r => r.ToString()),
            .. outlets.Where(p => IsOverdrawn(p, fed[p])).Select(p => $"{p.Name} gives too little"),
        ];
        if (outlets.Count > 1 || used == 0)
        {
            parts.Add(outlets.Count == 1 ? "outlet free" : $"{used} of {outlets.Count} outlets used");
        }
        return parts.Count == 0 ? null : string.Join(" · ", parts);
    }

    /// <summary>The outlets with power of their own, by voltage.</summary>
    private static IEnumerable<PowerRail> Rails(Flow.Rig rig, DeviceSymbol device, List<PortSymbol> outlets, ILookup<PortSymbol?, PowerNode> fed) =>
        from outlet in outlets
        where !outlet.IsPassive
        let voltage = VoltageOf(rig, outlet.Signal!)
        where voltage is not null
        group outlet by (voltage, IsMains: outlet.Signal!.Kind == SignalKind.Mains) into rail
        select new PowerRail(
            rail.Key.voltage,
            rail.SelectMany(p => fed[p]).Aggregate(new Draw(), (sum, node) => sum + node.Takes),
            (rail.Key.IsMains && rig.Power.NodeOf(device) is { } wall ? rig.CircuitOf(wall)?.Most : null) ?? SumOf(rail.Select(p => PowerNode.MostOf(p.Signal, rig.Names.MainsVolts?.High))),
            rail.Key.IsMains);

    /// <summary>A strip or splitter: all that hangs on it, of what it is given.</summary>
    private static PowerRail HandedOn(Flow.Rig rig, PowerNode node) =>
        new((node.Source?.Port.Signal is { } given ? VoltageOf(rig, given) : null) ?? "a voltage that is not said", node.Takes, node.Rating, node.IsMains);

    /// <summary>Null when one of them is.</summary>
    private static double? SumOf(IEnumerable<double?> amounts) => amounts.Aggregate((double?)0, (sum, amount) => sum + amount);

    private static bool IsOverdrawn(PortSymbol outlet, IEnumerable<PowerNode> loads) =>
        loads.FirstOrDefault() is { } first && PowerNode.MostOf(outlet.Signal, first.SourceVolts) is { } most
        && PowerNode.IsTooMuch(loads.Sum(n => n.Takes.Value), most);

    private static string? VoltageOf(Flow.Rig rig, Signal signal) => signal switch
    {
        { Kind: SignalKind.Ac, Volts: not null } => signal.Describe(),
        { Volts: { } volts } => volts.ToString(),
        { Kind: SignalKind.Mains } => rig.Names.MainsVolts?.ToString() ?? "mains",
        { Kind: SignalKind.Usb } => UsbPower.Nominal.ToString(),
        _ => null,
    };
}
