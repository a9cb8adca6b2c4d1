using System.Numerics;
using System.Runtime.CompilerServices;
using RigLang.Trade;

namespace RigLang.Flow;

internal enum Answer
{
    No,
    Yes,

    /// <summary>The search gave up.</summary>
    Unknown,
}

/// <summary>
/// How much may still be spent on a search, in groups and pairs looked at: some ten million in a quarter of a second. Counted,
/// not timed, so that a rig has the same answer on every machine.
/// </summary>
internal sealed class Effort(long left)
{
    public long Left { get; set; } = left;

    public bool IsSpent => Left <= 0;
}

/// <summary>
/// Channels for some of the voices of a graph, with the pairs among them. Voices that share a channel are one group; groups
/// that stand apart are neighbours; each group gets one of the channels that all its voices allow, none that a neighbour has.
///
/// The search is exact: fixed channels are taken from the neighbours, a group with more channels than neighbours is set aside
/// (one is left for it whatever the others get), what then hangs together is searched part by part, the group with the fewest
/// channels first (D. Brélaz, "New methods to color the vertices of a graph", 1979). Three things keep crowded ports from
/// taking ages: groups that all stand apart from one another need a channel each (P. Hall's marriage theorem), which takes
/// channels from the others (J.-C. Régin, "A filtering algorithm for constraints of difference in CSPs", 1994); of channels
/// that no group tells apart only one is tried; and a search that takes long starts over with the groups that made it fail.
/// </summary>
internal sealed class ChannelColouring
{
    /// <summary>The effort after which one question is given up.</summary>
    internal const long Limit = 16_000_000;

    private readonly int[] _groupOf;
    private readonly ushort[] _allowed;
    private readonly int[][] _neighbours;
    private readonly bool _contradictsItself;

    private readonly ushort[] _open;
    private readonly State[] _state;
    private readonly int[] _degree;
    private readonly int[] _mark;
    private readonly int[] _failures;
    private readonly bool[] _hasLost;
    private readonly Effort _effort;
    private readonly long _size;
    private int _lastMark;
    private long _left;

    private enum State : byte
    {
        Open,
        Settled,
        SetAside,
    }

    /// <param name="voices">In the order of names.</param>
    /// <param name="moved">A voice whose channels are to be others than the graph says, or -1.</param>
    public ChannelColouring(VoiceGraph graph, int[] voices, Effort effort, int moved = -1, ushort allowed = 0)
    {
        _effort = effort;
        graph.Number(voices);
        _groupOf = Group(graph, voices, out var count);
        _allowed = new ushort[count];
        Array.Fill(_allowed, ChannelVoice.Any);
        var neighbours = new List<int>[count];
        for (var i = 0; i < voices.Length; i++)
        {
            var group = _groupOf[i];
            _allowed[group] &= voices[i] == moved ? allowed : graph.Allowed[voices[i]];
            neighbours[group] ??= [];
            effort.Left -= graph.Apart[voices[i]].Length;
            foreach (var other in graph.Apart[voices[i]])
            {
                if (graph.PlaceOf(other) is >= 0 and var j)
                {
                    neighbours[group].Add(_groupOf[j]);
                    _contradictsItself |= _groupOf[j] == group;
                }
            }
        }
        graph.Forget(voices);
        _open = new ushort[count];
        _state = new State[count];
        _degree = new int[count];
        _mark = new int[count];
        _failures = new int[count];
        _hasLost = new bool[count];
        _neighbours = new int[count][];
        for (var group = 0; group < count; group++)
        {
            _lastMark++;
            _neighbours[group] = [.. neighbours[group].Where(other => Mark(other))];
            _size += 1 + _neighbours[group].Length;
        }
    }

    public int GroupCount => _allowed.Length;

    /// <summary>The group of the voice at this place of the list; groups are numbered by their first voice.</summary>
    public int GroupAt(int place) => _groupOf[place];

    /// <summary>The channels that all voices of the group allow; none when two of them must stand apart.</summary>
    public ushort AllowedIn(int group) => _neighbours[group].Contains(group) ? (ushort)0 : _allowed[group];

    /// <summary>The channel of the voice at this place of the list, after an answer of yes.</summary>
    public int ChannelAt(int place) => BitOperations.TrailingZeroCount(_open[_groupOf[place]]) + 1;

