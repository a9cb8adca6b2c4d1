using CsCheck;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Fuzz.Generators;

/// <summary>
/// Rig texts for properties. <see cref="Valid"/> follows the grammar with odd spacing, comments, scripts and line ends (it
/// means nothing: names are not declared); <see cref="Mutated"/> breaks such a text here and there; <see cref="AnyText"/>
/// is hardly a rig at all.
/// </summary>
public static class RigTextGen
{
    public static readonly Gen<string> LineEnd = Gen.Frequency((8, "\n"), (4, "\r\n"), (1, "\r"));

    private static readonly string[] BareNames =
    [
        "bass", "thru", "seq", "out1", "a", "Tern", "centre-positive", "x1", "_", "Étude", "ベース", "гитара", "e\u0301tage", "低音-2", "𝔟",
        "in", "out", "on", "to", "from", "with", "at", "rig", "gear", "lead", "device", "connect", "stock", "must", "never", "import",
        "clock", "runs", "sounds", "channel", "drops", "passes", "reach", "accept", "because", "like", "pairs", "coming", "going",
    ];

    private static readonly string[] QuotedNames =
        ["\"LINE OUT L/MONO\"", "\"\"", "\"// not a comment\"", "\"{\"", "\"a, b\"", "\" to \"", "\"“smart”\"", "\"入力 1\"", "\"tab\there\""];

    private static readonly Gen<string> Bare = Gen.OneOf(BareNames);
    private static readonly Gen<string> Quoted = Gen.OneOf(QuotedNames);
    private static readonly Gen<string> Name = Gen.Frequency((5, Bare), (1, Quoted));

    /// <summary>Words that no place in the grammar takes for its own.</summary>
    private static readonly Gen<string> PlainWord = Gen.OneOf("midi", "audio", "mono", "line", "trs", "left", "yellow", "din-5", "黄", "\"on\"");

    private static readonly Gen<string> Number = Gen.OneOf("9", "0.6", "-10", "+4", "112", "1.5", "99999999999999999999");
    private static readonly Gen<string> Unit = Gen.OneOf("V", "mA", "m", "mm", "bpm", "ft", "dBV", "µs");

    private static readonly Gen<string[]> Quantity = Gen.Select(Number, Unit, (number, unit) => new[] { number, unit });

    private static readonly Gen<string[]> Range = Gen.Frequency(
        (4, Name.Select(name => new[] { name })),
        (1, Gen.Select(Name, Name, (first, last) => new[] { first, "..", last })));

    private static readonly Gen<string[]> Ranges = List(Range);

    private static readonly Gen<string[]> Path = Gen.Select(Name, Name.Array[0, 2], Name.Array[0, 1], (first, more, last) =>
        Join([[first], .. more.Select(part => new[] { ".", part }), .. last.Select(part => new[] { "..", part })]));

    private static readonly Gen<string[]> Paths = List(Path);

    private static readonly Gen<string> ContactName = Gen.Frequency((2, Name), (1, Gen.OneOf("1", "2", "13")));

    private static readonly Gen<string[]> Contact = Gen.Select(ContactName, ContactName.Array[0, 2], (first, more) =>
        Join([[first], .. more.Select(part => new[] { ".", part })]));

    private static readonly Gen<string[]> Channel = Gen.OneOf(
        Gen.OneOf("1", "16", "any", "auto", "off").Select(value => new[] { value }),
        Gen.Const(new[] { "1", "..", "4" }));

    private static readonly Gen<string[]> OnChannel = Channel.Select(channel => Join(["on", "channel"], channel));

    private static readonly Gen<string[]> Measure = Gen.OneOf(
        Quantity,
        Gen.Select(Number, Number, Unit, (from, to, unit) => new[] { from, "..", to, unit }),
        Gen.Const(new[] { "5.5x2.1", "mm" }),
        PlainWord.Select(word => new[] { word }));

    private static readonly Gen<string[]> Words = Measure.Array[1, 4].Select(words => Join(words));

