using RigLang.Parsing;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Checks.Language;

/// <summary>
/// How a line that cannot be read was most likely meant: the slips of tired hands, tried one after another. What is offered has been read
/// by the parser first, as a line of the same block, so that taking it never gives another broken line.
/// </summary>
/// <param name="What">What is wrong with the line as it stands.</param>
/// <param name="Text">The whole line as it could be written.</param>
internal sealed record LineRepair(string What, string Text, Location At)
{
    /// <summary>A longer line is no slip of a few words, and every slip costs a reading of the line.</summary>
    private const int MostTokens = 60;

    private static readonly string[] OtherJoints = ["=", "is", "->", "=>", "-", ">", "into", "onto", "and", "&", ";", "via", "using"];

    private static readonly string[] CommentMarks = ["#", ";", "--", "/*", "%"];

    /// <summary>What to do, with the line written out.</summary>
    public string Advice => $"Write: `{string.Join("` and, on a line of its own, `", Text.Split('\n').Select(l => l.Trim()))}`.";

    public string Title => Text.Contains('\n', StringComparison.Ordinal) ? "Write two lines" : $"Write {Text}";

    /// <param name="isName">True for what something of the rig is called; words are taken for one name only then.</param>
    public static LineRepair? Of(BadSyntax fault, FileSymbols file, Func<string, bool> isName)
    {
        var source = fault.At.Source;
        var line = source.LineSpan(source.PositionOf(fault.At.Span.Start).Line);
        var written = source.Slice(line).TrimEnd();
        var indent = written.Length - written.TrimStart().Length;
        var words = new Words(written[indent..]);
        if (words.Count is 0 or > MostTokens || fault.At.Span.Start < line.Start + indent)
        {
            return null;
        }
        var at = words.At(fault.At.Span.Start - line.Start - indent);
        var block = BlockAround(file.Tree, fault.At.Span.Start);
        foreach (var (what, text) in Slips(words, at, [.. Literals(fault.Fault.Expected)], block, isName))
        {
            if (text != words.Text && Reads(text, block))
            {
                return new LineRepair(what, text.Replace("\n", source.LineEnd + written[..indent], StringComparison.Ordinal), new Location(source, new TextSpan(line.Start + indent, words.Text.Length)));
            }
        }
        return null;
    }

    private static IEnumerable<(string What, string Text)> Slips(
        Words words, int at, string[] wanted, string? block, Func<string, bool> isName) =>
        // Of signs that mean nothing here and of open quotes the check itself says more.
        at < words.Count && words[at].Kind is TokenKind.Bad or TokenKind.OpenString ? [.. Comment(words), .. OtherJoint(words, at, wanted)] :
        [
            .. Comment(words),
            .. DecimalComma(words),
            .. LeadBeforeTo(words),
            .. ReachBeforeFrom(words),
            .. ChannelBeforeFrom(words),
            .. NoStatement(words),
            .. OtherJoint(words, at, wanted),
            .. NoUnit(words),
            .. NoWith(words),
            .. StereoAlone(words),
            .. PassesNothing(words),
            .. NameWithSpaces(words, at, isName),
            .. LeftOut(words, at, wanted),
            .. SettingsOnOneLine(words, at, block),
        ];

    private static IEnumerable<(string, string)> Comment(Words words)
    {
        foreach (var mark in CommentMarks)
        {
            if (words.Text.IndexOf(mark, StringComparison.Ordinal) is >= 0 and var start && words.IsOutsideQuotes(start))
            {
                var rest = words.Text[(start + mark.Length)..].Replace("*/", "", StringComparison.Ordinal).Trim();
                yield return ("A comment starts with two strokes: //.", $"{words.Text[..start]}// {rest}");
            }
        }
    }

    private static IEnumerable<(string, string)> DecimalComma(Words words)
    {
        for (var i = 1; i + 1 < words.Count; i++)
        {
            if (words[i].Kind == TokenKind.Comma && words[i - 1].Kind == TokenKind.Number && words[i + 1].Kind == TokenKind.Number
                && words[i - 1].End == words[i].Start && words[i].End == words[i + 1].Start)
            {
                var text = words.Text.Remove(words[i].Start, 1).Insert(words[i].Start, ".");
                yield return ("A figure is written with a decimal point.", text);
            }
        }
    }