    /// <summary>Is there an assignment at all? On yes, one is found.</summary>
    public Answer Decide()
    {
        if (_contradictsItself)
        {
            return Answer.No;
        }
        int[] all = [.. Enumerable.Range(0, GroupCount)];
        return Search(Limit, () =>
        {
            _allowed.CopyTo(_open, 0);
            Array.Clear(_state);
            return all;
        });
    }

    /// <summary>
    /// The lexicographically smallest assignment in the order of names. Once the search for it takes too long, it is the lowest
    /// that was found.
    /// </summary>
    public Answer FindLowest()
    {
        if (!_contradictsItself && FirstFit())
        {
            return Answer.Yes;
        }
        var answer = Decide();
        if (answer != Answer.Yes)
        {
            return answer;
        }
        for (var group = 0; group < GroupCount; group++)
        {
            for (var lower = Free(group, _open, before: group) & (_open[group] - 1); lower != 0; lower &= lower - 1)
            {
                if (CanLower(group, (ushort)(lower & -lower)))
                {
                    break;
                }
            }
        }
        return Answer.Yes;
    }

    /// <summary>
    /// Given the channels of the groups before it, can this group have that lower channel? If so, it has, and those after it
    /// have others where need be. What is near the group mostly settles the question: it may be unsolvable by itself, or be
    /// solvable while everybody else stays.
    /// </summary>
    private bool CanLower(int group, ushort channel)
    {
        var near = Near(group);
        if (near.Count < GroupCount - group)
        {
            if (TryLower(group, channel, near, asIfAlone: true) == Answer.No)
            {
                return false;
            }
            if (TryLower(group, channel, near, asIfAlone: false) == Answer.Yes)
            {
                return true;
            }
            near = [.. Enumerable.Range(group, GroupCount - group)];
        }
        return TryLower(group, channel, near, asIfAlone: false) == Answer.Yes;
    }

    /// <summary>The group and those after it that are at most two neighbours away, in order.</summary>
    private List<int> Near(int group)
    {
        _lastMark++;
        Mark(group);
        var near = new List<int> { group };
        for (int i = 0, hops = 0; hops < 2; hops++)
        {
            for (var end = near.Count; i < end; i++)
            {
                near.AddRange(_neighbours[near[i]].Where(other => other > group && Mark(other)));
            }
        }
        near.Sort();
        return near;
    }

    /// <param name="near">The groups that may change, in order.</param>
    /// <param name="asIfAlone">Take it that the groups after this one that are not near do not exist; nothing changes then.</param>
    private Answer TryLower(int group, ushort channel, List<int> near, bool asIfAlone)
    {
        var known = near.ConvertAll(other => _open[other]);
        _lastMark++;
        near.ForEach(other => Mark(other));
        var mark = _lastMark;
        int[] around = [.. near.SelectMany(one => _neighbours[one]).Where(other => _mark[other] != mark).Distinct()];
        var allowed = near.ConvertAll(one => one == group ? channel : (ushort)_neighbours[one].Aggregate((int)_allowed[one], (free, other) =>
            _mark[other] == mark || (asIfAlone && other > group) ? free : free & ~_open[other]));
        SetAll(around, other => asIfAlone && other > group ? State.SetAside : State.Settled);
        int[] groups = [.. near];
        var answer = Search(Limit, () =>
        {
            for (var i = 0; i < groups.Length; i++)
            {
                _open[groups[i]] = allowed[i];
                _state[groups[i]] = State.Open;
            }
            return groups;
        });
        SetAll(around, _ => State.Settled);
        if (answer != Answer.Yes || asIfAlone)
        {
            for (var i = 0; i < groups.Length; i++)
            {
                _open[groups[i]] = known[i];
            }
        }
        return answer;

        void SetAll(int[] some, Func<int, State> state) => Array.ForEach(some, one => _state[one] = state(one));
    }

    /// <summary>Everybody in turn takes the lowest channel left: when this ends well, nothing lower exists.</summary>
    private bool FirstFit()
    {
        for (var group = 0; group < GroupCount; group++)
        {
            var free = Free(group, _open, before: group);
            if (free == 0)
            {
                return false;
            }
            _open[group] = (ushort)(free & -free);
        }
        return true;
    }

