using System.Collections.Immutable;
using RigLang.Text;

namespace RigLang.Findings;

/// <summary>Collects findings; a check says what, where and what to do, the rest comes from its page.</summary>
public sealed class Report
{
    private readonly List<Finding> _findings = [];

    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>Adds a finding. Leave <paramref name="why"/> or <paramref name="advice"/> out to use the check's own page.</summary>
    public void Add(
        Check check,
        Location at,
        string what,
        string? why = null,
        string? advice = null,
        IEnumerable<RelatedPlace>? related = null,
        IEnumerable<Fix>? fixes = null,
        Severity? severity = null)
        => _findings.Add(new Finding(
            check,
            severity ?? check.Severity,
            at,
            what,
            why ?? check.Why,
            advice ?? check.Advice,
            related is null ? [] : [.. related],
            fixes is null ? [] : [.. fixes]));
}
