using System.Diagnostics;
using System.Globalization;

namespace RigLang.Benchmarks;

/// <summary>
/// Many minutes of typing into a rig while other programs keep the machine busy: a key every 20 ms, whether or not the server has
/// followed, and a hover or completion at every third. Printed is the memory minute by minute, and what is left of it, and of
/// the use of the processors, when the player goes away.
/// </summary>
public static class SoakBenchmark
{
    private static readonly TimeSpan BetweenKeys = TimeSpan.FromMilliseconds(20);

    /// <summary>From the last key until all has to be given back.</summary>
    private static readonly TimeSpan Rest = TimeSpan.FromSeconds(60);

    private const double MostAtWork = 150;
    private const double MostAtRest = 80;

    /// <summary>False when an aim is missed.</summary>
    /// <param name="file">A rig; its imports are read from where it lies.</param>
    public static bool Run(TextWriter output, string rig, string file, int minutes)
    {
        var busy = Enumerable.Range(0, Environment.ProcessorCount).Select(_ => Spinning()).ToList();
        try
        {
            return Soak(output, rig, file, minutes);
        }
        finally
        {
            foreach (var process in busy)
            {
                process.Kill();
                process.Dispose();
            }
        }
    }

    /// <summary>What the processes do that keep the machine busy.</summary>
    public static void Spin()
    {
        for (var i = 0UL; ; i++)
        {
            GC.KeepAlive(i);
        }
    }

    private static Process Spinning()
    {
        var process = Process.Start(Environment.ProcessPath!, ["--spin"]);
        process.PriorityClass = ProcessPriorityClass.BelowNormal;
        return process;
    }

    private static bool Soak(TextWriter output, string rig, string file, int minutes)
    {
        using var server = Speaker.Server(rig, "file://" + Path.GetFullPath(file));
        var text = File.ReadAllText(file);
        server.Introduce();
        server.Open(text);
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"opened            {server.Memory() / 1e6,8:0.0} MB"));
        var reading = Task.Run(() => Drain(server));
        var line = text.AsSpan().Count('\n') / 2;
        server.Change(line, 0, 0, "// \n");
        var perMinute = new List<double>();
        var keys = 0;
        var clock = Stopwatch.StartNew();
        for (var minute = 1; minute <= minutes; minute++)
        {
            var mostOfMinute = 0.0;
            for (; clock.Elapsed < TimeSpan.FromMinutes(minute); keys++)
            {
                Key(server, line, keys);
                mostOfMinute = Math.Max(mostOfMinute, keys % 16 == 0 ? server.Memory() / 1e6 : 0);
                Thread.Sleep(BetweenKeys);
            }
            perMinute.Add(mostOfMinute);
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"minute {minute,3} {keys,8:N0} keys {server.Memory() / 1e6,8:0.0} MB, at most {mostOfMinute:0.0}"));
        }
        Thread.Sleep(Rest);
        var rest = server.Memory() / 1e6;
        var before = server.ProcessorTime();
        Thread.Sleep(Rest);
        var used = (server.ProcessorTime() - before).TotalMilliseconds;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"after a minute of rest {rest:0.0} MB; in the next {used:0} ms of a processor; {Volatile.Read(ref s_taken):N0} messages taken"));
        // The median of the minutes' highest: one moment says nothing of a trend. In the first third the heap finds its size, which is a step and no growth.
        var third = minutes / 3;
        var (middle, last) = (Median(perMinute.Skip(third).Take(minutes - (2 * third))), Median(perMinute.Skip(minutes - third)));
        return ServerBenchmark.Aim(output, $"at work at most {MostAtWork} MB", perMinute.Max(), MostAtWork)
            & ServerBenchmark.Aim(output, "flat: the last third at most 1.15 times the one before", last / middle, 1.15)
            & ServerBenchmark.Aim(output, $"at rest under {MostAtRest} MB", rest, MostAtRest)
            & ServerBenchmark.Aim(output, "no use of a processor at rest, in ms of a minute", used, 20);
    }

    /// <summary>A letter more in a comment, and after each sixty of them none; and a question now and then.</summary>
    private static void Key(Speaker server, int line, int key)
    {
        var column = 3 + (key % 60);
        if (key % 60 == 59)
        {
            server.Change(line, 3, column - 3, "");
        }
        else
        {
            server.Change(line, column, 0, "a");
        }
        if (key % 10 is 2 or 5 or 8)
        {
            server.Send(key % 20 < 10 ? "textDocument/hover" : "textDocument/completion", 1_000_000 + key, json => server.Place(json, key * 7919 % (2 * line), 10));
        }
    }

    private static int s_taken;

    private static void Drain(Speaker server)
    {
        while (server.TryReceive() is not null)
        {
            Interlocked.Increment(ref s_taken);
        }
    }

    private static double Median(IEnumerable<double> values)
    {
        List<double> sorted = [.. values.Order()];
        return sorted[sorted.Count / 2];
    }
}