    private int Free(int group, ushort[] chosen, int before)
    {
        int free = _allowed[group];
        foreach (var other in _neighbours[group])
        {
            free &= other < before ? ~chosen[other] : ~0;
        }
        return free;
    }

    /// <summary>Settles the groups that the start opens; starts over when it takes long, with twice the patience.</summary>
    private Answer Search(long limit, Func<int[]> start)
    {
        for (var patience = Math.Max(limit / 64, 16 * _size); limit > 0 && !_effort.IsSpent; patience *= 2)
        {
            var given = Math.Min(Math.Min(patience, limit), _effort.Left);
            _left = given;
            var answer = Settle(start(), isWhole: true);
            limit -= given - _left;
            _effort.Left -= given - _left;
            if (answer != Answer.Unknown)
            {
                return answer;
            }
        }
        return Answer.Unknown;
    }

    /// <summary>
    /// One channel for each of these open groups, whose open neighbours are all among them. After anything but a yes their state
    /// is to be restored.
    /// </summary>
    private Answer Settle(int[] groups, bool isWhole)
    {
        _left -= groups.Length;
        // Thousands in one tangle can go deep: better no answer than a crash.
        if (_left <= 0 || !RuntimeHelpers.TryEnsureSufficientExecutionStack())
        {
            return Answer.Unknown;
        }
        if (!Propagate(groups))
        {
            return Answer.No;
        }
        var aside = SetAsideTheEasy(groups);
        var answer = Answer.Yes;
        foreach (var part in OpenParts(groups))
        {
            switch (Branch(part, isWhole))
            {
                case Answer.No:
                    return Answer.No;
                case Answer.Unknown:
                    answer = Answer.Unknown;
                    break;
            }
        }
        for (var i = aside.Count - 1; i >= 0 && answer == Answer.Yes; i--)
        {
            int free = _open[aside[i]];
            foreach (var other in _neighbours[aside[i]])
            {
                free &= _state[other] == State.Settled ? ~_open[other] : ~0;
            }
            _open[aside[i]] = (ushort)(free & -free);
            _state[aside[i]] = State.Settled;
        }
        return answer;
    }

    /// <summary>Takes single channels from the open neighbours; false when nothing is left for one.</summary>
    private bool Propagate(int[] groups)
    {
        var single = new Stack<int>();
        foreach (var group in groups)
        {
            if (_open[group] == 0)
            {
                return false;
            }
            if (BitOperations.IsPow2(_open[group]))
            {
                single.Push(group);
            }
        }
        while (single.TryPop(out var group))
        {
            _state[group] = State.Settled;
            _left -= _neighbours[group].Length;
            foreach (var other in _neighbours[group])
            {
                if (_state[other] == State.SetAside || (_open[other] & _open[group]) == 0)
                {
                    continue;
                }
                if (_state[other] == State.Settled || _open[other] == _open[group])
                {
                    _failures[other]++;
                    return false;
                }
                _open[other] &= (ushort)~_open[group];
                _hasLost[other] = true;
                if (BitOperations.IsPow2(_open[other]))
                {
                    single.Push(other);
                }
            }
        }
        return true;
    }

    /// <summary>Sets aside, one after the other, what has more channels than open neighbours. They are settled last to first.</summary>
    private List<int> SetAsideTheEasy(int[] groups)
    {
        var aside = new List<int>();
        foreach (var group in groups)
        {
            if (_state[group] == State.Open)
            {
                _left -= _neighbours[group].Length;
                _degree[group] = _neighbours[group].Count(other => _state[other] == State.Open);
            }
        }
        foreach (var group in groups)
        {
            TrySetAside(group);
        }
        for (var i = 0; i < aside.Count; i++)
        {
            foreach (var other in _neighbours[aside[i]])
            {
                _degree[other]--;
                TrySetAside(other);
            }
        }
        return aside;

        void TrySetAside(int group)
        {
            if (_state[group] == State.Open && _degree[group] < BitOperations.PopCount(_open[group]))
            {
                _state[group] = State.SetAside;
                aside.Add(group);
            }
        }
    }

