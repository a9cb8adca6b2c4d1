using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>A rig with every name looked up: what there is, before anything is plugged in.</summary>
public sealed class RigNames
{
    public required IReadOnlyList<FileSymbols> Files { get; init; }
    public Dictionary<string, GearSymbol> Gear { get; } = new(StringComparer.Ordinal);
    public Dictionary<string, LeadSymbol> Leads { get; } = new(StringComparer.Ordinal);
    public List<DeviceSymbol> Devices { get; } = [];
    public Dictionary<string, DeviceSymbol> DevicesByName { get; } = new(StringComparer.Ordinal);
    public List<ConnectionSymbol> Connections { get; } = [];
    public List<StockSymbol> Stock { get; } = [];
    public List<ExpectationSymbol> Expectations { get; } = [];
    public List<Fault> Faults { get; } = [];

    public string? Title { get; set; }
    public Bpm? Tempo { get; set; }
    public VoltRange? MainsVolts { get; set; }
    public Ampere? MainsCurrent { get; set; }
    public double? MainsHertz { get; set; }
    public Second? SetLength { get; set; }

    /// <summary>True when an import brought nothing: a gear or lead that nobody knows may well be declared there.</summary>
    public bool HasBrokenImport { get; set; }

    /// <summary>Names that stand in lines which could not be read: nothing is concluded from what such a device seems to lack.</summary>
    public HashSet<string> NamesInBrokenLines { get; } = new(StringComparer.Ordinal);

    public int JackCount { get; set; }
    public int ContactCount { get; set; }
}
