using RigLang.Connectors;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>The gear and leads that ship inside the tool, written in the language: paths that start with <c>shared/</c>.</summary>
public static class SharedLibrary
{
    private static readonly FileSymbols?[] Opened = new FileSymbols?[LibraryText.Files.Length];

    /// <summary>Paths of the library's files, sorted.</summary>
    public static IReadOnlyList<string> Paths { get; } = [.. LibraryText.Files.Select(file => file.Path).Order(StringComparer.Ordinal)];

    public static bool IsShared(string path) => path.StartsWith("shared/", StringComparison.Ordinal);

    /// <summary>A file of the library, the same one for the life of the process; null when there is none of that name.</summary>
    public static FileSymbols? Open(string path)
    {
        for (var i = 0; i < LibraryText.Files.Length; i++)
        {
            if (LibraryText.Files[i].Path == path)
            {
                return Opened[i] ?? OpenFirst(i);
            }
        }
        return null;
    }

    /// <summary>Of two threads that open it at once, both get the file of the first.</summary>
    private static FileSymbols OpenFirst(int index)
    {
        var (path, text) = LibraryText.Files[index];
        var file = FileSymbols.OfLibrary(new SourceText(path, text));
        return Interlocked.CompareExchange(ref Opened[index], file, null) ?? file;
    }

    /// <summary>All leads that may be chosen when a connection names none.</summary>
    public static IReadOnlyList<LeadSymbol> Leads => LeadFile.Leads;

    /// <summary>Those of the leads that have a plug of each of two sets.</summary>
    public static IEnumerable<LeadSymbol> LeadsBetween(IReadOnlyList<Form> one, IReadOnlyList<Form> other) => LeadFile.Library!.LeadsBetween(one, other);

    private static FileSymbols LeadFile => Open("shared/leads.rig")!;

    /// <summary>The library file that declares a gear or lead of this name, or null.</summary>
    public static string? FileDeclaring(string name) => Paths.FirstOrDefault(path =>
        Open(path)?.Library is { } file && (file.GearAt(name) ?? file.LeadAt(name)) is not null);
}