    /// <summary><c>connect a.out with Patch to b.in</c>.</summary>
    private static IEnumerable<(string, string)> LeadBeforeTo(Words words)
    {
        var (with, to) = (words.Find(Keyword.With), words.Find(Keyword.To));
        if (with > 0 && to > with)
        {
            for (var end = to + 2; end <= words.Count; end++)
            {
                yield return ("The lead comes behind both jacks.",
                    Words.Join(words.Part(0, with), words.Part(to, end), words.Part(with, to), words.Part(end, words.Count)));
            }
        }
    }

    /// <summary><c>must clock reach bass from drums</c>.</summary>
    private static IEnumerable<(string, string)> ReachBeforeFrom(Words words)
    {
        var (reach, from) = (words.Find(Keyword.Reach), words.Find(Keyword.From));
        if (reach > 0 && from > reach)
        {
            for (var end = words.Count; end > from + 1; end--)
            {
                yield return ("`from` comes before `reach`.",
                    Words.Join(words.Part(0, reach), words.Part(from, end), words.Part(reach, from), words.Part(end, words.Count)));
            }
        }
    }

    /// <summary><c>must notes on channel 3 from seq reach bass</c>.</summary>
    private static IEnumerable<(string, string)> ChannelBeforeFrom(Words words)
    {
        var (on, from) = (words.Find(Keyword.On), words.Find(Keyword.From));
        if (on > 0 && from > on)
        {
            yield return ("The channel comes at the end of the line.",
                Words.Join(words.Part(0, on), words.Part(from, words.Count), words.Part(on, from)));
        }
    }

    private static IEnumerable<(string, string)> NoStatement(Words words)
    {
        var first = words[0].Kind == TokenKind.Word ? words.Part(0, 1) : "";
        if (first.Length == 0 || words[0].Keyword != Keyword.None && words[0].Keyword != Keyword.Clock && words[0].Keyword != Keyword.Transport)
        {
            yield break;
        }
        if (words.Find(Keyword.Reach) > 0)
        {
            yield return ($"No line starts with `{first}`: a promise says `must` or `never` first.", $"must {words.Text}");
        }
        if (words.Find(Keyword.To) > 0)
        {
            yield return ($"No line starts with `{first}`: a cable says `connect` first.", $"connect {words.Text}");
        }
        yield return ($"No line starts with `{first}`: a box on the table says `device` first.", $"device {words.Text}");
    }

    /// <summary>A word or sign of another language where one of this stands: <c>a.out -> b.in</c>.</summary>
    private static IEnumerable<(string, string)> OtherJoint(Words words, int at, string[] wanted)
    {
        if (at >= words.Count)
        {
            yield break;
        }
        var end = at + 1;
        while (end < words.Count && words[end].Start == words[end - 1].End && OtherJoints.Contains(words.Part(at, end + 1)))
        {
            end++;
        }
        var other = words.Part(at, end);
        foreach (var word in OtherJoints.Contains(other) ? wanted : [])
        {
            yield return ($"Here the language says `{word}`, not `{other}`.", Words.Join(words.Part(0, at), word, words.Part(end, words.Count)));
        }
    }

    private static IEnumerable<(string, string)> LeftOut(Words words, int at, string[] wanted)
    {
        foreach (var word in at < words.Count ? wanted : [])
        {
            yield return ($"`{word}` is missing before `{words.Part(at, at + 1)}`.", Words.Join(words.Part(0, at), word, words.Part(at, words.Count)));
        }
    }

    /// <summary><c>with Patch 1.5</c>.</summary>
    private static IEnumerable<(string, string)> NoUnit(Words words)
    {
        for (var i = Math.Max(words.Find(Keyword.With), 0); words.Find(Keyword.Connect) == 0 && i < words.Count; i++)
        {
            if (words[i].Kind == TokenKind.Number)
            {
                var length = $"{words.Part(i, i + 1)} m";
                yield return ("The length has no unit.", Words.Join(words.Part(0, i), length, words.Part(i + 1, words.Count)));
            }
        }
    }

    /// <summary><c>connect a.out to b.in Patch 1.5 m</c>.</summary>
    private static IEnumerable<(string, string)> NoWith(Words words)
    {
        var to = words.Find(Keyword.To);
        for (var i = to + 2; to > 0 && words.Find(Keyword.Connect) == 0 && words.Find(Keyword.With) < 0 && i < words.Count; i++)
        {
            yield return ($"`with` is missing before `{words.Part(i, i + 1)}`.", Words.Join(words.Part(0, i), "with", words.Part(i, words.Count)));
        }
    }

