using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>The files of a rig: the root, then each import in the order first met; who imports whom; and what went wrong on the way.</summary>
internal sealed record RigFiles(IReadOnlyList<FileSymbols> Files, ImportGraph Graph, IReadOnlyList<Fault> Faults);

/// <summary>Follows imports from the root file. Each file is read once; what cannot be followed is a fault, and the rest goes on.</summary>
internal static class Imports
{
    /// <param name="read">A player's file by itself; the library's files are read a declaration at a time.</param>
    public static RigFiles Follow(SourceText root, OpenFile open, Func<SourceText, FileSymbols> read)
    {
        var files = new List<FileSymbols>();
        var faults = new List<Fault>();
        var known = new Dictionary<string, FileSymbols?>(StringComparer.Ordinal);
        var rootFile = read(root);
        known[Normalize(root.Path)] = rootFile;
        files.Add(rootFile);
        var graph = new ImportGraph(rootFile);

        // An explicit stack: a chain of a thousand imports must not be a chain of a thousand calls.
        var chain = new List<(FileSymbols File, string Path, int Next, Dictionary<string, Location> Seen)> { (rootFile, Normalize(root.Path), 0, []) };
        while (chain.Count > 0)
        {
            var (file, path, next, seen) = chain[^1];
            var imports = file.Statements;
            while (next < imports.Count && imports[next] is not ImportStatement)
            {
                next++;
            }
            if (next == imports.Count)
            {
                chain.RemoveAt(chain.Count - 1);
                continue;
            }
            chain[^1] = (file, path, next + 1, seen);
            var import = (ImportStatement)imports[next];
            var at = new Location(file.Source, import.Path.Span);
            var target = Resolve(path, import.Path.Text);
            if (target is null)
            {
                faults.Add(new BadImport(at, ImportTrouble.Absolute, import.Path.Text, null, null));
            }
            else if (!seen.TryAdd(target, at))
            {
                faults.Add(new BadImport(at, ImportTrouble.Repeated, import.Path.Text, null, seen[target]));
            }
            else if (chain.Exists(o => o.Path == target))
            {
                graph.Add(file, new ImportedFile(chain.Find(o => o.Path == target).File, import.As?.Text, at));
                faults.Add(new BadImport(at, ImportTrouble.Circular, import.Path.Text, null, null));
            }
            else if (!known.TryGetValue(target, out var already))
            {
                var (symbols, problem) = Load(target, open, read);
                known[target] = symbols;
                if (symbols is null)
                {
                    faults.Add(new BadImport(at, ImportTrouble.NotFound, import.Path.Text, problem, null));
                }
                else
                {
                    files.Add(symbols);
                    graph.Add(file, new ImportedFile(symbols, import.As?.Text, at));
                    chain.Add((symbols, target, 0, []));
                }
            }
            else if (already is null)
            {
                faults.Add(new BadImport(at, ImportTrouble.NotFound, import.Path.Text, null, null));
            }
            else
            {
                graph.Add(file, new ImportedFile(already, import.As?.Text, at));
            }
        }
        return new RigFiles(files, graph, faults);
    }

    private static (FileSymbols?, string?) Load(string path, OpenFile open, Func<SourceText, FileSymbols> read)
    {
        if (SharedLibrary.IsShared(path))
        {
            return SharedLibrary.Open(path) is { } shared
                ? (shared, null)
                : (null, $"the library has {string.Join(", ", SharedLibrary.Paths)}");
        }
        var opened = open(path);
        return opened.Text is { } text ? (read(text), null) : (null, opened.Problem);
    }

    /// <summary>The path of an import, seen from where the root's path is seen; null when it is not a relative path.</summary>
    internal static string? Resolve(string importer, string import)
    {
        var path = import.Replace('\\', '/');
        if (path.Length == 0 || path[0] == '/' || path.Contains(':', StringComparison.Ordinal))
        {
            return null;
        }
        if (SharedLibrary.IsShared(path))
        {
            return Normalize(path);
        }
        var folder = importer.LastIndexOf('/') is >= 0 and var slash ? importer[..(slash + 1)] : "";
        return Normalize(folder + path);
    }

    private static string Normalize(string path)
    {
        var isRooted = path.StartsWith('/');
        var parts = new List<string>();
        foreach (var part in path.Replace('\\', '/').Split('/'))
        {
            if (part is "" or ".")
            {
                continue;
            }
            if (part == ".." && parts.Count > 0 && parts[^1] != "..")
            {
                parts.RemoveAt(parts.Count - 1);
            }
            else
            {
                parts.Add(part);
            }
        }
        return (isRooted ? "/" : "") + string.Join('/', parts);
    }
}
