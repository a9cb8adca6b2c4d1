using System.Diagnostics;

namespace RigLang.Benchmarks;

/// <summary>What many runs of one piece of work took, in milliseconds.</summary>
/// <param name="Spread">Half of the samples lie within this share of the median: (third quartile - first quartile) / median.</param>
public readonly record struct Timing(double Median, double Spread, double Best, int Samples);

/// <summary>
/// Runs work until the compiler behind it has settled, then takes samples. The time is the processor's, not the clock's: the
/// compiler works on one thread, and on an idle machine the two are the same, but what else runs does not count. The collector
/// clears away what the samples before left, outside the time taken: each pays for its own garbage, and for no other's.
/// </summary>
public static class Measure
{
    private const double CollectAfterMilliseconds = 20;
    private const double LeastMillisecondsASample = 4;

    private static object? s_kept;

    /// <param name="work">Gives what it made, so that none of it can be optimised away.</param>
    /// <param name="warmUp">Time spent before the first sample.</param>
    /// <param name="budget">Time spent on samples; at least <paramref name="leastSamples"/> are taken.</param>
    public static Timing Of(Func<object?> work, TimeSpan warmUp, TimeSpan budget, int leastSamples = 7)
    {
        var warmRuns = 0;
        var warm = Stopwatch.StartNew();
        for (; warm.Elapsed < warmUp; warmRuns++)
        {
            s_kept = work();
        }
        // Short work is repeated within a sample, so that reading the clock does not count.
        var repeats = Math.Max(1, (int)(LeastMillisecondsASample * warmRuns / warm.Elapsed.TotalMilliseconds));
        var samples = new List<double>();
        var sinceCollected = double.PositiveInfinity;
        for (var watch = Stopwatch.StartNew(); samples.Count < leastSamples || watch.Elapsed < budget;)
        {
            if (sinceCollected > CollectAfterMilliseconds)
            {
                s_kept = null;
                GC.Collect();
                sinceCollected = 0;
            }
            var start = Environment.CpuUsage.TotalTime;
            for (var run = 0; run < repeats; run++)
            {
                s_kept = work();
            }
            var taken = (Environment.CpuUsage.TotalTime - start).TotalMilliseconds;
            samples.Add(taken / repeats);
            sinceCollected += taken;
        }
        s_kept = null;
        return Summary(samples);
    }

    public static Timing Summary(List<double> times)
    {
        times.Sort();
        var median = At(0.5);
        return new Timing(median, (At(0.75) - At(0.25)) / median, times[0], times.Count);

        double At(double share) => times[(int)(share * (times.Count - 1) + 0.5)];
    }
}
