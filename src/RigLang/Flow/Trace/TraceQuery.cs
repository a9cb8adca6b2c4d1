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

    public string Text => Question switch
    {
        TraceQuestion.From => $"{What} from {From!.Text}",
        TraceQuestion.WhatReaches => $"what reaches {To!.Text}",
        TraceQuestion.WhatFeeds => $"what feeds {To!.Text}",
        TraceQuestion.To => $"{What} to {To!.Text}",
        _ => $"why not {What} from {From!.Text} to {To!.Text}",
    };

    public static (TraceQuery? Query, TraceMistake? Mistake) Read(RigNames names, string text)
    {
        var words = Words(text);
        return words switch
        {
            [] => Wrong($"the question is empty. {Forms}"),
            ["what", "reaches", var path] => WhatReaches(names, path),
            ["what", "feeds", var path] => WhatFeeds(names, path),
            ["what", ..] => Wrong("a question with \"what\" goes: what reaches bass, or what feeds bass."),
            ["why", "not", .. var rest] => WhyNot(names, rest),
            ["why", ..] => Wrong("a question with \"why\" goes: why not clock from drums to bass."),
            _ => Followed(names, words),
        };
    }

    private const string Forms = "Ask, for example: notes from seq, audio from drums, power to bass, what reaches bass, what feeds bass, or why not clock from drums to bass.";

    private static (TraceQuery?, TraceMistake?) WhatFeeds(RigNames names, string path)
    {
        var (to, mistake) = TracePlace.Hearing(names, path);
        return to is null ? (null, mistake) : (new TraceQuery(TraceQuestion.WhatFeeds, MessageKinds.None, "", null, to) { Signal = ExpectedSignal.Power }, null);
    }

    private static (TraceQuery?, TraceMistake?) WhatReaches(RigNames names, string path)
    {
        var (to, mistake) = TracePlace.Hearing(names, path);
        return to is null ? (null, mistake) : (new TraceQuery(TraceQuestion.WhatReaches, MessageKinds.All, "", null, to), null);
    }

    private static (TraceQuery?, TraceMistake?) Followed(RigNames names, string[] words)
    {
        var from = Array.IndexOf(words, "from");
        if (from < 0)
        {
            var to = Array.IndexOf(words, "to");
            return to >= 0 && words.Length == to + 2 ? Of(names, TraceQuestion.To, words[..to], null, words[to + 1]) : NoFrom(words);
        }
        if (words.Length > from + 2)
        {
            return words[from + 2] == "to" && words.Length == from + 4
                ? Wrong($"that needs \"why not\" in front: why not {string.Join(' ', words)}.")
                : Wrong($"\"{words[from + 2]}\" is one word too many. {Forms}");
        }
        return Of(names, TraceQuestion.From, words[..from], words.ElementAtOrDefault(from + 1), null);
    }

    private static (TraceQuery?, TraceMistake?) WhyNot(RigNames names, string[] words)
    {
        var from = Array.IndexOf(words, "from");
        return from < 0 ? NoFrom(words)
            : words.Length == from + 4 && words[from + 2] == "to" ? Of(names, TraceQuestion.WhyNot, words[..from], words[from + 1], words[from + 3])
            : Wrong("a question with \"why not\" goes: why not clock from drums to bass.");
    }

    private static (TraceQuery?, TraceMistake?) NoFrom(string[] words)
    {
        if (words.Length == 0)
        {
            return Wrong("a question with \"why not\" goes: why not clock from drums to bass.");
        }
        // The first word tells whether it was a kind that lacks its sender, or something else altogether.
        var (_, _, wrong) = ReadKinds(words);
        return wrong is null
            ? Wrong($"it is not said where {string.Join(' ', words)} comes from: {string.Join(' ', words)} from seq.")
            : Wrong($"\"{string.Join(' ', words)}\" is no question that trace knows. {Forms}", Spelling.Nearest(words[0], [.. MessageKindNames.Table.Keys, "what", "why"]));
    }

    private static (TraceQuery?, TraceMistake?) Of(RigNames names, TraceQuestion question, string[] what, string? fromPath, string? toPath)
    {
        var (kinds, signal, wrongKind) = ReadKinds(what);
        if (wrongKind is not null)
        {
            return (null, wrongKind);
        }
        if (fromPath is null && question != TraceQuestion.To)
        {
            return Wrong($"the name of a device is missing after \"from\". {Forms}");
        }
        Target? from = null;
        if (fromPath is not null)
        {
            (from, var wrongFrom) = TracePlace.Sending(names, fromPath);
            if (from is null)
            {
                return (null, wrongFrom);
            }
        }
        Target? to = null;
        if (toPath is not null)
        {
            (to, var wrongTo) = TracePlace.Hearing(names, toPath);
            if (to is null)
            {
                return (null, wrongTo);
            }
        }
        return (new TraceQuery(question, kinds, string.Join(' ', what).Replace(" ,", ",", StringComparison.Ordinal), from, to) { Signal = signal }, null);
    }

    private static (MessageKinds Kinds, ExpectedSignal Signal, TraceMistake? Mistake) ReadKinds(string[] words)
    {
        if (words is ["audio"] or ["power"])
        {
            return (MessageKinds.None, words[0] == "audio" ? ExpectedSignal.Audio : ExpectedSignal.Power, null);
        }
        var kinds = MessageKinds.None;
        foreach (var name in string.Join(' ', words).Split(',').Select(n => n.Trim()))
        {
            if (!MessageKindNames.Table.TryGetValue(name, out var kind))
            {
                var why = name.Length == 0 ? "a kind of message, audio or power is missing in front."
                    : name is "audio" or "power" ? $"{name} is asked for by itself: {name} from …"
                    : $"\"{name}\" is no kind of message; there are {string.Join(", ", MessageKindNames.Table.Keys)}, and audio and power.";
                return (MessageKinds.None, ExpectedSignal.Messages, new TraceMistake(why, name.Length == 0 ? null : Spelling.Nearest(name, [.. MessageKindNames.Table.Keys, "audio", "power"])));
            }
            kinds |= kind;
        }
        return (kinds, ExpectedSignal.Messages, null);
    }

    private static (TraceQuery?, TraceMistake?) Wrong(string what, string? nearest = null) => (null, new TraceMistake(what, nearest));

    /// <summary>Apart at blanks, except inside quotes; a comma is a word's end, and a question mark is manners.</summary>
    private static string[] Words(string text)
    {
        var words = new List<string>();
        var start = -1;
        var isQuoted = false;
        text = text.Trim().TrimEnd('?');
        for (var i = 0; i <= text.Length; i++)
        {
            if (i == text.Length || (char.IsWhiteSpace(text[i]) && !isQuoted))
            {
                if (start >= 0)
                {
                    words.Add(text[start..i]);
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
        if (sends ? track is not null || port is not null : part is not null || port is not null)
        {
            return (new Target(device, (sends ? track is null : part is null) ? port : null, sends ? null : part, sends ? track : null, at), null);
        }
        if ((sends ? part is not null : track is not null))
        {
            return Wrong(sends ? $"{path} is a part: it plays, and sends nothing." : $"{path} is a track: it sends, and hears nothing.", null);
        }
        var known = gear.PortsByName.Keys.Concat(sends ? gear.Tracks.Keys : gear.Parts.Keys);
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
