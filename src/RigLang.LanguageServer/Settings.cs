using System.Text.Json;
using RigLang.Findings;

namespace RigLang.LanguageServer;

/// <summary>
/// What a player set in the editor under <c>rig-lang</c>: <c>failOn</c> (the mildest finding that keeps a rig from passing), <c>units</c> (m or
/// ft). What cannot be read counts as not set. How serious a finding is stands in the rig alone, so that editor and command say the same.
/// </summary>
internal sealed record Settings(Severity FailOn, bool InFeet)
{
    public const string Section = "rig-lang";

    public static Settings Default { get; } = new(Severity.Error, false);

    /// <param name="json">The section itself, or an object that has it.</param>
    public static Settings Read(JsonElement? json)
    {
        if (json is not { ValueKind: JsonValueKind.Object } section)
        {
            return Default;
        }
        if (section.TryGetProperty(Section, out var inner) && inner.ValueKind == JsonValueKind.Object)
        {
            section = inner;
        }
        return new Settings(
            section.TryGetProperty("failOn", out var failOn) ? SeverityOf(WordOf(failOn)) ?? Severity.Error : Severity.Error,
            section.TryGetProperty("units", out var units) && WordOf(units) == "ft");
    }

    private static string? WordOf(JsonElement value) => value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static Severity? SeverityOf(string? word) => word switch
    {
        "error" => Severity.Error,
        "warning" => Severity.Warning,
        "hint" => Severity.Hint,
        _ => null,
    };
}
