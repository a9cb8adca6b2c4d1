using CsCheck;
using RigLang.Flow;
using Xunit;

namespace RigLang.Tests.Flow.Channels;

/// <summary>What holds for any puzzle, on random small ones.</summary>
public class ChannelProperties
{
    [Fact]
    public void The_assignment_is_the_lowest_that_plain_trial_finds() => Puzzle.Gen(most: 9).Sample(
        puzzle =>
        {
            var solution = puzzle.Solve();
            var expected = puzzle.ByTrial();
            Assert.Equal(expected is not null, solution.IsSolved);
            if (expected is not null)
            {
                Assert.Equal(expected, solution.Channels);
            }
        },
        iter: 3000);

    [Fact]
    public void The_assignment_of_a_long_chain_is_the_lowest_too() => Chains.Sample(
        puzzle =>
        {
            var solution = puzzle.Solve();
            if (solution.IsSolved)
            {
                Assert.Equal(puzzle.ByTrial(), solution.Channels);
            }
        },
        iter: 500);

    [Fact]
    public void A_conflict_cannot_be_solved_and_can_without_any_one_of_its_voices() => Puzzle.Gen(most: 10).Sample(
        puzzle =>
        {
            foreach (var conflict in puzzle.Solve().Conflicts)
            {
                Assert.Null(puzzle.Only(conflict.Voices).ByTrial());
                foreach (var voice in conflict.Voices)
                {
                    Assert.NotNull(puzzle.Only(conflict.Voices.Where(other => other != voice)).ByTrial());
                }
            }
        },
        iter: 2000);

    [Fact]
    public void No_set_of_fewer_voices_conflicts_than_the_smallest_conflict() => Gen.OneOf(Puzzle.Gen(most: 8), Rings).Sample(
        puzzle =>
        {
            if (puzzle.Solve().Conflict is not { } conflict)
            {
                return;
            }
            Assert.Equal(ConflictProof.Smallest, conflict.Proof);
            for (var set = 0; set < 1 << puzzle.Voices.Count; set++)
            {
                int[] voices = [.. Enumerable.Range(0, puzzle.Voices.Count).Where(i => (set >> i & 1) != 0)];
                if (voices.Length == conflict.Voices.Count - 1)
                {
                    Assert.NotNull(puzzle.Only(voices).ByTrial());
                }
            }
        },
        iter: 1500);

    [Fact]
    public void A_set_that_meets_all_sets_is_found_when_there_is_one() =>
        Gen.Select(Gen.Select(Gen.Int[0, 9], Gen.Int[0, 9], Gen.Int[0, 9], (a, b, c) => (1UL << a) | (1UL << b) | (1UL << c)).Array[0, 20], Gen.Int[0, 6]).Sample(
            (sets, size) =>
            {
                var effort = int.MaxValue;
                var exists = Enumerable.Range(0, 1024).Any(set => int.PopCount(set) <= size && Array.TrueForAll(sets, other => (other & (ulong)set) != 0));
                var hit = SmallestConflict.Hit([.. sets], 0, 0, size, ref effort);
                Assert.Equal(exists, hit is not null);
                Assert.True(hit is not { } found || (ulong.PopCount(found) <= (ulong)size && Array.TrueForAll(sets, other => (other & found) != 0)));
            },
            iter: 2000);

    [Fact]
    public void Two_of_the_same_set_are_chosen_where_only_they_meet_all_the_others()
    {
        // {1 2 3}, and of those only 2 and 3 together meet the rest.
        List<ulong> sets = [0b1110, 0b111000, 0b1100001000, 0b11000100, 0b110000000100];
        var effort = int.MaxValue;

        Assert.Equal(0b1100UL, SmallestConflict.Hit(sets, 0, 0, 2, ref effort));
    }

    [Fact]
    public void Conflicts_share_no_voice_and_the_rest_is_solved_without_them() => Puzzle.Gen(most: 12).Sample(
        puzzle =>
        {
            var solution = puzzle.Solve();
            var inConflict = solution.Conflicts.SelectMany(conflict => conflict.Voices).ToList();
            Assert.Equal(inConflict.Distinct().Order(), inConflict.Order());
            Assert.Equal(inConflict.Order(), Enumerable.Range(0, puzzle.Voices.Count).Where(voice => solution.Channels[voice] == 0));
            int[] rest = [.. Enumerable.Range(0, puzzle.Voices.Count).Except(inConflict)];
            Assert.True(puzzle.Only(rest).IsMetBy([.. rest.Select(voice => solution.Channels[voice])]));
        },
        iter: 2000);

    [Fact]
    public void A_move_frees_its_conflict() => Puzzle.Gen(most: 9).Sample(
        puzzle =>
        {
            foreach (var conflict in puzzle.Solve().Conflicts)
            {
                foreach (var move in conflict.Moves)
                {
                    Assert.NotEqual(0, puzzle.Voices[move.Voice].Gear & ChannelVoice.Only(move.Channel));
                    Assert.NotNull(puzzle.With(move.Voice, ChannelVoice.Only(move.Channel)).Only(conflict.Voices).ByTrial());
                }
            }
        },
        iter: 2000);

