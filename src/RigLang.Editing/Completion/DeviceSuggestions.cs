using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>The line of a `device`, and the settings in its block.</summary>
internal static class DeviceSuggestions
{
    /// <summary><c>device x : </c> gear, then where it stands.</summary>
    public static void AddHeader(CaretLine line, EditorStyle style, SuggestionList list)
    {
        var tokens = line.Before;
        var colon = IndexOf(tokens, TokenKind.Colon);
        if (colon < 0)
        {
            return;
        }
        if (tokens[^1].Kind is TokenKind.Number)
        {
            UnitSuggestions.Add(list, style.InFeet ? ["ft", "m", "cm", "inch"] : ["m", "cm", "ft", "inch"]);
            return;
        }
        if (PrefixesTyped.Behind(tokens, colon + 1) is { } prefixes)
        {
            foreach (var name in line.View.Rig.Names.GearOf(line.View.File))
            {
                // Of a name that two imports bring nobody knows which is meant.
                if (line.View.GearCalled(name.ToString()) is not { } gear)
                {
                    continue;
                }
                var isShared = SharedLibrary.IsShared(gear.At.Source.Path);
                var from = gear.At.Source == line.View.Source ? "" : gear.At.Source.Path;
                if (!isShared || name.Prefixes.Count <= prefixes.Count)
                {
                    list.Name(isShared ? 10 : 0, name, prefixes, SuggestionKind.Gear, from.Length > 0 ? $"from {from}" : "in this file", SuggestionKey.Of("gear", name.ToString()));
                }
            }
            list.Prefixes(prefixes);
        }
        else if (tokens[^1].IsName && PrefixesTyped.Behind([.. tokens.SkipLast(1)], colon + 1) is not null)
        {
            list.Snippet(0, "at", style.InFeet ? "at (${1:0} ft, ${2:0} ft)" : "at (${1:0} m, ${2:0} m)", "where it stands, from the front left corner");
        }
    }

    public static void AddSetting(CaretLine line, SuggestionList list)
    {
        var device = line.Header.Count > 1 ? line.View.DeviceCalled(line.Header[1].Text ?? "") : null;
        if (device?.Gear is not { } gear)
        {
            return;
        }
        var tokens = line.Before;
        if (tokens.Count == 0)
        {
            AddNames(device, gear, true, list);
            AddStarts(device, gear, list);
            return;
        }
        if (tokens.Count == 1 && tokens[0].Keyword is Keyword.Clock or Keyword.Transport)
        {
            AddClocks(line.View, device, gear, tokens[0].Keyword == Keyword.Transport, list);
            return;
        }
        if (tokens[0].Keyword == Keyword.Runs && tokens.Count <= 2)
        {
            list.Keyword(0, tokens.Count == 1 ? "on battery" : "battery");
            return;
        }
        var verb = VerbAt(tokens);
        if (verb < 0)
        {
            AddNames(device, gear, false, list);
        }
        else if (verb == tokens.Count)
        {
            AddVerbs(gear, NamesBefore(line.View, tokens, verb), list);
        }
        else
        {
            AddBehindVerb(line, device, gear, verb, list);
        }
    }

    /// <summary>Where the names end: at the verb, at the end of what is typed, or -1 when another name must follow.</summary>
    private static int VerbAt(IReadOnlyList<Token> tokens)
    {
        var i = 0;
        while (i < tokens.Count)
        {
            i++;
            if (i == tokens.Count || tokens[i].Kind is not (TokenKind.Comma or TokenKind.DotDot))
            {
                return i;
            }
            i++;
        }
        return -1;
    }

    private static List<string> NamesBefore(RigView view, IReadOnlyList<Token> tokens, int verb)
    {
        var names = new List<string>();
        for (var i = 0; i < verb; i += 2)
        {
            if (i > 1 && tokens[i - 1].Kind == TokenKind.DotDot)
            {
                names.AddRange(new Reading(view.Source, []).Expand([new NameRange(new Name(tokens[i - 2]), new Name(tokens[i]))]).Select(n => n.Text));
            }
            else
            {
                names.Add(tokens[i].Text ?? "");
            }
        }
        return names;
    }