    private static readonly Gen<string[]> Kinds = List(PlainWord.Array[1, 2]);

    private static readonly Gen<string[]> LeadChain = Gen.OneOf(
            Quantity,
            Gen.Select(Name, Maybe(Quantity), (lead, length) => Join([lead], length)))
        .Array[1, 3].Select(leads => Join([.. leads.Select((lead, i) => i == 0 ? lead : Join(["+"], lead))]));

    // The lines of each kind of block.

    private static readonly Gen<string[]> RigLine = Gen.Select(
        Gen.OneOf("tempo", "mains", "set"), Quantity.Array[0, 3], (name, values) => Join([[name], .. values]));

    private static readonly Gen<string[]> PortLine = Gen.Select(
        Gen.OneOf("in", "out"), Ranges, List(Words), Maybe(List(Words).Select(jack => Join(["on"], jack))),
        (direction, names, signal, on) => Join([direction], names, [":"], signal, on));

    private static readonly Gen<string[]> GearLine = Gen.OneOf(
        PortLine,
        PortLine,
        Gen.Select(Gen.OneOf("route", "join", "switch"), Ranges, Ranges, Maybe(Gen.Const(new[] { "in", "pairs" })),
            (verb, from, to, pairs) => Join([verb], from, ["to"], to, pairs)),
        Gen.Select(Ranges, Ranges, Words, (from, to, extras) => Join(["route"], from, ["to"], to, ["latency"], extras)),
        Gen.Select(
            Ranges, Ranges, Maybe(OnChannel), Maybe(Ranges.Select(to => Join([",", "sounds", "at"], to))),
            (names, from, channel, sounds) => Join(["part"], names, ["receives"], from, channel, sounds)),
        Gen.Select(Ranges, Ranges, Maybe(Kinds.Select(kinds => Join(["only"], kinds))), Maybe(OnChannel),
            (names, to, only, channel) => Join(["track"], names, ["sends"], to, only, channel)),
        Gen.Select(
            Gen.OneOf("clock", "transport"), Gen.OneOf("follows", "sends"), Ranges,
            (subject, verb, names) => Join([subject, verb], names)),
        Kinds.Select(kinds => Join(["filters"], kinds)),
        Maybe(Quantity).Select(time => Join(["battery"], time)));

    private static readonly Gen<string[]> LeadLine = Gen.OneOf(
        Gen.Select(Contact, List(Contact), (from, to) => Join(from, ["to"], to)),
        Gen.Select(Gen.OneOf("longest", "gauge"), Quantity, (name, value) => Join([name], value)));

    private static readonly Gen<string[]> Way = Maybe(Gen.OneOf(new[] { "coming", "in" }, new[] { "going", "out" }).Select(way => way));

    private static readonly Gen<string[]> DeviceLine = Gen.OneOf(
        Gen.Select(Ranges, OnChannel, Maybe(Gen.Const(new[] { "layered" })), (names, channel, layered) => Join(names, channel, layered)),
        Gen.Select(Ranges, Kinds, Way, (names, kinds, way) => Join(names, ["drops"], kinds, way)),
        Gen.Select(PlainWord, Channel, List(Channel), Way, (port, from, to, way) => Join([port, "maps", "channel"], from, ["to"], to, way)),
        Gen.Select(PlainWord, Gen.OneOf("off", "3"), (name, word) => new[] { name, word }),
        Gen.Select(Ranges, Kinds, (names, kinds) => Join(names, ["passes", "only"], kinds)),
        Gen.Select(PlainWord, PlainWord, (port, state) => new[] { port, "phantom", state }),
        Gen.Select(Gen.OneOf("clock", "transport"), PlainWord, (subject, source) => new[] { subject, source }),
        Gen.Const(new[] { "runs", "on", "battery" }));

    private static readonly Gen<string[]> StockLine = Gen.Select(
        Gen.OneOf("1", "6", "12", "100"), Name, Maybe(Quantity), PlainWord.Array[0, 2],
        (count, lead, length, colours) => Join([count, lead], length, colours));

