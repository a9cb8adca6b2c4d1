using System.Globalization;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>The channel chart as a grid of letters for reading, as Markdown, and as CSV with names in its cells.</summary>
internal static class ChannelPage
{
    private static readonly int[] Channels = [.. Enumerable.Range(1, ChannelChart.Last)];

    public static void WriteText(TextWriter output, ChannelChart chart, MidiTraffic traffic)
    {
        if (chart.Uses.Count == 0)
        {
            output.WriteLine("Nothing in this rig sends or hears on a channel.");
            return;
        }
        var devices = chart.Devices.ToList();
        var first = Math.Max("channel".Length, devices.Max(d => Cells.WidthOf(Cells.Safe(d))));
        output.WriteLine(Row("channel", first, Channels.Select(c => $"{c}")));
        foreach (var device in devices)
        {
            output.WriteLine(Row(Cells.Safe(device), first, Channels.Select(c => Letters(chart, device, c, "."))));
        }
        output.WriteLine();
        output.WriteLine("S sends   H hears   ! conflict   . nothing");
        output.WriteLine();
        foreach (var line in List(chart))
        {
            output.WriteLine(Cells.Safe(line));
        }
        var cables = traffic.Cables.ToList();
        if (cables.Count == 0)
        {
            return;
        }
        output.WriteLine();
        output.WriteLine($"MIDI cables at {traffic.Tempo}, at worst; 100 % is 31,250 baud");
        output.WriteLine();
        var names = cables.ConvertAll(c => Cells.Safe($"{c.Link.From} to {c.Link.To}"));
        var width = names.Max(Cells.WidthOf);
        foreach (var (name, cable) in names.Zip(cables))
        {
            output.WriteLine(Cells.Safe($"{name}{new string(' ', width - Cells.WidthOf(name))}  {Percent(cable),5} %  {Carried(cable)}"));
        }
    }

    private static string Percent(CableLoad cable) => (cable.Share * 100).ToString("0.0", CultureInfo.InvariantCulture);

    private static string Carried(CableLoad cable)
    {
        string?[] parts =
        [
            cable.Tracks.Count > 0 ? string.Join(", ", cable.Tracks.Select(t => t.Text)) : null,
            cable.HasClock ? $"clock{(cable.ClockWait.Value > 0 ? $", which can wait {cable.ClockWait} at {cable.Link.From}" : "")}" : null,
        ];
        return parts.Where(p => p is not null).ToList() is { Count: > 0 } said ? string.Join("; ", said) : "-";
    }

    public static void WriteMarkdown(TextWriter output, ChannelChart chart, MidiTraffic traffic)
    {
        output.WriteLine($"| Device | {string.Join(" | ", Channels)} |");
        output.WriteLine($"|---|{string.Concat(Channels.Select(_ => "---|"))}");
        foreach (var device in chart.Devices)
        {
            output.WriteLine($"| {Escaped(device)} | {string.Join(" | ", Channels.Select(c => Letters(chart, device, c, " ")))} |");
        }
        output.WriteLine();
        output.WriteLine("S sends, H hears, ! conflict");
        output.WriteLine();
        foreach (var line in List(chart))
        {
            output.WriteLine($"- {Escaped(line)}");
        }
        var cables = traffic.Cables.ToList();
        if (cables.Count == 0)
        {
            return;
        }
        output.WriteLine();
        output.WriteLine($"| MIDI cable | Load at {traffic.Tempo} | Carries |");
        output.WriteLine("|---|---:|---|");
        foreach (var cable in cables)
        {
            output.WriteLine($"| {Escaped($"{cable.Link.From} to {cable.Link.To}")} | {Percent(cable)} % | {Escaped(Carried(cable))} |");
        }
    }

