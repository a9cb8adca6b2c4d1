using RigLang.Cli.Files;
using RigLang.Cli.Output;
using RigLang.Findings;

namespace RigLang.Cli.Commands;

/// <summary>For commands that answer a question about one rig.</summary>
internal static class OneRig
{
    /// <summary>The rig and all it imports, or null after the trouble has been told.</summary>
    public static Compilation? Read(string path, Host host)
    {
        host.At = path;
        var reader = new SourceReader(host);
        var opened = reader.Open(path);
        if (opened.Text is not { } text)
        {
            Usage.Error(host, $"{path}: {opened.Problem ?? "it could not be read"}", "Name a rig file, or - for what another program hands over.");
            return null;
        }
        return Compilation.Read(text, reader.ImportsOf(path));
    }

    /// <summary>Says, beside an answer, that the rig has errors.</summary>
    /// <param name="findings">Those that bear on the answer.</param>
    public static void MentionErrors(IEnumerable<Finding> findings, string path, Host host)
    {
        var errors = findings.Sum(f => f.Severity == Severity.Error ? f.Count : 0);
        if (errors > 0)
        {
            // On standard error, so that the answer stays clean for other programs.
            host.Error.WriteLine(Cells.Safe(
                $"rig: {path} has {Plural.Of(errors, "error", "errors")} that can bear on this, and the answer leaves out what does not work; rig check shows all."));
        }
    }
}