    private static void AddNames(DeviceSymbol device, GearSymbol gear, bool atStart, SuggestionList list)
    {
        foreach (var part in gear.Parts.Values)
        {
            list.Name(Rank(part.Name), part.Name, SuggestionKind.Part, $"part on {Channels(part.Channels)}{Set(part.Name)}");
        }
        foreach (var track in gear.Tracks.Values)
        {
            list.Name(Rank(track.Name), track.Name, SuggestionKind.Track, $"track on {Channels(track.Channels)}{Set(track.Name)}");
        }
        foreach (var port in gear.Ports)
        {
            list.Name((CanBeSet(gear, port) ? 20 : 40) + (atStart ? 0 : 1), port.Name, SuggestionKind.Port, PortText.Of(port), SuggestionKey.Of("port", device.Name, port.Name));
        }

        int Rank(string name) => device.Channels.ContainsKey(name) ? 10 : 0;

        string Set(string name) => device.Channels.TryGetValue(name, out var set) ? $", set to {set.Channel?.ToString() ?? set.Word}" : "";

        static string Channels(ChannelChoice choice) => choice == ChannelChoice.Any ? "any channel" : choice.ToString();
    }

    private static bool CanBeSet(GearSymbol gear, PortSymbol port) => port.Signal switch
    {
        { Kind: SignalKind.Midi or SignalKind.Usb } => gear.Filters != MessageKinds.None || gear.MapsChannels || IsThru(gear, port),
        { Phantom: true } => !port.IsOutput,
        _ => false,
    };

    private static bool IsThru(GearSymbol gear, PortSymbol port) => gear.Routes.GroupsTo(port).Any();

    private static void AddStarts(DeviceSymbol device, GearSymbol gear, SuggestionList list)
    {
        if (gear.ClockFollows.Count > 0)
        {
            list.Keyword(device.Clock is null ? 5 : 30, "clock", "which clock it follows");
        }
        if (gear.TransportFollows.Count > 0)
        {
            list.Keyword(device.Transport is null ? 6 : 30, "transport", "whose start and stop it follows");
        }
        if (gear.HasBattery)
        {
            list.Keyword(device.OnBattery ? 30 : 7, "runs on battery", "it needs no supply tonight");
        }
    }

    private static void AddClocks(RigView view, DeviceSymbol device, GearSymbol gear, bool isTransport, SuggestionList list)
    {
        foreach (var source in isTransport && gear.TransportFollows.Count > 0 ? gear.TransportFollows : gear.ClockFollows)
        {
            if (source.Port is not { } port)
            {
                list.Name(10, source.Name, SuggestionKind.Word, "its own clock");
                continue;
            }
            var feeders = view.Rig.Links.ArrivingAt(new PortRef(device, port)).Select(link => link.From.ToString()).Distinct().ToList();
            list.Name(feeders.Count > 0 ? 0 : 20, source.Name, SuggestionKind.Port,
                feeders.Count > 0 ? $"fed by {string.Join(", ", feeders)}" : "nothing is plugged in", SuggestionKey.Of("port", device.Name, port.Name));
        }
    }

    private static void AddVerbs(GearSymbol gear, List<string> names, SuggestionList list)
    {
        var hasVoice = names.Exists(n => gear.Parts.ContainsKey(n) || gear.Tracks.ContainsKey(n));
        var tracks = names.Where(gear.Tracks.ContainsKey).Select(n => gear.Tracks[n]).ToList();
        var ports = names.Where(gear.PortsByName.ContainsKey).Select(n => gear.PortsByName[n]).ToList();
        if (hasVoice)
        {
            list.Snippet(0, "on channel", "on channel $1", "the channel that is dialled in");
            list.Keyword(1, "on");
        }
        if (tracks.Exists(t => t.Plays.Count > 0))
        {
            list.Keyword(2, "local off", "it no longer plays its own box");
        }
        if (tracks.Count > 0)
        {
            list.Snippet(3, "up to … notes at once", "up to ${1:8} notes at once", "how much it plays at the most");
        }
        if (gear.Filters != MessageKinds.None && ports.Exists(p => p.Signal?.Kind is SignalKind.Midi or SignalKind.Usb))
        {
            list.Keyword(0, "drops", "messages that stop here");
            list.Keyword(1, "passes only", "all other messages stop here");
        }
        if (gear.MapsChannels && ports.Exists(p => p.Signal?.Kind is SignalKind.Midi or SignalKind.Usb))
        {
            list.Snippet(2, "maps channel", "maps channel ${1:1} to ${2:2}", "messages move to other channels");
        }
        if (ports.Exists(p => p.Signal is { Phantom: true } && !p.IsOutput))
        {
            list.Keyword(0, "phantom on", "48 V on the jack");
        }
        if (ports.Exists(p => IsThru(gear, p)))
        {
            list.Keyword(3, "thru off", "it no longer passes on what comes in");
        }
        AddMix(gear, ports, list);
    }

