namespace RigLang.Formatting;

/// <summary>
/// Settles what the text alone does not say: an empty block closes on its own line, and a block statement has one blank
/// line before and after it. Comments directly above a statement belong to it and are not torn off.
/// </summary>
internal static class BlankLines
{
    public static void Settle(List<LayoutLine> lines)
    {
        CloseEmptyBlocks(lines);
        for (var i = 0; i < lines.Count; i++)
        {
            if (lines[i].StartsBlock && StartWithComments(lines, i) is var start && !(start > 0 && lines[start - 1].IsKeptComment))
            {
                SetApart(lines, start);
            }
            if (lines[i].EndsBlock)
            {
                SetApart(lines, i + 1);
            }
        }
    }

    private static void SetApart(List<LayoutLine> lines, int at)
    {
        if (at > 0 && at < lines.Count)
        {
            lines[at].BlankBefore = true;
        }
    }

    private static int StartWithComments(List<LayoutLine> lines, int statement)
    {
        var start = statement;
        while (start > 0 && !lines[start].BlankBefore && lines[start - 1].Kind == LineKind.Comment && lines[start - 1].Indent == 0)
        {
            start--;
        }
        return start;
    }

    private static void CloseEmptyBlocks(List<LayoutLine> lines)
    {
        var kept = 0;
        for (var i = 0; i < lines.Count; i++)
        {
            var line = lines[i];
            if (line.Kind == LineKind.Brace
                && kept > 0
                && lines[kept - 1] is { Opens: true, Comment: null, Kind: LineKind.Statement or LineKind.Continuation } header)
            {
                header.Cells[^1] = new Cell(header.Cells[^1].Column, header.Cells[^1].Text + " }") { Gap = header.Cells[^1].Gap };
                header.Comment = line.Comment;
                header.Opens = false;
                header.EndsBlock = true;
                continue;
            }
            lines[kept++] = line;
        }
        lines.RemoveRange(kept, lines.Count - kept);
    }
}
