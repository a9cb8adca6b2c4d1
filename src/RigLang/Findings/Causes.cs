using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Findings;

/// <summary>A claim that stands, and those that follow from it or have the same origin.</summary>
internal sealed class Cause(Claim claim)
{
    public Claim Claim { get; } = claim;
    public List<Claim> Consequences { get; } = [];
}

/// <summary>
/// Leaves of all claims those that a player has to mend: one for each mistake. It looks at what the claims are, never at which check made
/// them or in which order they came. Three layers, each explained by those before it: what stands by itself; messages that do not come or
/// are not heard; promises that fail. What has the same origin is told once.
/// </summary>
internal sealed class Causes
{
    private readonly Rig _rig;
    private readonly List<Cause> _causes = [];
    private readonly Dictionary<Claim, Cause> _byClaim = new(ReferenceEqualityComparer.Instance);

    private Causes(Rig rig) => _rig = rig;

    /// <param name="isAccepted">A mistake that the player accepts explains what is missing, but no promise: that one is told.</param>
    public static IReadOnlyList<Cause> Of(Rig rig, IReadOnlyList<Claim> claims, Func<Claim, bool> isAccepted)
    {
        var causes = new Causes(rig);
        var ordered = claims.OrderBy(c => c, ClaimOrder.Only).ToList();
        foreach (var claim in ordered.Where(c => c.Missing is null))
        {
            causes.Stand(claim);
        }
        if (ordered.Exists(c => c.Missing is not null))
        {
            causes.Explain(ordered, isAccepted);
        }
        return causes._causes;
    }

    private void Explain(List<Claim> ordered, Func<Claim, bool> isAccepted)
    {
        var alone = _causes.Select(c => c.Claim).ToList();
        var trouble = new Trouble(_rig, alone);
        var missing = ordered.Where(c => c.Missing is NothingComes or NobodyHears).ToList();
        Settle(missing, claim => trouble.IsNone ? null : FirstExplaining(claim.Missing!, trouble));

        var heeded = new Trouble(_rig, alone.Where(c => !isAccepted(c)));
        var absences = _causes.Select(c => c.Claim).Where(c => c.Missing is not null && !isAccepted(c)).ToList();
        Settle(ordered.Where(c => c.Missing is PromiseFails).ToList(), claim => FirstExplaining(((PromiseFails)claim.Missing!).Outcome, heeded, absences));
    }

    /// <summary>Puts each claim under what explains it; the rest stand, those of one origin together under the gravest.</summary>
    private void Settle(List<Claim> claims, Func<Claim, Claim?> explain)
    {
        var open = new List<Claim>();
        foreach (var claim in claims)
        {
            if (explain(claim) is { } cause)
            {
                _byClaim[cause].Consequences.Add(claim);
            }
            else
            {
                open.Add(claim);
            }
        }
        var byOrigin = new Dictionary<Origin, Cause>();
        foreach (var known in _causes.Where(c => c.Claim.Missing?.Origin is not null))
        {
            byOrigin.TryAdd(known.Claim.Missing!.Origin!, known);
        }
        foreach (var claim in open.OrderByDescending(c => c.Severity))
        {
            if (claim.Missing!.Origin is { } origin && byOrigin.TryGetValue(origin, out var known))
            {
                known.Consequences.Add(claim);
                continue;
            }
            var cause = Stand(claim);
            if (claim.Missing.Origin is { } own)
            {
                byOrigin[own] = cause;
            }
        }
    }

    private Cause Stand(Claim claim)
    {
        var cause = new Cause(claim);
        _causes.Add(cause);
        _byClaim[claim] = cause;
        return cause;
    }

    private Claim? FirstExplaining(Missing missing, Trouble trouble) => missing switch
    {
        NothingComes { NeedsAll: true } nothing => nothing.Nodes.Select(node => Before([node], trouble)).ToList() is var found && found.TrueForAll(c => c is not null) ? found[0] : null,
        NothingComes nothing => Before(nothing.Nodes, trouble),
        NobodyHears { Walk: { } walk } => First(walk.Devices.SelectMany(d => trouble.At(d, ExpectedSignal.Messages))),
        NobodyHears nobody => First(trouble.At(nobody.Device, ExpectedSignal.Messages)),
        _ => null,
    };

    /// <summary>Something on the way to a node that is told already: what does not come by may well come when that is mended.</summary>
    private Claim? Before(IEnumerable<int> nodes, Trouble trouble)
    {
        var graph = _rig.Midi.Graph;
        var seen = new HashSet<int>(nodes);
        var devices = new HashSet<DeviceSymbol>();
        var open = new Queue<int>(seen);
        while (open.TryDequeue(out var node))
        {
            devices.Add(graph.PortOf(node).Device);
            foreach (var edge in graph.To(node))
            {
                if (seen.Add(edge.From))
                {
                    open.Enqueue(edge.From);
                }
            }
        }
        return First(devices.SelectMany(d => trouble.At(d, ExpectedSignal.Messages)));
    }

    private Claim? FirstExplaining(Outcome outcome, Trouble trouble, List<Claim> absences) =>
        absences.Find(claim => IsAbout(claim.Missing!, outcome))
        // What comes to the target's own door goes wrong there, whatever else is wrong on the table.
        ?? (trouble.IsNone || outcome.Reached.Count == 0 ? null : First(trouble.Between(outcome.Expectation.From.Device, outcome.Target.Device, outcome.Expectation.Signal)));

    /// <summary>True when what is missing is what the promise speaks of: nothing but mending it can keep the promise.</summary>
    private static bool IsAbout(Missing missing, Outcome outcome)
    {
        var (from, to, kinds) = (outcome.Expectation.From, outcome.Target, outcome.Expectation.Messages);
        return outcome.Expectation.Signal == ExpectedSignal.Messages && missing switch
        {
            NobodyHears nobody => ReferenceEquals(nobody.Device, from.Device) && (from.Track is null ? from.Port is null : ReferenceEquals(from.Track, nobody.Track))
                && (nobody.Kinds & kinds) != 0,
            NothingComes nothing => nothing.Waiting.Contains(to.Device) && (nothing.Kinds & kinds) == kinds && to.Part is null,
            _ => false,
        };
    }

    /// <summary>The gravest, the first by place: the same whatever the order in which they are found.</summary>
    private Claim? First(IEnumerable<Claim> claims) => claims.Where(_byClaim.ContainsKey).Min(ClaimOrder.Only);
}

/// <summary>Claims by harm and severity, then by what their lines say; nothing in it depends on where a line stands in its file.</summary>
internal sealed class ClaimOrder : IComparer<Claim>
{
    public static readonly ClaimOrder Only = new();

    public int Compare(Claim? x, Claim? y)
    {
        if (x is null || y is null)
        {
            return x is null ? (y is null ? 0 : 1) : -1;
        }
        return x.Harm != y.Harm ? x.Harm.CompareTo(y.Harm)
            : x.Severity != y.Severity ? y.Severity.CompareTo(x.Severity)
            : string.CompareOrdinal(x.Check.Name, y.Check.Name) is not 0 and var byName ? byName
            : string.CompareOrdinal(LineOf(x.At), LineOf(y.At)) is not 0 and var byLine ? byLine
            : string.CompareOrdinal(x.What, y.What);
    }

    private static string LineOf(Location at) => at.Source.Slice(at.Source.LineSpan(at.Source.PositionOf(at.Span.Start).Line)).Trim();
}