    [Fact]
    public void A_lone_conflict_that_one_voice_can_end_has_that_move() => Puzzle.Gen(most: 8).Sample(
        puzzle =>
        {
            if (puzzle.Solve().Conflicts is not [var conflict])
            {
                return;
            }
            foreach (var voice in conflict.Voices)
            {
                var channels = Enumerable.Range(1, 16)
                    .Where(channel => (puzzle.Voices[voice].Gear & ~puzzle.Voices[voice].Allowed & ChannelVoice.Only(channel)) != 0)
                    .Where(channel => puzzle.With(voice, ChannelVoice.Only(channel)).ByTrial() is not null)
                    .ToList();
                if (channels.Count > 0)
                {
                    Assert.Contains(new ChannelMove(voice, channels[0]), conflict.Moves);
                }
            }
        },
        iter: 1500);

    [Fact]
    public void The_order_of_input_changes_nothing() =>
        Gen.Select(Puzzle.Gen(most: 12), Gen.Int[0, int.MaxValue]).Sample(
            (puzzle, seed) =>
            {
                var random = new Random(seed);
                var places = Enumerable.Range(0, puzzle.Voices.Count).ToArray();
                random.Shuffle(places);
                var voices = new ChannelVoice[places.Length];
                for (var i = 0; i < places.Length; i++)
                {
                    voices[places[i]] = puzzle.Voices[i];
                }
                var moved = new Puzzle { Voices = [.. voices], Same = Moved(puzzle.Same), Apart = Moved(puzzle.Apart) };

                Assert.Equal(Told(puzzle), Told(moved));

                List<(int, int)> Moved(List<(int, int)> pairs)
                {
                    var turned = pairs
                        .Select(pair => (places[pair.Item1], places[pair.Item2]))
                        .Select(pair => random.Next(2) == 0 ? pair : (pair.Item2, pair.Item1))
                        .ToArray();
                    random.Shuffle(turned);
                    return [.. turned];
                }
            },
            iter: 2000);

    [Fact]
    public void A_voice_that_is_not_connected_to_others_changes_nothing() =>
        Gen.Select(Puzzle.Gen(most: 10), Gen.OneOf(Gen.Const("a"), Gen.Const("v3x"), Gen.Const("z")), Gen.Int[0, 0xFFFF]).Sample(
            (puzzle, name, allowed) =>
            {
                var added = new Puzzle { Voices = [.. puzzle.Voices, new ChannelVoice(name, (ushort)allowed)], Same = puzzle.Same, Apart = puzzle.Apart };

                Assert.Equal(Told(puzzle), Told(added).Where(line => !line.StartsWith($"{name} ", StringComparison.Ordinal)));
            },
            iter: 2000);

    [Fact]
    public void Nothing_is_thrown_for_any_pairs() =>
        Gen.Select(Gen.Int[0, 0xFFFF].Array[0, 20], Gen.Select(Gen.Int[-2, 22], Gen.Int[-2, 22]).Array[0, 60], Gen.Select(Gen.Int[-2, 22], Gen.Int[-2, 22]).Array[0, 120])
            .Sample(
                (allowed, same, apart) =>
                {
                    var solution = ChannelPuzzle.Solve([.. allowed.Select(set => new ChannelVoice("twin", (ushort)set, 0xFFFF))], same, apart);
                    Assert.Equal(allowed.Length, solution.Channels.Count);
                },
                iter: 1000);

    /// <summary>Twelve voices with the same two channels or three: conflicts are rings and the like, of many sizes at once.</summary>
    private static readonly Gen<Puzzle> Rings =
        from width in Gen.Int[2, 3]
        from apart in Gen.Select(Gen.Int[0, 11], Gen.Int[0, 11]).Where((a, b) => a != b).List[10 * width - 9, 10 * width]
        from same in Gen.Select(Gen.Int[0, 11], Gen.Int[0, 11]).List[0, 3]
        select new Puzzle
        {
            Voices = [.. Enumerable.Range(0, 12).Select(i => Puzzle.Auto($"v{i}", 1, width))],
            Apart = apart,
            Same = same,
        };

    /// <summary>Sixty voices, each apart from some of the three before it, so that a change may travel far.</summary>
    private static readonly Gen<Puzzle> Chains =
        from allowed in Gen.Select(Gen.Int[1, 15], Gen.Int[1, 15], Gen.Int[1, 15], (a, b, c) => a | b | c).Array[60]
        from isApart in Gen.Int[0, 9].Array[180]
        select new Puzzle
        {
            Voices = [.. allowed.Select((set, i) => new ChannelVoice($"v{i}", (ushort)set))],
            Apart = [.. isApart.Select((n, i) => (n, A: i / 3, B: i / 3 - 1 - i % 3)).Where(pair => pair is { n: > 2, B: >= 0 }).Select(pair => (pair.A, pair.B))],
        };

    /// <summary>The solution in words without indices, sorted.</summary>
    private static List<string> Told(Puzzle puzzle)
    {
        var solution = puzzle.Solve();
        return [
            .. solution.Channels.Select((channel, i) => $"{puzzle.Voices[i].Name} {channel}").Order(StringComparer.Ordinal),
            .. solution.Conflicts.Select(conflict =>
                $"{string.Join(" ", puzzle.NamesOf(conflict.Voices))} : {conflict.Proof} "
                + string.Join(" ", conflict.Moves.Select(move => $"{puzzle.Voices[move.Voice].Name}>{move.Channel}")))];
    }
}
