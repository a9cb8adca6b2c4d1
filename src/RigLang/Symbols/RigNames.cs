using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>A rig with every name looked up: what there is, before anything is plugged in.</summary>
public sealed class RigNames
{
    public required IReadOnlyList<FileSymbols> Files { get; init; }

    internal ImportGraph Imports { get; init; } = null!;

    /// <summary>Gear by name: what the rig's own files declare, and of the library what the rig uses.</summary>
    public GatheredDictionary<string, GearSymbol> Gear { get; } = new(StringComparer.Ordinal);

    /// <summary>Leads by name: what the rig's own files declare, and of the library what the rig uses.</summary>
    public GatheredDictionary<string, LeadSymbol> Leads { get; } = new(StringComparer.Ordinal);

    /// <summary>The library's files that are imported, in the order first met.</summary>
    public GatheredList<LibraryFile> Library { get; } = [];

    /// <summary>All gear that counts: of the rig's own files what they declare, equal ones once, and of the library what is used.</summary>
    public GatheredList<GearSymbol> AllGear { get; } = [];

    public GatheredList<DeviceSymbol> Devices { get; } = [];
    public GatheredDictionary<string, DeviceSymbol> DevicesByName { get; } = new(StringComparer.Ordinal);
    public GatheredList<ConnectionSymbol> Connections { get; } = [];
    public GatheredList<StockSymbol> Stock { get; } = [];
    public GatheredList<ExpectationSymbol> Expectations { get; } = [];

    /// <summary>What the player knows of and leaves as it is.</summary>
    public GatheredList<AcceptSymbol> Accepts { get; } = [];
    public GatheredList<Fault> Faults { get; } = [];

    /// <summary>What the rig blocks say, by dimension, as said first.</summary>
    internal GatheredDictionary<Dimension, RigFigure> RigFigures { get; } = [];

    public string? Title { get; internal set; }
    public Bpm? Tempo { get; internal set; }
    public VoltRange? MainsVolts { get; internal set; }
    public Ampere? MainsCurrent { get; internal set; }
    public double? MainsHertz { get; internal set; }
    public Second? SetLength { get; internal set; }

    /// <summary>True when an import brought nothing: a gear or lead that nobody knows may well be declared there.</summary>
    public bool HasBrokenImport { get; internal set; }

    /// <summary>Names that stand in lines which could not be read: nothing is concluded from what such a device seems to lack.</summary>
    public GatheredSet<string> NamesInBrokenLines { get; } = new(StringComparer.Ordinal);

    public int JackCount { get; internal set; }
    public int ContactCount { get; internal set; }

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
    internal GatheredDictionary<GearSymbol, GearSymbol> ReadInFull { get; } = new(ReferenceEqualityComparer.Instance);

    /// <summary>The gear that a declaration gives: for one that is like other gear with what it has from there.</summary>
    public GearSymbol InFull(GearSymbol declared) => ReadInFull.GetValueOrDefault(declared, declared);

    internal Meaning<GearSymbol> MeaningOfGear(FileSymbols file, string name)
    {
        var meaning = GearScope.Find(file, name);
        if (ReadInFull.Count > 0 && meaning.Symbol is { } declared)
        {
            meaning = meaning with { Symbol = InFull(declared) };
        }
        return meaning;
    }

    internal Meaning<LeadSymbol> MeaningOfLead(FileSymbols file, string name) => LeadScope.Find(file, name);

    /// <summary>Gear of the library counts once a statement of the rig names it.</summary>
    internal void Use(GearSymbol gear)
    {
        if (SharedLibrary.IsShared(gear.At.Source.Path) && (Gear.TryAdd(gear.Name, gear) || !AllGear.Contains(gear)))
        {
            AllGear.Add(gear);
        }
    }

    /// <inheritdoc cref="Use(GearSymbol)"/>
    internal void Use(LeadSymbol lead) => Leads.TryAdd(lead.Name, lead);

    /// <summary>Every statement has been read: from here on whoever asks finds the same, and may ask from any thread.</summary>
    internal void Close()
    {
        Gear.Close();
        Leads.Close();
        Library.Close();
        AllGear.Close();
        Devices.Close();
        DevicesByName.Close();
        Connections.Close();
        Stock.Close();
        Expectations.Close();
        Accepts.Close();
        Faults.Close();
        RigFigures.Close();
        NamesInBrokenLines.Close();
        ReadInFull.Close();
        foreach (var device in Devices)
        {
            device.Close();
        }
        foreach (var connection in Connections)
        {
            connection.Close();
        }
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

    /// <summary>The file of the rig that a place lies in.</summary>
    internal FileSymbols FileOf(Location at)
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
