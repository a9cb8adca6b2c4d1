using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>The lines of a `gear` block.</summary>
internal static class GearSuggestions
{
    /// <summary>The words that describe each signal, in the order of the reference; tests hold that each of them is understood.</summary>
    public static IReadOnlyDictionary<string, (SignalKind Kind, string[] Words, Dimension[] Figures)> Signals { get; } =
        new Dictionary<string, (SignalKind, string[], Dimension[])>(StringComparer.Ordinal)
        {
            ["midi"] = (SignalKind.Midi, Words("midi"), []),
            ["audio"] = (SignalKind.Audio, Words("audio"), [Dimension.SignalLevel, Dimension.Resistance, Dimension.Voltage]),
            ["dc"] = (SignalKind.Dc, Words("dc"), [Dimension.Voltage, Dimension.Current]),
            ["usb"] = (SignalKind.Usb, Words("usb"), [Dimension.Voltage, Dimension.Current]),
            ["pulse"] = (SignalKind.Pulse, Words("pulse"), [Dimension.PulseRate, Dimension.Voltage]),
            ["mains"] = (SignalKind.Mains, Words("mains"),
                [Dimension.Voltage, Dimension.Power, Dimension.Current, Dimension.ApparentPower, Dimension.Frequency]),
            ["insert"] = (SignalKind.Insert, Words("insert"), [Dimension.SignalLevel]),
            ["control"] = (SignalKind.Control, Words("control"), [Dimension.Voltage]),
            ["din-sync"] = (SignalKind.DinSync, Words("din-sync"), [Dimension.PulseRate]),
            ["ac"] = (SignalKind.Ac, Words("ac"), [Dimension.Voltage, Dimension.Current]),
        };

    private static string[] Words(string signal) => Vocabulary.Signals[signal];

    public static void Add(CaretLine line, SuggestionList list)
    {
        var tokens = line.Before;
        if (tokens.Count == 0)
        {
            AddStarts(list);
            return;
        }
        var gear = line.Header.Count > 1 ? line.View.GearCalled(line.Header[1].Text ?? "") : null;
        switch (tokens[0].Keyword)
        {
            case Keyword.In or Keyword.Out:
                AddPortLine(tokens, tokens[0].Keyword == Keyword.Out, list);
                break;
            case Keyword.Route or Keyword.Join or Keyword.Switch:
                AddRoute(tokens, gear, list);
                break;
            case Keyword.Assign:
                AddRoute(tokens, gear, list);
                break;
            case Keyword.Bus:
                AddBus(tokens, list);
                break;
            case Keyword.Sound:
                AddSound(tokens, gear, list);
                break;
            case Keyword.Records when EndsList(tokens, 1):
                AddPorts(gear, p => p.Signal?.Kind is SignalKind.Audio or SignalKind.Usb, list);
                break;
            case Keyword.Part:
                AddPart(tokens, gear, list);
                break;
            case Keyword.Track:
                AddTrack(tokens, gear, list);
                break;
            case Keyword.Clock or Keyword.Transport when tokens.Count == 1:
                list.Keywords(0, "follows", "sends");
                break;
            case Keyword.Clock or Keyword.Transport when EndsList(tokens, 2):
                if (tokens[1].Keyword == Keyword.Follows)
                {
                    list.Word(0, "internal", SuggestionKind.Word, "its own clock");
                }
                AddPorts(gear, p => p.Signal?.Kind is SignalKind.Midi or SignalKind.Usb or SignalKind.Pulse or SignalKind.DinSync
                    && p.IsOutput == (tokens[1].Keyword == Keyword.Sends), list);
                break;
            case Keyword.Filters:
                KindSuggestions.Add(tokens, 1, MessageKinds.All, list);
                break;
            case Keyword.Maps when tokens.Count == 1:
                list.Keyword(0, "channels");
                break;
            case Keyword.Battery when tokens[^1].Kind == TokenKind.Number:
                UnitSuggestions.Add(list, ["h", "min"]);
                break;
        }
    }

