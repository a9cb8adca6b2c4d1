using System.Collections.Concurrent;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>The gear and leads that ship inside the tool, written in the language: paths that start with <c>shared/</c>.</summary>
public static class SharedLibrary
{
    private static readonly ConcurrentDictionary<string, FileSymbols?> Read = new(StringComparer.Ordinal);

    /// <summary>Paths of the library's files, sorted.</summary>
    public static IReadOnlyList<string> Paths { get; } =
        [.. typeof(SharedLibrary).Assembly.GetManifestResourceNames().Where(IsShared).Order(StringComparer.Ordinal)];

    public static bool IsShared(string path) => path.StartsWith("shared/", StringComparison.Ordinal);

    /// <summary>A file of the library, read once in the life of the process; null when there is none of that name.</summary>
    public static FileSymbols? Open(string path) => Read.GetOrAdd(path, static path =>
    {
        using var stream = typeof(SharedLibrary).Assembly.GetManifestResourceStream(path);
        if (stream is null)
        {
            return null;
        }
        using var reader = new StreamReader(stream);
        return FileSymbols.Read(new SourceText(path, reader.ReadToEnd()));
    });

    /// <summary>The leads that may be chosen when a connection names none.</summary>
    public static IReadOnlyList<LeadSymbol> Leads => Open("shared/leads.rig")?.Leads ?? [];

    /// <summary>The library file that declares a gear or lead of this name, or null.</summary>
    public static string? FileDeclaring(string name) => Paths.FirstOrDefault(path =>
        Open(path) is { } file && (file.Gear.Exists(g => g.Name == name) || file.Leads.Exists(l => l.Name == name)));
}