    /// <summary>What is dialled in on a mixer.</summary>
    private static void AddMix(GearSymbol gear, List<PortSymbol> ports, SuggestionList list)
    {
        if (!ports.Exists(p => p.Signal is { Kind: SignalKind.Audio or SignalKind.Insert }))
        {
            return;
        }
        if (ports.Exists(p => p.Signal is { IsStereo: false } && gear.Routes.From(p).Any(to => to.Signal is { Kind: SignalKind.Audio, IsStereo: true } or { Kind: SignalKind.Usb })))
        {
            list.Keyword(4, "pan left", "it goes to the left side only");
            list.Keyword(5, "pan right", "it goes to the right side only");
        }
        if (ports.Exists(p => p.Signal is { Kind: SignalKind.Audio, IsStereo: true }))
        {
            list.Keyword(6, "mono", "left and right are summed");
        }
        list.Snippet(7, "gain", "gain ${1:6} dB", "how much louder it is made");
        list.Keyword(8, "muted", "nothing of it goes on");
        foreach (var to in ports.SelectMany(gear.Assigns.From).Distinct())
        {
            list.Keyword(9, "to " + (Lexer.IsBareWord(to.Name) ? to.Name : $"\"{to.Name}\""), "where it is assigned");
        }
        foreach (var send in ports.SelectMany(gear.Routes.From).Where(p => p.Signal is { Kind: SignalKind.Audio }).Distinct())
        {
            var name = Lexer.IsBareWord(send.Name) ? send.Name : $"\"{send.Name}\"";
            list.Snippet(10, name, $"{name} ${{1:-6}} dB", "how much of it goes there");
        }
    }

    private static void AddBehindVerb(CaretLine line, DeviceSymbol device, GearSymbol gear, int verb, SuggestionList list)
    {
        var rest = line.Before.Skip(verb).ToList();
        switch (rest[0].Keyword, rest[0].Text)
        {
            case (Keyword.On, _) when rest.Count == 1:
                list.Keyword(0, "channel");
                break;
            case (Keyword.On, _) when rest.Count == 2 && rest[1].Keyword == Keyword.Channel:
                AddChannels(line, device, gear, NamesBefore(line.View, line.Before, verb), list);
                break;
            case (Keyword.On, _) when rest.Count == 3:
                list.Keyword(0, "layered", "it shares the channel on purpose");
                break;
            case (Keyword.Drops or Keyword.Passes or Keyword.Maps, _) when rest[^1].Keyword is Keyword.Coming or Keyword.Going:
                list.Keyword(0, rest[^1].Keyword == Keyword.Coming ? "in" : "out");
                break;
            case (Keyword.Drops, _):
                if (KindSuggestions.Add(rest, 1, gear.Filters, list))
                {
                    AddWays(line, gear, verb, list);
                }
                break;
            case (Keyword.Passes, _) when rest.Count == 1:
                list.Keyword(0, "only");
                break;
            case (Keyword.Passes, _) when rest[1].Keyword == Keyword.Only:
                if (KindSuggestions.Add(rest, 2, MessageKinds.All, list))
                {
                    AddWays(line, gear, verb, list);
                }
                break;
            case (Keyword.Maps, _) when rest.Count == 1:
                list.Keyword(0, "channel");
                break;
            case (Keyword.Maps, _) when rest.Count == 3:
                list.Keyword(0, "to");
                break;
            case (Keyword.Maps, _) when rest.Count == 2 || rest[^1].Keyword == Keyword.To || rest[^1].Kind == TokenKind.Comma:
                for (var channel = 1; channel <= ChannelChart.Last; channel++)
                {
                    list.Word(0, $"{channel}", SuggestionKind.Channel);
                }
                break;
            case (Keyword.Up, _) when rest.Count == 1:
                list.Keyword(0, "to");
                break;
            case (Keyword.Up, _) when rest.Count == 3:
                list.Keyword(0, "notes at once");
                break;
            case (_, "pan") when rest.Count == 1:
                list.Keywords(0, "left", "right", "centre");
                break;
            case (Keyword.To, _):
                foreach (var name in NamesBefore(line.View, line.Before, verb).Where(gear.PortsByName.ContainsKey).SelectMany(n => gear.Assigns.From(gear.PortsByName[n])).Select(p => p.Name).Distinct())
                {
                    list.Name(0, name, SuggestionKind.Port, "assigned to it");
                }
                break;
            case (_, "phantom" or "thru" or "local") when rest.Count == 1:
                list.Keywords(0, rest[0].Text == "phantom" ? ["on", "off"] : ["off", "on"]);
                break;
        }
    }

