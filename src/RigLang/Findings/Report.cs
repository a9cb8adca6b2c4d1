using RigLang.Text;

namespace RigLang.Findings;

/// <summary>Collects what the checks claim; a check says what, where and what to do, the rest comes from its page.</summary>
public sealed class Report
{
    /// <summary>What is wrong with the text is told this often of one file, by each check; then it is counted. A longer list is no list of slips.</summary>
    public const int MostOfAFile = 1000;

    private readonly List<Claim> _claims = [];
    private readonly Dictionary<SourceText, (int Told, Surplus? More)> _byFile = new(ReferenceEqualityComparer.Instance);

    public IReadOnlyList<Claim> Claims => _claims;

    /// <summary>What was said beyond that, for each file.</summary>
    public IEnumerable<Surplus> Surplus => _byFile.Values.Select(file => file.More).OfType<Surplus>();

    /// <summary>
    /// True where a check of the text has said enough of this file; what it would say of this place is then counted and need not be put into words.
    /// </summary>
    public bool HasEnough(Check check, Location at) => _byFile.GetValueOrDefault(at.Source).Told == MostOfAFile && IsEnough(check, at);

    private bool IsEnough(Check check, Location at, Severity? severity = null, Harm? harm = null)
    {
        if (check.Topic != Topic.Text)
        {
            return false;
        }
        var (told, more) = _byFile.GetValueOrDefault(at.Source);
        var isEnough = told == MostOfAFile;
        _byFile[at.Source] = isEnough
            ? (told, Findings.Surplus.Of(more, check, at, severity ?? check.Severity, harm ?? check.Harm))
            : (told + 1, null);
        return isEnough;
    }

    /// <summary>Adds a claim. Leave <paramref name="why"/> or <paramref name="advice"/> out to use the check's own page.</summary>
    /// <param name="missing">What fails to arrive, for a claim that another mistake may explain.</param>
    /// <param name="about">The devices and ports that it is about, where its line does not say so.</param>
    /// <param name="alsoAt">Other lines that the same mistake stands in.</param>
    /// <param name="fixes">Makes the edits that mend it, when somebody asks; one plan serves all findings of a rig.</param>
    public void Add(
        Check check,
        Location at,
        string what,
        string? why = null,
        string? advice = null,
        IEnumerable<RelatedPlace>? related = null,
        Func<FixPlan, IEnumerable<Fix>>? fixes = null,
        Severity? severity = null,
        Missing? missing = null,
        IEnumerable<Subject>? about = null,
        Harm? harm = null,
        Excess? excess = null,
        IEnumerable<Location>? alsoAt = null)
    {
        if (IsEnough(check, at, severity, harm))
        {
            return;
        }
        _claims.Add(new Claim(check, severity ?? check.Severity, at, Shown(what), Shown(why ?? check.Why), Shown(advice ?? check.Advice),
            related is null ? [] : [.. related.Select(r => r with { Message = Shown(r.Message) })])
        {
            Fixes = fixes,
            Missing = missing,
            Harm = harm ?? check.Harm,
            Excess = excess,
            About = about is null ? [] : [.. about],
            AlsoAt = alsoAt is null ? [] : [.. alsoAt],
        });
    }

    /// <summary>Findings quote what a rig says, and go to terminals, editors and files: none of them is to be misled by it.</summary>
    private static string Shown(string text) => VisibleText.Of(text, keepLines: true);

    /// <summary>The same, with edits that are there already.</summary>
    public void Add(
        Check check,
        Location at,
        string what,
        IEnumerable<Fix>? fixes,
        string? why = null,
        string? advice = null,
        IEnumerable<RelatedPlace>? related = null,
        Severity? severity = null,
        Missing? missing = null)
    {
        Fix[] made = [.. fixes ?? []];
        Add(check, at, what, why, advice, related, made.Length == 0 ? null : _ => made, severity, missing);
    }
}
