using System.Collections.Immutable;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Checks;

/// <summary>What the checks have to say of a rig.</summary>
/// <param name="Findings">By file (the root first), then place.</param>
/// <param name="Accepted">What the player accepts, in the same order; see <see cref="Finding.AcceptedBecause"/>.</param>
public sealed record Judgement(ImmutableArray<Finding> Findings, ImmutableArray<Finding> Accepted);

/// <summary>
/// The way from checks to findings: each check claims, <see cref="Causes"/> leaves out what follows from something else, what the player
/// accepts is set apart, the rest becomes findings with what they break, in the order of their places, and one plan for their fixes.
/// </summary>
public static class Judgements
{
    public static Judgement Of(Rig rig) => Of(rig, CheckList.All);

    /// <summary>By the checks of some topics alone. Of an `accept` line for another check nothing is said here.</summary>
    public static Judgement About(Rig rig, ImmutableArray<Topic> topics)
    {
        var all = Of(rig, [.. CheckList.All.Where(check => topics.Contains(check.Topic))]);
        return all with { Findings = all.Findings.RemoveAll(f => !topics.Contains(f.Check.Topic) && f.Check is not CheckFailed) };
    }

    /// <summary>With other checks than the list's, or in another order, as tests want it.</summary>
    public static Judgement Of(Rig rig, IReadOnlyList<Check> checks)
    {
        var (claims, surplus) = ClaimsOf(rig, checks);
        if (claims.Count == 0 && rig.Names.Accepts.Count == 0)
        {
            return new Judgement([], []);
        }
        var accepting = new Accepting(rig, claims);
        claims.AddRange(accepting.Remarks);
        var plan = new FixPlan(rig);
        var causes = Causes.Of(rig, claims, claim => accepting.For(claim) is not null).ToLookup(cause => accepting.For(cause.Claim) is not null);
        var byPlace = ByPlace(rig);
        var findings = Limited([.. causes[false].Select(cause => FindingOf(cause, plan) with { AcceptableOn = accepting.PlaceOf(cause.Claim) })], surplus)
            .Sort(byPlace);
        var accepted = causes[true].Select(cause => FindingOf(cause, plan) with { AcceptedBecause = accepting.For(cause.Claim)!.Reason, Plan = null })
            .ToImmutableArray().Sort(byPlace);
        plan.Serve(findings);
        return new Judgement(findings, accepted);
    }

    /// <summary>What each check claims. One that throws claims nothing but that; all others stand.</summary>
    private static (List<Claim> Claims, List<Surplus> Surplus) ClaimsOf(Rig rig, IReadOnlyList<Check> checks)
    {
        var claims = new List<Claim>();
        var surplus = new List<Surplus>();
        var failures = new List<(Check Check, Exception Why)>();
        foreach (var check in checks)
        {
            var report = new Report();
            try
            {
                check.Run(rig, report);
                claims.AddRange(report.Claims);
                surplus.AddRange(report.Surplus);
            }
            catch (Exception e) when (Guard.Contains(e))
            {
                failures.Add((check, e));
            }
        }
        if (failures.Count > 0)
        {
            claims.AddRange(CheckFailed.Claims(rig, failures));
        }
        return (claims, surplus);
    }

    /// <summary>
    /// As many findings of one check as a file is told, what does the most harm first and then the first by their words, and one that counts the
    /// rest. What is wrong with the text has been counted while it was claimed.
    /// </summary>
    private static ImmutableArray<Finding> Limited(List<Finding> findings, List<Surplus> surplus)
    {
        if (findings.Count <= Report.MostOfAFile && surplus.Count == 0)
        {
            return [.. findings];
        }
        var limited = ImmutableArray.CreateBuilder<Finding>();
        foreach (var alike in findings.GroupBy(f => (f.Check, f.Location.Source)))
        {
            var all = alike.ToList();
            if (all.Count > Report.MostOfAFile)
            {
                all = [.. all.OrderBy(f => f.Harm).ThenByDescending(f => f.Severity).ThenBy(f => f.What, StringComparer.Ordinal)];
                surplus.Add(all.Skip(Report.MostOfAFile).Aggregate((Surplus?)null, (more, f) => Surplus.Of(more, f.Check, f.Location, f.Severity, f.Harm))!);
                all = all[..Report.MostOfAFile];
            }
            limited.AddRange(all);
        }
        limited.AddRange(surplus.Select(more => more.Told()));
        return limited.ToImmutable();
    }

