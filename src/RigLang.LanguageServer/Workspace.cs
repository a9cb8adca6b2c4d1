using RigLang.Editing;
using RigLang.Syntax;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.LanguageServer;

/// <summary>A document as the editor has it. <see cref="Uri"/> is as the client spells it, and answers go back under it.</summary>
internal sealed record OpenDocument(string Uri, int Version, SourceText Text)
{
    /// <summary>True when it is not known any more what the editor shows: then <see cref="Text"/> is not it.</summary>
    public bool IsOutOfStep { get; init; }
}

/// <summary>
/// All texts that the server knows and the rigs they make. What is open in the editor hides what is on disk. A file that others import
/// is read as a part of them: alone it would lack their gear. Compilations are kept until one of their texts changes. Not thread-safe: it
/// belongs to the server's one queue.
/// </summary>
internal sealed class Workspace(Disk disk)
{
    private readonly Dictionary<string, OpenDocument> _open = new(StringComparer.Ordinal);
    private readonly Dictionary<string, SourceText?> _disk = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string?> _problems = new(StringComparer.Ordinal);
    private readonly Dictionary<string, bool> _ours = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Compiled> _compiled = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (SourceText Text, IReadOnlyList<string> Imports)> _imports = new(StringComparer.Ordinal);
    private readonly SortedSet<string> _known = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<string>> _folders = new(StringComparer.Ordinal);
    private ILookup<string, string>? _importers;

    /// <summary>A rig with the texts it was made of, and the paths at which there was none.</summary>
    private sealed record Compiled(Compilation Compilation, List<(string Path, SourceText? Text)> Read)
    {
        /// <summary>The files that somebody looked at, so that what is worked out for one request serves the next.</summary>
        public Dictionary<string, RigView?> Views { get; } = new(StringComparer.Ordinal);

        public bool HasRead(string path) => Read.Exists(r => r.Path == path && r.Text is not null);
    }

    public IEnumerable<OpenDocument> Open => _open.Values;

    public OpenDocument? Document(string path) => _open.GetValueOrDefault(path);

    /// <summary>Every rig file of the workspace's folders, and every open one.</summary>
    public IEnumerable<string> Paths => _known.Union(_open.Keys).Order(StringComparer.Ordinal);

    public void Put(string path, OpenDocument document)
    {
        // Nearly every edit leaves the imports as they are; then it is known already who imports what.
        var isSame = _open.ContainsKey(path) && _imports.TryGetValue(path, out var before) && before.Imports.SequenceEqual(ImportsOf(path, document.Text));
        _open[path] = document;
        _importers = isSame ? _importers : null;
    }

    /// <summary>Closing forgets what was typed and not saved.</summary>
    public void Close(string path)
    {
        _open.Remove(path);
        ForgetDisk(path);
        _importers = null;
    }

    /// <summary>Something happened to a file on disk.</summary>
    public void DiskChanged(string path, bool isDeleted)
    {
        ForgetDisk(path);
        _importers = null;
        if (isDeleted)
        {
            _known.Remove(path);
        }
        else if (IsInFolder(path))
        {
            _known.Add(path);
        }
    }

    private void ForgetDisk(string path)
    {
        _disk.Remove(path);
        _problems.Remove(path);
        _ours.Remove(path);
    }

    /// <summary>
    /// Whether a file is read because somebody asks about it: only what is open or lies in a folder of the workspace, links followed.
    /// What a request names is no better than what an import names.
    /// </summary>
    public bool IsOurs(string path) => _open.ContainsKey(path) || IsInFolder(path);

    private bool IsInFolder(string path)
    {
        if (!_ours.TryGetValue(path, out var isOurs))
        {
            _ours[path] = isOurs = _folders.Keys.Any(folder => IsIn(folder, path))
                && new ImportPolicy([.. _folders.Keys.Select(disk.RealPath)]).WhyNot(disk.RealPath(path)) is null;
        }
        return isOurs;
    }

    /// <summary>The rig files of a folder, so that it is known who imports what. What can be no folder of a disk is none: the empty path would be all of it.</summary>
    public void AddFolder(string folder)
    {
        if (!IsOnDisk(folder))
        {
            return;
        }
        var found = disk.FindRigs(folder);
        _folders[folder] = found;
        _compiled.Clear();
        _ours.Clear();
        _known.UnionWith(found.Where(IsInFolder));
        _importers = null;
    }

