using System.Numerics;

namespace RigLang.Flow;

/// <summary>
/// The fewest voices that cannot coexist. A set of voices conflicts when it cannot be solved with the pairs among its members
/// alone, so whoever is left out takes its pairs along.
///
/// First a conflict that is minimal by inclusion: the shortest run of voices that conflicts ends in a member; with that held,
/// again (binary search). Then the proof that none is smaller, or one that is: whatever set of voices can be solved, every
/// conflict has a member outside it, so no conflict is smaller than the smallest set that hits all those outsides; if that set
/// conflicts itself, it is the answer, else it is solvable and tells one outside more (R. Reiter, "A theory of diagnosis from
/// first principles", 1987, on conflicts and the sets that hit them).
/// </summary>
internal sealed class SmallestConflict
{
    /// <summary>Solvable sets learnt before the proof that a conflict is the smallest is given up.</summary>
    internal const int Rounds = 200;

    /// <summary>The effort after which a conflict is told as it is.</summary>
    internal const long Limit = 48_000_000;

    private const int HitLimit = 200_000;

    private readonly VoiceGraph _graph;
    private readonly int[] _voices;
    private readonly int[] _suspects;
    private readonly Effort _effort = new(Limit);
    private bool _isSure = true;

    private SmallestConflict(VoiceGraph graph, int[] voices)
    {
        _graph = graph;
        _voices = voices;
        _suspects = Suspects();
    }

    /// <param name="voices">In the order of names; together unsolvable.</param>
    public static (int[] Voices, ConflictProof Proof) Of(VoiceGraph graph, int[] voices) => new SmallestConflict(graph, voices).Find();

    private (int[] Voices, ConflictProof Proof) Find()
    {
        var (pool, atLeast) = NarrowestUnsolvable();
        _isSure = true;
        var core = MinimalCore(pool);
        if (!_isSure)
        {
            return (core, ConflictProof.None);
        }
        if (core.Length <= atLeast)
        {
            return (core, ConflictProof.Smallest);
        }
        return _suspects.Length <= 64 ? Smaller(core, atLeast) : (core, ConflictProof.Minimal);
    }

    /// <summary>
    /// Leaves out, one after the other, groups that allow more channels than pairs keep them apart from others: whatever the
    /// others get, one is left, so they are in no minimal conflict.
    /// </summary>
    private int[] Suspects()
    {
        var groups = new ChannelColouring(_graph, _voices, _effort);
        var members = new List<int>[groups.GroupCount];
        var pairs = new int[groups.GroupCount];
        var groupOf = new Dictionary<int, int>();
        for (var i = 0; i < _voices.Length; i++)
        {
            groupOf[_voices[i]] = groups.GroupAt(i);
            (members[groups.GroupAt(i)] ??= []).Add(_voices[i]);
        }
        foreach (var voice in _voices)
        {
            pairs[groupOf[voice]] += _graph.Apart[voice].Count(groupOf.ContainsKey);
        }
        var harmless = new Queue<int>(Enumerable.Range(0, groups.GroupCount).Where(IsHarmless));
        var isOut = new bool[groups.GroupCount];
        while (harmless.TryDequeue(out var group))
        {
            if (isOut[group])
            {
                continue;
            }
            isOut[group] = true;
            foreach (var other in members[group].SelectMany(voice => _graph.Apart[voice]))
            {
                if (groupOf.TryGetValue(other, out var near) && !isOut[near])
                {
                    pairs[near]--;
                    if (IsHarmless(near))
                    {
                        harmless.Enqueue(near);
                    }
                }
            }
        }
        return [.. _voices.Where(voice => !isOut[groupOf[voice]])];

        bool IsHarmless(int group) => pairs[group] < BitOperations.PopCount(groups.AllowedIn(group));
    }

