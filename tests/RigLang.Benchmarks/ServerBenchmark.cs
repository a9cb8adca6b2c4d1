using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace RigLang.Benchmarks;

/// <summary>
/// A real `rig server` over standard input and output, as an editor drives it: the time from a keystroke to the diagnostics that know of
/// it, hover and completion, the start, and memory over a long run of edits. Beside it in the same run stands an echo: a
/// process that sends each message back, so that figures can be compared between machines.
/// </summary>
public static class ServerBenchmark
{
    /// <summary>Between two keys: fifty a second, several times what anybody types.</summary>
    private static readonly TimeSpan BetweenKeys = TimeSpan.FromMilliseconds(20);

    /// <summary>False when an aim is missed.</summary>
    /// <param name="edits">How many random edits the memory is watched over.</param>
    public static bool Run(TextWriter output, string rig, int edits, bool isQuick)
    {
        var rounds = isQuick ? 60 : 300;
        var echo = EchoTime(rounds);
        output.WriteLine("                                      median        p95   times the echo");
        Row(output, "echo of a hover", echo, echo);
        var isMet = true;
        foreach (var (lines, keystroke, hover, completion) in new[] { (1_000, 5.0, 1.0, 5.0), (10_000, 20.0, 1.0, 5.0) })
        {
            using var server = Speaker.Server(rig);
            var text = RigGenerator.Rig(lines);
            server.Introduce();
            server.Open(text);
            var typing = Typing(server, text, rounds);
            Row(output, $"keystroke to diagnostics, {lines:N0} lines", typing, echo);
            var hovering = Asking(server, text, "textDocument/hover", rounds);
            Row(output, $"hover, {lines:N0} lines", hovering, echo);
            var completing = Asking(server, text, "textDocument/completion", rounds);
            Row(output, $"completion, {lines:N0} lines", completing, echo);
            isMet &= Aim(output, $"keystroke at {lines:N0} lines, p95 under {keystroke} ms", Percentile(typing, 0.95), keystroke);
            isMet &= Aim(output, $"hover at {lines:N0} lines, p95 under {hover} ms", Percentile(hovering, 0.95), hover);
            isMet &= Aim(output, $"completion at {lines:N0} lines, p95 under {completion} ms", Percentile(completing, 0.95), completion);
        }
        var starts = Enumerable.Range(0, isQuick ? 10 : 40).Select(_ => StartTime(rig)).ToList();
        Row(output, "start to initialize answered", starts, echo);
        isMet &= Aim(output, "start to initialize under 25 ms", Percentile(starts, 0.5), 25);
        return Memory(output, rig, edits) && isMet;
    }

    /// <summary>The other end of the comparison: every message goes back as it came.</summary>
    public static void Echo(Stream input, Stream output)
    {
        while (Frames.Read(input) is { } message)
        {
            Frames.Write(output, message);
        }
    }

    private static List<double> EchoTime(int rounds)
    {
        using var echo = Speaker.Echo();
        var times = new List<double>();
        for (var i = -10; i < rounds; i++)
        {
            var start = Stopwatch.GetTimestamp();
            echo.Send("textDocument/hover", i + 100, w => echo.Place(w, i & 7, 3));
            echo.Receive();
            Keep(times, i, start);
        }
        return times;
    }

    /// <summary>A letter typed into a comment in the middle of the rig, then another, and every third time one taken out.</summary>
    private static List<double> Typing(Speaker server, string text, int rounds)
    {
        var line = text.AsSpan(0, text.Length / 2).Count('\n');
        server.Change(line, 0, 0, "// \n");
        server.AwaitDiagnostics();
        var column = 3;
        var times = new List<double>();
        for (var i = -10; i < rounds; i++)
        {
            Thread.Sleep(BetweenKeys);
            var start = Stopwatch.GetTimestamp();
            if (i % 3 == 2)
            {
                server.Change(line, column - 1, 1, "");
                column--;
            }
            else
            {
                server.Change(line, column, 0, "a");
                column++;
            }
            server.AwaitDiagnostics();
            Keep(times, i, start);
        }
        return times;
    }

    /// <summary>At places all over the rig where something stands.</summary>
    private static List<double> Asking(Speaker server, string text, string method, int rounds)
    {
        var lines = text.Split('\n');
        var places = Enumerable.Range(0, lines.Length).Where(l => lines[l].StartsWith("connect ", StringComparison.Ordinal) || lines[l].StartsWith("device ", StringComparison.Ordinal)).ToList();
        var times = new List<double>();
        for (var i = -10; i < rounds; i++)
        {
            var line = places[(i + 10) * 7919 % places.Count];
            var start = Stopwatch.GetTimestamp();
            server.Ask(method, w => server.Place(w, line, 10));
            Keep(times, i, start);
        }
        return times;
    }

    private static double StartTime(string rig)
    {
        var start = Stopwatch.GetTimestamp();
        using var server = Speaker.Server(rig);
        server.Ask("initialize", Speaker.Capabilities);
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }

    /// <summary>
    /// Pieces put in at random and taken out again, so that the text stays of one size: what the server holds after the second half must not
    /// be more than after the first.
    /// </summary>
    private static bool Memory(TextWriter output, string rig, int edits)
    {
        using var server = Speaker.Server(rig);
        server.Introduce();
        var text = RigGenerator.Rig(1_000);
        var count = text.AsSpan().Count('\n');
        server.Open(text);
        var random = new Random(1);
        string[] pieces = ["x", "connect ", "}", "\"", "device a : B {\n}\n", "// é\n"];
        var half = 0L;
        for (var i = 0; i < edits; i++)
        {
            var line = random.Next(count);
            var piece = pieces[random.Next(pieces.Length)];
            server.Change(line, 0, 0, piece);
            server.TakeOut(line, piece);
            if (i % 16 == 15)
            {
                server.AwaitDiagnostics();
            }
            if (i == edits / 2)
            {
                half = server.Memory();
            }
        }
        var end = server.Memory();
        var growth = (double)end / half;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"memory: {half / 1e6:0.0} MB after {edits / 2:N0} edits, {end / 1e6:0.0} MB after {edits:N0}"));
        return Aim(output, "memory flat: second half at most 1.15 times the first", growth, 1.15);
    }

    private static void Keep(List<double> times, int round, long start)
    {
        if (round >= 0)
        {
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
    }

    private static void Row(TextWriter output, string what, List<double> times, List<double> echo) => output.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{what,-36} {Percentile(times, 0.5),7:0.00} ms {Percentile(times, 0.95),7:0.00} ms   {Percentile(times, 0.5) / Percentile(echo, 0.5),8:0.0}"));

    internal static bool Aim(TextWriter output, string what, double value, double most)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{(value <= most ? "met    " : "NOT MET")}  {what}: {value:0.00}"));
        return value <= most;
    }

    private static double Percentile(List<double> times, double share) => times.Order().ElementAt((int)Math.Min(times.Count - 1, Math.Ceiling(times.Count * share) - 1));
}
