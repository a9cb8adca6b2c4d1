using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>
/// The line that a caret is in, as tokens: whole or half-typed. Empty where the caret stands on a line with nothing on it yet.
/// </summary>
/// <param name="Block">The keyword of the statement whose block the line is in; none outside of blocks.</param>
/// <param name="Tokens">Without line ends.</param>
internal sealed record TypedLine(Keyword Block, IReadOnlyList<Token> Tokens)
{
    public static TypedLine At(RigView view, int offset)
    {
        var tokens = view.Tree.Tokens;
        var top = LastFrom(view.Tree.Outline.Lines, tokens, offset);
        if (top is null)
        {
            return new TypedLine(Keyword.None, []);
        }
        if (top.Block is { } block && offset > tokens[block.Open].Start)
        {
            if (block.Close >= 0 && offset > tokens[block.Close].Start)
            {
                return new TypedLine(Keyword.None, []);
            }
            var opener = top.Tokens.IsEmpty ? Keyword.None : tokens[top.Tokens.First].Keyword;
            return new TypedLine(opener, TokensOf(view, LastFrom(block.Lines, tokens, offset), offset));
        }
        return new TypedLine(Keyword.None, TokensOf(view, top, offset));
    }

    private static OutlineLine? LastFrom(IReadOnlyList<OutlineLine> lines, Token[] tokens, int offset)
    {
        var (low, high) = (0, lines.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = StartOf(lines[middle], tokens) <= offset ? (middle + 1, high) : (low, middle);
        }
        return low == 0 ? null : lines[low - 1];
    }

    private static int StartOf(OutlineLine line, Token[] tokens) =>
        !line.Tokens.IsEmpty ? tokens[line.Tokens.First].Start : line.Block is { } block ? tokens[block.Open].Start : 0;

    private static IReadOnlyList<Token> TokensOf(RigView view, OutlineLine? line, int offset)
    {
        if (line is null || line.Tokens.IsEmpty)
        {
            return [];
        }
        var all = view.Tree.Tokens.AsSpan(line.Tokens.First, line.Tokens.Count);
        if (!IsOn(view, all[^1], offset))
        {
            return [];
        }
        var kept = new List<Token>(all.Length);
        foreach (var token in all)
        {
            if (token.Kind != TokenKind.NewLine)
            {
                kept.Add(token);
            }
        }
        return kept;
    }

    /// <summary>Whether the caret is still on the line: on its last text line, before any comment, or behind a comma that goes on.</summary>
    private static bool IsOn(RigView view, Token last, int offset)
    {
        if (offset <= last.End)
        {
            return true;
        }
        var between = view.Source.Content.AsSpan(last.End, Math.Min(offset, view.Source.Length) - last.End);
        if (between.Contains("//", StringComparison.Ordinal))
        {
            return false;
        }
        var ends = between.Count('\n') + (between.Contains('\n') ? 0 : between.Count('\r'));
        return ends == 0 || (ends == 1 && last.Kind == TokenKind.Comma);
    }
}
