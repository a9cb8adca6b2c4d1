using RigLang.Connectors;
using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>Lines of a gear block about what is inside a mixer, a computer or a recorder: busses, numbered channels, what is played and recorded.</summary>
internal static class MixerLines
{
    /// <summary>Channels of a USB stream that can be numbered. Source: from memory, more than any class-compliant device on stage.</summary>
    private const int MostChannels = 64;

    public static void ReadBusses(BusLine line, GearLine place, GearSymbol gear)
    {
        var reading = place.Reading;
        if (line.On.Count > 0)
        {
            var on = line.On[0].Span.To(line.On[^1].Span);
            reading.Note(new WrongForm(reading.At(on), "A bus has no connector: it is a sum inside the box.", "Leave it out, or write the jack as a line of its own with `out`.", []));
        }
        var port = new PortLine(false, line.Names, line.Signal, null, []) { Span = line.Span };
        var signal = PortReader.ReadSignal(port, reading);
        if (signal is not null and not { Kind: SignalKind.Audio })
        {
            reading.Note(new UnknownWord(reading.At(line.Signal[0].Span), reading.Source.Slice(line.Signal[0].Span), "a bus", ["audio mono", "audio stereo"]));
            signal = null;
        }
        foreach (var name in place.Names(line.Names, "port"))
        {
            var bus = new PortSymbol(gear, name.Text, false, reading.At(name.Span)) { IsBus = true, Signal = signal };
            if (!gear.PortsByName.TryAdd(name.Text, bus))
            {
                reading.Note(new DuplicateName(bus.At, $"port of {gear.Name}", name.Text, gear.PortsByName[name.Text].At));
                continue;
            }
            // Its place among the jacks is its number in the flow; without a contact nothing can be plugged in.
            bus.Jacks.Add(new JackSymbol(bus, Side.Only, Forms.Inside, false) { Index = gear.JackCount++, FirstContact = gear.ContactCount });
            gear.Busses.Add(bus);
        }
    }

    public static void ReadSounds(SoundLine line, GearLine place, IReadOnlyList<PortSymbol> at, GearSymbol gear)
    {
        var reading = place.Reading;
        var channels = line.Channels is { } node ? ChannelsOf(node.Value, node.UpTo, reading) : null;
        foreach (var port in at.Where(port => port.Signal is not null && !IsSound(port)))
        {
            reading.Note(new MissingAbility(reading.At(line.Span), "a sound", $"`{port.Name}`", $"it carries {port.Signal!.Describe()}"));
        }
        if (channels is not null && !at.Any(port => port.Signal is { Kind: SignalKind.Usb }))
        {
            reading.Note(new MissingAbility(reading.At(line.Channels!.Span), "numbered channels", reading.TextOf(line.At), "only USB has them"));
        }
        foreach (var name in place.Names(line.Names, "sound"))
        {
            var sound = new SoundSymbol(name.Text, reading.At(name.Span), [.. at.Where(IsSound)], channels);
            if (!gear.Sounds.TryAdd(name.Text, sound))
            {
                reading.Note(new DuplicateName(sound.At, $"sound of {gear.Name}", name.Text, gear.Sounds[name.Text].At));
            }
        }

        static bool IsSound(PortSymbol port) => port.IsBus || port.Signal is { Kind: SignalKind.Audio or SignalKind.Usb };
    }

    public static void ReadRecords(RecordsLine line, IReadOnlyList<PortSymbol> ports, GearSymbol gear, Reading reading)
    {
        foreach (var port in ports)
        {
            if (port.Signal is { Kind: SignalKind.Audio or SignalKind.Usb } || port.IsBus)
            {
                if (!gear.Records.Contains(port))
                {
                    gear.Records.Add(port);
                }
            }
            else if (port.Signal is { } other)
            {
                reading.Note(new MissingAbility(reading.At(line.Span), "recording", $"`{port.Name}`", $"it carries {other.Describe()}"));
            }
        }
    }

    /// <summary><c>route ch1..ch8 to usb channels 1..8</c>: which channel of the stream each port is.</summary>
    public static void ReadStream(RouteLine route, AttributeNode channels, IReadOnlyList<PortSymbol> from, IReadOnlyList<PortSymbol> to, GearSymbol gear, Reading reading)
    {
        if (ChannelsOf(channels.Value, channels.UpTo, reading) is not var (first, last) || from.Count == 0 || to.Count == 0)
        {
            return;
        }
        var isInto = to is [{ Signal.Kind: SignalKind.Usb }];
        if (!isInto && from is not [{ Signal.Kind: SignalKind.Usb }])
        {
            reading.Note(new MissingAbility(reading.At(channels.Span), "numbered channels", "This route", "they belong to one USB jack on either side"));
            return;
        }
        var ports = isInto ? from : to;
        var width = ports.Sum(Width);
        if (width != last - first + 1)
        {
            reading.Note(new UnequalLists(reading.At(route.Span), "one by one", reading.TextOf(isInto ? route.From : route.To), width, last == first ? $"{first}" : $"{first}..{last}", last - first + 1));
            return;
        }
        var next = first;
        foreach (var port in ports)
        {
            gear.Streams.Add(isInto ? new StreamRoute(port, to[0], next) : new StreamRoute(from[0], port, next));
            next += Width(port);
        }

        static int Width(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio, IsStereo: true } ? 2 : 1;
    }

    private static (int First, int Last)? ChannelsOf(Token value, Token? upTo, Reading reading)
    {
        if (value.Kind != TokenKind.Number)
        {
            reading.Note(new UnknownWord(reading.At(value.Span), reading.Source.Slice(value.Span).ToString(), "the channels of a stream", ["channels 1..2"]));
            return null;
        }
        if (reading.Whole(value, "a channel of a USB stream", 1, MostChannels) is not { } first)
        {
            return null;
        }
        var last = upTo is null ? first : reading.Whole(upTo.Value, "a channel of a USB stream", first, MostChannels);
        return last is { } end ? (first, end) : null;
    }
}