    // Statements of a file.

    private static readonly Gen<string[]> LeadHeader = Gen.Select(
        Name, List(Words), List(Words), (name, near, far) => Join(["lead", name, ":"], near, ["to"], far));

    private static readonly Gen<string[]> DeviceHeader = Gen.Select(
        Ranges, Name, Maybe(Gen.Select(Quantity, Quantity, (x, y) => Join(["at", "("], x, [","], y, [")"]))),
        (names, gear, at) => Join(["device"], names, [":", gear], at));

    private static readonly Gen<string[]> Line = Gen.OneOf(
        Quoted.Select(path => new[] { "import", path }),
        LeadHeader,
        DeviceHeader,
        Gen.Select(Name, Paths, Quoted, (check, on, reason) => Join(["accept", check, "on"], on, ["because", reason])),
        Gen.Select(
            Paths, Paths, Maybe(LeadChain.Select(leads => Join(["with"], leads))), Gen.OneOf("yellow", "red").Array[0, 2], Quoted.Array[0, 1],
            (from, to, with, colours, label) => Join(["connect"], from, ["to"], to, with, colours, label)),
        Gen.Select(
            Gen.OneOf("must", "never"), Kinds, Path, Paths,
            Maybe(Gen.OneOf(OnChannel, Gen.Const(new[] { "in", "stereo" }), Quantity.Select(limit => Join(["within"], limit)))),
            (verb, what, from, to, qualifier) => Join([verb], what, ["from"], from, ["reach"], to, qualifier)));

    private static readonly Gen<(string[] Header, string[][] Body)> Block = Gen.OneOf(
        WithBody(Maybe(Quoted.Select(title => new[] { title })).Select(title => Join(["rig"], title)), RigLine),
        WithBody(Gen.Select(Name, Maybe(Name.Select(like => new[] { "like", like })), (name, like) => Join(["gear", name], like)), GearLine),
        WithBody(LeadHeader, LeadLine),
        WithBody(DeviceHeader, DeviceLine),
        WithBody(Gen.Const(new[] { "stock" }), StockLine));

    // Spacing.

    private static readonly Gen<string> Gap = Gen.Frequency(
        (8, " "), (4, ""), (2, "   "), (1, "\t"), (1, " \u00A0"), (1, " \uFEFF"), (1, "                                   "));

    private static readonly Gen<string> CommentText = Gen.OneOf(
        "// what you dial in", "//", "///doc", "/// Two oscillators. ", "// } {", "// \"open", "////", "// 音", "// a,");

    /// <summary>All that a writer may choose about the layout; the lists are used round and round.</summary>
    private static readonly Gen<Spacing> AnySpacing = Gen.Select(
        Gap.Array[1, 12],
        Gen.Frequency((12, ""), (1, "blank"), (1, "comment"), (1, "blank comment"), (1, "comment blank")).Array[1, 9],
        Gen.Frequency((6, ""), (1, "comment")).Array[1, 7],
        Gen.Frequency((5, ""), (1, "break"), (1, "commented break")).Array[1, 5],
        Gen.Frequency((3, "open"), (1, "one line")).Array[1, 3],
        CommentText.Array[1, 4],
        Gen.Frequency((3, LineEnd.Array[1, 1]), (1, LineEnd.Array[2, 5])),
        (gaps, between, behind, commas, blocks, comments, lineEnds) =>
            new Spacing(gaps, between, behind, commas, blocks, comments, lineEnds));

    /// <summary>Text without a fault, in any layout.</summary>
    public static readonly Gen<string> Valid = Gen.Select(
        Gen.OneOf(Line.Select(line => (Header: line, Body: (string[][]?)null)), Block.Select(b => (b.Header, (string[][]?)b.Body))).Array[0, 8],
        AnySpacing,
        Gen.OneOf("", "", "", "\uFEFF"),
        Gen.Bool,
        (statements, spacing, mark, lineEndAtEnd) => mark + spacing.Write(statements, lineEndAtEnd));

