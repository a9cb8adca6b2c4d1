using System.Text;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>
/// One line of a file as shown under a finding, and where its underline goes. A long line is cut to a window around the
/// marked part, with an ellipsis at each cut; the work done depends on the window, not on the line.
/// </summary>
/// <param name="Line">1-based.</param>
/// <param name="MarkColumn">Cells before the underline.</param>
/// <param name="LastLine">1-based line on which the marked part ends.</param>
internal readonly record struct Excerpt(int Line, string Text, int MarkColumn, int MarkWidth, int LastLine)
{
    private const char Ellipsis = '…';

    public static Excerpt Of(SourceText source, TextSpan span, int maxCells)
    {
        var content = source.Content;
        var (line, _) = source.PositionOf(span.Start);
        var (lastLine, _) = source.PositionOf(Math.Max(span.Start, span.End - 1));
        var whole = source.LineSpan(line);
        var start = Math.Min(span.Start, whole.End);
        var end = Math.Clamp(span.End, start, whole.End);

        var near = Near(content, whole, start, maxCells);
        var characters = Characters(content, near);
        var (first, last) = Window(characters, start, maxCells);

        var text = new StringBuilder();
        var column = 0;
        var (markColumn, markEnd) = (-1, 0);
        if (first > 0 || near.Start > whole.Start)
        {
            text.Append(Ellipsis);
            column = 1;
        }
        for (var i = first; i < last; i++)
        {
            var (at, length, shown, width) = characters[i];
            if (markColumn < 0 && at + length > start)
            {
                markColumn = column;
            }
            column += width;
            if (at < end)
            {
                markEnd = column;
            }
            text.Append(shown);
        }
        var textEnd = column;
        if (last < characters.Count || near.End < whole.End)
        {
            text.Append(Ellipsis);
        }
        if (markColumn < 0)
        {
            markColumn = textEnd;
        }
        return new(line + 1, text.ToString(), markColumn, Math.Max(1, markEnd - markColumn), lastLine + 1);
    }

    /// <summary>As much of the line as could ever be shown, whole UTF-16 pairs.</summary>
    private static TextSpan Near(string content, TextSpan line, int markStart, int maxCells)
    {
        var start = Math.Max(line.Start, markStart - 2 * maxCells);
        var end = Math.Min(line.End, markStart + 4 * maxCells);
        if (start > line.Start && char.IsLowSurrogate(content[start]))
        {
            start--;
        }
        if (end < line.End && char.IsLowSurrogate(content[end]))
        {
            end++;
        }
        return TextSpan.Between(start, end);
    }

    private static List<(int At, int Length, string Shown, int Width)> Characters(string content, TextSpan near)
    {
        var characters = new List<(int, int, string, int)>(near.Length);
        var column = 0;
        for (var at = near.Start; at < near.End;)
        {
            var (length, shown, width) = Cells.Next(content.AsSpan(at, near.End - at), column);
            characters.Add((at, length, shown, width));
            column += width;
            at += length;
        }
        return characters;
    }

    private static (int First, int Last) Window(List<(int At, int Length, string Shown, int Width)> characters, int markStart, int maxCells)
    {
        var total = 0;
        var before = 0;
        foreach (var (at, length, _, width) in characters)
        {
            total += width;
            before += at + length <= markStart ? width : 0;
        }
        if (total <= maxCells)
        {
            return (0, characters.Count);
        }
        // A quarter of the window before the mark, the rest from the mark on; all of it if the line ends soon.
        var skip = Math.Max(0, Math.Min(before - maxCells / 4, total - maxCells));
        var first = 0;
        for (; skip > 0; first++)
        {
            skip -= characters[first].Width;
        }
        var last = first;
        for (var room = maxCells; last < characters.Count && characters[last].Width <= room; last++)
        {
            room -= characters[last].Width;
        }
        return (first, last);
    }
}
