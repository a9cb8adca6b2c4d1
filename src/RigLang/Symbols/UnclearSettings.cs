using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>
/// Settings with a word left out: `a off`, `voice 3`, `voice channel 3`. What is meant is told, and where only one thing can be meant it holds as well, so
/// that the same slip is not told a second time by what follows from it.
/// </summary>
internal static class UnclearSettings
{
    public static void Read(UnclearSetting line, DeviceSymbol device, GearSymbol gear, Reading reading)
    {
        var names = reading.TextOf(line.Names);
        var expanded = reading.Expand(line.Names);
        var first = expanded.Length > 0 ? expanded[0].Text : "";
        var isVoice = expanded.Length > 0 && Array.TrueForAll(expanded, name => gear.Parts.ContainsKey(name.Text) || gear.Tracks.ContainsKey(name.Text));
        var written = reading.Source.Slice(line.Span);
        if (line.Words[^1].Kind == TokenKind.Number)
        {
            if (!isVoice)
            {
                NoteUnknown(line, gear, reading);
                return;
            }
            var number = line.Words[^1].Text!;
            Note([$"{names} on channel {number}"]);
            if (reading.Whole(line.Words[^1], "a MIDI channel", 1, 16) is { } channel)
            {
                foreach (var name in expanded)
                {
                    device.Channels[name.Text] = new ChannelAssignment(channel, "", false, reading.At(line.Span));
                }
            }
            return;
        }
        var ways = new List<string>();
        if (isVoice)
        {
            ways.Add($"{names} on channel off");
        }
        if (isVoice && gear.Tracks.TryGetValue(first, out var track) && track.Plays.Count > 0)
        {
            ways.Add($"{names} local off");
        }
        if (Array.TrueForAll(expanded, name => gear.PortsByName.ContainsKey(name.Text)) && gear.PortsByName.TryGetValue(first, out var port))
        {
            if (port.Signal is { Phantom: true })
            {
                ways.Add($"{names} phantom off");
            }
            if (gear.Routes.GroupsTo(port).Any() && port.Signal?.Kind == Connectors.SignalKind.Midi)
            {
                ways.Add($"{names} thru off");
            }
            if (gear.Filters != MessageKinds.None && port.Signal?.Kind is Connectors.SignalKind.Midi or Connectors.SignalKind.Usb)
            {
                ways.Add($"{names} drops any");
            }
        }
        if (ways.Count == 0)
        {
            NoteUnknown(line, gear, reading);
            return;
        }
        Note(ways);
        if (ways.Count == 1 && isVoice)
        {
            foreach (var name in expanded)
            {
                device.Channels[name.Text] = new ChannelAssignment(null, "off", false, reading.At(line.Span));
            }
        }

        void Note(List<string> texts) => reading.Note(new WrongForm(reading.At(line.Span),
            texts.Count == 1 ? $"`{written}` leaves out what it sets." : $"`{written}` leaves open what it sets.",
            "Write " + (texts.Count == 1 ? $"`{texts[0]}`." : string.Join(", ", texts.Take(texts.Count - 1).Select(t => $"`{t}`")) + $" or `{texts[^1]}`."),
            [.. texts.Select(t => new Rewrite($"Write {t}", line.Span, t))]));
    }

    private static void NoteUnknown(UnclearSetting line, GearSymbol gear, Reading reading)
    {
        if (gear.IsIncomplete)
        {
            return;
        }
        foreach (var name in reading.Expand(line.Names))
        {
            if (!gear.PortsByName.ContainsKey(name.Text) && !gear.Parts.ContainsKey(name.Text) && !gear.Tracks.ContainsKey(name.Text))
            {
                reading.Note(new UnknownName(reading.At(name.Span), $"port, part or track of {gear.Name}", name.Text,
                    [.. gear.PortsByName.Keys, .. gear.Parts.Keys, .. gear.Tracks.Keys]));
                return;
            }
        }
        reading.Note(new WrongForm(reading.At(line.Span), $"`{reading.Source.Slice(line.Span)}` sets nothing that {gear.Name} has.",
            "Say what is set: `on channel 2`, `drops clock`, `passes only notes`, `phantom on`, `thru off` or `local off`.", []));
    }
}
