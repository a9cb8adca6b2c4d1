using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>
/// The line that a caret is in, up to the word being typed, read from tokens: it is seldom a whole statement yet. A line that goes on
/// after a comma is one line.
/// </summary>
internal sealed class CaretLine
{
    private CaretLine(RigView view, int offset, IReadOnlyList<Token> before, IReadOnlyList<Token> header)
    {
        View = view;
        Offset = offset;
        Before = before;
        Header = header;
    }

    public RigView View { get; }

    public int Offset { get; }

    /// <summary>The tokens of the line before the word.</summary>
    public IReadOnlyList<Token> Before { get; }

    /// <summary>The first line of the block that the caret is in, without its brace; empty outside a block.</summary>
    public IReadOnlyList<Token> Header { get; }

    /// <summary>The word around the caret, without its quotes when the caret stands between them.</summary>
    public TextSpan Replace { get; private init; }

    /// <summary>Between quotes only names and paths make sense, and they bring no quotes of their own.</summary>
    public bool IsQuoted { get; private init; }

    /// <summary>True for a quote that is not closed: what is inserted closes it.</summary>
    public bool IsOpenQuote { get; private init; }

    /// <summary>True when the caret touches the number before it, so that a unit wants a space.</summary>
    public bool TouchesNumber { get; private init; }

    public Token? Last => Before.Count > 0 ? Before[^1] : null;

    /// <summary>Null where nothing can be completed: in a comment, or inside a number.</summary>
    public static CaretLine? At(RigView view, int offset)
    {
        var tokens = view.Tree.Tokens;
        offset = Math.Clamp(offset, 0, view.Source.Length);
        // The token that the caret is in or just behind, and how many tokens lie wholly before it.
        var end = FirstFrom(tokens, offset);
        if (end > 0 && tokens[end - 1] is { Kind: TokenKind.NewLine } lineEnd && lineEnd.End > offset)
        {
            // Between CR and LF is still the end of the line.
            end--;
        }
        var at = end > 0 && tokens[end - 1].End >= offset && tokens[end - 1].Kind != TokenKind.NewLine ? end - 1 : -1;
        var replace = new TextSpan(offset, 0);
        var (isQuoted, isOpen, touchesNumber) = (false, false, false);
        if (at >= 0)
        {
            var token = tokens[at];
            switch (token.Kind)
            {
                case TokenKind.Word:
                    (replace, end) = (token.Span, at);
                    break;
                case TokenKind.String:
                    isQuoted = offset < token.End;
                    (replace, end) = (isQuoted ? TextSpan.Between(token.Start + 1, token.End - 1) : token.Span, at);
                    break;
                case TokenKind.OpenString:
                    (isQuoted, isOpen) = (true, true);
                    (replace, end) = (TextSpan.Between(token.Start + 1, offset), at);
                    break;
                case TokenKind.Number or TokenKind.Size when offset < token.End:
                    return null;
                case TokenKind.Number when at > 0 && IsChannelWord(tokens, at - 1):
                    (replace, end) = (token.Span, at);
                    break;
                case TokenKind.Number or TokenKind.Size:
                    touchesNumber = true;
                    break;
            }
        }
        if (at < 0 && IsInComment(view.Source, end > 0 ? tokens[end - 1].End : 0, offset))
        {
            return null;
        }
        var first = StartOfLine(view, tokens, end, offset);
        var before = new List<Token>();
        for (var i = first; i < end; i++)
        {
            if (tokens[i].Kind != TokenKind.NewLine)
            {
                before.Add(tokens[i]);
            }
        }
        return new CaretLine(view, offset, before, HeaderAt(view, offset))
        {
            Replace = replace,
            IsQuoted = isQuoted,
            IsOpenQuote = isOpen,
            TouchesNumber = touchesNumber,
        };
    }

    /// <summary>How many tokens start before an offset.</summary>
    private static int FirstFrom(Token[] tokens, int offset)
    {
        var (low, high) = (0, tokens.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = tokens[middle].Start < offset ? (middle + 1, high) : (low, middle);
        }
        return low;
    }

    /// <summary>A number behind `channel` is a word like any: it is the channel that is being chosen.</summary>
    private static bool IsChannelWord(Token[] tokens, int at) => tokens[at].Keyword == Keyword.Channel;

    private static bool IsInComment(SourceText source, int from, int offset)
    {
        var start = Math.Max(from, source.LineStart(source.PositionOf(offset).Line));
        return source.Content.AsSpan(start, offset - start).Contains("//", StringComparison.Ordinal);
    }

    private static int StartOfLine(RigView view, Token[] tokens, int end, int offset)
    {
        var first = end;
        while (first > 0)
        {
            var kind = tokens[first - 1].Kind;
            if (kind is TokenKind.OpenBrace or TokenKind.CloseBrace)
            {
                break;
            }
            if (kind == TokenKind.NewLine)
            {
                var goesOn = first > 1 && tokens[first - 2].Kind == TokenKind.Comma
                    && !(first < end && Keywords.OpensStatement(tokens[first].Keyword) && view.Source.PositionOf(tokens[first].Start).Column == 0)
                    // The caret at the left margin starts anew.
                    && !(first == end && view.Source.PositionOf(offset).Column == 0);
                if (!goesOn)
                {
                    break;
                }
            }
            first--;
        }
        return first;
    }

    private static IReadOnlyList<Token> HeaderAt(RigView view, int offset)
    {
        var tokens = view.Tree.Tokens;
        var lines = view.Tree.Outline.Lines;
        for (var i = 0; i < lines.Count; i++)
        {
            if (lines[i].Block is not { } block || tokens[block.Open].Start >= offset)
            {
                continue;
            }
            var end = block.Close >= 0 ? tokens[block.Close].Start
                : i + 1 < lines.Count ? StartOf(lines[i + 1]) - 1
                : int.MaxValue;
            if (offset <= end)
            {
                return [.. tokens.AsSpan(lines[i].Tokens.First, lines[i].Tokens.Count).ToArray().Where(t => t.Kind != TokenKind.NewLine)];
            }
        }
        return [];

        int StartOf(OutlineLine line) => line.Tokens.IsEmpty ? tokens[line.Block!.Open].Start : tokens[line.Tokens.First].Start;
    }
}
