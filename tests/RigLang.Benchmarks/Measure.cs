using System.Diagnostics;

namespace RigLang.Benchmarks;

/// <summary>What many runs of one piece of work took, in milliseconds.</summary>
/// <param name="Spread">Half of the runs lie within this share of the median: (third quartile - first quartile) / median.</param>
public readonly record struct Timing(double Median, double Spread, double Best, int Runs);

/// <summary>
/// Runs work until the compiler behind it has settled, then times it one run at a time. Medians, because a busy machine only
/// ever makes a run slower; the collector runs between measurements, not because of them.
/// </summary>
public static class Measure
{
    private static object? s_kept;

    /// <param name="work">Gives what it made, so that none of it can be optimised away.</param>
    /// <param name="warmUp">Time spent before the first measured run.</param>
    /// <param name="budget">Time spent on measured runs; at least <paramref name="leastRuns"/> are made.</param>
    public static Timing Of(Func<object?> work, TimeSpan warmUp, TimeSpan budget, int leastRuns = 7)
    {
        for (var watch = Stopwatch.StartNew(); watch.Elapsed < warmUp;)
        {
            s_kept = work();
        }
        s_kept = null;
        GC.Collect();
        GC.WaitForPendingFinalizers();
        GC.Collect();

        var times = new List<double>();
        for (var watch = Stopwatch.StartNew(); times.Count < leastRuns || watch.Elapsed < budget;)
        {
            var start = Stopwatch.GetTimestamp();
            s_kept = work();
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
        s_kept = null;
        return Summary(times);
    }

    public static Timing Summary(List<double> times)
    {
        times.Sort();
        var median = At(0.5);
        return new Timing(median, (At(0.75) - At(0.25)) / median, times[0], times.Count);

        double At(double share) => times[(int)(share * (times.Count - 1) + 0.5)];
    }
}
