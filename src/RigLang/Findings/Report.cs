using System.Collections.Immutable;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Findings;

/// <summary>Collects findings; a check says what, where and what to do, the rest comes from its page.</summary>
public sealed class Report
{
    private readonly List<Finding> _findings = [];
    private HashSet<DeviceSymbol>? _troubled;
    private int _troubledAfter;

    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>
    /// Devices that a mistake told so far may keep from getting what they should, see <see cref="Trouble"/>: what does not arrive
    /// there is no second mistake.
    /// </summary>
    public IReadOnlySet<DeviceSymbol> TroubledDevices(Rig rig)
    {
        var errors = _findings.Count(f => f.Severity == Severity.Error);
        if (_troubled is null || errors != _troubledAfter)
        {
            _troubledAfter = errors;
            _troubled = rig.TroubledDevices(_findings.Where(f => f.Severity == Severity.Error).Select(f => f.Location));
        }
        return _troubled;
    }

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
