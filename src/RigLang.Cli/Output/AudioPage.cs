using System.Collections.Immutable;
using System.Globalization;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>Where every sound goes, as a sheet for the desk: what arrives where, which input is what, and what is left out.</summary>
internal static class AudioPage
{
    /// <summary>What can be wrong with what audio is read from.</summary>
    public static ImmutableArray<Topic> Topics { get; } = [Topic.Text, Topic.Wiring, Topic.Usb, Topic.Audio];

    /// <summary>A level is told from a tenth of a decibel on; less nobody hears. Source: common practice.</summary>
    private const double Audible = 0.1;

    public static void Write(TextWriter output, AudioAnswer answer, SourceText readIn)
    {
        output.WriteLine("What arrives where");
        if (answer.Arrivals.Count == 0)
        {
            output.WriteLine();
            output.WriteLine("  Nothing arrives anywhere.");
        }
        foreach (var arriving in answer.Arrivals)
        {
            output.WriteLine();
            output.WriteLine("  " + Cells.Safe(Title(arriving.To, arriving.Shares)));
            WriteRows(output, [.. arriving.Shares.Select(arrival => Row(arrival, readIn))]);
        }
        foreach (var mixer in answer.Mixers)
        {
            output.WriteLine();
            output.WriteLine(Cells.Safe($"Inputs of {mixer.Mixer.Name}"));
            output.WriteLine();
            WriteRows(output, [.. mixer.Inputs.Where(input => input.IsPlugged || input.Settings.Count > 0).Select(Row)]);
            var free = mixer.Inputs.Where(input => !input.IsPlugged).GroupBy(input => input.Kind).Select(kind => $"{kind.Key} {Prose.InOrder(kind.Select(input => input.Port.Name), ", ")}").ToList();
            if (free.Count > 0)
            {
                Wrap.Write(output, $"free: {string.Join("; ", free)}", "    ");
            }
        }
        Section("Arrives nowhere", answer.Unheard.Select(source => source.IsPlugged ? source.Text : $"{source.Text} (no lead)"));
        Section("Nothing arrives at", answer.Silent.Select(destination => destination.Text));

        void Section(string title, IEnumerable<string> names)
        {
            if (names.ToList() is { Count: > 0 } all)
            {
                output.WriteLine();
                output.WriteLine(title);
                output.WriteLine();
                Wrap.Write(output, string.Join(", ", all), "    ");
            }
        }
    }

    /// <summary>"tape.line, recorded on tracks 3 and 4"; of a stream only the tracks that anything is on.</summary>
    private static string Title(AudioDestination to, IReadOnlyList<AudioArrival> shares)
    {
        if (to.End != AudioEnd.Recorded)
        {
            return to.Text;
        }
        var tracks = shares.SelectMany(arrival => arrival.Share.Channels).Distinct().Order().Select(channel => $"{to.FirstTrack + channel}").ToList();
        if (to.Port.Signal is { Kind: Connectors.SignalKind.Usb })
        {
            return $"{to.Text}, recorded from channel{(tracks.Count == 1 ? "" : "s")} {Prose.InOrder(tracks, ", ", 16)} of the stream";
        }
        return $"{to.Text}, recorded on track{(tracks.Count == 1 ? "" : "s")} {Prose.InOrder(tracks, ", ", 16)}";
    }

    private static string[] Row(AudioArrival arrival, SourceText readIn)
    {
        var share = arrival.Share;
        var where = share.To is { End: AudioEnd.Recorded, Channels: > 2 } ? $"{(share.To.Port.Signal is { Kind: Connectors.SignalKind.Usb } ? "channel" : "track")} {Prose.InOrder(share.Channels.Select(channel => $"{share.To.FirstTrack + channel}"), ", ")}: " : "";
        return
        [
            share.Source.Text,
            where + AudioShapes.Word(share.Shape),
            Math.Abs(arrival.Decibels) < Audible ? "" : string.Create(CultureInfo.InvariantCulture, $"{arrival.Decibels:+0.#;-0.#} dB"),
            arrival.Change is { } change ? $"from {change.Port} on ({LineWords.Of(change.At, readIn)}){(IsForPans(share, change) ? ", unless panned apart" : "")}" : "",
        ];
    }

    /// <summary>Left and right on two mono channels: where nobody says how they are panned, the desk may well hold them apart.</summary>
    private static bool IsForPans(AudioShare share, WayStep change) => share.Shape == AudioShape.Folded
        && change is WayStep.Through { From.Port: { IsOutput: false, Signal: { Kind: Connectors.SignalKind.Audio, IsStereo: false } } input, Port: { Port.Signal.IsStereo: true } port }
        && !port.Device.Mix.Any(setting => setting is Symbols.MixSetting.Pan && ReferenceEquals(setting.Port, input));

    private static string[] Row(MixerInput input) => [input.Port.Name, input.Feeders.Count > 0 ? Prose.InOrder(input.Feeders, ", ", 3) : input.IsPlugged ? "nothing comes" : "free", string.Join(", ", input.Settings)];

    private static void WriteRows(TextWriter output, IReadOnlyList<string[]> rows)
    {
        const int Indent = 4;
        if (rows.Count == 0)
        {
            return;
        }
        var widths = Enumerable.Range(0, rows[0].Length - 1).Select(column => rows.Max(row => Cells.WidthOf(Cells.Safe(row[column])))).ToList();
        foreach (var row in rows)
        {
            var line = new System.Text.StringBuilder(new string(' ', Indent));
            for (var column = 0; column < row.Length; column++)
            {
                var text = Cells.Safe(row[column]);
                line.Append(text);
                if (column < widths.Count)
                {
                    line.Append(' ', widths[column] - Cells.WidthOf(text) + (widths[column] > 0 ? 2 : 0));
                }
            }
            var whole = line.ToString().TrimEnd();
            if (Cells.WidthOf(whole) <= Wrap.Sheet)
            {
                output.WriteLine(whole);
                continue;
            }
            // Too wide for a sheet: the name has its line, and the rest is set in below it.
            output.WriteLine(new string(' ', Indent) + Cells.Safe(row[0]));
            Wrap.Write(output, string.Join("  ", row.Skip(1).Where(cell => cell.Length > 0)), new string(' ', Indent + 4));
        }
    }
}
