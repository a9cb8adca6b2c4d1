using System.Diagnostics;
using System.Globalization;

namespace RigLang.Benchmarks;

/// <summary>
/// A whole `rig check`, from start to exit, beside an empty native program: the two take turns, so that a busy moment of the
/// machine meets both.
/// </summary>
public static class ProcessBenchmark
{
    private const double MostRatio = 1.5;

    /// <summary>False when the aim is missed.</summary>
    public static bool Run(TextWriter output, string rig, string file, string empty, int runs)
    {
        var (ours, theirs) = (new List<double>(), new List<double>());
        for (var run = -3; run < runs; run++)
        {
            var (a, b) = (TimeOf(empty), TimeOf(rig, "check", file));
            if (run >= 0)
            {
                theirs.Add(a);
                ours.Add(b);
            }
        }
        var (floor, check) = (Measure.Summary(theirs), Measure.Summary(ours));
        var ratio = check.Median / floor.Median;
        Write("empty native program", floor);
        Write($"rig check {Path.GetFileName(file)}", check);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{(ratio <= MostRatio ? "met    " : "NOT MET")}  whole process at most {MostRatio:0.0} times an empty one: {ratio:0.00} times"));
        return ratio <= MostRatio;

        void Write(string what, Timing timing) => output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{what,-32} median {timing.Median,7:0.00} ms  ±{timing.Spread * 50:0.0} %  best {timing.Best:0.00} ms  ({timing.Samples} runs)"));
    }

    private static double TimeOf(string program, params string[] arguments)
    {
        var start = Stopwatch.GetTimestamp();
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true })
            ?? throw new InvalidOperationException($"{program} does not start.");
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        var taken = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        // A program that gives up early is fast, and says nothing about a check.
        return process.ExitCode == 0 ? taken : throw new InvalidOperationException($"{program} ended with {process.ExitCode}: {said}");
    }
}
