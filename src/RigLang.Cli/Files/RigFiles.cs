namespace RigLang.Cli.Files;

/// <summary>Turns what the player named into the list of files to work on: each file once, folders searched for rigs.</summary>
internal static class RigFiles
{
    /// <summary>What a player types for it.</summary>
    public const string StandardInput = "-";

    /// <summary>What it is called in findings; its imports are looked up from the current folder.</summary>
    public const string StandardInputPath = "<stdin>";

    private const string Extension = ".rig";

    /// <returns>Paths with forward slashes, as the player would type them.</returns>
    public static List<string> Find(IReadOnlyList<string> named, Host host, Action<FileProblem> onProblem)
    {
        var found = new List<string>(named.Count);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var i = 0; i < named.Count; i++)
        {
            var name = WithForwardSlashes(named[i]);
            if (name == StandardInput)
            {
                if (seen.Add(name))
                {
                    found.Add(name);
                }
                continue;
            }
            if (!TryFullPath(name, host, out var fullPath))
            {
                onProblem(new(name, name.Length == 0 ? "a file needs a name" : "no file can have such a name"));
            }
            else if (Directory.Exists(fullPath))
            {
                AddFolder(name, fullPath, found, seen, onProblem);
            }
            else if (seen.Add(fullPath))
            {
                found.Add(name);
            }
        }
        return found;
    }

    /// <summary>Every rig in a folder and the folders in it, sorted; what cannot be searched is passed over.</summary>
    /// <returns>Full paths with forward slashes; none when there is no such folder.</returns>
    public static List<string> InFolder(string folder)
    {
        var inside = new List<string>();
        if (Directory.Exists(folder))
        {
            Search(folder, "", inside, (_, _) => { });
        }
        inside.Sort(StringComparer.Ordinal);
        return [.. inside.Select(relative => Join(folder, relative))];
    }

    private static void AddFolder(
        string name, string fullPath, List<string> found, HashSet<string> seen, Action<FileProblem> onProblem)
    {
        var inside = new List<string>();
        var unreadable = Search(fullPath, "", inside, (folder, why) => onProblem(new(Join(name, folder), why)));
        inside.Sort(StringComparer.Ordinal);
        foreach (var relative in inside)
        {
            if (seen.Add(Path.Combine(fullPath, relative)))
            {
                found.Add(Join(name, relative));
            }
        }
        if (inside.Count == 0 && !unreadable)
        {
            onProblem(new(name, "there is no .rig file in this folder"));
        }
    }

    /// <summary>Hidden files and folders are passed over, and so are links to folders, which may lead in circles.</summary>
    /// <returns>Whether some folder could not be searched.</returns>
    private static bool Search(string fullPath, string relative, List<string> inside, Action<string, string> onProblem)
    {
        var unreadable = false;
        try
        {
            foreach (var entry in new DirectoryInfo(fullPath).EnumerateFileSystemInfos())
            {
                if (entry.Name.StartsWith('.') || (entry.Attributes & FileAttributes.Hidden) != 0)
                {
                    continue;
                }
                var path = relative.Length == 0 ? entry.Name : relative + "/" + entry.Name;
                if (entry is DirectoryInfo)
                {
                    if ((entry.Attributes & FileAttributes.ReparsePoint) == 0)
                    {
                        unreadable |= Search(entry.FullName, path, inside, onProblem);
                    }
                }
                else if (entry.Name.EndsWith(Extension, StringComparison.OrdinalIgnoreCase))
                {
                    inside.Add(path);
                }
            }
        }
        catch (Exception e) when (TextFile.IsFileTrouble(e))
        {
            onProblem(relative, "this folder could not be searched; have you the permission?");
            unreadable = true;
        }
        return unreadable;
    }

    private static bool TryFullPath(string name, Host host, out string fullPath)
    {
        try
        {
            fullPath = name.Length == 0 ? "" : host.FullPath(name);
            return name.Length > 0;
        }
        catch (ArgumentException)
        {
            fullPath = "";
            return false;
        }
    }

    private static string Join(string folder, string relative)
    {
        var trimmed = folder.TrimEnd('/');
        return relative.Length == 0 ? folder
            : trimmed is "." ? relative
            : trimmed + "/" + relative;
    }

    private static string WithForwardSlashes(string path) =>
        Path.DirectorySeparatorChar == '/' ? path : path.Replace(Path.DirectorySeparatorChar, '/');
}
