using System.Runtime.CompilerServices;

namespace RigLang.Fuzz;

/// <summary>Files of the repository, found from where the tests run.</summary>
public static class Repository
{
    public static string Root { get; } = FindRoot();

    // The build may put its output elsewhere; then the sources still stand where they were compiled, or the tests are
    // started from inside the repository.
    private static string FindRoot([CallerFilePath] string thisFile = "") =>
        Above(AppContext.BaseDirectory) ?? Above(Path.GetDirectoryName(thisFile)!) ?? Above(Directory.GetCurrentDirectory())
        ?? throw new InvalidOperationException("Start the tests from inside the repository.");

    private static string? Above(string path)
    {
        var folder = new DirectoryInfo(path);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "RigLang.sln")))
        {
            folder = folder.Parent;
        }
        return folder?.FullName;
    }
}
