using System.Numerics;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>A part or a track that wants a MIDI channel. Channels are sets of bits: bit 0 is channel 1, bit 15 is channel 16.</summary>
/// <param name="Name">A name that no other voice of the puzzle has, such as `bass.voice`: the order of names decides who goes lowest.</param>
/// <param name="Allowed">The channels it may get: one for a fixed channel, a range for `auto`. None at all cannot be solved.</param>
/// <param name="Gear">The channels that its gear can be set to, where the rig fixed fewer: used only to say what would free a conflict.</param>
public sealed record ChannelVoice(string Name, ushort Allowed, ushort Gear = 0)
{
    public const ushort Any = 0xFFFF;

    /// <summary>The one channel as a set, empty when it is not 1 to 16.</summary>
    public static ushort Only(int channel) => Range(channel, channel);

    /// <summary>The channels from first to last, both included, as far as they are 1 to 16.</summary>
    public static ushort Range(int first, int last)
    {
        var channels = 0;
        for (var channel = Math.Max(first, 1); channel <= Math.Min(last, MidiStatus.Channels); channel++)
        {
            channels |= 1 << (channel - 1);
        }
        return (ushort)channels;
    }
}

/// <summary>Voices that cannot all have a channel at once.</summary>
/// <param name="Voices">Their indices, in the order of names.</param>
/// <param name="Moves">
/// What would free it, one a voice at most: channels that the voice's gear has and the rig did not allow. Empty when no single
/// voice can move. Whether or not, taking any one of the voices to another port frees a conflict that is proven minimal.
/// </param>
public sealed record ChannelConflict(IReadOnlyList<int> Voices, ConflictProof Proof, IReadOnlyList<ChannelMove> Moves);

/// <summary>What is known of a conflict besides that it is one.</summary>
public enum ConflictProof
{
    /// <summary>Nothing: it was so tangled that the search for a smaller one gave up.</summary>
    None,

    /// <summary>Any one of the voices left out, the others can have channels. Other conflicts may have fewer voices.</summary>
    Minimal,

    /// <summary>
    /// Minimal, and no fewer of the voices that pairs connect to these conflict, apart from conflicts told besides. Proven as a
    /// rule; not with more than 64 voices in question, or in more rounds than <see cref="SmallestConflict"/> allows.
    /// </summary>
    Smallest,
}

/// <summary>
/// Setting the voice to this channel frees the conflict: the lowest channel that also leaves everybody else a channel, or,
/// where a further conflict makes that impossible, the lowest that frees this one and that no neighbour of the voice has.
/// </summary>
public sealed record ChannelMove(int Voice, int Channel);

/// <summary>Who gets which channel, or who stands in whose way.</summary>
/// <param name="Channels">
/// By the voice's index, 1 to 16; 0 for the members of a conflict and the undecided. Read in the order of names it is the
/// lexicographically smallest assignment there is, of the voices that are in no conflict. (In a tangle of hundreds, where one
/// lower channel can be beyond the search, it is the smallest that was found.)
/// </param>
/// <param name="Conflicts">
/// No two share a voice; the rest without them has its channels. A puzzle is solvable exactly when there is none (and nothing
/// is undecided).
/// </param>
/// <param name="Undecided">
/// The voices of connected parts so tangled that the search gave up (<see cref="ChannelColouring.Limit"/>): nothing is known.
/// </param>
public sealed record ChannelSolution(
    IReadOnlyList<int> Channels, IReadOnlyList<ChannelConflict> Conflicts, IReadOnlyList<int> Undecided)
{
    public bool IsSolved => Conflicts.Count == 0 && Undecided.Count == 0;

    /// <summary>The conflict of the fewest voices, the first in the order of names among equals; null when there is none.</summary>
    public ChannelConflict? Conflict => Conflicts.MinBy(conflict => conflict.Voices.Count);
}

