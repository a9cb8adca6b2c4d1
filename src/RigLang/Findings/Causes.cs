using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;
using RigLang.Wiring;

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
        causes.StandAlone(ordered.Where(c => c.Missing is null), isAccepted);
        if (ordered.Exists(c => c.Missing is not null))
        {
            causes.Explain(ordered, isAccepted);
        }
        return causes._causes;
    }

    /// <summary>
    /// Mistakes of one topic at one cable are one: whatever is wrong with the plug decides the rest. Not so in the text, where each word has its
    /// own slip. What one check says several times of one place, once for each name of a range, is said once.
    /// </summary>
    private void StandAlone(IEnumerable<Claim> claims, Func<Claim, bool> isAccepted)
    {
        var byPlace = new Dictionary<(Check, Location), Cause>();
        var byLine = new Dictionary<(Topic, SourceText, int), Cause>();
        StatementPlaces? places = null;
        foreach (var claim in claims)
        {
            if (isAccepted(claim))
            {
                // Nothing may vanish behind what is accepted.
                Stand(claim);
                continue;
            }
            // A range (o1..o4) is one place.
            if (byPlace.TryGetValue((claim.Check, claim.At), out var same))
            {
                same.Consequences.Add(claim);
                continue;
            }
            var line = (claim.Check.Topic, claim.At.Source, claim.At.Source.PositionOf(claim.At.Span.Start).Line);
            if (claim.Check.Topic != Topic.Text && byLine.TryGetValue(line, out var known) && (places ??= new(_rig)).At(claim.At) is ConnectStatement)
            {
                known.Consequences.Add(claim);
                continue;
            }
            var cause = Stand(claim);
            byPlace.Add((claim.Check, claim.At), cause);
            byLine.TryAdd(line, cause);
        }
    }

    /// <summary>
    /// A promise that fails at a cable with a mistake is that mistake's; what is missing behind something told already too; and what is missing
    /// where a promise fails goes with the promise. The rest is put together by where the ways break off.
    /// </summary>
    private void Explain(List<Claim> ordered, Func<Claim, bool> isAccepted)
    {
        var alone = _causes.Select(c => c.Claim).ToList();
        var trouble = new Trouble(_rig, alone);
        var heeded = alone.Exists(c => isAccepted(c)) ? new Trouble(_rig, alone.Where(c => !isAccepted(c))) : trouble;
        var promises = ordered.Where(c => c.Missing is PromiseFails).ToList();
        var owner = new Dictionary<Claim, Claim>(ReferenceEqualityComparer.Instance);
        var groups = new ClaimGroups();
        foreach (var promise in promises)
        {
            if (Explaining(((PromiseFails)promise.Missing!).Outcome, heeded) is { } cause)
            {
                owner[promise] = cause;
            }
            else
            {
                groups.Add(promise);
            }
        }
        foreach (var claim in ordered.Where(c => c.Missing is NothingComes or NobodyHears or SoundStops or NoSound or ShapeChanged or NeverComesAllTheSame))
        {
            if (claim.Missing is NeverComesAllTheSame never && alone.Find(c => !isAccepted(c) && c.Excess is { } excess && IsOf(excess, never.Outcome)) is { } source)
            {
                owner[claim] = source;
                continue;
            }
            if (!trouble.IsNone && Explaining(claim.Missing!, trouble) is { } cause)
            {
                owner[claim] = cause;
                continue;
            }
            List<Claim> kept = isAccepted(claim) ? [] : [.. promises.Where(p => IsAbout(claim.Missing!, ((PromiseFails)p.Missing!).Outcome))];
            if (kept.Select(p => owner.GetValueOrDefault(p)).OfType<Claim>().Min(ClaimOrder.Only) is { } mistake)
            {
                owner[claim] = mistake;
                continue;
            }
            groups.Add(claim, isAccepted(claim));
            if (claim.Missing is NobodyHears { Walk: { } walk })
            {
                // It gets as far as the jack from which the cable of a promise is missing.
                kept.AddRange(promises.Where(p => !owner.ContainsKey(p) && ((PromiseFails)p.Missing!).Outcome.Broken is Broken.NoCable { InFrom: null } gap
                    && MidiGraph.Out(gap.From.Device, gap.From.Port) is >= 0 and var node && walk.Reaches(node)));
            }
            foreach (var promise in kept)
            {
                groups.Join(claim, promise);
            }
        }
        foreach (var (claim, cause) in owner)
        {
            _byClaim[cause].Consequences.Add(claim);
        }
        foreach (var group in groups.All())
        {
            var leader = Stand(group.MinBy(c => (RankOf(c), -(int)c.Severity))!);
            leader.Consequences.AddRange(group.Where(c => !ReferenceEquals(c, leader.Claim)));
        }
    }

    /// <summary>
    /// Which claim of a group says best what is wrong: where a cable or a way inside a box is missing the promise, which names both of its ends;
    /// elsewhere the setting or filter itself.
    /// </summary>
    private static int RankOf(Claim claim) => claim.Missing is PromiseFails { Outcome: var outcome }
        ? outcome.Broken is Broken.NoCable or Broken.NoRoute or Broken.ThruOff or Broken.NoInput or { At: not null } ? 0 : 2
        : claim.Missing is ShapeChanged ? 3 : 1;

    private Cause Stand(Claim claim)
    {
        var cause = new Cause(claim);
        _causes.Add(cause);
        _byClaim[claim] = cause;
        return cause;
    }

    private Claim? Explaining(Missing missing, Trouble trouble) => missing switch
    {
        NothingComes { NeedsAll: true } nothing => nothing.Nodes.Select(node => Before([node], trouble)).ToList() is var found && found.TrueForAll(c => c is not null) ? found.OfType<Claim>().Min(ClaimOrder.Only) : null,
        NothingComes nothing => Before(nothing.Nodes, trouble),
        NobodyHears { Walk: { } walk } => First(walk.Devices.SelectMany(d => trouble.At(d, ExpectedSignal.Messages))),
        NobodyHears nobody => First(trouble.At(nobody.Device, ExpectedSignal.Messages)),
        ShapeChanged { Step: WayStep.Cable cable } => First(trouble.On(cable.Hookup)),
        NoSound none => First(trouble.Before(none.Device, ExpectedSignal.Audio)),
        SoundStops stops => First(trouble.At(stops.Device, ExpectedSignal.Audio)),
        _ => null,
    };

    /// <summary>Something on the way to a node that is told already: what does not come by may well come when that is mended.</summary>
    private Claim? Before(IEnumerable<int> nodes, Trouble trouble)
    {
        var graph = _rig.Midi.Graph;
        var devices = Spreading.From(nodes, (node, into) =>
        {
            foreach (var edge in graph.To(node))
            {
                into.Add(edge.From);
            }
        }).Select(node => graph.PortOf(node).Device).ToHashSet();
        return First(devices.SelectMany(d => trouble.At(d, ExpectedSignal.Messages)));
    }

    /// <summary>
    /// The mistake at the cable where the promise fails, or at those in the jacks where one is missing; else one that lies on a way that could
    /// be. What comes to the target's own door goes wrong there, whatever else is wrong on the table.
    /// </summary>
    private Claim? Explaining(Outcome outcome, Trouble trouble)
    {
        if (trouble.IsNone)
        {
            return null;
        }
        IEnumerable<Hookup?> cables = outcome.Broken switch
        {
            Broken.NoCable none => [none.InFrom, none.InTo],
            { At: { } cable } => [cable],
            _ => [],
        };
        var flow = outcome.Expectation.Signal;
        return First(cables.OfType<Hookup>().SelectMany(trouble.On))
            ?? (outcome.Broken is Broken.NoCable gap ? First(trouble.AtGap(gap.To, flow).Concat(trouble.AtGap(gap.From, flow))) : null)
            ?? (IsAtTheDoor(outcome) ? null : First(trouble.Between(outcome.Expectation.From.Device, outcome.Target.Device, flow)));
    }

    private static bool IsAtTheDoor(Outcome outcome) => outcome.Broken switch
    {
        Broken.OtherChannel or Broken.AskedChannel or Broken.OtherSetting or Broken.NotHeard or Broken.TooLate or Broken.OtherWidth or Broken.OtherSide
            or Broken.NoInput or Broken.NothingSends or Broken.LocalOff or Broken.Filtered or Broken.Mapped or Broken.ThruOff => true,
        _ => false,
    };

    private static bool IsOf(Excess excess, Outcome outcome) =>
        (excess.Kinds & outcome.Expectation.Messages) != 0 && excess.Senders.Contains(outcome.Expectation.From.Device);

    /// <summary>True when what is missing is what the promise speaks of.</summary>
    private static bool IsAbout(Missing missing, Outcome outcome)
    {
        var (from, to, kinds) = (outcome.Expectation.From, outcome.Target, outcome.Expectation.Messages);
        if (missing is SoundStops stops)
        {
            return outcome.Expectation.Signal == ExpectedSignal.Audio && outcome.Broken?.Devices.Contains(stops.Device) == true;
        }
        if (missing is NoSound none)
        {
            return outcome.Expectation.Signal == ExpectedSignal.Audio && ReferenceEquals(outcome.Target.Device, none.Device);
        }
        if (missing is ShapeChanged shape)
        {
            return outcome is { Expectation.Signal: ExpectedSignal.Audio, Broken: Broken.OtherWidth or Broken.OtherSide } && outcome.Hops.Any(hop => hop.At == shape.Step.At);
        }
        return outcome.Expectation.Signal == ExpectedSignal.Messages && missing switch
        {
            NobodyHears nobody => ReferenceEquals(nobody.Device, from.Device) && (from.Track is null || ReferenceEquals(from.Track, nobody.Track))
                && (nobody.Kinds & kinds) != 0,
            NothingComes nothing => nothing.Waiting.Contains(to.Device) && (nothing.Kinds & kinds) != 0,
            _ => false,
        };
    }

    /// <summary>The gravest, the first by its words: the same whatever the order in which they are found.</summary>
    private Claim? First(IEnumerable<Claim> claims) => claims.Where(_byClaim.ContainsKey).Min(ClaimOrder.Only);

    /// <summary>Claims that belong together, because they share an origin or one speaks of the other.</summary>
    private sealed class ClaimGroups
    {
        private readonly List<Claim> _claims = [];
        private readonly Dictionary<Claim, int> _index = new(ReferenceEqualityComparer.Instance);
        private readonly Dictionary<(Type, Origin), int> _byOrigin = [];
        private readonly List<int> _parent = [];

        /// <param name="isAlone">An accepted claim stands for itself: nothing may vanish behind it.</param>
        public void Add(Claim claim, bool isAlone = false)
        {
            var index = _claims.Count;
            _claims.Add(claim);
            _index[claim] = index;
            _parent.Add(index);
            foreach (var origin in isAlone ? [] : claim.Missing!.Origins)
            {
                // What arrives although it must not is another matter than what does not arrive.
                var key = (claim.Missing is NeverComesAllTheSame ? typeof(NeverComesAllTheSame) : typeof(Missing), origin);
                if (!_byOrigin.TryAdd(key, index))
                {
                    Join(index, _byOrigin[key]);
                }
            }
        }

        public void Join(Claim a, Claim b) => Join(_index[a], _index[b]);

        public IEnumerable<IReadOnlyList<Claim>> All() =>
            _claims.GroupBy(c => Root(_index[c])).Select(group => (IReadOnlyList<Claim>)[.. group.Order(ClaimOrder.Only)]);

        private void Join(int a, int b) => _parent[Root(a)] = Root(b);

        private int Root(int index)
        {
            while (_parent[index] != index)
            {
                index = _parent[index];
            }
            return index;
        }
    }
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
            : LineOf(x.At).SequenceCompareTo(LineOf(y.At)) is not 0 and var byLine ? byLine
            : string.CompareOrdinal(x.What, y.What);
    }

    /// <summary>As much of a line as tells it from others; a line may be as long as a file.</summary>
    private const int MostOfALine = 256;

    private static ReadOnlySpan<char> LineOf(Location at)
    {
        var line = at.Source.LineSpan(at.Source.PositionOf(at.Span.Start).Line);
        return at.Source.Content.AsSpan(line.Start, Math.Min(line.Length, MostOfALine)).Trim();
    }
}
