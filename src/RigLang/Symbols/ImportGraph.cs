using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>A file that another one imports. <see cref="As"/> is what stands before its names there, or null.</summary>
public sealed record ImportedFile(FileSymbols File, string? As, Location At);

/// <summary>Which file of a rig imports which, and how each file's names are called in the whole rig.</summary>
internal sealed class ImportGraph(FileSymbols root)
{
    private readonly Dictionary<FileSymbols, List<ImportedFile>> _imports = [];
    private readonly Dictionary<FileSymbols, string> _prefixes = [];

    public FileSymbols Root { get; } = root;

    public void Add(FileSymbols importer, ImportedFile imported)
    {
        if (!_imports.TryGetValue(importer, out var list))
        {
            _imports.Add(importer, list = []);
        }
        list.Add(imported);
        var prefix = PrefixOf(importer) + (imported.As is { } name ? name + "." : "");
        if (prefix.Length > 0)
        {
            _prefixes.TryAdd(imported.File, prefix);
        }
    }

    public IReadOnlyList<ImportedFile> ImportsOf(FileSymbols file) => _imports.TryGetValue(file, out var list) ? list : [];

    /// <summary>What stands before the names of its devices in the rig: empty, or "tide.".</summary>
    public string PrefixOf(FileSymbols file) => _prefixes.Count == 0 ? "" : _prefixes.GetValueOrDefault(file, "");

    /// <summary>The file that is imported there under that name.</summary>
    public FileSymbols? FileCalled(FileSymbols importer, string name)
    {
        foreach (var imported in ImportsOf(importer))
        {
            if (imported.As == name)
            {
                return imported.File;
            }
        }
        return null;
    }

    /// <summary>True when one file imports the other, directly or by way of others.</summary>
    public bool Reaches(FileSymbols from, FileSymbols to) => ReachedFrom(from).Contains(to);

    /// <summary>The root's own line by which a file comes into the rig.</summary>
    public Location? LineThatBrings(FileSymbols file)
    {
        foreach (var imported in ImportsOf(Root))
        {
            if (imported.File == file || Reaches(imported.File, file))
            {
                return imported.At;
            }
        }
        return null;
    }

    private HashSet<FileSymbols> ReachedFrom(FileSymbols from)
    {
        var reached = new HashSet<FileSymbols>();
        var open = new Stack<FileSymbols>([from]);
        while (open.TryPop(out var at))
        {
            foreach (var imported in ImportsOf(at))
            {
                if (reached.Add(imported.File))
                {
                    open.Push(imported.File);
                }
            }
        }
        return reached;
    }
}