    /// <summary>
    /// The voices of the groups with the fewest channels that are unsolvable by themselves. A group of n channels can only be in
    /// a conflict of more than n voices, so no conflict is smaller than the second figure.
    /// </summary>
    private (int[] Pool, int AtLeast) NarrowestUnsolvable()
    {
        var groups = new ChannelColouring(_graph, _suspects, _effort);
        var width = _suspects.Select((_, i) => BitOperations.PopCount(groups.AllowedIn(groups.GroupAt(i)))).ToArray();
        int? atLeast = null;
        foreach (var widest in width.Distinct().Order())
        {
            int[] pool = [.. _suspects.Where((_, i) => width[i] <= widest)];
            var answer = Decide(pool);
            atLeast ??= answer == Answer.Yes ? null : widest + 1;
            if (answer == Answer.No)
            {
                return (pool, atLeast ?? 1);
            }
        }
        return (_voices, atLeast ?? 1);
    }

    private int[] MinimalCore(int[] pool)
    {
        var core = new List<int>();
        while (pool.Length > 0 && Decide(Together(0)) != Answer.No)
        {
            if (_effort.IsSpent)
            {
                return Together(pool.Length);
            }
            // Doubling first: in a crowd, the first few already conflict.
            var enough = 1;
            while (enough < pool.Length && Decide(Together(enough)) != Answer.No)
            {
                enough = Math.Min(2 * enough, pool.Length);
            }
            var tooFew = enough / 2;
            while (enough - tooFew > 1)
            {
                var middle = (enough + tooFew) / 2;
                (tooFew, enough) = Decide(Together(middle)) == Answer.No ? (tooFew, middle) : (middle, enough);
            }
            core.Add(pool[enough - 1]);
            pool = pool[..(enough - 1)];
        }
        return Together(0);

        int[] Together(int count) => [.. pool.Take(count).Concat(core).Order()];
    }

    private (int[] Voices, ConflictProof Proof) Smaller(int[] core, int atLeast)
    {
        var outsides = new List<ulong>();
        var effort = HitLimit;
        for (var round = 0; round < Rounds; round++)
        {
            ulong? hit = null;
            for (; atLeast < core.Length && (hit = Hit(outsides, 0, 0, atLeast, ref effort)) is null; atLeast++)
            {
                if (effort <= 0)
                {
                    return (core, ConflictProof.Minimal);
                }
            }
            if (hit is not { } set)
            {
                return (core, ConflictProof.Smallest);
            }
            switch (Decide(VoicesOf(set)))
            {
                case Answer.No:
                    return (VoicesOf(set), ConflictProof.Smallest);
                case Answer.Unknown:
                    return (core, ConflictProof.Minimal);
            }
            for (var i = 0; i < _suspects.Length; i++)
            {
                var larger = set | (1UL << i);
                set = larger == set || Decide(VoicesOf(larger)) == Answer.Yes ? larger : set;
            }
            outsides.Add(~set & (ulong.MaxValue >> (64 - _suspects.Length)));
        }
        return (core, ConflictProof.Minimal);

        int[] VoicesOf(ulong set) => [.. _suspects.Where((_, i) => (set >> i & 1) != 0)];
    }

    /// <summary>
    /// The chosen and at most so many more, none of those passed over, that together meet every one of the sets; null when there
    /// is no such set, or when the effort came to its end.
    /// </summary>
    internal static ulong? Hit(List<ulong> sets, ulong chosen, ulong passed, int more, ref int effort)
    {
        if (--effort <= 0)
        {
            return null;
        }
        var narrowest = ulong.MaxValue;
        var isHit = true;
        var disjoint = 0;
        var touched = 0UL;
        foreach (var set in sets)
        {
            if ((set & chosen) != 0)
            {
                continue;
            }
            isHit = false;
            var open = set & ~passed;
            narrowest = BitOperations.PopCount(open) < BitOperations.PopCount(narrowest) ? open : narrowest;
            if ((open & touched) == 0)
            {
                touched |= open;
                disjoint++;
            }
        }
        if (isHit)
        {
            return chosen;
        }
        if (disjoint > more)
        {
            return null;
        }
        for (var open = narrowest; open != 0; open &= open - 1)
        {
            var one = open & ~(open - 1);
            if (Hit(sets, chosen | one, passed, more - 1, ref effort) is { } hit)
            {
                return hit;
            }
            passed |= one;
        }
        return null;
    }

    private Answer Decide(int[] voices)
    {
        var answer = _effort.IsSpent ? Answer.Unknown : new ChannelColouring(_graph, voices, _effort).Decide();
        _isSure &= answer != Answer.Unknown;
        return answer;
    }
}
