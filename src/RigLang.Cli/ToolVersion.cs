namespace RigLang.Cli;

internal static class ToolVersion
{
    /// <summary>Three numbers, as in the project's own version.</summary>
    public static string Number { get; } = typeof(ToolVersion).Assembly.GetName().Version?.ToString(3) ?? "0.0.0";
}
