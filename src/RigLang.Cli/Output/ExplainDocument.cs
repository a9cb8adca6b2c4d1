namespace RigLang.Cli.Output;

/// <summary>The shape of <c>rig explain --format json</c>.</summary>
internal sealed record ExplainDocument(int Version, List<CheckEntry> Checks)
{
    public const int CurrentVersion = 1;
}

internal sealed record CheckEntry(
    string Name,
    string Severity,
    string Title,
    string Why,
    string Advice,
    string? Caution,
    string Source,
    string BadExample,
    string GoodExample);
