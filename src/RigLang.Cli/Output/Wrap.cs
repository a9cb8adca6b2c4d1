namespace RigLang.Cli.Output;

/// <summary>Prose broken at spaces to fit a width in cells. A word that is too long for any line is broken too.</summary>
internal static class Wrap
{
    /// <summary>Cells of a line on a sheet of paper, and on the terminal that most have.</summary>
    public const int Sheet = 80;

    private static readonly char[] Spaces = [' ', '\n', '\r', '\t'];

    /// <summary>Writes prose within a sheet; every line begins with the indent, the first with something else where it is given.</summary>
    public static void Write(TextWriter output, string prose, string indent = "", string? first = null)
    {
        foreach (var line in Lines(prose, Sheet - indent.Length))
        {
            output.WriteLine((first ?? indent) + line);
            first = indent;
        }
    }

    public static IEnumerable<string> Lines(string prose, int width)
    {
        var line = "";
        var used = 0;
        foreach (var word in prose.Split(Spaces, StringSplitOptions.RemoveEmptyEntries))
        {
            foreach (var piece in Pieces(Cells.Safe(word), width))
            {
                var cells = Cells.WidthOf(piece);
                if (used > 0 && used + 1 + cells > width)
                {
                    yield return line;
                    (line, used) = ("", 0);
                }
                (line, used) = used == 0 ? (piece, cells) : ($"{line} {piece}", used + 1 + cells);
            }
        }
        if (used > 0)
        {
            yield return line;
        }
    }

    private static IEnumerable<string> Pieces(string word, int width)
    {
        var start = 0;
        var column = 0;
        for (var at = 0; word.Length > width && at < word.Length;)
        {
            var (length, _, cells) = Cells.Next(word.AsSpan(at), column);
            if (column + cells > width && at > start)
            {
                yield return word[start..at];
                (start, column) = (at, 0);
            }
            column += cells;
            at += length;
        }
        yield return word[start..];
    }
}