    /// <summary><c>must audio from a reach b stereo</c>.</summary>
    private static IEnumerable<(string, string)> StereoAlone(Words words)
    {
        for (var i = Math.Max(words.Find(Keyword.Reach), 0) + 1; words.Find(Keyword.Reach) > 0 && i < words.Count; i++)
        {
            if (words[i].Text is "stereo" or "mono")
            {
                yield return ($"`in` is missing before `{words[i].Text}`.", Words.Join(words.Part(0, i), "in", words.Part(i, words.Count)));
            }
        }
    }

    /// <summary><c>voice on channel 2, clock midi</c>.</summary>
    private static IEnumerable<(string, string)> SettingsOnOneLine(Words words, int at, string? block)
    {
        if (block is "device" or "rig" && at > 0 && at + 1 < words.Count && words[at].Kind == TokenKind.Comma)
        {
            yield return ("A setting has a line of its own.", $"{words.Part(0, at)}\n{words.Part(at + 1, words.Count)}");
        }
    }

    /// <summary><c>poly.LINE OUT</c>.</summary>
    private static IEnumerable<(string, string)> NameWithSpaces(Words words, int at, Func<string, bool> isName)
    {
        for (var end = at + 1; at > 0 && end <= Math.Min(at + 2, words.Count) && words[end - 1].Kind is TokenKind.Word or TokenKind.Number; end++)
        {
            if (words[at - 1].Kind == TokenKind.Word && words.Part(at - 1, end) is var name && isName(name))
            {
                yield return ("A name with a space in it goes in quotes.",
                    $"{words.Text[..words[at - 1].Start]}\"{name}\"{words.Text[words[end - 1].End..]}");
            }
        }
    }

    private static IEnumerable<(string, string)> PassesNothing(Words words)
    {
        var last = words.Part(words.Count - 1, words.Count);
        if (words.Count > 2 && (last, words[^2].Keyword) is ("nothing" or "none", Keyword.Passes) or ("everything" or "all", Keyword.Drops))
        {
            yield return ("All kinds of message together are called `any`.", Words.Join(words.Part(0, words.Count - 2), "drops any"));
        }
    }

    /// <summary>The words and signs of the language among what was expected: what stands alone in backquotes.</summary>
    private static IEnumerable<string> Literals(IEnumerable<string> expected) =>
        expected.Where(label => label.Length > 2 && label[0] == '`' && label.IndexOf('`', 1) == label.Length - 1).Select(label => label[1..^1]);

    /// <summary>What opens the block that a place lies in; none for a line of its own.</summary>
    private static string? BlockAround(SyntaxTree tree, int offset)
    {
        foreach (var statement in tree.Statements)
        {
            if (statement.Span.Start <= offset && tree.WholeSpan(statement).End >= offset)
            {
                return statement.Span.End < offset && tree.TokensIn(statement.Span) is [{ Text: { } opener }, ..] ? opener : null;
            }
        }
        return null;
    }

    private static bool Reads(string line, string? block)
    {
        var whole = line.EndsWith('{') ? line + "\n}" : line;
        var text = block switch
        {
            null => whole,
            "rig" or "stock" => $"{block} {{\n{whole}\n}}",
            "device" => $"device a : A {{\n{whole}\n}}",
            "lead" => $"lead A : ts 6.35 mm to ts 6.35 mm {{\n{whole}\n}}",
            _ => $"{block} A {{\n{whole}\n}}",
        };
        return RigParser.Parse(new SourceText("line.rig", text)).Faults.Count == 0;
    }

    /// <summary>The line cut into its tokens, which are put together again with one space between what is moved.</summary>
    private sealed class Words(string text)
    {
        private readonly Token[] _tokens = [.. Lexer.Lex(new SourceText("line.rig", text)).Where(t => t.Kind != TokenKind.NewLine)];

        public string Text { get; } = text;

        public int Count => _tokens.Length;

        public Token this[int index] => _tokens[index];

        public Token this[Index index] => _tokens[index];

        public int Find(Keyword keyword) => Array.FindIndex(_tokens, t => t.Keyword == keyword);

        /// <summary>The first token that ends behind an offset.</summary>
        public int At(int offset) => Array.FindIndex(_tokens, t => t.End > offset) is >= 0 and var index ? index : Count;

        public string Part(int first, int end) => first >= end ? "" : Text[_tokens[first].Start.._tokens[end - 1].End];

        public static string Join(params string[] parts) => string.Join(' ', parts.Where(p => p.Length > 0));

        public bool IsOutsideQuotes(int offset) => Text[..offset].Count(c => c == '"') % 2 == 0;
    }
}
