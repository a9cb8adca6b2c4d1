using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>A rig with every name looked up: what there is, before anything is plugged in.</summary>
public sealed class RigNames
{
    public required IReadOnlyList<FileSymbols> Files { get; init; }

    internal ImportGraph Imports { get; init; } = null!;

    /// <summary>Gear by name: what the rig's own files declare, and of the library what the rig uses.</summary>
    public Dictionary<string, GearSymbol> Gear { get; } = new(StringComparer.Ordinal);

    /// <summary>Leads by name: what the rig's own files declare, and of the library what the rig uses.</summary>
    public Dictionary<string, LeadSymbol> Leads { get; } = new(StringComparer.Ordinal);

    /// <summary>The library's files that are imported, in the order first met.</summary>
    public List<LibraryFile> Library { get; } = [];

    /// <summary>All gear that counts: of the rig's own files what they declare, equal ones once, and of the library what is used.</summary>
    public List<GearSymbol> AllGear { get; } = [];

    public List<DeviceSymbol> Devices { get; } = [];
    public Dictionary<string, DeviceSymbol> DevicesByName { get; } = new(StringComparer.Ordinal);
    public List<ConnectionSymbol> Connections { get; } = [];
    public List<StockSymbol> Stock { get; } = [];
    public List<ExpectationSymbol> Expectations { get; } = [];

    /// <summary>What the player knows of and leaves as it is.</summary>
    public List<AcceptSymbol> Accepts { get; } = [];
    public List<Fault> Faults { get; } = [];

    /// <summary>What the rig blocks say, by dimension, as said first.</summary>
    internal Dictionary<Dimension, RigFigure> RigFigures { get; } = [];

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

    private DeclarationScope<GearSymbol> GearScope => field ??= new(Imports, static (file, name) => file.OwnGear(name),
        static (file, name) => file.FindGear(name), (a, b) => Declarations.AreEqual(FileOf(a.At), a.Statement, FileOf(b.At), b.Statement));

    private DeclarationScope<LeadSymbol> LeadScope => field ??= new(Imports, static (file, name) => file.OwnLead(name),
        static (file, name) => file.FindLead(name), (a, b) => Declarations.AreEqual(FileOf(a.At), a.Statement, FileOf(b.At), b.Statement));

    /// <summary>The gear of that name as the rig's first file means it; null when nobody declares it.</summary>
    public GearSymbol? FindGear(string name) => FindGear(Files[0], name);

    /// <inheritdoc cref="FindGear(string)"/>
    public LeadSymbol? FindLead(string name) => FindLead(Files[0], name);

    /// <summary>The gear of that name as a file of the rig means it: its own before what its imports bring.</summary>
    public GearSymbol? FindGear(FileSymbols file, string name) => MeaningOfGear(file, name) is { Other: null, Symbol: { } gear } ? gear : null;

    /// <inheritdoc cref="FindGear(FileSymbols, string)"/>
    public LeadSymbol? FindLead(FileSymbols file, string name) => MeaningOfLead(file, name) is { Other: null, Symbol: { } lead } ? lead : null;

    /// <summary>Gear that is like other gear, with all that it has from there.</summary>
    internal Dictionary<GearSymbol, GearSymbol> ReadInFull { get; } = new(ReferenceEqualityComparer.Instance);

    /// <summary>The gear that a declaration gives: for one that is like other gear with what it has from there.</summary>
    public GearSymbol InFull(GearSymbol declared) => ReadInFull.GetValueOrDefault(declared, declared);

    internal Meaning<GearSymbol> MeaningOfGear(FileSymbols file, string name)
    {
        var meaning = GearScope.Find(file, name);
        if (ReadInFull.Count > 0 && meaning.Symbol is { } declared)
        {
            meaning = meaning with { Symbol = InFull(declared) };
        }
        if (meaning.Symbol is { } gear && SharedLibrary.IsShared(gear.At.Source.Path) && (Gear.TryAdd(gear.Name, gear) || !AllGear.Contains(gear)))
        {
            AllGear.Add(gear);
        }
        return meaning;
    }

    internal Meaning<LeadSymbol> MeaningOfLead(FileSymbols file, string name)
    {
        var meaning = LeadScope.Find(file, name);
        if (meaning.Symbol is { } lead)
        {
            Leads.TryAdd(lead.Name, lead);
        }
        return meaning;
    }

    /// <summary>The device that a name means in a file: the one it declares or imports, then any of the rig.</summary>
    public DeviceSymbol? FindDevice(FileSymbols file, string name) => FindDevice(file, name, null);

    private DeviceSymbol? FindDevice(FileSymbols file, string name, HashSet<FileSymbols>? seen)
    {
        var prefix = Imports.PrefixOf(file);
        if (DevicesByName.TryGetValue(prefix.Length == 0 ? name : prefix + name, out var device))
        {
            return device;
        }
        if (name.IndexOf('.') is > 0 and var dot && Imports.FileCalled(file, name[..dot]) is { } called)
        {
            return FindDevice(called, name[(dot + 1)..], seen);
        }
        seen ??= [];
        seen.Add(file);
        foreach (var imported in Imports.ImportsOf(file))
        {
            if (imported.As is null && !seen.Contains(imported.File) && FindDevice(imported.File, name, seen) is { } found)
            {
                return found;
            }
        }
        return prefix.Length > 0 && seen.Count == 1 ? DevicesByName.GetValueOrDefault(name) : null;
    }

    /// <summary>Every name that <see cref="FindGear(string)"/> knows.</summary>
    public IReadOnlyCollection<string> GearNames => NamesIn(Files[0], f => f.Library?.GearNames ?? f.Gear.Select(g => g.Name));

    /// <summary>Every name that <see cref="FindLead(string)"/> knows.</summary>
    public IReadOnlyCollection<string> LeadNames => NamesIn(Files[0], f => f.Library?.LeadNames ?? f.Leads.Select(l => l.Name));

    private HashSet<string> NamesIn(FileSymbols root, Func<FileSymbols, IEnumerable<string>> namesOf)
    {
        var names = new HashSet<string>(namesOf(root), StringComparer.Ordinal);
        var seen = new HashSet<(FileSymbols, string)>();
        var open = new Stack<(FileSymbols File, string Prefix)>([(root, "")]);
        while (open.TryPop(out var at))
        {
            foreach (var imported in Imports.ImportsOf(at.File))
            {
                var prefix = imported.As is { } name ? $"{at.Prefix}{name}." : at.Prefix;
                // Files that import each other under names would go on for ever.
                if (prefix.Length < 200 && imported.File != root && seen.Add((imported.File, prefix)))
                {
                    names.UnionWith(namesOf(imported.File).Select(n => prefix + n));
                    open.Push((imported.File, prefix));
                }
            }
        }
        return names;
    }

    private FileSymbols FileOf(Location at)
    {
        foreach (var file in Files)
        {
            if (ReferenceEquals(file.Source, at.Source))
            {
                return file;
            }
        }
        throw new InvalidOperationException($"{at.Source.Path} is no file of this rig.");
    }
}