    private static void AddStarts(SuggestionList list)
    {
        list.Snippet(0, "in", "in ${1:midi} : ${2:midi} on ${3:din-5}", "a port that takes a signal");
        list.Snippet(1, "out", "out ${1:line} : ${2:audio mono line} on ${3:ts 6.35 mm}", "a port that gives a signal");
        list.Snippet(2, "route", "route ${1:in} to ${2:out}", "what comes in goes out, by way of electronics");
        list.Snippet(3, "part", "part ${1:voice} receives ${2:midi} on channel ${3:any}, sounds at ${4:line}", "a voice, drum or section");
        list.Snippet(4, "track", "track ${1:a} sends ${2:midi}", "what plays others");
        list.Snippet(5, "clock follows", "clock follows internal, ${1:midi}", "where the tempo may come from");
        list.Snippet(6, "clock sends", "clock sends ${1:midi}", "where it gives clock");
        list.Snippet(7, "switch", "switch ${1:in1}, ${2:in2} to ${3:out}", "one input at a time");
        list.Snippet(8, "join", "join ${1:in} to ${2:out}", "metal to metal");
        list.Snippet(9, "filters", "filters ${1:any}", "messages that it can drop");
        list.Snippet(10, "battery", "battery ${1:5} h", "it can run without a supply");
        list.Snippet(11, "transport follows", "transport follows ${1:midi}", "where start and stop may come from");
        list.Snippet(12, "transport sends", "transport sends ${1:midi}", "where it gives start and stop");
        list.Keyword(13, "maps channels", "it can move messages to other channels");
        list.Snippet(14, "bus", "bus ${1:group1} : audio ${2:mono}", "a sum inside a mixer");
        list.Snippet(15, "assign", "assign ${1:ch1..ch8} to ${2:group1}", "routes that are chosen channel by channel");
        list.Snippet(16, "sound", "sound ${1:playback} at ${2:usb}", "what it plays by itself");
        list.Snippet(17, "records", "records ${1:line}", "what it records, track by track");
        list.Keywords(20, "in", "out", "route", "part", "track", "clock", "transport", "switch", "join", "filters", "battery", "maps", "bus", "assign", "sound", "records");
    }

    private static void AddBus(IReadOnlyList<Token> tokens, SuggestionList list)
    {
        var colon = FirstOf(tokens, 0, t => t.Kind == TokenKind.Colon);
        if (colon == tokens.Count - 1)
        {
            list.Keywords(0, "audio mono", "audio stereo");
        }
        else if (colon >= 0 && colon == tokens.Count - 2)
        {
            list.Keywords(0, "mono", "stereo");
        }
    }

    private static void AddSound(IReadOnlyList<Token> tokens, GearSymbol? gear, SuggestionList list)
    {
        var at = FirstOf(tokens, 2, t => t.Keyword == Keyword.At);
        if (at < 0)
        {
            AddWhenNamed(tokens, "at", list);
        }
        else if (EndsList(tokens, at + 1))
        {
            AddPorts(gear, p => p.IsOutput && p.Signal?.Kind == SignalKind.Audio || p.Signal?.Kind == SignalKind.Usb, list);
        }
        else if (!tokens.Any(t => t.Text == "channels"))
        {
            list.Snippet(0, "channels", "channels ${1:1..2}", "of the USB stream");
        }
    }

    private static void AddPortLine(IReadOnlyList<Token> tokens, bool isOutput, SuggestionList list)
    {
        var colon = FirstOf(tokens, 0, t => t.Kind == TokenKind.Colon);
        if (colon < 0)
        {
            return;
        }
        if (colon == tokens.Count - 1)
        {
            foreach (var (word, described) in Signals)
            {
                list.Word(0, word, SuggestionKind.Word, string.Join(" ", described.Words.Take(4)), SuggestionKey.Of("signal", word));
            }
            return;
        }
        if (!Signals.TryGetValue(tokens[colon + 1].Text ?? "", out var signal))
        {
            return;
        }
        var on = FirstOf(tokens, colon + 1, t => t.Keyword == Keyword.On);
        if (on >= 0)
        {
            AddConnectors(tokens, colon, on, signal.Kind, isOutput, list);
        }
        else if (tokens[^1].Kind == TokenKind.Number)
        {
            UnitSuggestions.Add(list, (ReadOnlySpan<Dimension>)signal.Figures);
        }
        else
        {
            foreach (var word in signal.Words.Where(w => !tokens.Any(t => t.Text == w) && (signal.Kind != SignalKind.Control || ControlWords.Fits(w, tokens, colon))))
            {
                list.Word(1, word, SuggestionKind.Word, "", SuggestionKey.Of("signal", word));
            }
            list.Keyword(0, "on");
        }
    }

