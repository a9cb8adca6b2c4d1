using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>
/// A question in the words of the language: <c>KINDS from PATH</c>, <c>KINDS to PATH</c>, <c>what reaches PATH</c>, <c>what feeds PATH</c>, or
/// <c>why not KINDS from PATH to PATH</c>, where for kinds there can stand <c>audio</c> or <c>power</c>.
/// </summary>
internal sealed record TraceQuery(TraceQuestion Question, MessageKinds Kinds, string What, Target? From, Target? To)
{
    /// <summary>Audio, power, or messages of <see cref="Kinds"/>.</summary>
    public ExpectedSignal Signal { get; init; } = ExpectedSignal.Messages;

    /// <summary>The places as they were asked for, which read again are the same places.</summary>
    private string FromPath { get; init; } = "";

    private string ToPath { get; init; } = "";

    public string Text => Question switch
    {
        TraceQuestion.From => $"{What} from {FromPath}",
        TraceQuestion.WhatReaches => $"what reaches {ToPath}",
        TraceQuestion.WhatFeeds => $"what feeds {ToPath}",
        TraceQuestion.To => $"{What} to {ToPath}",
        _ => $"why not {What} from {FromPath} to {ToPath}",
    };

    public static (TraceQuery? Query, TraceMistake? Mistake) Read(RigNames names, string text) => new Reader(names, text).Read();

    private const string Forms = "Ask, for example: notes from seq, audio from drums, power to bass, what reaches bass, what feeds bass, or why not clock from drums to bass.";
    private const string WhyNotForm = "a question with \"why not\" goes: why not clock from drums to bass.";

    private readonly record struct Word(string Text, TextSpan Span);

    /// <summary>Reads one question. Any text is read: as a question, or as a mistake with its place.</summary>
    private sealed class Reader(RigNames names, string text)
    {
        private readonly Word[] _words = Words(text);

        public (TraceQuery?, TraceMistake?) Read() => (WordAt(0), WordAt(1)) switch
        {
            (null, _) => Wrong($"the question is empty. {Forms}", AtEnd),
            ("what", "reaches") when _words.Length == 3 => Whole(TraceQuestion.WhatReaches, MessageKinds.All, ExpectedSignal.Messages),
            ("what", "feeds") when _words.Length == 3 => Whole(TraceQuestion.WhatFeeds, MessageKinds.None, ExpectedSignal.Power),
            ("what", _) => Wrong("a question with \"what\" goes: what reaches bass, or what feeds bass.", From(0)),
            ("why", "not") => WhyNot(),
            ("why", _) => Wrong("a question with \"why\" goes: why not clock from drums to bass.", From(0)),
            _ => Followed(),
        };

        private string? WordAt(int index) => index < _words.Length ? _words[index].Text : null;

        private (TraceQuery?, TraceMistake?) Whole(TraceQuestion question, MessageKinds kinds, ExpectedSignal signal)
        {
            var (to, mistake) = PlaceAt(2, sends: false);
            return to is null ? (null, mistake)
                : (new TraceQuery(question, kinds, "", null, to) { Signal = signal, ToPath = _words[2].Text }, null);
        }

        private (TraceQuery?, TraceMistake?) Followed()
        {
            var from = IndexOf("from", 0);
            if (from < 0)
            {
                var to = IndexOf("to", 0);
                return to >= 0 && _words.Length == to + 2 ? Of(TraceQuestion.To, 0, to, null, to + 1) : NoFrom(0);
            }
            if (_words.Length > from + 2)
            {
                return WordAt(from + 2) == "to" && _words.Length == from + 4
                    ? Wrong($"that needs \"why not\" in front: why not {Told(0, _words.Length)}.", From(0))
                    : Wrong($"\"{WordAt(from + 2)}\" is one word too many. {Forms}", _words[from + 2].Span);
            }
            return Of(TraceQuestion.From, 0, from, from + 1, null);
        }

