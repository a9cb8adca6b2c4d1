using RigLang.Findings;

namespace RigLang.Cli.Output;

/// <summary>Colour, where it is wanted. It only repeats what the words say.</summary>
internal readonly record struct Paint(bool IsOn)
{
    public string Severity(Severity severity, string text) => With(CodeOf(severity), text);

    public string Strong(string text) => With("1", text);

    public string Faint(string text) => With("2", text);

    public string Good(string text) => With("32", text);

    /// <summary>The four bright-background-safe colours of ECMA-48 (ISO 6429) SGR.</summary>
    private static string CodeOf(Severity severity) => severity switch
    {
        Findings.Severity.Error => "1;31",
        Findings.Severity.Warning => "1;33",
        _ => "1;36",
    };

    private string With(string code, string text) => IsOn ? $"\e[{code}m{text}\e[0m" : text;
}
