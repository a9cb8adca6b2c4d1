using CsCheck;
using Google.OrTools.Sat;
using Google.OrTools.Util;
using RigLang.Flow;
using Xunit;

namespace RigLang.Tests.Flow.Channels;

/// <summary>The same puzzles as constraints for Google.OrTools CP-SAT, which knows nothing of channels, groups or colours.</summary>
public class ChannelsAgainstASolver
{
    [Fact]
    public void A_puzzle_is_solved_exactly_when_the_solver_solves_it() =>
        Gen.OneOf(Puzzle.Gen(most: 16), Puzzle.Gen(most: 24, channels: 6)).Sample(
            puzzle =>
            {
                var solution = puzzle.Solve();
                Assert.Equal(BySolver(puzzle) is not null, solution.IsSolved);
                Assert.True(!solution.IsSolved || puzzle.IsMetBy(solution.Channels));
            },
            iter: 200);

    [Fact]
    public void The_assignment_is_the_lowest_in_the_order_of_names() => Puzzle.Gen(most: 9, channels: 5).Sample(
        puzzle =>
        {
            if (BySolver(puzzle, isLowest: true) is { } lowest)
            {
                Assert.Equal(lowest, puzzle.Solve().Channels);
            }
        },
        iter: 150);

    [Fact]
    public void A_port_of_sixteen_channels_is_full_for_both_at_the_same_voice()
    {
        for (var count = 15; count <= 18; count++)
        {
            var puzzle = Puzzle.Of([.. Enumerable.Range(1, count).Select(n => n % 3 == 0 ? Puzzle.Fixed($"v{n}", n / 3) : Puzzle.Auto($"v{n}"))]).AllApart();
            Assert.Equal(count <= 16, BySolver(puzzle, isOnePort: true) is not null);
            Assert.Equal(count <= 16, puzzle.Solve().IsSolved);
        }
    }

    /// <summary>An assignment, the lexicographically lowest in the order of input if asked for; null when there is none.</summary>
    /// <param name="isOnePort">Everybody is apart from everybody: told in one piece, since it takes the solver ages pair by pair.</param>
    private static int[]? BySolver(Puzzle puzzle, bool isLowest = false, bool isOnePort = false)
    {
        var model = new CpModel();
        IntVar[] channels = [.. puzzle.Voices.Select(voice => model.NewIntVarFromDomain(
            Domain.FromValues([.. Enumerable.Range(1, 16).Where(channel => (voice.Allowed >> (channel - 1) & 1) != 0).Select(channel => (long)channel)]), voice.Name))];
        foreach (var (a, b) in puzzle.Same)
        {
            model.Add(channels[a] == channels[b]);
        }
        foreach (var (a, b) in isOnePort ? [] : puzzle.Apart)
        {
            if (a == b)
            {
                return null;
            }
            model.Add(channels[a] != channels[b]);
        }
        if (isOnePort)
        {
            model.AddAllDifferent(channels);
        }
        if (puzzle.Voices.Exists(voice => voice.Allowed == 0))
        {
            return null;
        }
        if (isLowest)
        {
            // A channel is a digit to the base of 17, the first name the highest.
            model.Minimize(LinearExpr.WeightedSum(channels, channels.Select((_, i) => (long)Math.Pow(17, channels.Length - 1 - i))));
        }
        // Without presolve, which proves wrong optima in this version (github.com/google/or-tools/issues/5293 and 5274); but it is
        // presolve that sees at once how many voices one port can have.
        var solver = new CpSolver { StringParameters = $"num_workers:1,cp_model_presolve:{(isOnePort ? "true" : "false")}" };
        return solver.Solve(model) switch
        {
            CpSolverStatus.Optimal => [.. channels.Select(channel => (int)solver.Value(channel))],
            CpSolverStatus.Feasible when !isLowest => [.. channels.Select(channel => (int)solver.Value(channel))],
            CpSolverStatus.Infeasible => null,
            var other => throw new InvalidOperationException($"The solver says {other}."),
        };
    }
}