    public void RemoveFolder(string folder)
    {
        _folders.Remove(folder);
        _compiled.Clear();
        _ours.Clear();
        _known.Clear();
        foreach (var found in _folders.Values)
        {
            _known.UnionWith(found.Where(IsInFolder));
        }
        _importers = null;
    }

    /// <summary>The text at a path, the editor's before the disk's; null when there is none.</summary>
    public SourceText? TextAt(string path)
    {
        if (_open.TryGetValue(path, out var document) && !document.IsOutOfStep)
        {
            return document.Text;
        }
        if (!_disk.TryGetValue(path, out var text))
        {
            _disk[path] = text = disk.Read(path) is { } content ? new SourceText(path, content) : null;
        }
        return text;
    }

    private string? ProblemAt(string path)
    {
        if (!_problems.TryGetValue(path, out var problem))
        {
            _problems[path] = problem = disk.WhyUnreadable(path);
        }
        return problem;
    }

    /// <summary>
    /// The rigs that a file is part of: those that import it and are imported by none, or itself. Who may not read it does not count: a
    /// file elsewhere stays a rig of its own, whoever names it.
    /// </summary>
    public IReadOnlyList<string> RootsOf(string path)
    {
        var above = ImportersAbove(path);
        if (above is [var only] && only == path)
        {
            return above;
        }
        var roots = above.Where(root => CompiledOf(root)?.HasRead(path) == true).ToList();
        return roots.Count > 0 ? roots : [path];
    }

    private IReadOnlyList<string> ImportersAbove(string path)
    {
        var importers = _importers ??= FindImporters();
        if (!importers[path].Any())
        {
            return [path];
        }
        var seen = new HashSet<string>(StringComparer.Ordinal) { path };
        var open = new Queue<string>(seen);
        var roots = new List<string>();
        while (open.TryDequeue(out var at))
        {
            if (!importers[at].Any())
            {
                roots.Add(at);
            }
            foreach (var importer in importers[at])
            {
                if (seen.Add(importer))
                {
                    open.Enqueue(importer);
                }
            }
        }
        // Files that import one another in a circle have no root: each stands for itself.
        return roots.Count > 0 ? [.. roots.Order(StringComparer.Ordinal)] : [path];
    }

    /// <summary>The rig that starts at a file; null when there is no such file, or it is none of ours.</summary>
    public Compilation? CompilationOf(string root) => CompiledOf(root)?.Compilation;

    private Compiled? CompiledOf(string root)
    {
        if (_compiled.TryGetValue(root, out var known) && known.Read.TrueForAll(r => ReferenceEquals(TextAt(r.Path), r.Text)))
        {
            return known;
        }
        if (!IsOurs(root) || TextAt(root) is not { } text)
        {
            _compiled.Remove(root);
            return null;
        }
        var read = new List<(string, SourceText?)> { (root, text) };
        var policy = PolicyFor(root);
        var compilation = Compilation.Create(text, path =>
        {
            var place = PlaceOf(path);
            if (place is null)
            {
                return new OpenedFile(null, "this document is not saved yet; save it, or open a folder, so that it is known where to look");
            }
            if (policy.WhyNot(disk.RealPath(place)) is { } refusal)
            {
                return new OpenedFile(null, refusal);
            }
            var imported = TextAt(place);
            read.Add((place, imported));
            return new OpenedFile(imported, imported is null ? ProblemAt(place) ?? "there is no such file" : null);
        });
        return _compiled[root] = new Compiled(compilation, read);
    }

    /// <summary>Whether a rig that starts at a file may import another.</summary>
    public bool MayImport(string root, string path) => PolicyFor(root).WhyNot(disk.RealPath(path)) is null;

    /// <summary>
    /// Where an import is looked for. That of a document on no disk is seen from the folder in which it is to be saved, or from the
    /// first of the workspace: never from the folder that the server happens to run in. Null where there is no such folder.
    /// </summary>
    private string? PlaceOf(string path)
    {
        return IsOnDisk(path) ? path
            : path.StartsWith(Untitled, StringComparison.Ordinal) ? path[Untitled.Length..]
            : _folders.Keys.Order(StringComparer.Ordinal).FirstOrDefault() is { } folder ? $"{folder.TrimEnd('/')}/{path}"
            : null;
    }

