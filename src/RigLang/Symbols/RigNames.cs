using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>A rig with every name looked up: what there is, before anything is plugged in.</summary>
public sealed class RigNames
{
    public required IReadOnlyList<FileSymbols> Files { get; init; }

    /// <summary>Gear by name: what the rig's own files declare, and of the library what the rig uses.</summary>
    public Dictionary<string, GearSymbol> Gear { get; } = new(StringComparer.Ordinal);

    /// <summary>Leads by name: what the rig's own files declare, and of the library what the rig uses.</summary>
    public Dictionary<string, LeadSymbol> Leads { get; } = new(StringComparer.Ordinal);

    /// <summary>The library's files that are imported, in the order first met.</summary>
    public List<LibraryFile> Library { get; } = [];
    public List<DeviceSymbol> Devices { get; } = [];
    public Dictionary<string, DeviceSymbol> DevicesByName { get; } = new(StringComparer.Ordinal);
    public List<ConnectionSymbol> Connections { get; } = [];
    public List<StockSymbol> Stock { get; } = [];
    public List<ExpectationSymbol> Expectations { get; } = [];

    /// <summary>What the player knows of and leaves as it is.</summary>
    public List<AcceptSymbol> Accepts { get; } = [];
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

    /// <summary>The gear of that name, the rig's own before the library's; null when nobody declares it.</summary>
    public GearSymbol? FindGear(string name) => Find(Gear, name, static (file, name) => file.FindGear(name));

    /// <inheritdoc cref="FindGear"/>
    public LeadSymbol? FindLead(string name) => Find(Leads, name, static (file, name) => file.FindLead(name));

    /// <summary>Every name that <see cref="FindGear"/> knows.</summary>
    public IReadOnlyCollection<string> GearNames => [.. Gear.Keys.Union(Library.SelectMany(file => file.GearNames))];

    /// <summary>Every name that <see cref="FindLead"/> knows.</summary>
    public IReadOnlyCollection<string> LeadNames => [.. Leads.Keys.Union(Library.SelectMany(file => file.LeadNames))];

    private T? Find<T>(Dictionary<string, T> known, string name, Func<LibraryFile, string, T?> findIn)
        where T : class
    {
        if (known.TryGetValue(name, out var symbol))
        {
            return symbol;
        }
        foreach (var file in Library)
        {
            if (findIn(file, name) is { } found)
            {
                known.Add(name, found);
                return found;
            }
        }
        return null;
    }
}
