using System.Diagnostics;
using RigLang.Flow;
using Xunit;

namespace RigLang.Tests.Flow.Channels;

/// <summary>Big puzzles and hard ones end soon. The times are many times what they take, for slow machines.</summary>
public class CrowdedPorts
{
    [Fact]
    public void Five_hundred_voices_on_fifty_ports_are_quick()
    {
        var puzzle = Puzzle.OfAuto(Enumerable.Range(0, 500).Select(n => $"v{n}"));
        for (var port = 0; port < 50; port++)
        {
            puzzle.AllApart([.. Enumerable.Range(port * 10, 10).Select(n => $"v{n}")]);
        }
        var solution = Within(500, puzzle);

        Assert.Equal(Enumerable.Range(0, 500).Select(n => n % 10 + 1), solution.Channels);
    }

    [Fact]
    public void Five_hundred_voices_that_all_hang_together_are_quick()
    {
        // Each stands apart from the eleven before it; every seventh has the choice of three channels only.
        var puzzle = Puzzle.Of([.. Enumerable.Range(0, 500).Select(n => n % 7 == 6 ? Puzzle.Auto($"v{n}", 1, 3) : Puzzle.Auto($"v{n}", 1, 13))]);
        for (var i = 0; i < 500; i++)
        {
            for (var j = Math.Max(0, i - 11); j < i; j++)
            {
                puzzle.Apart.Add((j, i));
            }
        }
        var solution = Within(30_000, puzzle);

        Assert.True(solution.IsSolved);
        Assert.True(puzzle.IsMetBy(solution.Channels));
    }

    [Fact]
    public void Five_hundred_voices_on_one_port_are_told_in_conflicts_of_seventeen()
    {
        var puzzle = Puzzle.OfAuto(Enumerable.Range(0, 500).Select(n => $"v{n}")).AllApart();
        var solution = Within(20_000, puzzle);

        Assert.Equal(29, solution.Conflicts.Count);
        Assert.All(solution.Conflicts, conflict => Assert.True(conflict is { Voices.Count: 17, Proof: ConflictProof.Smallest }));
    }

    [Theory]
    [InlineData(17)]
    [InlineData(18)]
    [InlineData(30)]
    public void Too_many_voices_with_odd_ranges_are_found_out_quickly(int count)
    {
        // Everyone lacks one channel, so that no two channels are alike.
        var puzzle = Puzzle.Of([.. Enumerable.Range(0, count).Select(n => new ChannelVoice($"v{n}", (ushort)~(1 << (n % 16))))]).AllApart();

        Assert.Equal(17, Within(10_000, puzzle).Conflict!.Voices.Count);
    }

    [Fact]
    public void A_crowd_that_is_too_much_without_any_seventeen_all_apart_is_found_out()
    {
        // A ring of five takes three channels, fourteen more are apart from all: nineteen voices, seventeen channels.
        var names = Enumerable.Range(0, 14).Select(n => $"v{n}").ToArray();
        string[] ring = ["ring0", "ring1", "ring2", "ring3", "ring4"];
        var puzzle = Puzzle.OfAuto([.. names, .. ring, "spare1", "spare2"]).AllApart(names);
        for (var i = 0; i < 5; i++)
        {
            puzzle.Separate(ring[i], ring[(i + 1) % 5]);
            foreach (var name in names)
            {
                puzzle.Separate(name, ring[i]);
            }
        }
        puzzle.Separate("spare1", "ring0").Separate("spare2", "v0");
        var conflict = Within(10_000, puzzle).Conflict!;

        Assert.Equal([.. ring, .. names], puzzle.NamesOf(conflict.Voices));
        Assert.Equal(ConflictProof.Smallest, conflict.Proof);
    }

    [Theory]
    [InlineData(60)]
    [InlineData(80)]
    [InlineData(120)]
    public void A_tangle_beyond_reason_ends_too_and_what_it_says_holds(int count)
    {
        var random = new Random(count);
        var puzzle = Puzzle.OfAuto(Enumerable.Range(0, count).Select(n => $"v{n}"));
        for (var i = 0; i < count; i++)
        {
            puzzle.Apart.AddRange(Enumerable.Range(0, i).Where(_ => random.Next(2) == 0).Select(j => (j, i)));
        }
        var solution = Within(60_000, puzzle);

        Assert.True(!solution.IsSolved || puzzle.IsMetBy(solution.Channels));
        Assert.All(solution.Undecided, voice => Assert.Equal(0, solution.Channels[voice]));
    }

    [Fact]
    public void A_ring_of_ten_thousand_narrow_voices_needs_no_deep_stack()
    {
        var puzzle = new Puzzle { Voices = [.. Enumerable.Range(0, 10_000).Select(n => Puzzle.Auto($"v{n}", 1, 3))] };
        for (var i = 0; i < 10_000; i++)
        {
            puzzle.Apart.Add((i, (i + 1) % 10_000));
            puzzle.Apart.Add((i, (i + 2) % 10_000));
        }
        var solution = Within(30_000, puzzle);

        Assert.False(solution.IsSolved && !puzzle.IsMetBy(solution.Channels));
    }

    private static ChannelSolution Within(int milliseconds, Puzzle puzzle)
    {
        var watch = Stopwatch.StartNew();
        var solution = puzzle.Solve();
        TestContext.Current.TestOutputHelper?.WriteLine(
            $"{watch.ElapsedMilliseconds} ms; {solution.Conflicts.Count} conflicts, {solution.Undecided.Count} undecided; smallest {solution.Conflict?.Voices.Count}, {solution.Conflict?.Proof}");
        Assert.InRange(watch.ElapsedMilliseconds, 0, milliseconds);
        return solution;
    }
}
