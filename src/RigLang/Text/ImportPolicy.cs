namespace RigLang.Text;

/// <summary>
/// Which files an import may read: rig files inside the folders that a player has opened to it. A rig from somebody else must not
/// show what stands elsewhere on the computer. Paths in, verdict out: links have been followed before it is asked.
/// </summary>
/// <param name="Folders">Full paths with forward slashes, links followed.</param>
public sealed record ImportPolicy(IReadOnlyList<string> Folders)
{
    /// <summary>Null when the file may be read; otherwise why not, and how to allow it. Says nothing of what is there.</summary>
    /// <param name="path">Full path with forward slashes, links followed.</param>
    public string? WhyNot(string path)
    {
        if (!path.EndsWith(".rig", StringComparison.OrdinalIgnoreCase))
        {
            return "only files whose name ends in .rig are imported";
        }
        foreach (var folder in Folders)
        {
            if (IsInside(folder, path))
            {
                return null;
            }
        }
        return "it lies outside this rig's folder and repository; to allow a neighbouring folder, run rig with --root FOLDER, "
            + "or open that folder in your editor";
    }

    private static bool IsInside(string folder, string path)
    {
        var start = folder.TrimEnd('/');
        return path.Length > start.Length && path.StartsWith(start, StringComparison.Ordinal) && path[start.Length] == '/';
    }
}