    private List<int[]> OpenParts(int[] groups)
    {
        var mark = ++_lastMark;
        var parts = new List<int[]>();
        foreach (var group in groups)
        {
            if (_state[group] != State.Open || _mark[group] == mark)
            {
                continue;
            }
            var part = new List<int> { group };
            _mark[group] = mark;
            for (var i = 0; i < part.Count; i++)
            {
                _left -= _neighbours[part[i]].Length;
                part.AddRange(_neighbours[part[i]].Where(other => _state[other] == State.Open && Mark(other)));
            }
            part.Sort();
            parts.Add([.. part]);
        }
        return parts;
    }

    /// <summary>Tries the channels of the most constrained group of a connected part.</summary>
    private Answer Branch(int[] part, bool isWhole)
    {
        switch (PruneCliques(part, isWhole))
        {
            case Pruning.Impossible:
                return Answer.No;
            case Pruning.Some:
                return Settle(part, isWhole: false);
        }
        var pivot = part.MinBy(group => ((double)BitOperations.PopCount(_open[group]) / (1 + _failures[group]), -_degree[group], group));
        var before = Array.ConvertAll(part, group => _open[group]);
        var answer = Answer.No;
        foreach (var channel in ChannelsWorthTrying(part, pivot))
        {
            _open[pivot] = channel;
            switch (Settle(part, isWhole: false))
            {
                case Answer.Yes:
                    return Answer.Yes;
                case Answer.Unknown:
                    answer = Answer.Unknown;
                    break;
            }
            for (var i = 0; i < part.Length; i++)
            {
                _open[part[i]] = before[i];
                _state[part[i]] = State.Open;
                _hasLost[part[i]] = false;
            }
        }
        return answer;
    }

    /// <summary>
    /// The pivot's channels, those that fewest neighbours could have first; of channels that every group of the part has either
    /// all of or none, only the lowest.
    /// </summary>
    private List<ushort> ChannelsWorthTrying(int[] part, int pivot)
    {
        var classes = new List<int> { ChannelVoice.Any };
        foreach (var group in part)
        {
            for (var i = classes.Count - 1; i >= 0 && classes.Count < MidiStatus.Channels; i--)
            {
                var inside = classes[i] & _open[group];
                if (inside != 0 && inside != classes[i])
                {
                    classes.Add(classes[i] & ~inside);
                    classes[i] = inside;
                }
            }
        }
        return [.. classes
            .Select(alike => (ushort)(alike & -alike))
            .Where(channel => (channel & _open[pivot]) != 0)
            .OrderBy(channel => _neighbours[pivot].Count(other => _state[other] == State.Open && (_open[other] & channel) != 0))
            .ThenBy(channel => channel)];
    }

    private enum Pruning
    {
        None,
        Some,
        Impossible,
    }

    /// <summary>
    /// Grows cliques (groups that all stand apart from one another) from the groups of a part, and takes from each clique's
    /// members the channels with which the clique could not have a channel each. Finding every clique is as hard as the puzzle,
    /// so these are what greed finds: from every group when the whole is looked at, later on from those that lost a channel.
    /// </summary>
    private Pruning PruneCliques(int[] part, bool isWhole)
    {
        var pruning = Pruning.None;
        var isCovered = new HashSet<int>();
        foreach (var group in part)
        {
            if (isWhole || (_hasLost[group] && !isCovered.Contains(group)))
            {
                _hasLost[group] = false;
                var clique = CliqueFrom(group);
                switch (clique.Count > MidiStatus.Channels ? Pruning.Impossible : Prune(clique))
                {
                    case Pruning.Impossible:
                        clique.ForEach(member => _failures[member]++);
                        return Pruning.Impossible;
                    case Pruning.Some:
                        pruning = Pruning.Some;
                        break;
                }
                isCovered.UnionWith(clique);
            }
        }
        return pruning;
    }

    private List<int> CliqueFrom(int group)
    {
        var clique = new List<int> { group };
        var candidates = _neighbours[group].Where(other => _state[other] == State.Open).ToList();
        while (candidates.Count > 0 && clique.Count <= MidiStatus.Channels)
        {
            var next = candidates.MinBy(other => (BitOperations.PopCount(_open[other]), -_degree[other], other));
            clique.Add(next);
            _lastMark++;
            foreach (var other in _neighbours[next])
            {
                Mark(other);
            }
            _left -= candidates.Count + _neighbours[next].Length;
            candidates.RemoveAll(other => _mark[other] != _lastMark);
        }
        return clique;
    }

