using RigLang.Tests.Support;
using RigLang.Text;

namespace RigLang.Tests.Examples;

/// <summary>The rigs that stand in the repository, compiled from disk. Paths are relative to its root, with forward slashes.</summary>
internal static class Shipped
{
    public static SourceText Read(string path) => new(path, File.ReadAllText(Path.Combine(Repository.Root, path)));

    public static Compilation Compile(string path) => Compile(Read(path));

    /// <summary>A text in place of the file of its path, with the imports of the disk.</summary>
    public static Compilation Compile(SourceText root) => Compilation.Create(root, wanted =>
        File.Exists(Path.Combine(Repository.Root, wanted))
            ? new OpenedFile(Read(wanted), null)
            : new OpenedFile(null, "there is no such file"));

    public static IEnumerable<string> RigsIn(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.rig")
            .Select(file => $"{folder}/{Path.GetFileName(file)}")
            .Order(StringComparer.Ordinal);
}
