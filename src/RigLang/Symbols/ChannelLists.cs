using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>Channels written as a range: `3..10` beside `pad3..pad10`, one by one.</summary>
internal static class ChannelLists
{
    /// <summary>The channels of a range; null when an end of it is none, which is noted, or when they run backwards.</summary>
    public static int[]? Of(ChannelNode node, Reading reading)
    {
        var faults = reading.FaultCount;
        var first = reading.Whole(node.Value, "a MIDI channel", 1, 16);
        var last = node.UpTo is { } upTo ? reading.Whole(upTo, "a MIDI channel", 1, 16) : first;
        if (reading.FaultCount == faults && first > last)
        {
            reading.Note(new OutOfRange(reading.At(node.Span), "the range", $"{first}..{last}", "a lower and a higher channel, such as 3..10"));
        }
        return first is { } low && last is { } high && low <= high ? [.. Enumerable.Range(low, high - low + 1)] : null;
    }

    /// <summary>A channel for each name, in their order; null when it cannot be told, which is noted.</summary>
    public static int[]? OneByOne(ChannelSetting setting, int names, Reading reading)
    {
        if (Of(setting.Channel, reading) is not { } channels)
        {
            return null;
        }
        if (channels.Length == names)
        {
            return channels;
        }
        var written = reading.Source.Slice(setting.Channel.Span);
        if (names == 1)
        {
            reading.Note(new WrongForm(reading.At(setting.Channel.Span),
                $"`{setting.Names[0].First}` is on one channel at a time, and `{written}` is {channels.Length} channels.",
                $"Write the one that is dialled in, such as `on channel {channels[0]}`, or `any` where it hears every channel.",
                [.. channels.Take(2).Select(c => new Rewrite($"Set it to channel {c}", setting.Channel.Span, $"{c}"))]));
        }
        else
        {
            reading.Note(new UnequalLists(reading.At(setting.Span), "one by one", reading.TextOf(setting.Names), names, $"channel {written}", channels.Length));
        }
        return null;
    }

    /// <summary>A single channel where a range may not stand.</summary>
    public static int? One(ChannelNode node, string what, Reading reading)
    {
        if (node.UpTo is null)
        {
            return reading.Whole(node.Value, "a MIDI channel", 1, 16);
        }
        if (Of(node, reading) is { } channels)
        {
            reading.Note(new WrongForm(reading.At(node.Span), $"One channel belongs here, and `{reading.Source.Slice(node.Span)}` is {channels.Length}.",
                $"Write one channel, and a line for each {what}.",
                [.. channels.Take(2).Select(c => new Rewrite($"Write {c}", node.Span, $"{c}"))]));
        }
        return null;
    }

    /// <summary>Which channel goes on on which: `1 to 2, 3`, and one by one `1..4 to 5..8`; empty when it cannot be told, which is noted.</summary>
    public static IReadOnlyList<(int From, IReadOnlyList<int> To)> Maps(MapSetting map, Reading reading)
    {
        var from = Of(map.From, reading);
        var to = new List<int>();
        var isClear = from is not null;
        foreach (var node in map.To)
        {
            var channels = Of(node, reading);
            isClear &= channels is not null;
            to.AddRange(channels ?? []);
        }
        if (!isClear)
        {
            return [];
        }
        if (from!.Length == 1)
        {
            return [(from[0], to)];
        }
        if (from.Length == to.Count)
        {
            return [.. from.Select((channel, i) => (channel, (IReadOnlyList<int>)[to[i]]))];
        }
        reading.Note(new UnequalLists(reading.At(map.From.Span.To(map.To[^1].Span)), "one by one", reading.Source.Slice(map.From.Span), from.Length,
            reading.Source.Slice(map.To[0].Span.To(map.To[^1].Span)), to.Count));
        return [];
    }
}