/// <summary>
/// The choice of MIDI channels. Voices that hear the same stream must stand apart, a track and the part it plays must share,
/// and each has channels of its own to choose from: colouring a graph from lists, solved exactly.
///
/// The result depends on names alone, not on the order of input, and on nothing that is not connected to a voice by pairs:
/// an unrelated voice more or less changes no channel. Nothing is thrown for any input; pairs of voices that do not exist are
/// passed over, and a voice that must stand apart from itself has no channel.
/// </summary>
public static class ChannelPuzzle
{
    /// <param name="same">Pairs of indices that must share a channel.</param>
    /// <param name="apart">Pairs of indices that must not.</param>
    public static ChannelSolution Solve(
        IReadOnlyList<ChannelVoice> voices, IReadOnlyList<(int, int)> same, IReadOnlyList<(int, int)> apart)
    {
        var byName = Enumerable.Range(0, voices.Count).ToArray();
        Array.Sort(byName, (a, b) => Compare(voices, a, b));
        var graph = new VoiceGraph(voices, byName, same, apart);

        var channels = new int[voices.Count];
        var conflicts = new List<(int[] Voices, ConflictProof Proof)>();
        var undecided = new List<int>();
        var parts = new Queue<int[]>(graph.Parts([.. Enumerable.Range(0, voices.Count)]));
        while (parts.TryDequeue(out var part))
        {
            var colouring = new ChannelColouring(graph, part, new Effort(8 * ChannelColouring.Limit));
            switch (colouring.FindLowest())
            {
                case Answer.Yes:
                    for (var i = 0; i < part.Length; i++)
                    {
                        channels[part[i]] = colouring.ChannelAt(i);
                    }
                    break;
                case Answer.No:
                    var conflict = SmallestConflict.Of(graph, part);
                    conflicts.Add(conflict);
                    foreach (var rest in graph.Parts([.. part.Except(conflict.Voices)]))
                    {
                        parts.Enqueue(rest);
                    }
                    break;
                default:
                    undecided.AddRange(part);
                    break;
            }
        }

        conflicts.Sort((a, b) => a.Voices[0].CompareTo(b.Voices[0]));
        var result = new int[voices.Count];
        for (var voice = 0; voice < voices.Count; voice++)
        {
            result[byName[voice]] = channels[voice];
        }
        return new ChannelSolution(
            result,
            [.. conflicts.Select(conflict => new ChannelConflict(
                [.. conflict.Voices.Select(voice => byName[voice])],
                conflict.Proof,
                [.. MovesOf(graph, conflict, channels).Select(move => move with { Voice = byName[move.Voice] })]))],
            [.. undecided.Order().Select(voice => byName[voice])]);
    }

    private static IEnumerable<ChannelMove> MovesOf(VoiceGraph graph, (int[] Voices, ConflictProof Proof) found, int[] channels)
    {
        var conflict = found.Voices;
        if (found.Proof == ConflictProof.None || !Array.Exists(conflict, voice => (graph.Gear[voice] & ~graph.Allowed[voice]) != 0))
        {
            yield break;
        }
        int[] everybody = [.. graph.PartOf(conflict[0]).Where(voice => channels[voice] > 0).Concat(conflict).Order()];
        var effort = new Effort(8 * ChannelColouring.Limit);
        foreach (var voice in conflict)
        {
            var taken = graph.Apart[voice].Aggregate(0, (set, other) => set | (1 << channels[other] >> 1));
            var lowest = 0;
            for (var open = graph.Gear[voice] & ~graph.Allowed[voice]; open != 0; open &= open - 1)
            {
                var channel = open & -open;
                if (Frees(everybody, channel))
                {
                    lowest = channel;
                    break;
                }
                if (lowest == 0 && (channel & taken) == 0 && Frees(conflict, channel))
                {
                    lowest = channel;
                }
            }
            if (lowest != 0)
            {
                yield return new ChannelMove(voice, BitOperations.TrailingZeroCount(lowest) + 1);
            }

            bool Frees(int[] among, int channel) =>
                !effort.IsSpent && new ChannelColouring(graph, among, effort, voice, (ushort)channel).Decide() == Answer.Yes;
        }
    }

    /// <summary>By name as a player counts: `track2` before `track10`.</summary>
    private static int Compare(IReadOnlyList<ChannelVoice> voices, int a, int b)
    {
        var order = CompareNames(voices[a].Name, voices[b].Name);
        order = order != 0 ? order : voices[a].Allowed.CompareTo(voices[b].Allowed);
        return order != 0 ? order : a.CompareTo(b);
    }

    private static int CompareNames(string a, string b)
    {
        int i = 0, j = 0;
        while (i < a.Length && j < b.Length)
        {
            if (char.IsAsciiDigit(a[i]) && char.IsAsciiDigit(b[j]))
            {
                var left = Number(a, ref i);
                var right = Number(b, ref j);
                var order = left.Length != right.Length ? left.Length.CompareTo(right.Length) : left.SequenceCompareTo(right);
                if (order != 0)
                {
                    return order;
                }
            }
            else if (a[i] != b[j])
            {
                return a[i].CompareTo(b[j]);
            }
            else
            {
                i++;
                j++;
            }
        }
        var rest = (a.Length - i).CompareTo(b.Length - j);
        return rest != 0 ? rest : string.CompareOrdinal(a, b);
    }

    /// <summary>The digits from here on, without leading zeros.</summary>
    private static ReadOnlySpan<char> Number(string name, ref int at)
    {
        var start = at;
        while (at < name.Length && char.IsAsciiDigit(name[at]))
        {
            at++;
        }
        return name.AsSpan(start, at - start).TrimStart('0');
    }
}
