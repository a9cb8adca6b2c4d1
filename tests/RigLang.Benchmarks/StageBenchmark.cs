using System.Globalization;
using System.Text.Json;
using System.Text;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Benchmarks;

/// <summary>
/// Lexer, parser and full check on rigs of growing size, in one warm process without any file, beside the JSON parser of the
/// platform on a document of as many lines and bytes: the ratio to it means the same on any machine.
/// </summary>
public static class StageBenchmark
{
    private static readonly int[] Sizes = [100, 1_000, 10_000, 100_000];
    private const int Reference = 1_000;
    private const double MostGrowth = 1.5;

    private sealed record Row(int Lines, int Bytes, Timing Lex, Timing Parse, Timing Check, Timing Json, double AllocatedMegabytes);

    /// <summary>False when an aim is missed.</summary>
    public static bool Run(TextWriter output, bool isQuick, int largest)
    {
        var pace = isQuick ? 0.25 : 1;
        var rows = new List<Row>();
        // The largest first: it warms the compiler for all, and no small rig is measured on half-optimised code.
        foreach (var size in Sizes.Where(size => size <= largest).Reverse())
        {
            rows.Insert(0, MeasureSize(size, pace));
        }
        WriteStages(output, rows);
        return WriteAims(output, rows);
    }

    private static Row MeasureSize(int size, double pace)
    {
        var content = RigGenerator.Rig(size);
        var source = new SourceText("benchmark.rig", content);
        var json = JsonOfSameSize(source.LineCount - 1, content.Length);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Check();
        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        return new Row(source.LineCount - 1, content.Length,
            Time(() => Lexer.Lex(new SourceText("benchmark.rig", content))),
            Time(() => RigParser.Parse(new SourceText("benchmark.rig", content))),
            Time(Check),
            Time(() => JsonDocument.Parse(json)),
            allocated / 1e6);

        object Check() => Compilation.Create(new SourceText("benchmark.rig", content), NoImports);

        Timing Time(Func<object?> work) => Measure.Of(work, TimeSpan.FromSeconds(1.5 * pace), TimeSpan.FromSeconds(3 * pace));
    }

    private static OpenedFile NoImports(string path) => new(null, "the benchmark opens no file");

    /// <summary>
    /// The first finding in a generated rig, with its line; null when there is none, as it must be: a rig with a mistake would
    /// skip stages, and the figures would flatter.
    /// </summary>
    public static string? FirstMistake()
    {
        foreach (var size in Sizes.Where(size => size <= 10_000))
        {
            var compilation = Compilation.Create(new SourceText("benchmark.rig", RigGenerator.Rig(size)), NoImports);
            if (compilation.Findings is [var first, ..])
            {
                var source = first.Location.Source;
                var line = source.PositionOf(first.Location.Span.Start).Line;
                return $"The generated rig of {size} lines is not clean: {first.Check.Name}: {first.What}\nLine {line + 1}: {source.Slice(source.LineSpan(line))}";
            }
        }
        return null;
    }

    internal static byte[] JsonOfSameSize(int lines, int bytes)
    {
        var text = new StringBuilder("[\n");
        var rowLength = bytes / Math.Max(1, lines);
        for (var i = 0; i < lines; i++)
        {
            var start = text.Length;
            text.Append(CultureInfo.InvariantCulture, $"{{\"n\":{i},\"v\":\"");
            text.Append('x', Math.Max(0, rowLength - (text.Length - start) - 4)).Append(i + 1 < lines ? "\"},\n" : "\"}\n");
        }
        return Encoding.UTF8.GetBytes(text.Append(']').ToString());
    }

    private static void WriteStages(TextWriter output, List<Row> rows)
    {
        output.WriteLine("  lines      kB  stage      processor     spread     MB/s     lines/s   us/line  growth   x JSON");
        foreach (var row in rows)
        {
            var reference = rows.Find(r => r.Lines == Reference)!;
            Write(row, "lex", row.Lex, reference.Lex, reference);
            Write(row, "parse", row.Parse, reference.Parse, reference);
            Write(row, "check", row.Check, reference.Check, reference);
            Write(row, "(JSON)", row.Json, reference.Json, reference);
            output.WriteLine(Line($"{"",17}  a check allocates {row.AllocatedMegabytes:0.0} MB, {row.AllocatedMegabytes * 1e6 / row.Lines:0} bytes a line"));
        }

        void Write(Row row, string stage, Timing timing, Timing reference, Row at) => output.WriteLine(Line(
            $"{row.Lines,7} {row.Bytes / 1e3,7:0}  {stage,-8} {timing.Median,9:0.000} ms   ±{timing.Spread * 50,4:0.0} % {row.Bytes / 1e3 / timing.Median,8:0.0} {row.Lines / timing.Median * 1e3,11:0} {timing.Median * 1e3 / row.Lines,9:0.000} {Growth(row, timing, reference, at),7:0.00} {timing.Median / row.Json.Median,8:0.0}"));
    }

    private static double Growth(Row row, Timing timing, Timing reference, Row at) =>
        timing.Median / row.Lines / (reference.Median / at.Lines);

    private static bool WriteAims(TextWriter output, List<Row> rows)
    {
        var reference = rows.Find(r => r.Lines == Reference)!;
        var largest = rows[^1];
        output.WriteLine();
        var all = true;
        Aim("full check of 1,000 lines under 3 ms", reference.Check.Median, 3, "ms");
        if (rows.Find(r => r.Lines == 10_000) is { } large)
        {
            Aim("full check of 10,000 lines under 40 ms", large.Check.Median, 40, "ms");
        }
        Aim($"parse: time a line at {largest.Lines} lines at most 1.5 times that at 1,000",
            Growth(largest, largest.Parse, reference.Parse, reference), MostGrowth, "times");
        Aim($"check: time a line at {largest.Lines} lines at most 1.5 times that at 1,000",
            Growth(largest, largest.Check, reference.Check, reference), MostGrowth, "times");
        return all;

        void Aim(string what, double measured, double limit, string unit)
        {
            var isMet = measured <= limit;
            all &= isMet;
            output.WriteLine(Line($"{(isMet ? "met    " : "NOT MET")}  {what}: {measured:0.00} {unit}"));
        }
    }

    private static string Line(FormattableString line) => line.ToString(CultureInfo.InvariantCulture);
}