        private (TraceQuery?, TraceMistake?) WhyNot()
        {
            var from = IndexOf("from", 2);
            return from < 0 ? NoFrom(2)
                : _words.Length == from + 4 && WordAt(from + 2) == "to" ? Of(TraceQuestion.WhyNot, 2, from, from + 1, from + 3)
                : Wrong(WhyNotForm, From(0));
        }

        private (TraceQuery?, TraceMistake?) NoFrom(int first)
        {
            if (first == _words.Length)
            {
                return Wrong(WhyNotForm, AtEnd);
            }
            // The first word tells whether it was a kind that lacks its sender, or something else altogether.
            var (_, _, wrong) = ReadKinds(first, _words.Length);
            var told = Told(first, _words.Length);
            return wrong is null
                ? Wrong($"it is not said where {told} comes from: {told} from seq.", AtEnd)
                : Wrong($"\"{told}\" is no question that trace knows. {Forms}", From(first), Spelling.Nearest(_words[first].Text, [.. MessageKindNames.Table.Keys, "what", "why"]));
        }

        /// <param name="first">Of the words that say what is followed.</param>
        /// <param name="end">The word behind them.</param>
        private (TraceQuery?, TraceMistake?) Of(TraceQuestion question, int first, int end, int? fromAt, int? toAt)
        {
            var (kinds, signal, wrongKind) = ReadKinds(first, end);
            if (wrongKind is not null)
            {
                return (null, wrongKind);
            }
            if (fromAt >= _words.Length)
            {
                return Wrong($"the name of a device is missing after \"from\". {Forms}", AtEnd);
            }
            var (from, wrongFrom) = fromAt is { } near ? PlaceAt(near, sends: true) : default;
            if (wrongFrom is not null)
            {
                return (null, wrongFrom);
            }
            var (to, wrongTo) = toAt is { } far ? PlaceAt(far, sends: false) : default;
            if (wrongTo is not null)
            {
                return (null, wrongTo);
            }
            return (new TraceQuery(question, kinds, Told(first, end).Replace(" ,", ",", StringComparison.Ordinal), from, to)
            {
                Signal = signal,
                FromPath = fromAt is { } f ? _words[f].Text : "",
                ToPath = toAt is { } t ? _words[t].Text : "",
            }, null);
        }

        private (Target?, TraceMistake?) PlaceAt(int index, bool sends)
        {
            var (place, mistake) = sends ? TracePlace.Sending(names, _words[index].Text) : TracePlace.Hearing(names, _words[index].Text);
            return (place, mistake is null ? null : mistake with { At = _words[index].Span });
        }

        private (MessageKinds Kinds, ExpectedSignal Signal, TraceMistake? Mistake) ReadKinds(int first, int end)
        {
            if (end == first + 1 && _words[first].Text is "audio" or "power")
            {
                return (MessageKinds.None, _words[first].Text == "audio" ? ExpectedSignal.Audio : ExpectedSignal.Power, null);
            }
            var kinds = MessageKinds.None;
            foreach (var name in Told(first, end).Split(',').Select(n => n.Trim()))
            {
                if (!MessageKindNames.Table.TryGetValue(name, out var kind))
                {
                    var why = name.Length == 0 ? "a kind of message, audio or power is missing in front."
                        : name is "audio" or "power" ? $"{name} is asked for by itself: {name} from …"
                        : $"\"{name}\" is no kind of message; there are {string.Join(", ", MessageKindNames.Table.Keys)}, and audio and power.";
                    var near = name.Length == 0 ? null : Spelling.Nearest(name, [.. MessageKindNames.Table.Keys, "audio", "power"]);
                    return (MessageKinds.None, ExpectedSignal.Messages, new TraceMistake(why, near) { At = PlaceOf(name, first, end) });
                }
                kinds |= kind;
            }
            return (kinds, ExpectedSignal.Messages, null);
        }

