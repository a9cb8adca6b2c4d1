using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Whole;

/// <summary>Edits that make a promise hold. Only what is certain is offered: nothing else is missing, and one line says it.</summary>
internal static class PromiseFixes
{
    /// <summary>Of a `must`: the channel, the filter or the clock setting that alone is in its way.</summary>
    public static IEnumerable<Fix> Of(Rig rig, Outcome outcome) => !outcome.IsOnlyGap || outcome.Expectation.Within is not null ? [] : outcome.Broken switch
    {
        // Channels that are chosen would be chosen anew.
        Broken.Filtered when (outcome.Missing & MessageKinds.Channel) != MessageKinds.None && AutoChannels.IsWanted(rig.Names) => [],
        Broken.Filtered filtered => Unfiltered(filtered, outcome.Missing),
        Broken.OtherChannel when AutoChannels.IsWanted(rig.Names) => [],
        Broken.OtherChannel other => OnSameChannel(rig, other, outcome.Expectation.From),
        Broken.OtherSetting other => TakenHere(other),
        _ => [],
    };

    /// <summary>Of a `never`: the filter that keeps it, as a line of the device.</summary>
    public static IEnumerable<Fix> Of(Cut cut)
    {
        if (cut is { Port: { } port } && NewLine(port.Device, $"{Wording.Written(port.Port.Name)} drops {MessageKindNames.Describe(cut.Drops)}") is { } edit)
        {
            yield return new Fix($"Filter {MessageKindNames.Describe(cut.Drops)} at {port}", false, [edit]);
        }
    }

    /// <summary>The change in words.</summary>
    /// <param name="readIn">The file that the reader is in: lines of others are named with theirs.</param>
    public static string Advice(Cut cut, SourceText readIn) => cut switch
    {
        { Port: { } port } => $"Filter {MessageKindNames.Describe(cut.Drops)} at {port}: `{port.Port.Name} drops {MessageKindNames.Describe(cut.Drops)}` in {port.Device.Name}.",
        { Cable: { } cable } => $"Take out the cable in {LineWords.Of(cable.Connection.At, readIn)}, {Wording.Ends(cable.Connection)}: nothing on the way has a filter for it.",
        _ => "",
    };

    private static IEnumerable<Fix> Unfiltered(Broken.Filtered filtered, MessageKinds missing)
    {
        var (port, filter) = (filtered.Port, filtered.Filter);
        var all = port.Device.Filters.Count(f => ReferenceEquals(f.Port, port.Port) && (f.Drops & missing) != MessageKinds.None);
        if (all != 1 || BrokenWords.SettingOf(port, filter) is not { Kinds.Count: > 0 } setting)
        {
            return [];
        }
        var source = filter.At.Source;
        var names = MessageKindNames.Describe(missing);
        if (setting.PassesOnly)
        {
            return [new Fix($"Let {names} pass at {port}", false, [new TextEdit(source, new TextSpan(setting.Kinds[^1].Span.End, 0), $", {names}")])];
        }
        var left = setting.Kinds.SelectMany(kind => Left(kind.Text, missing)).ToList();
        var edit = left.Count > 0 ? new TextEdit(source, setting.Kinds[0].Span.To(setting.Kinds[^1].Span), string.Join(", ", left)) : WholeLine(source, setting.Span);
        return edit is null ? [] : [new Fix($"Let {names} pass at {port}", false, [edit])];
    }

    /// <summary>A word of a filter without the kinds that are to pass: <c>transport</c> without stop is start and continue.</summary>
    private static IEnumerable<string> Left(string word, MessageKinds missing)
    {
        var kinds = MessageKindNames.Table[word];
        return (kinds & missing) == MessageKinds.None ? [word] : MessageKindNames.NamesOf(kinds & ~missing);
    }

