using RigLang.Text;

namespace RigLang.Cli.Files;

/// <summary>Gives the compiler its texts: the files the player named, and what they import. Each file is read once a run.</summary>
internal sealed class SourceReader(Host host)
{
    private readonly Dictionary<string, OpenedFile> _read = new(StringComparer.Ordinal);

    /// <param name="path">As found by <see cref="RigFiles"/>: forward slashes, or <c>-</c> for standard input.</param>
    public OpenedFile Open(string path)
    {
        if (!_read.TryGetValue(path, out var opened))
        {
            _read[path] = opened = path == RigFiles.StandardInput ? Opened(RigFiles.StandardInputPath, TextFile.ReadInput(host)) : ReadFile(path);
        }
        return opened;
    }

    /// <summary>Opens what a rig imports: files, whatever they are called, inside the folders that belong to it.</summary>
    /// <param name="root">The checked file, as it was opened.</param>
    public OpenFile ImportsOf(string root)
    {
        ImportPolicy? policy = null;
        return path =>
        {
            string fullPath;
            try
            {
                policy ??= ImportFolders.PolicyFor(host.FullPath(root == RigFiles.StandardInput ? RigFiles.StandardInputPath : root), host.ImportRoots.Select(host.FullPath));
                fullPath = ImportFolders.RealPath(host.FullPath(path));
            }
            catch (ArgumentException)
            {
                return new(null, "no file can have such a name");
            }
            return policy.WhyNot(fullPath) is { } refusal ? new(null, refusal) : Open(path == RigFiles.StandardInput ? "./" + path : path);
        };
    }

    private OpenedFile ReadFile(string path)
    {
        if (path.Length == 0)
        {
            return new(null, "a file needs a name");
        }
        string fullPath;
        try
        {
            fullPath = host.FullPath(path);
        }
        catch (ArgumentException)
        {
            return new(null, "no file can have such a name");
        }
        return Opened(path, ReadWhole(fullPath));
    }

    /// <summary>A file that is to be understood: an ordinary one, and not half written by a run that was ended.</summary>
    public static ReadText ReadWhole(string fullPath) =>
        UndoJournal.WhyNotRead(fullPath) is { } torn ? new(null, [], torn) : TextFile.Read(fullPath);

    private static OpenedFile Opened(string path, ReadText read) =>
        read.Text is { } text ? new(new SourceText(path, text), null) : new(null, read.Problem);
}
