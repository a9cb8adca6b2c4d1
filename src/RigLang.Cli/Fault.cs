using RigLang.Cli.Output;

namespace RigLang.Cli;

/// <summary>A fault of the tool itself: one calm line, never a stack trace unless <c>RIG_TRACE=1</c> asks for it.</summary>
internal static class Fault
{
    public static bool IsTraced(Host host) => host.Variable("RIG_TRACE") == "1";

    public static string Sentence(Exception exception)
        => $"rig itself failed here ({exception.GetType().Name}); this is a fault of the tool, not of your file. "
            + "Please report it together with the file.";

    public static int Say(Exception exception, Host host)
    {
        var at = host.At is { } path ? Cells.Safe(path) + ": " : "";
        host.LastWords($"rig: {at}{Sentence(exception)}");
        if (IsTraced(host))
        {
            host.LastWords(exception.ToString());
        }
        return ExitCode.CouldNot;
    }
}
