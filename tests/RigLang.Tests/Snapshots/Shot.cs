using RigLang.Tests.Support;
using Snapshooter;
using Snapshooter.Xunit3;
using Xunit;

namespace RigLang.Tests.Snapshots;

/// <summary>
/// Holds what was printed against a file beside these tests. Nothing but <c>RIG_UPDATE=1</c> writes such a file: a test
/// without one fails, here and on the build machine.
/// </summary>
internal static class Shot
{
    private const string Ending = ".snap";

    private static readonly string Folder = Path.Combine(Repository.Root, "tests", "RigLang.Tests", "Snapshots");
    private static readonly bool Updates = Environment.GetEnvironmentVariable("RIG_UPDATE") == "1";

    static Shot()
    {
        // Without it Snapshooter writes the file that is not there and lets the test pass.
        Environment.SetEnvironmentVariable("SNAPSHOOTER_STRICT_MODE", "on");
        if (Updates)
        {
            foreach (var stale in Directory.GetDirectories(Folder, "__mismatch__", SearchOption.AllDirectories))
            {
                Directory.Delete(stale, recursive: true);
            }
        }
    }

    /// <param name="group">The folder: one for each class of tests here.</param>
    /// <param name="name">The file, without its ending.</param>
    /// <param name="printed">What was printed.</param>
    public static void Match(string group, string name, string printed)
    {
        // A file of the repository ends in one line feed.
        var text = printed.TrimEnd('\n') + "\n";
        Assert.DoesNotContain(Repository.Root, text, StringComparison.Ordinal);
        if (Updates)
        {
            // Snapshooter would write a byte order mark.
            Directory.CreateDirectory(FilesOf(group));
            File.WriteAllText(Path.Combine(FilesOf(group), name + Ending), text);
        }
        Snapshot.Match(text, new SnapshotFullName(name + Ending, Path.Combine(Folder, group)));
    }

    /// <summary>Fails for a file that no test reads; an update takes it away.</summary>
    public static void NoOrphans(string group, IReadOnlyList<string> names)
    {
        var read = names.Select(name => name + Ending).ToHashSet(StringComparer.Ordinal);
        // Two tests that read one file would each hold the other's words.
        Assert.Equal(names.Count, read.Count);
        // The first update finds no folder yet.
        var files = Directory.Exists(FilesOf(group)) ? Directory.GetFiles(FilesOf(group)) : [];
        var orphans = files.Where(file => !read.Contains(Path.GetFileName(file))).ToList();
        if (Updates)
        {
            orphans.ForEach(File.Delete);
            return;
        }
        Assert.Equal([], orphans.Select(f => Path.GetRelativePath(Folder, f)));
    }

    /// <summary>The folders that hold snapshots.</summary>
    public static IEnumerable<string> Groups() =>
        Directory.GetDirectories(Folder, "__snapshots__", SearchOption.AllDirectories)
            .Select(found => Path.GetRelativePath(Folder, Path.GetDirectoryName(found)!)).Order(StringComparer.Ordinal);

    private static string FilesOf(string group) => Path.Combine(Folder, group, "__snapshots__");
}
