using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>A name as one file writes it: <c>bass</c>, or <c>tide.bass</c> where that is brought by an import `as tide`.</summary>
/// <param name="Prefixes">The names of imports in front of it, the outermost first.</param>
public sealed record WrittenName(IReadOnlyList<string> Prefixes, string Own)
{
    /// <summary>As the compiler looks it up, without quotes.</summary>
    public override string ToString() => Prefixes.Count == 0 ? Own : $"{string.Join('.', Prefixes)}.{Own}";
}

/// <summary>How each file of a rig names what the rig has. The same device is `bass` in one file and `tide.bass` in another.</summary>
public static class NamesOfFile
{
    /// <summary>The name of a device without the imports that stand before it in the rig.</summary>
    public static string OwnNameOf(this RigNames names, DeviceSymbol device)
    {
        var prefix = names.Imports.PrefixOf(names.FileAt(device.At));
        return prefix.Length > 0 && device.Name.StartsWith(prefix, StringComparison.Ordinal) ? device.Name[prefix.Length..] : device.Name;
    }

    /// <summary>How a file names a device; null where it cannot, since another has the name there or it lies behind two imports.</summary>
    public static WrittenName? NameOf(this RigNames names, FileSymbols file, DeviceSymbol device)
    {
        var own = names.OwnNameOf(device);
        if (names.FindDevice(file, own) == device)
        {
            return new WrittenName([], own);
        }
        foreach (var imported in names.Imports.ImportsOf(file))
        {
            if (imported.As is { } prefix && names.FindDevice(file, $"{prefix}.{own}") == device)
            {
                return new WrittenName([prefix], own);
            }
        }
        return null;
    }

    /// <summary>The names that imports of a file have there, in the order of its lines, also of imports that brought nothing.</summary>
    public static IEnumerable<Name> PrefixesOf(FileSymbols file)
    {
        foreach (var statement in file.Statements)
        {
            if (statement is ImportStatement { As: { } name })
            {
                yield return name;
            }
        }
    }

    /// <summary>The file that is imported there under that name; null where there is none.</summary>
    public static FileSymbols? FileCalled(this RigNames names, FileSymbols importer, string prefix) => names.Imports.FileCalled(importer, prefix);

    /// <summary>The file that an import line brings; null where it brings none.</summary>
    public static FileSymbols? FileOf(this RigNames names, FileSymbols importer, ImportStatement import)
    {
        foreach (var imported in names.Imports.ImportsOf(importer))
        {
            if (imported.At.Span == import.Path.Span)
            {
                return imported.File;
            }
        }
        return null;
    }

    /// <summary>The gear that a file can name: its own, what its imports bring, and what the checked file has, which it may leave it to.</summary>
    public static IReadOnlyList<WrittenName> GearOf(this RigNames names, FileSymbols file) =>
        names.AllOf(file, static f => f.Library?.GearNames ?? f.Gear.Select(g => g.Name));

    /// <inheritdoc cref="GearOf"/>
    public static IReadOnlyList<WrittenName> LeadsOf(this RigNames names, FileSymbols file) =>
        names.AllOf(file, static f => f.Library?.LeadNames ?? f.Leads.Select(l => l.Name));

    private static List<WrittenName> AllOf(this RigNames names, FileSymbols file, Func<FileSymbols, IEnumerable<string>> namesOf)
    {
        var found = new List<WrittenName>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        Collect(file);
        if (file != names.Files[0])
        {
            Collect(names.Files[0]);
        }
        return found;

        void Collect(FileSymbols root)
        {
            var visited = new HashSet<(FileSymbols, string)>();
            var open = new Queue<(FileSymbols File, IReadOnlyList<string> Prefixes)>([(root, [])]);
            while (open.TryDequeue(out var at))
            {
                foreach (var own in namesOf(at.File))
                {
                    var name = new WrittenName(at.Prefixes, own);
                    if (seen.Add(name.ToString()))
                    {
                        found.Add(name);
                    }
                }
                foreach (var imported in names.Imports.ImportsOf(at.File))
                {
                    IReadOnlyList<string> prefixes = imported.As is { } prefix ? [.. at.Prefixes, prefix] : at.Prefixes;
                    // Files that import each other under names would go on for ever.
                    if (prefixes.Count < Deepest && imported.File != root && visited.Add((imported.File, string.Join('.', prefixes))))
                    {
                        open.Enqueue((imported.File, prefixes));
                    }
                }
            }
        }
    }

    private const int Deepest = 6;

    /// <summary>The file of the rig that a place is in.</summary>
    public static FileSymbols FileAt(this RigNames names, Text.Location at)
    {
        foreach (var file in names.Files)
        {
            if (ReferenceEquals(file.Source, at.Source))
            {
                return file;
            }
        }
        throw new ArgumentException($"{at.Source.Path} is no file of this rig.", nameof(at));
    }
}