    private static bool IsOnDisk(string path) => !path.Contains('\0', StringComparison.Ordinal) && FileUri.FromPath(path).StartsWith("file:", StringComparison.Ordinal);

    private const string Untitled = "untitled:";

    /// <summary>What a rig may import: what lies in its folder, its repository, or a folder of the workspace that it lies in.</summary>
    private ImportPolicy PolicyFor(string root)
    {
        var slash = root.LastIndexOf('/');
        // A document that is on no disk belongs to the workspace.
        var isOnDisk = slash > 0 && IsOnDisk(root);
        var folders = new List<string>(_folders.Keys.Select(disk.RealPath));
        if (isOnDisk)
        {
            folders.Add(disk.RealPath(root[..slash]));
            if (disk.RepositoryOf(root[..slash]) is { } repository)
            {
                folders.Add(disk.RealPath(repository));
            }
        }
        return new ImportPolicy(folders);
    }

    /// <summary>A file as its first rig sees it; null when there is no such file.</summary>
    public RigView? ViewOf(string path) => ViewsOf(path).FirstOrDefault();

    /// <summary>A file as each of its rigs sees it.</summary>
    public IEnumerable<RigView> ViewsOf(string path) => RootsOf(path).Select(root => ViewIn(root, path)).OfType<RigView>();

    private RigView? ViewIn(string root, string path)
    {
        if (CompiledOf(root) is not { } compiled)
        {
            return null;
        }
        if (!compiled.Views.TryGetValue(path, out var view))
        {
            compiled.Views[path] = view = RigView.Of(compiled.Compilation, path);
        }
        return view;
    }

    /// <summary>Every rig of the workspace.</summary>
    public IEnumerable<Compilation> AllRigs() =>
        Paths.SelectMany(RootsOf).Distinct().Select(CompilationOf).Where(c => c is not null)!;

    /// <summary>Lets go of rigs that no open file is part of any more.</summary>
    public void ForgetUnused()
    {
        var used = _open.Keys.SelectMany(RootsOf).ToHashSet(StringComparer.Ordinal);
        foreach (var root in _compiled.Keys.Where(root => !used.Contains(root)).ToList())
        {
            _compiled.Remove(root);
        }
    }

    private ILookup<string, string> FindImporters()
    {
        var pairs = new List<(string Imported, string Importer)>();
        foreach (var path in Paths)
        {
            if (TextAt(path) is { } text)
            {
                pairs.AddRange(ImportsOf(path, text).Select(imported => (imported, path)));
            }
        }
        return pairs.ToLookup(p => p.Imported, p => p.Importer);
    }

    private IReadOnlyList<string> ImportsOf(string path, SourceText text)
    {
        if (_imports.TryGetValue(path, out var known) && ReferenceEquals(known.Text, text))
        {
            return known.Imports;
        }
        var imports = RigImports.Of(text);
        _imports[path] = (text, imports);
        return imports;
    }

    private static bool IsIn(string folder, string path) => path.StartsWith(folder.TrimEnd('/') + "/", StringComparison.Ordinal);
}

/// <summary>The disk as the server sees it; paths have forward slashes.</summary>
/// <param name="Read">The text of a file; null when it cannot be read.</param>
/// <param name="FindRigs">Every rig file in a folder and the folders in it.</param>
/// <param name="CopyOfLibrary">Puts a file of the library where an editor can open it, and says where; null when no copy can be made.</param>
public sealed record Disk(Func<string, string?> Read, Func<string, List<string>> FindRigs, Func<string, string, string?> CopyOfLibrary)
{
    /// <summary>Where a path leads when every link on the way is followed.</summary>
    public Func<string, string> RealPath { get; init; } = path => path;

    /// <summary>Why a file that gave no text cannot be read, in a player's words; null when there is none.</summary>
    public Func<string, string?> WhyUnreadable { get; init; } = _ => null;

    /// <summary>The folder of the repository that a folder lies in; null when it lies in none.</summary>
    public Func<string, string?> RepositoryOf { get; init; } = _ => null;
}