    /// <summary>Only connectors on which the compiler can tell what each contact does for this signal.</summary>
    private static void AddConnectors(IReadOnlyList<Token> tokens, int colon, int on, SignalKind kind, bool isOutput, SuggestionList list)
    {
        if (tokens[^1].Kind is TokenKind.Number or TokenKind.Size && tokens.Count > on + 2)
        {
            list.Word(0, "mm", SuggestionKind.Unit, "a length");
            return;
        }
        if (tokens[^1].Kind == TokenKind.Word && tokens[^1].Text is "ts" or "trs" or "trrs" or "barrel")
        {
            foreach (var size in Reading.KnownConnectors.Where(c => c.StartsWith(tokens[^1].Text + " ", StringComparison.Ordinal)))
            {
                list.Word(0, size[(tokens[^1].Text!.Length + 1)..], SuggestionKind.Word);
            }
            return;
        }
        var described = new Signal(kind) { IsStereo = Says("stereo") };
        var isCounted = tokens.Count == on + 2 && tokens[^1].Kind == TokenKind.Number;
        if (tokens.Count > on + 1 && !isCounted && tokens[^1].Text != "captive")
        {
            list.Keywords(0, "type-a", "type-b");
            return;
        }
        foreach (var form in Forms.All.Append(Forms.Barrel(5.5, 2.1)).Append(Forms.Barrel(5.5, 2.5)))
        {
            if (!isCounted && ContactRoles.Of(described, form, Side.Only, isOutput, false) is not null)
            {
                list.Word(0, form.Name, SuggestionKind.Word, form.Source);
            }
            if (described.IsStereo && ContactRoles.Of(described, form, Side.Left, isOutput, false) is not null)
            {
                list.Word(isCounted ? 0 : 10, isCounted ? form.Name : $"2 {form.Name}", SuggestionKind.Word, "left and right");
            }
        }
        if (tokens.Count == on + 1)
        {
            list.Keyword(20, "captive", "a plug on a cable that is part of the gear");
        }

        bool Says(string word)
        {
            for (var i = colon; i < on; i++)
            {
                if (tokens[i].Text == word)
                {
                    return true;
                }
            }
            return false;
        }
    }

    private static void AddRoute(IReadOnlyList<Token> tokens, GearSymbol? gear, SuggestionList list)
    {
        var to = FirstOf(tokens, 1, t => t.Keyword == Keyword.To);
        if (tokens[^1].Kind == TokenKind.Number)
        {
            UnitSuggestions.Add(list, tokens[^2].Text == "gain" ? ["dB"] : ["ms", "s"]);
        }
        else if (to < 0 && !EndsList(tokens, 1))
        {
            list.Keyword(0, "to");
        }
        else if (to >= 0 && !EndsList(tokens, to + 1))
        {
            if (tokens[0].Keyword == Keyword.Route)
            {
                list.Snippet(0, "latency", "latency ${1:3} ms", "how long it takes");
                list.Snippet(1, "gain", "gain ${1:6} dB", "how much louder it gets");
                list.Snippet(3, "channels", "channels ${1:1..2}", "which channels of a USB stream");
            }
            if (!tokens.Any(t => t.Keyword == Keyword.Pairs))
            {
                list.Keyword(2, "in pairs", "the first to the first, the second to the second");
            }
        }
        else
        {
            var isJoin = tokens[0].Keyword == Keyword.Join;
            AddPorts(gear, p => isJoin || p.IsOutput == (to >= 0), list);
        }
    }

    private static void AddPart(IReadOnlyList<Token> tokens, GearSymbol? gear, SuggestionList list)
    {
        var receives = FirstOf(tokens, 2, t => t.Keyword == Keyword.Receives);
        var sounds = FirstOf(tokens, 2, t => t.Keyword == Keyword.Sounds);
        if (receives < 0)
        {
            AddWhenNamed(tokens, "receives", list);
        }
        else if (sounds >= 0)
        {
            if (tokens[^1].Keyword == Keyword.Sounds)
            {
                list.Keyword(0, "at");
            }
            else if (EndsList(tokens, sounds + 2))
            {
                AddPorts(gear, p => p.IsOutput && p.Signal?.Kind is SignalKind.Audio or SignalKind.Insert or SignalKind.Usb, list);
            }
        }
        else if (AddChannelWords(tokens, receives, list))
        {
            AddPorts(gear, p => !p.IsOutput && p.Signal?.Kind == SignalKind.Midi || p.Signal?.Kind == SignalKind.Usb, list);
            if (tokens[^1].Kind == TokenKind.Comma)
            {
                list.Keyword(50, "sounds at");
            }
        }
    }

