using System.Text;
using RigLang.Text;

namespace RigLang.Syntax;

/// <summary>A line that does not follow the grammar: where, what was expected there, and what stands there.</summary>
public sealed record SyntaxFault(TextSpan Span, IReadOnlyList<string> Expected, Token? Found, OutlineFault? Outline);

/// <summary>
/// A file as read: every token, the lines and blocks they form, and what each line says. Nothing is left out:
/// <see cref="Print"/> gives back the text to the last space, whether or not it makes sense.
/// </summary>
public sealed record SyntaxTree(
    SourceText Source,
    Token[] Tokens,
    Outline Outline,
    IReadOnlyList<Statement> Statements,
    IReadOnlyList<SyntaxFault> Faults)
{
    /// <summary>The text, put together again from the tokens and the gaps before them.</summary>
    public string Print()
    {
        var text = new StringBuilder(Source.Length);
        var end = 0;
        foreach (var token in Tokens)
        {
            text.Append(Source.Content, end, token.Start - end);
            text.Append(Source.Content, token.Start, token.Length);
            end = token.End;
        }
        return text.Append(Source.Content, end, Source.Length - end).ToString();
    }

    /// <summary>The tokens that lie within a span.</summary>
    public ReadOnlySpan<Token> TokensIn(TextSpan span)
    {
        var first = FirstTokenFrom(span.Start);
        return Tokens.AsSpan(first, FirstTokenFrom(span.End) - first);
    }

    private int FirstTokenFrom(int offset)
    {
        var (low, high) = (0, Tokens.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (Tokens[middle].Start < offset)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }
        return low;
    }

    /// <summary>A statement with its block, from its first token to its closing brace.</summary>
    public TextSpan WholeSpan(Statement statement) =>
        TextSpan.Between(statement.Span.Start, BlockEnds.TryGetValue(statement.Span.Start, out var end) ? end : statement.Span.End);

    /// <summary>Where the block of each statement that has one ends, by where the statement starts.</summary>
    private Dictionary<int, int> BlockEnds => field ??= FindBlockEnds();

    private Dictionary<int, int> FindBlockEnds()
    {
        var ends = new Dictionary<int, int>();
        foreach (var line in Outline.Lines)
        {
            if (line.Block is not { } block)
            {
                continue;
            }
            var start = line.Tokens.IsEmpty ? Tokens[block.Open].Start : Tokens[line.Tokens.First].Start;
            ends[start] = block.Close >= 0 ? Tokens[block.Close].End
                : block.Lines.Count > 0 && !block.Lines[^1].Tokens.IsEmpty ? Tokens[block.Lines[^1].Tokens.End - 1].End
                : Tokens[block.Open].End;
        }
        return ends;
    }

    /// <summary>The <c>///</c> lines just above a statement, as the player wrote them; empty when there are none.</summary>
    public string DocumentationOf(Statement statement)
    {
        var lines = new List<string>();
        var (at, column) = Source.PositionOf(statement.Span.Start);
        if (!Source.Content.AsSpan(statement.Span.Start - column, column).Trim(Blanks).IsEmpty)
        {
            // Behind another statement on its line: what stands above belongs to that one.
            return "";
        }
        for (var line = at - 1; line >= 0; line--)
        {
            var text = Source.Content.AsSpan(Source.LineSpan(line).Start, Source.LineSpan(line).Length).Trim(Blanks);
            if (!text.StartsWith("///", StringComparison.Ordinal))
            {
                break;
            }
            lines.Add(text[3..].Trim().ToString());
        }
        lines.Reverse();
        return string.Join('\n', lines);
    }

    /// <summary>What the lexer takes for space; a byte order mark before the first comment is one.</summary>
    private const string Blanks = " \t\uFEFF\u00A0";
}