    private static IEnumerable<Fix> OnSameChannel(Rig rig, Broken.OtherChannel other, Target from)
    {
        var device = other.Port.Device;
        if (other.Part.Channels.Allows(other.ComesOn) && IsSet(other.Source) && ChannelOf(device, other.Part.Name) is { } part)
        {
            yield return Wording.Replace($"Set {device.Name}.{other.Part.Name} to channel {other.ComesOn}", part, $"{other.ComesOn}");
        }
        // Of a device with several tracks it is open which of them the promise was made for; a map may move the new channel elsewhere.
        if (!rig.Midi.Graph.HasMaps && (from.Track is not null || from.Device.Gear!.Tracks.Count == 1)
            && other is { Source: { Track: { } track } source, Listens.Number: { } wanted } && !other.Listens.IsAuto && track.Channels.Allows(wanted)
            && ChannelOf(source.Device, track.Name) is { } sends)
        {
            yield return Wording.Replace($"Set {source.Text} to channel {wanted}", sends, $"{wanted}");
        }
    }

    /// <summary>False for a track whose channel is chosen, and may be chosen anew.</summary>
    private static bool IsSet(MidiSource? source) =>
        source?.Track is not { } track || !source.Device.Channels.TryGetValue(track.Name, out var set) || set.Word != "auto";

    private static IEnumerable<Fix> TakenHere(Broken.OtherSetting other)
    {
        var device = other.Port.Device;
        var isTransport = (other.Kind & MessageKinds.Transport) != 0;
        if (device.Statement.Body.OfType<ClockSetting>().LastOrDefault(s => s.IsTransport == isTransport) is { } setting)
        {
            yield return Wording.Replace($"Take the {(isTransport ? "transport" : "clock")} of {device.Name} at {other.Port.Port.Name}",
                new Location(device.At.Source, setting.Source.Span), Wording.Written(other.Port.Port.Name));
        }
    }

    /// <summary>Where the channel of one part or track alone is written as a number; null where a range or several names share it.</summary>
    private static Location? ChannelOf(DeviceSymbol device, string name)
    {
        foreach (var setting in device.Statement.Body.OfType<ChannelSetting>())
        {
            if (setting is { Names: [{ Last: null, First.Text: var only }], Channel: { UpTo: null, Value.Kind: TokenKind.Number } channel } && only == name)
            {
                return new Location(device.At.Source, channel.Span);
            }
        }
        return null;
    }

    /// <summary>A line before the first in the block of a device, or a block where there is none; null where the block is written some other way.</summary>
    private static TextEdit? NewLine(DeviceSymbol device, string line)
    {
        var source = device.At.Source;
        if (device.Statement.Body is not [var first, ..])
        {
            var own = source.LineSpan(source.PositionOf(device.At.Span.Start).Line);
            var (end, whole) = (own.Start, source.Slice(own));
            var isOpen = whole.TrimEnd().EndsWith('{');
            return isOpen ? new TextEdit(source, new TextSpan(end + whole.TrimEnd().Length, 0), $"\n  {line}")
                : whole.Contains('{', StringComparison.Ordinal) || whole.Contains("//", StringComparison.Ordinal)
                ? null
                : new TextEdit(source, new TextSpan(end + whole.TrimEnd().Length, 0), $" {{\n  {line}\n}}");
        }
        var start = source.LineStart(source.PositionOf(first.Span.Start).Line);
        var indent = source.Content[start..first.Span.Start];
        return string.IsNullOrWhiteSpace(indent) ? new TextEdit(source, new TextSpan(first.Span.Start, 0), $"{line}\n{indent}") : null;
    }

    /// <summary>Takes a line away that holds nothing else.</summary>
    private static TextEdit? WholeLine(SourceText source, TextSpan span)
    {
        var start = source.LineStart(source.PositionOf(span.Start).Line);
        var end = source.Content.IndexOf('\n', span.End);
        var isAlone = string.IsNullOrWhiteSpace(source.Content[start..span.Start]) && end >= 0 && string.IsNullOrWhiteSpace(source.Content[span.End..end]);
        return isAlone ? new TextEdit(source, new TextSpan(start, end + 1 - start), "") : null;
    }
}