    private static readonly Gen<string> Nonsense = Gen.OneOf(
        "{", "}", "{}", "}}", "{ {", ",", ",\n", ", // x\n", "\"", "“", "”", "//", "\n///", "\r", "\n", "\r\n", "\n\n", "\uFEFF", "\0", "\uD800", "\uDC00",
        "..", ".", "...", "+", "-", "--", "/", "#", ";", "\t", "\u0301", "日本", "\u2028", "x", "9", "1e5", " ", "(", ")", ":",
        "device ", "must ", "\ngear ", "\ngear A {\n", "\n{\n", "\n}\n", "\nin in : midi\n", "foo {", "import \"x\" {", "\n   lead ", "stock{", ",\nmust ");

    private static readonly Gen<(int Kind, int At, int Length, string Text)> Mutation = Gen.Select(
        Gen.Int[0, 6], Gen.Int[0, 100_000], Gen.Int[1, 12], Nonsense, (kind, at, length, text) => (kind, at, length, text));

    /// <summary>Text that was valid until characters and tokens were deleted, doubled, swapped and put in.</summary>
    public static readonly Gen<string> Mutated = Mutating(Valid, 1, 5);

    /// <summary>Texts of any origin with characters and tokens deleted, doubled, swapped and put in.</summary>
    public static Gen<string> Mutating(Gen<string> texts, int least, int most) => Gen.Select(texts, Mutation.Array[least, most], (text, mutations) =>
        mutations.Aggregate(text, (current, m) => Mutate(current, m.Kind, m.At, m.Length, m.Text)));

    /// <summary>Scraps of rigs, nonsense and any characters at all.</summary>
    public static readonly Gen<string> AnyText = Gen.OneOf(
        Gen.OneOf(Nonsense, Name, Gap, Number, LineEnd, CommentText, Line.Select(words => string.Join(' ', words))).Array[0, 40].Select(string.Concat),
        Gen.String);

    private static string Mutate(string text, int kind, int at, int length, string nonsense)
    {
        if (text.Length == 0)
        {
            return nonsense;
        }
        if (kind >= 4)
        {
            return MutateTokens(text, kind, at);
        }
        at %= text.Length;
        var end = Math.Min(text.Length, at + length);
        return kind switch
        {
            0 => text.Remove(at, end - at),
            1 => text.Insert(at, text[at..end]),
            2 when at + 1 < text.Length => text[..at] + text[at + 1] + text[at] + text[(at + 2)..],
            _ => text.Insert(at, nonsense),
        };
    }

    private static string MutateTokens(string text, int kind, int at)
    {
        var tokens = Lexer.Lex(new SourceText("mutant.rig", text));
        if (tokens.Length == 0)
        {
            return text;
        }
        var one = tokens[at % tokens.Length];
        var other = tokens[at / 7 % tokens.Length];
        if (one.Start > other.Start)
        {
            (one, other) = (other, one);
        }
        var (first, second) = (text[one.Start..one.End], text[other.Start..other.End]);
        return kind switch
        {
            4 => text.Remove(one.Start, one.Length),
            5 => text.Insert(other.End, " " + first),
            _ when one != other => text[..one.Start] + second + text[one.End..other.Start] + first + text[other.End..],
            _ => text,
        };
    }

    private static Gen<(string[] Header, string[][] Body)> WithBody(Gen<string[]> header, Gen<string[]> line) =>
        Gen.Select(header, line.Array[0, 5], (h, body) => (h, body));

    private static Gen<string[]> List(Gen<string[]> item) => Gen.Frequency((3, item.Array[1, 1]), (1, item.Array[2, 4]))
        .Select(items => Join([.. items.Select((words, i) => i == 0 ? words : Join([","], words))]));

    private static Gen<string[]> Maybe(Gen<string[]> words) => Gen.Frequency((1, words), (1, Gen.Const(Array.Empty<string>())));

    private static string[] Join(params string[][] words) => [.. words.SelectMany(w => w)];
}