    /// <summary>
    /// Places every group on a channel of its own, by augmenting paths. A group may then have a channel besides its own if the
    /// owner of that, moving on, and the next owner, and so on, come to a free channel or to the one that the group left.
    /// </summary>
    private Pruning Prune(List<int> groups)
    {
        if (!IsTight(groups))
        {
            return Pruning.None;
        }
        _left -= groups.Count * MidiStatus.Channels;
        var owner = new int[MidiStatus.Channels];
        Array.Fill(owner, -1);
        foreach (var group in groups)
        {
            var seen = 0;
            if (!TryPlace(group, ref seen))
            {
                return Pruning.Impossible;
            }
        }

        Span<int> reach = stackalloc int[MidiStatus.Channels];
        var unowned = 0;
        for (var channel = 0; channel < MidiStatus.Channels; channel++)
        {
            reach[channel] = (1 << channel) | (owner[channel] < 0 ? 0 : _open[owner[channel]]);
            unowned |= owner[channel] < 0 ? 1 << channel : 0;
        }
        for (var by = 0; by < MidiStatus.Channels; by++)
        {
            for (var channel = 0; channel < MidiStatus.Channels; channel++)
            {
                reach[channel] |= (reach[channel] >> by & 1) != 0 ? reach[by] : 0;
            }
        }
        var pruning = Pruning.None;
        for (var own = 0; own < MidiStatus.Channels; own++)
        {
            if (owner[own] < 0)
            {
                continue;
            }
            var kept = 0;
            for (int open = _open[owner[own]]; open != 0; open &= open - 1)
            {
                var channel = BitOperations.TrailingZeroCount(open);
                kept |= (reach[channel] & (unowned | (1 << own))) != 0 ? 1 << channel : 0;
            }
            if (kept != _open[owner[own]])
            {
                pruning = Pruning.Some;
                _open[owner[own]] = (ushort)kept;
                _hasLost[owner[own]] = true;
            }
        }
        return pruning;

        bool TryPlace(int group, ref int seen)
        {
            for (var open = _open[group] & ~seen; open != 0; open = _open[group] & ~seen)
            {
                var channel = BitOperations.TrailingZeroCount(open);
                seen |= 1 << channel;
                if (owner[channel] < 0 || TryPlace(owner[channel], ref seen))
                {
                    owner[channel] = group;
                    return true;
                }
            }
            return false;
        }
    }

    /// <summary>
    /// False when fewer than n of the groups have n channels or less, for every n: any set of them then has more channels than
    /// members, so that nobody is at a loss, nor puts another at one.
    /// </summary>
    private bool IsTight(List<int> groups)
    {
        Span<int> withAtMost = stackalloc int[MidiStatus.Channels + 1];
        foreach (var group in groups)
        {
            withAtMost[BitOperations.PopCount(_open[group])]++;
        }
        for (var size = 1; size <= MidiStatus.Channels; size++)
        {
            withAtMost[size] += withAtMost[size - 1];
            if (withAtMost[size] >= size)
            {
                return true;
            }
        }
        return false;
    }

    private bool Mark(int group)
    {
        var isNew = _mark[group] != _lastMark;
        _mark[group] = _lastMark;
        return isNew;
    }

    private static int[] Group(VoiceGraph graph, int[] voices, out int count)
    {
        var groupOf = new int[voices.Length];
        Array.Fill(groupOf, -1);
        count = 0;
        var open = new Stack<int>();
        for (var first = 0; first < voices.Length; first++)
        {
            if (groupOf[first] >= 0)
            {
                continue;
            }
            groupOf[first] = count;
            open.Push(first);
            while (open.TryPop(out var place))
            {
                foreach (var other in graph.Same[voices[place]])
                {
                    if (graph.PlaceOf(other) is >= 0 and var j && groupOf[j] < 0)
                    {
                        groupOf[j] = count;
                        open.Push(j);
                    }
                }
            }
            count++;
        }
        return groupOf;
    }
}