    /// <summary>Only a port that goes both ways wants to be told which.</summary>
    private static void AddWays(CaretLine line, GearSymbol gear, int verb, SuggestionList list)
    {
        if (NamesBefore(line.View, line.Before, verb).Exists(n => gear.PortsByName.GetValueOrDefault(n)?.Signal?.Kind == SignalKind.Usb))
        {
            list.Keyword(10, "coming in", "only what comes into the box");
            list.Keyword(11, "going out", "only what goes out of the box");
        }
    }

    /// <summary>Channels that the gear can be set to: free ones first, then those that somebody is on.</summary>
    private static void AddChannels(CaretLine line, DeviceSymbol device, GearSymbol gear, List<string> names, SuggestionList list)
    {
        var choices = names.Where(gear.Parts.ContainsKey).Select(n => gear.Parts[n].Channels)
            .Concat(names.Where(gear.Tracks.ContainsKey).Select(n => gear.Tracks[n].Channels)).ToList();
        var holders = Holders(line.View.Rig)
            .Where(held => !(held.Device == device && names.Contains(held.Name)))
            .ToLookup(held => held.Channel, held => $"{held.Device.Name}.{held.Name}");
        for (var channel = 1; channel <= ChannelChart.Last; channel++)
        {
            if (choices.TrueForAll(choice => choice.Allows(channel)))
            {
                var held = string.Join(", ", holders[channel]);
                list.Word(held.Length == 0 ? 0 : 10, $"{channel}", SuggestionKind.Channel, held.Length == 0 ? "free" : held);
            }
        }
        list.Word(20, "any", SuggestionKind.Channel, "it hears every channel");
        list.Word(21, "auto", SuggestionKind.Channel, "the lowest that stands in nobody's way");
        list.Word(22, "off", SuggestionKind.Channel, "it hears and sends nothing");
    }

    /// <summary>Every track and part with a channel of its own, device by device.</summary>
    private static IEnumerable<(int Channel, DeviceSymbol Device, string Name)> Holders(Rig rig)
    {
        var channels = rig.Midi.Channels;
        foreach (var device in rig.Names.Devices.Where(d => d.Gear is not null))
        {
            foreach (var track in device.Gear!.Tracks.Values)
            {
                if (channels.Of(device, track).Number is { } channel)
                {
                    yield return (channel, device, track.Name);
                }
            }
            foreach (var part in device.Gear.Parts.Values)
            {
                if (channels.Of(device, part).Number is { } channel)
                {
                    yield return (channel, device, part.Name);
                }
            }
        }
    }

    private static int IndexOf(IReadOnlyList<Token> tokens, TokenKind kind)
    {
        for (var i = 0; i < tokens.Count; i++)
        {
            if (tokens[i].Kind == kind)
            {
                return i;
            }
        }
        return -1;
    }
}
