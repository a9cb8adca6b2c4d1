using RigLang.Flow;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Cli.Output;

/// <summary>A trace for reading: a column of ports, each set in under the one before it; a column of cables; what happens there.</summary>
internal sealed class TracePage(TextWriter output, SourceText root)
{
    public void Write(Trace trace)
    {
        foreach (var way in trace.Ways)
        {
            output.WriteLine(Cells.Safe(way.Title + OnChannel(way.Channel)));
            output.WriteLine();
            Tree(way.Steps);
            output.WriteLine();
        }
        foreach (var port in trace.Ports)
        {
            output.WriteLine(Cells.Safe($"at {port.Port}"));
            output.WriteLine();
            Arrivals(port.Arrivals);
            output.WriteLine();
        }
        if (trace.Verdict is { Steps.Count: > 0 } verdict)
        {
            Tree(verdict.Steps);
            output.WriteLine();
        }
        output.WriteLine(Cells.Safe(trace.Summary));
    }

    private void Tree(IReadOnlyList<TraceStep> steps) => Columns(
    [
        .. steps.Select(s => (string[])
        [
            $"{new string(' ', 2 * s.Depth)}{(s.Depth > 0 ? "> " : "")}{s.Port}",
            s.Cable is { } cable ? LineOf(cable) : "",
            string.Join("; ", NotesOf(s)),
        ]),
    ]);

    private IEnumerable<string> NotesOf(TraceStep step)
    {
        if (step.Move is { } move)
        {
            yield return $"channel {move.From} moved to {move.To} ({LineOf(move.At)})";
        }
        if (step.StoppedBy is { } filter)
        {
            yield return $"x drops {MessageKindNames.Describe(filter.Drops)} ({LineOf(filter.At)})";
        }
        if (step.Wait.Value > 0)
        {
            yield return $"~ can wait {step.Wait} for others";
        }
        foreach (var hearer in step.Heard)
        {
            yield return $"* {Hearing(hearer)}";
        }
        if (step.Note.Length > 0)
        {
            yield return $"- {step.Note}";
        }
    }

    private void Arrivals(IReadOnlyList<TraceArrival> arrivals)
    {
        if (arrivals.Count == 0)
        {
            output.WriteLine("  nothing arrives");
            return;
        }
        Columns(
        [
            .. arrivals.Select(a => (string[])
            [
                a.Source,
                a.Channel > 0 ? $"channel {a.Channel}" : "",
                string.Join("; ", a.Heard.Select(h => $"* {Hearing(h, sayChannel: false)}").Prepend(Kinds(a.Kinds))),
            ]),
        ]);
    }

    private static string Hearing(TraceHearer hearer, bool sayChannel = true) =>
        $"{hearer.Who} {TraceWords.Of(hearer.How, hearer.IsSure).After}{(sayChannel ? OnChannel(hearer.Channel) : "")}";

    /// <summary>All channel messages and all of transport each have one word; the rest is named one by one.</summary>
    private static string Kinds(MessageKinds kinds)
    {
        var words = new List<string>();
        if ((kinds & MessageKinds.Channel) == MessageKinds.Channel)
        {
            words.Add("notes and all other channel messages");
            kinds &= ~MessageKinds.Channel;
        }
        var isTransport = (kinds & MessageKinds.Transport) == MessageKinds.Transport;
        kinds &= isTransport ? ~MessageKinds.Transport : MessageKinds.All;
        if (kinds != MessageKinds.None)
        {
            words.Add(MessageKindNames.Describe(kinds));
        }
        if (isTransport)
        {
            words.Add("transport");
        }
        return string.Join(", ", words);
    }

    private static string OnChannel(int channel) => channel > 0 ? $", channel {channel}" : "";

    /// <summary>Other files than the one asked about are named.</summary>
    private string LineOf(Location at)
    {
        var line = $"line {at.Source.PositionOf(at.Span.Start).Line + 1}";
        return at.Source.Path == root.Path ? line : $"{at.Source.Path} {line}";
    }

    private void Columns(IReadOnlyList<string[]> rows)
    {
        var safe = rows.Select(r => r.Select(Cells.Safe).ToArray()).ToList();
        var widths = Enumerable.Range(0, safe[0].Length).Select(c => safe.Max(r => Cells.WidthOf(r[c]))).ToArray();
        foreach (var row in safe)
        {
            var line = string.Join("  ", row.Select((cell, c) => cell + new string(' ', widths[c] - Cells.WidthOf(cell))).Where((_, c) => widths[c] > 0));
            output.WriteLine($"  {line}".TrimEnd());
        }
    }
}