    private static void AddTrack(IReadOnlyList<Token> tokens, GearSymbol? gear, SuggestionList list)
    {
        var sends = FirstOf(tokens, 2, t => t.Keyword == Keyword.Sends);
        var plays = FirstOf(tokens, 2, t => t.Keyword == Keyword.Plays);
        if (sends < 0)
        {
            AddWhenNamed(tokens, "sends", list);
        }
        else if (plays >= 0)
        {
            foreach (var part in EndsList(tokens, plays + 1) && gear is not null ? gear.Parts.Keys : Enumerable.Empty<string>())
            {
                list.Name(0, part, SuggestionKind.Part, "part");
            }
        }
        else if (FirstOf(tokens, sends + 2, t => t.Keyword == Keyword.Only) is >= 0 and var only)
        {
            if (KindSuggestions.Add(tokens, only + 1, TrackSymbol.AllKinds, list))
            {
                list.Keyword(1, "on channel");
            }
            if (tokens[^1].Kind == TokenKind.Comma)
            {
                list.Keyword(50, "plays");
            }
        }
        else if (AddChannelWords(tokens, sends, list))
        {
            AddPorts(gear, p => p.IsOutput && p.Signal?.Kind == SignalKind.Midi || p.Signal?.Kind == SignalKind.Usb, list);
            if (tokens[^1].Kind == TokenKind.Comma)
            {
                list.Keyword(50, "plays");
            }
        }
        else if (!EndsList(tokens, sends + 1) && !tokens.Any(t => t.Keyword == Keyword.Channel || t.Keyword == Keyword.On))
        {
            list.Keyword(1, "only", "the only kinds of messages that it sends");
        }
    }

    private static void AddWhenNamed(IReadOnlyList<Token> tokens, string verb, SuggestionList list)
    {
        if (tokens.Count > 1 && tokens[^1].IsName)
        {
            list.Keyword(0, verb);
        }
    }

    /// <summary><c>on channel N</c> behind a list of ports; true when a port is what is wanted.</summary>
    private static bool AddChannelWords(IReadOnlyList<Token> tokens, int verb, SuggestionList list)
    {
        var on = FirstOf(tokens, verb + 1, t => t.Keyword == Keyword.On);
        if (tokens[^1].Keyword == Keyword.Channel)
        {
            list.Word(0, "any", SuggestionKind.Channel, "it can be set to any");
            for (var channel = 1; channel <= 16; channel++)
            {
                list.Word(1, $"{channel}", SuggestionKind.Channel, "it is fixed on this one");
            }
            return false;
        }
        if (on == tokens.Count - 1)
        {
            list.Keyword(0, "channel");
            return false;
        }
        if (on < 0 && !EndsList(tokens, verb + 1))
        {
            list.Keyword(0, "on channel");
            return false;
        }
        return on < 0 || tokens[^1].Kind == TokenKind.Comma;
    }

    private static void AddPorts(GearSymbol? gear, Func<PortSymbol, bool> isMeant, SuggestionList list)
    {
        foreach (var port in gear?.Ports ?? [])
        {
            if (isMeant(port))
            {
                list.Name(1, port.Name, SuggestionKind.Port, PortText.Of(port));
            }
        }
    }

    /// <summary>True when a list that starts there wants a name next.</summary>
    private static bool EndsList(IReadOnlyList<Token> tokens, int first) =>
        tokens.Count <= first || tokens[^1].Kind is TokenKind.Comma or TokenKind.DotDot;

    private static int FirstOf(IReadOnlyList<Token> tokens, int first, Func<Token, bool> isIt)
    {
        for (var i = first; i < tokens.Count; i++)
        {
            if (isIt(tokens[i]))
            {
                return i;
            }
        }
        return -1;
    }
}
