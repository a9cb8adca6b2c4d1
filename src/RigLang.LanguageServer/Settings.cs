using System.Text.Json;
using RigLang.Findings;

namespace RigLang.LanguageServer;

/// <summary>
/// What a player set in the editor under <c>rig-lang</c>: <c>severity</c> (check name to error, warning, hint or off), <c>failOn</c> (the
/// mildest finding that keeps a rig from passing), <c>units</c> (m or ft). What cannot be read counts as not set.
/// </summary>
internal sealed record Settings(IReadOnlyDictionary<string, Severity?> Severities, Severity FailOn, bool InFeet)
{
    public const string Section = "rig-lang";

    public static Settings Default { get; } = new(new Dictionary<string, Severity?>(), Severity.Error, false);

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
        var severities = new Dictionary<string, Severity?>(StringComparer.Ordinal);
        if (section.TryGetProperty("severity", out var overrides) && overrides.ValueKind == JsonValueKind.Object)
        {
            foreach (var entry in overrides.EnumerateObject())
            {
                if (WordOf(entry.Value) is { } word && (word == "off" || SeverityOf(word) is not null))
                {
                    severities[entry.Name] = SeverityOf(word);
                }
            }
        }
        return new Settings(
            severities,
            section.TryGetProperty("failOn", out var failOn) ? SeverityOf(WordOf(failOn)) ?? Severity.Error : Severity.Error,
            section.TryGetProperty("units", out var units) && WordOf(units) == "ft");
    }

    /// <summary>How serious a finding is for this player; null when it is switched off.</summary>
    public Severity? SeverityOf(Finding finding) => Severities.TryGetValue(finding.Check.Name, out var set) ? set : finding.Severity;

    private static string? WordOf(JsonElement value) => value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static Severity? SeverityOf(string? word) => word switch
    {
        "error" => Severity.Error,
        "warning" => Severity.Warning,
        "hint" => Severity.Hint,
        _ => null,
    };
}
