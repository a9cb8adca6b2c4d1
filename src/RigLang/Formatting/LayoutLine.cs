using System.Text;

namespace RigLang.Formatting;

internal enum LineKind : byte
{
    /// <summary>A statement, or the first line of one.</summary>
    Statement,
    /// <summary>A further line of a statement that goes on after a comma.</summary>
    Continuation,
    Brace,
    Comment,
    /// <summary>Copied to the byte.</summary>
    Kept,
}

/// <summary>One column's text in a line, and how many spaces stand before it.</summary>
internal struct Cell(int column, string text)
{
    public readonly int Column = column;
    public string Text = text;
    public readonly int Width = DisplayWidth.Of(text);
    public int Gap = 1;
}

/// <summary>One line of the output.</summary>
internal sealed class LayoutLine(LineKind kind, int indent)
{
    public readonly LineKind Kind = kind;
    public readonly int Indent = indent;

    /// <summary>What the line says, in columns; a comment line has none.</summary>
    public Cell[] Cells = [];

    /// <summary>Which lines it shares its columns with.</summary>
    public Shape Shape;

    public string? Comment;

    /// <summary>Spaces between the code and the comment behind it.</summary>
    public int CommentGap = 2;

    public bool BlankBefore;

    /// <summary>Starts a statement with a block at the top level.</summary>
    public bool StartsBlock;

    /// <summary>Ends with the opening brace of a block.</summary>
    public bool Opens;

    /// <summary>Begins with the closing brace of a block.</summary>
    public bool Closes;

    /// <summary>Ends with the closing brace of a block.</summary>
    public bool EndsBlock;

    /// <summary>A comment kept where it is, as part of a block that never closes.</summary>
    public bool IsKeptComment;

    /// <summary>Part of a kept stretch of several lines.</summary>
    public bool IsPartOfKeptLines;

    public bool StartsWithMark => Kind == LineKind.Kept && Cells[0].Text.StartsWith('\uFEFF');

    /// <summary>Columns taken by the code, indent included.</summary>
    public int CodeWidth()
    {
        var width = Indent;
        foreach (var cell in Cells)
        {
            width += cell.Gap + cell.Width;
        }
        return width;
    }

    public void AppendTo(StringBuilder text)
    {
        text.Append(' ', Indent);
        foreach (var cell in Cells)
        {
            text.Append(' ', cell.Gap).Append(cell.Text);
        }
        if (Comment is not null)
        {
            text.Append(' ', Cells.Length == 0 ? 0 : CommentGap).Append(Comment);
        }
    }
}
