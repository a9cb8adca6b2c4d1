using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Tests.Support;

/// <summary>Compiles small rigs; other files come from a dictionary, never from disk.</summary>
public static class Rigs
{
    public static Compilation Compile(string text, params (string Path, string Text)[] others) =>
        Compilation.Create(new SourceText("example.rig", text), path =>
        {
            foreach (var (name, content) in others)
            {
                if (name == path)
                {
                    return new OpenedFile(new SourceText(path, content), null);
                }
            }
            return new OpenedFile(null, "there is no such file");
        });

    /// <summary>"name@line" of each finding, lines from 1.</summary>
    public static string[] Found(this Compilation compilation) =>
        [.. compilation.Findings.Select(f => $"{f.Check.Name}@{f.Location.Source.PositionOf(f.Location.Span.Start).Line + 1}")];

    public static string[] Names(this Compilation compilation) => [.. compilation.Findings.Select(f => f.Check.Name)];

    /// <summary>The findings in full, for a failing test's message.</summary>
    public static string Told(this Compilation compilation) =>
        string.Join('\n', compilation.Findings.Select(f => $"{Place(f)} {f.Check.Name}: {f.What}"));

    private static string Place(Finding finding)
    {
        var (line, column) = finding.Location.Source.PositionOf(finding.Location.Span.Start);
        return $"{finding.Location.Source.Path}:{line + 1}:{column + 1}";
    }
}
