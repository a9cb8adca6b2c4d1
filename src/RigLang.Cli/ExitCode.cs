namespace RigLang.Cli;

/// <summary>What the command's exit code says.</summary>
internal static class ExitCode
{
    /// <summary>Nothing at or above the threshold.</summary>
    public const int Clear = 0;

    /// <summary>Findings, or files that <c>rig format --check</c> would change.</summary>
    public const int Findings = 1;

    /// <summary>The tool could not do its job: a file that is not there or not text, a wrong option, a fault of its own.</summary>
    public const int CouldNot = 2;
}