    private static Finding FindingOf(Cause cause, FixPlan plan)
    {
        var claim = cause.Claim;
        var promises = cause.Consequences.Append(claim).Select(c => PromiseOf(c.Missing)).OfType<Outcome>().ToList();
        var own = PromiseOf(claim.Missing);
        var broken = promises.Where(_ => own is null || promises.Count > 1).Select(BrokenBy).Distinct().ToImmutableArray().Sort(ByLine);
        var others = cause.Consequences.Select(c => ConsequenceOf(c, claim)).OfType<RelatedPlace>().OrderBy(r => r.Message, StringComparer.Ordinal);
        return new Finding(
            claim.Check,
            broken.IsEmpty ? claim.Severity : Severity.Error,
            claim.At,
            Prose.Clipped(claim.What),
            Prose.Clipped(claim.Why),
            Prose.Clipped(claim.Advice),
            Places(claim.Related, [.. others.Distinct()]),
            broken)
        {
            Harm = claim.Harm,
            Plan = claim.Fixes is null ? null : plan,
            MakeFixes = claim.Fixes,
        };
    }

    /// <summary>Of many places, room for what follows from the mistake is kept.</summary>
    private const int RoomForConsequences = 4;

    /// <summary>The places of a claim, then what follows from it; of more than <see cref="Prose.MostPlaces"/> the first by their words, and how many more.</summary>
    private static ImmutableArray<RelatedPlace> Places(IReadOnlyList<RelatedPlace> own, List<RelatedPlace> consequences)
    {
        var first = Few([.. own.Distinct()], Prose.MostPlaces - Math.Min(RoomForConsequences, consequences.Count));
        var then = Few([.. consequences.Except(first)], Prose.MostPlaces - first.Count);
        return [.. first.Concat(then).Select(place => place with { Message = Prose.Clipped(place.Message) })];
    }

    private static List<RelatedPlace> Few(List<RelatedPlace> places, int most)
    {
        if (places.Count <= most)
        {
            return places;
        }
        var few = places.OrderBy(place => place.Message, StringComparer.Ordinal).Take(most).ToList();
        few[^1] = few[^1] with { Message = $"{few[^1].Message} (and {places.Count - most} more places)" };
        return few;
    }

    private static Outcome? PromiseOf(Missing? missing) => missing switch
    {
        PromiseFails fails => fails.Outcome,
        NeverComesAllTheSame comes => comes.Outcome,
        _ => null,
    };

    /// <summary>What is told of a claim in the finding that explains it; a promise stands among those that it breaks.</summary>
    private static RelatedPlace? ConsequenceOf(Claim claim, Claim of) => claim.Missing switch
    {
        PromiseFails { Outcome: var outcome } when of.Missing is PromiseFails first && first.Outcome.Stopped != outcome.Stopped => new(claim.At, claim.What),
        PromiseFails or NeverComesAllTheSame => null,
        { Consequence: { } place } => place,
        _ => new(claim.At, claim.What),
    };

    private static BrokenPromise BrokenBy(Outcome outcome) => new(
        outcome.Expectation.At,
        Prose.Clipped($"{outcome.Expectation.What} from {outcome.Expectation.From.Text} to {outcome.Target.Text}"),
        outcome.Expectation.Must);

    private static int ByLine(BrokenPromise a, BrokenPromise b) =>
        a.At.Span.Start != b.At.Span.Start ? a.At.Span.Start.CompareTo(b.At.Span.Start) : string.CompareOrdinal(a.Text, b.Text);

    private static Comparison<Finding> ByPlace(Rig rig)
    {
        var order = new Dictionary<SourceText, int>(ReferenceEqualityComparer.Instance);
        foreach (var file in rig.Names.Files)
        {
            order.TryAdd(file.Source, order.Count);
        }
        return (a, b) =>
        {
            var (x, y) = (a.Location, b.Location);
            var byFile = order.GetValueOrDefault(x.Source, int.MaxValue).CompareTo(order.GetValueOrDefault(y.Source, int.MaxValue));
            return byFile != 0 ? byFile
                : x.Span.Start != y.Span.Start ? x.Span.Start.CompareTo(y.Span.Start)
                : x.Span.Length != y.Span.Length ? x.Span.Length.CompareTo(y.Span.Length)
                : string.CompareOrdinal(a.Check.Name, b.Check.Name) is not 0 and var byName ? byName
                : string.CompareOrdinal(a.What, b.What);
        };
    }
}
