using RigLang.Text;

namespace RigLang.Editing;

/// <summary>What grows around a caret: word, path or list item, line, block, file.</summary>
public static class Selections
{
    /// <summary>Spans around an offset, each inside the next.</summary>
    public static IReadOnlyList<TextSpan> Around(RigView view, int offset)
    {
        var spans = new List<TextSpan>();
        var tokens = view.Tree.Tokens;
        var at = Array.FindIndex(tokens, t => t.Start <= offset && offset <= t.End && t.Kind != Syntax.TokenKind.NewLine);
        if (at >= 0)
        {
            Grow(tokens[at].Span);
            Grow(PathAround(tokens, at));
        }
        var (line, _) = view.Source.PositionOf(offset);
        var whole = view.Source.LineSpan(line);
        var text = view.Source.Slice(whole);
        Grow(new TextSpan(whole.Start + text.Length - text.TrimStart().Length, text.Trim().Length));
        Grow(whole);
        if (view.StatementAt(offset) is { } statement)
        {
            Grow(view.WholeSpan(statement));
        }
        Grow(new TextSpan(0, view.Source.Length));
        return spans;

        void Grow(TextSpan span)
        {
            var last = spans.Count > 0 ? spans[^1] : new TextSpan(offset, 0);
            if (span.Start <= last.Start && span.End >= last.End && (spans.Count == 0 || span != last))
            {
                spans.Add(span);
            }
        }
    }

    /// <summary>Names and dots that stand together without a space: <c>desk.ch34.left</c>.</summary>
    private static TextSpan PathAround(Syntax.Token[] tokens, int at)
    {
        var (first, last) = (at, at);
        while (first > 0 && tokens[first - 1].End == tokens[first].Start && IsOfPath(tokens[first - 1]))
        {
            first--;
        }
        while (last + 1 < tokens.Length && tokens[last + 1].Start == tokens[last].End && IsOfPath(tokens[last + 1]))
        {
            last++;
        }
        return tokens[first].Span.To(tokens[last].Span);
    }

    private static bool IsOfPath(Syntax.Token token) => token.IsName || token.Kind is Syntax.TokenKind.Dot or Syntax.TokenKind.DotDot;
}
