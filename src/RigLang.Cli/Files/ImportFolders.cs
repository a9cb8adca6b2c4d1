using RigLang.Text;

namespace RigLang.Cli.Files;

/// <summary>The disk part of <see cref="ImportPolicy"/>: where links lead, and which folders belong to a rig.</summary>
internal static class ImportFolders
{
    /// <param name="fullPath">Of the checked file, or of a file that would be in the current folder.</param>
    /// <param name="roots">Folders that the player allows besides.</param>
    public static ImportPolicy PolicyFor(string fullPath, IEnumerable<string> roots)
    {
        var folder = Path.GetDirectoryName(fullPath) ?? fullPath;
        var folders = new List<string> { RealPath(folder) };
        if (RepositoryOf(folder) is { } repository)
        {
            folders.Add(RealPath(repository));
        }
        folders.AddRange(roots.Select(RealPath));
        return new ImportPolicy(folders);
    }

    /// <summary>The nearest folder at or above that is a repository; null when there is none.</summary>
    public static string? RepositoryOf(string folder)
    {
        for (var at = folder; at is not null; at = Path.GetDirectoryName(at))
        {
            var mark = Path.Combine(at, ".git");
            if (Directory.Exists(mark) || File.Exists(mark))
            {
                return at;
            }
        }
        return null;
    }

    /// <summary>Where a path leads when every link on the way is followed; what does not exist, or can be no path, stays as written.</summary>
    /// <returns>A full path with forward slashes.</returns>
    public static string RealPath(string fullPath) => fullPath.Length == 0 || fullPath.Contains('\0', StringComparison.Ordinal)
        ? fullPath
        : Follow(Path.GetFullPath(fullPath), 0).Replace(Path.DirectorySeparatorChar, '/');

    private static string Follow(string path, int links)
    {
        if (Path.GetDirectoryName(path) is not { } parent || links > 40)
        {
            return path;
        }
        var at = Path.Combine(Follow(parent, links), Path.GetFileName(path));
        try
        {
            FileSystemInfo info = Directory.Exists(at) ? new DirectoryInfo(at) : new FileInfo(at);
            return info.LinkTarget is { } target ? Follow(Path.GetFullPath(target, Path.GetDirectoryName(at)!), links + 1) : at;
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            return at;
        }
    }
}