    /// <summary>RFC 4180: lines end in CR LF, a field with a quote, comma or line end is quoted, and quotes in it are doubled.</summary>
    public static void WriteCsv(TextWriter output, ChannelChart chart)
    {
        Line(["device", .. Channels.Select(c => $"{c}"), "any", "off", "not set"]);
        foreach (var device in chart.Devices)
        {
            var own = chart.Uses.Where(u => u.Device == device).ToList();
            Line(
            [
                device,
                .. Channels.Select(c => Named(own.Where(u => u.Channel.Number == c))),
                Named(own.Where(u => u.Channel.IsAny)),
                Named(own.Where(u => u.Channel.IsOff)),
                Named(own.Where(u => u.Channel.IsUnknown)),
            ]);
        }

        void Line(IEnumerable<string> fields) => output.Write(string.Join(',', fields.Select(Field)) + "\r\n");

        string Named(IEnumerable<ChannelUse> uses) =>
            string.Join("; ", uses.Select(u => $"{(u.Sends ? "sends" : "hears")} {u.Name}{(chart.IsConflict(u) ? " (conflict)" : "")}"));
    }

    /// <summary>What a spreadsheet would take for a formula gets a quote before it. Source: OWASP, CSV Injection.</summary>
    internal static string Field(string text)
    {
        var shown = Cells.Safe(text);
        shown = shown.Length > 0 && "=+-@".Contains(shown[0], StringComparison.Ordinal) ? "'" + shown : shown;
        return shown.AsSpan().ContainsAny("\",\r\n") ? $"\"{shown.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : shown;
    }

    /// <summary>Four cells a channel: sixteen of them and a name of fifteen letters are eighty columns at most.</summary>
    private static string Row(string name, int width, IEnumerable<string> cells) =>
        (name + new string(' ', width - Cells.WidthOf(name)) + string.Concat(cells.Select(c => c.PadLeft(4)))).TrimEnd();

    private static string Letters(ChannelChart chart, string device, int channel, string none)
    {
        var here = chart.At(device, channel).ToList();
        var letters = (here.Exists(u => u.Sends) ? "S" : "") + (here.Exists(u => !u.Sends) ? "H" : "") + (here.Exists(chart.IsConflict) ? "!" : "");
        return letters.Length == 0 ? none : letters;
    }

    private static IEnumerable<string> List(ChannelChart chart)
    {
        foreach (var use in chart.Uses.Where(u => u.Sends && !u.Channel.IsOff).OrderBy(u => u.Channel.Number ?? 99))
        {
            var heard = use.Partners.Count == 0 ? "no part hears it" : $"heard by {string.Join(", ", use.Partners)}";
            yield return $"{use.Text} sends on {use.Channel}{(use.Channel.IsUnknown ? "" : $": {heard}")}";
        }
        foreach (var use in chart.Uses.Where(u => !u.Sends && !u.Channel.IsOff && (u.Partners.Count == 0 || u.Channel.IsAny)))
        {
            yield return $"{use.Text} hears {use.Channel}{(use.Partners.Count == 0 ? ": no track reaches it" : "")}";
        }
        foreach (var conflict in chart.Conflicts)
        {
            yield return $"Conflict on channel {conflict.Channel}: {conflict.Track} plays {string.Join(", ", conflict.Parts)} at once";
        }
        yield return chart.Free.Count == 0 ? "No channel is free." : $"Free channels: {Ranges(chart.Free)}";
    }

    private static string Ranges(IReadOnlyList<int> numbers)
    {
        var runs = new List<(int First, int Last)>();
        foreach (var number in numbers)
        {
            if (runs.Count > 0 && runs[^1].Last == number - 1)
            {
                runs[^1] = (runs[^1].First, number);
            }
            else
            {
                runs.Add((number, number));
            }
        }
        return string.Join(", ", runs.Select(r => r.First == r.Last ? $"{r.First}" : $"{r.First} to {r.Last}"));
    }

    internal static string Escaped(string text) => MarkdownText.Escape(Cells.Safe(text));
}
