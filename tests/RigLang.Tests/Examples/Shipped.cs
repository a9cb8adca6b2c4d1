using RigLang.Tests.Support;
using RigLang.Text;

namespace RigLang.Tests.Examples;

/// <summary>The rigs that stand in the repository, compiled from disk. Paths are relative to its root, with forward slashes.</summary>
internal static class Shipped
{
    public static SourceText Read(string path) => new(path, File.ReadAllText(Path.Combine(Repository.Root, path)));

    public static Compilation Compile(string path) => Compilation.Create(Read(path), wanted =>
        File.Exists(Path.Combine(Repository.Root, wanted))
            ? new OpenedFile(Read(wanted), null)
            : new OpenedFile(null, "there is no such file"));

    public static IEnumerable<string> RigsIn(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Repository.Root, folder), "*.rig")
            .Select(file => $"{folder}/{Path.GetFileName(file)}")
            .Order(StringComparer.Ordinal);
}