        /// <summary>The word of a kind in the list of kinds; the list where it is several words, and the word behind where there is none.</summary>
        private TextSpan PlaceOf(string kind, int first, int end)
        {
            for (var i = first; i < end; i++)
            {
                if (kind.Length > 0 && _words[i].Text.IndexOf(kind, StringComparison.Ordinal) is >= 0 and var at)
                {
                    return new TextSpan(_words[i].Span.Start + at, kind.Length);
                }
            }
            return end > first ? _words[first].Span.To(_words[end - 1].Span) : end < _words.Length ? _words[end].Span : AtEnd;
        }

        private int IndexOf(string word, int start)
        {
            for (var i = start; i < _words.Length; i++)
            {
                if (_words[i].Text == word)
                {
                    return i;
                }
            }
            return -1;
        }

        private string Told(int first, int end) => string.Join(' ', _words[first..end].Select(word => word.Text));

        /// <summary>From a word to the end of the question.</summary>
        private TextSpan From(int first) => _words[first].Span.To(_words[^1].Span);

        private TextSpan AtEnd => new(Asked(text).End, 0);

        private static (TraceQuery?, TraceMistake?) Wrong(string what, TextSpan at, string? nearest = null) => (null, new TraceMistake(what, nearest) { At = at });

        /// <summary>Without the blanks around it; a question mark is manners.</summary>
        private static TextSpan Asked(string text)
        {
            var start = text.Length - text.TrimStart().Length;
            return TextSpan.Between(start, Math.Max(start, text.TrimEnd().TrimEnd('?').Length));
        }

        /// <summary>Apart at blanks, except inside quotes.</summary>
        private static Word[] Words(string text)
        {
            var words = new List<Word>();
            var asked = Asked(text);
            var start = -1;
            var isQuoted = false;
            for (var i = asked.Start; i <= asked.End; i++)
            {
                if (i == asked.End || (char.IsWhiteSpace(text[i]) && !isQuoted))
                {
                    if (start >= 0)
                    {
                        words.Add(new Word(text[start..i], TextSpan.Between(start, i)));
                    }
                    start = -1;
                    continue;
                }
                isQuoted ^= text[i] == '"';
                start = start < 0 ? i : start;
            }
            return [.. words];
        }
    }
}

/// <summary>A device, or a track, part or port of it, as a question names it.</summary>
internal static class TracePlace
{
    public static (Target? Place, TraceMistake? Mistake) Sending(RigNames names, string path) => Of(names, path, sends: true);

    public static (Target? Place, TraceMistake? Mistake) Hearing(RigNames names, string path) => Of(names, path, sends: false);

    private static (Target?, TraceMistake?) Of(RigNames names, string path, bool sends)
    {
        var parts = Split(path);
        var file = names.Files[0];
        var first = 0;
        while (first < parts.Count && names.FileCalled(file, parts[first]) is { } called)
        {
            file = called;
            first++;
        }
        if (first == parts.Count)
        {
            return OnlyImport(names, parts, file);
        }
        var name = string.Join('.', parts.Take(first + 1));
        if (names.FindDevice(names.Files[0], name) is not { } device)
        {
            return first > 0 ? UnknownInImport(names, parts, first, file) : Unknown(names, parts);
        }
        if (parts.Count > first + 2)
        {
            return Wrong($"\"{parts[first + 2]}\" is one name too many: a question goes to a device, or to a port, part or track of one.", null);
        }
        var inside = parts.ElementAtOrDefault(first + 1);
        // A question stands in no file; who asks it has the checked one before their eyes.
        var at = new Location(names.Files[0].Source, default);
        if (device.Gear is not { } gear)
        {
            return Wrong($"what {name} can do is not known; rig check tells why.", null);
        }
        if (inside is null)
        {
            return (new Target(device, null, null, null, at), null);
        }
        var port = gear.PortsByName.GetValueOrDefault(inside);
        var track = gear.Tracks.GetValueOrDefault(inside);
        var part = gear.Parts.GetValueOrDefault(inside);
        if (sends && port is null && track is null && gear.Sounds.TryGetValue(inside, out var sound))
        {
            return (new Target(device, null, null, null, at) { Sound = sound }, null);
        }
        if (sends ? track is not null || port is not null : part is not null || port is not null)
        {
            return (new Target(device, (sends ? track is null : part is null) ? port : null, sends ? null : part, sends ? track : null, at), null);
        }
        if ((sends ? part is not null : track is not null))
        {
            return Wrong(sends ? $"{path} is a part: it plays, and sends nothing." : $"{path} is a track: it sends, and hears nothing.", null);
        }
        var known = gear.PortsByName.Keys.Concat(sends ? gear.Tracks.Keys.Concat(gear.Sounds.Keys) : gear.Parts.Keys);
        return Wrong($"{name} has no {(sends ? "track" : "part")} or port called \"{inside}\".", Spelling.Nearest(inside, known) is { } near ? $"{name}.{near}" : null);
    }

