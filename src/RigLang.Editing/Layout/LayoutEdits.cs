using RigLang.Findings;
using RigLang.Formatting;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>
/// Formatting as the smallest edits: layout changes what stands between tokens and nothing else, so each gap that changes is an edit of its
/// own, and a caret in a word stays in it.
/// </summary>
public static class LayoutEdits
{
    private const int Indent = 2;

    public static IReadOnlyList<TextEdit> Document(RigView view) => Of(view.Tree);

    /// <summary>Of the edits, those inside the lines that a span touches.</summary>
    public static IReadOnlyList<TextEdit> Range(RigView view, TextSpan span)
    {
        var first = view.Source.LineSpan(view.Source.PositionOf(span.Start).Line).Start;
        var last = view.Source.LineSpan(view.Source.PositionOf(span.End).Line).End;
        return [.. Of(view.Tree).Where(e => e.Span.Start >= first && e.Span.End <= last)];
    }

    /// <summary>
    /// After a line end: the line that was left is laid out, and the new one gets its indent. After a closing brace: the block is laid out.
    /// What is still being typed is left alone.
    /// </summary>
    public static IReadOnlyList<TextEdit> OnType(RigView view, int offset, string typed)
    {
        var (line, column) = view.Source.PositionOf(offset);
        if (typed == "}")
        {
            return view.StatementAt(Math.Max(0, offset - 1)) is { } block
                ? [.. Range(view, view.WholeSpan(block)).Where(e => e.Span.End <= offset)]
                : [];
        }
        if (line == 0)
        {
            return [];
        }
        var left = view.Source.LineSpan(line - 1);
        var edits = Of(view.Tree).Where(e => e.Span.Start >= left.Start && e.Span.End <= left.End).ToList();
        var wanted = IsInBlock(view, left.End) ? Indent : 0;
        var current = view.Source.LineSpan(line);
        var blanks = view.Source.Slice(current).Length - view.Source.Slice(current).TrimStart(' ', '\t').Length;
        if (column <= blanks && blanks != wanted)
        {
            edits.Add(new TextEdit(view.Source, new TextSpan(current.Start, blanks), new string(' ', wanted)));
        }
        return edits;
    }

    /// <summary>True between an opening brace and its partner, or behind one that has none yet.</summary>
    private static bool IsInBlock(RigView view, int offset)
    {
        var depth = 0;
        foreach (var token in view.Tree.Tokens)
        {
            if (token.Start >= offset)
            {
                break;
            }
            depth += token.Kind == TokenKind.OpenBrace ? 1 : token.Kind == TokenKind.CloseBrace && depth > 0 ? -1 : 0;
        }
        return depth > 0;
    }

    private static List<TextEdit> Of(SyntaxTree tree)
    {
        var source = tree.Source;
        var formatted = new SourceText(source.Path, Formatter.Format(tree));
        if (formatted.Content == source.Content)
        {
            return [];
        }
        var before = Marks(tree.Tokens);
        var after = Marks(Lexer.Lex(formatted));
        if (before.Count != after.Count)
        {
            return [new TextEdit(source, new TextSpan(0, source.Length), formatted.Content)];
        }
        var edits = new List<TextEdit>();
        var (end, formattedEnd) = (0, 0);
        for (var i = 0; i <= before.Count; i++)
        {
            var gap = TextSpan.Between(end, i < before.Count ? before[i].Start : source.Length);
            var wanted = TextSpan.Between(formattedEnd, i < after.Count ? after[i].Start : formatted.Length);
            if (!source.Content.AsSpan(gap.Start, gap.Length).SequenceEqual(formatted.Content.AsSpan(wanted.Start, wanted.Length)))
            {
                AddGap(source, gap, formatted.Slice(wanted), edits);
            }
            (end, formattedEnd) = i < before.Count ? (before[i].End, after[i].End) : (end, formattedEnd);
        }
        return edits;
    }

    /// <summary>A gap over several lines is edited line by line where it has as many lines as it should, so that a range of lines has its own edits.</summary>
    private static void AddGap(SourceText source, TextSpan gap, string wanted, List<TextEdit> edits)
    {
        var old = source.Slice(gap).Split('\n');
        var lines = wanted.Split('\n');
        if (old.Length != lines.Length)
        {
            edits.Add(new TextEdit(source, gap, wanted));
            return;
        }
        var start = gap.Start;
        for (var i = 0; i < old.Length; i++)
        {
            if (old[i] != lines[i])
            {
                edits.Add(new TextEdit(source, new TextSpan(start, old[i].Length), lines[i]));
            }
            start += old[i].Length + 1;
        }
    }

    private static List<Token> Marks(Token[] tokens) => [.. tokens.Where(t => t.Kind != TokenKind.NewLine)];
}