    private static (Target?, TraceMistake?) Wrong(string what, string? nearest) => (null, new TraceMistake(what, nearest));

    /// <summary>No device, and behind a dot no import either: all names of imports are said, since there are few.</summary>
    private static (Target?, TraceMistake?) Unknown(RigNames names, List<string> parts)
    {
        var prefixes = NamesOfFile.PrefixesOf(names.Files[0]).Select(p => p.Text).Distinct().ToList();
        var written = names.Devices.Select(d => names.NameOf(names.Files[0], d)).OfType<WrittenName>().ToList();
        // A device that was meant is most likely called so in an import.
        var near = written.Find(w => w.Own == parts[0])?.ToString() ?? Spelling.Nearest(parts[0], written.Select(w => w.ToString()));
        if (parts.Count == 1 || prefixes.Count == 0)
        {
            return Wrong($"there is no device called \"{parts[0]}\".", near);
        }
        var nearPrefix = Spelling.Nearest(parts[0], prefixes);
        var meant = nearPrefix is null ? near : $"{nearPrefix}.{parts[1]}";
        return Wrong($"there is no device and no import called \"{parts[0]}\". Imports with a name are {Prose.And(prefixes)}.",
            written.Exists(w => w.ToString() == meant) ? meant : near);
    }

    private static (Target?, TraceMistake?) UnknownInImport(RigNames names, List<string> parts, int first, FileSymbols file)
    {
        var prefix = string.Join('.', parts.Take(first));
        var own = OwnDevicesOf(names, file);
        var near = Spelling.Nearest(parts[first], own);
        return Wrong($"{prefix} has no device called \"{parts[first]}\"; {Has(own)}.", near is null ? null : $"{prefix}.{near}");
    }

    private static (Target?, TraceMistake?) OnlyImport(RigNames names, List<string> parts, FileSymbols file) =>
        Wrong($"{string.Join('.', parts)} is an import, not a device; {Has(OwnDevicesOf(names, file))}.", null);

    private static string Has(List<string> own) => own.Count == 0 ? "it has no devices" : $"it has {Prose.And(own)}";

    private static List<string> OwnDevicesOf(RigNames names, FileSymbols file) =>
        [.. names.Devices.Select(d => names.NameOf(file, d)).Where(w => w is { Prefixes.Count: 0 } && names.FindDevice(file, w.Own) is { } own && IsBroughtBy(names, file, own)).Select(w => w!.Own)];

    /// <summary>What a file leaves to the one that imports it is not brought by it.</summary>
    private static bool IsBroughtBy(RigNames names, FileSymbols file, DeviceSymbol device)
    {
        var at = names.FileAt(device.At);
        return at == file || names.Imports.Reaches(file, at);
    }

    /// <summary>Apart at dots, except inside quotes.</summary>
    private static List<string> Split(string path)
    {
        var parts = new List<string>();
        var (isQuoted, start) = (false, 0);
        for (var i = 0; i <= path.Length; i++)
        {
            if (i == path.Length || (path[i] == '.' && !isQuoted))
            {
                parts.Add(path[start..i].Trim('"'));
                start = i + 1;
            }
            else
            {
                isQuoted ^= path[i] == '"';
            }
        }
        return parts;
    }
}
