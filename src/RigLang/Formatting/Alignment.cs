namespace RigLang.Formatting;

/// <summary>
/// Puts the columns of neighbouring lines, and the comments behind them, under each other. A column starts where the
/// longest of its lines allows, lines much longer than most left out: those just go on after one space. "Much longer"
/// is measured from the median, so one long line, or a few, never decide for all.
/// </summary>
internal static class Alignment
{
    /// <summary>How far beyond the median line a column may be pushed.</summary>
    private const int Slack = 16;

    /// <summary>The same for the description of a port, long for power and short for MIDI as a rule, and for comments.</summary>
    private const int WideSlack = 32;

    public static void AlignColumns(List<LayoutLine> lines)
    {
        var group = new List<LayoutLine>();
        foreach (var line in lines)
        {
            if (!line.BlankBefore && StandsBetweenColumns(line))
            {
                continue;
            }
            if (line.BlankBefore || line.Shape == Shape.None || (group.Count > 0 && line.Shape != group[0].Shape))
            {
                Align(group);
                group.Clear();
            }
            if (line.Shape != Shape.None)
            {
                group.Add(line);
            }
        }
        Align(group);
    }

    public static void AlignComments(List<LayoutLine> lines)
    {
        var run = new List<LayoutLine>();
        foreach (var line in lines)
        {
            var isBehindCode = line.Comment is not null && line.Kind != LineKind.Comment;
            if (!isBehindCode || line.BlankBefore || line.Closes || (run.Count > 0 && run[^1].Opens))
            {
                AlignRun(run);
                run.Clear();
            }
            if (isBehindCode)
            {
                run.Add(line);
            }
        }
        AlignRun(run);
    }

    /// <summary>A comment, a half-typed line or the rest of a long one does not tear the columns around it apart.</summary>
    private static bool StandsBetweenColumns(LayoutLine line) => line.Kind switch
    {
        LineKind.Comment or LineKind.Continuation => true,
        LineKind.Kept => !line.Opens && !line.Closes && !line.EndsBlock && !line.IsPartOfKeptLines,
        _ => false,
    };

    private static void Align(List<LayoutLine> group)
    {
        if (group.Count < 2)
        {
            return;
        }
        if (group[0].Shape == Shape.Stock)
        {
            AlignCountsToTheRight(group);
        }
        var columns = group.Max(line => line.Cells[^1].Column) + 1;
        var next = new int[group.Count];
        var ends = new int[group.Count];
        var found = new List<int>(group.Count);
        for (var i = 0; i < group.Count; i++)
        {
            ends[i] = group[i].Cells[0].Gap + group[i].Cells[0].Width;
            next[i] = 1;
        }
        for (var column = 1; column < columns; column++)
        {
            found.Clear();
            for (var i = 0; i < group.Count; i++)
            {
                if (HasColumn(i))
                {
                    found.Add(ends[i] + 1);
                }
            }
            var start = CommonStart(found, group[0].Shape == Shape.Port && column == Columns.PortConnector ? WideSlack : Slack);
            for (var i = 0; i < group.Count; i++)
            {
                if (HasColumn(i))
                {
                    ref var cell = ref group[i].Cells[next[i]++];
                    cell.Gap = Math.Max(1, start - ends[i]);
                    ends[i] += cell.Gap + cell.Width;
                }
            }

            bool HasColumn(int i) => next[i] < group[i].Cells.Length && group[i].Cells[next[i]].Column == column;
        }
    }

    private static void AlignCountsToTheRight(List<LayoutLine> group)
    {
        var width = CommonStart([.. group.Select(line => line.Cells[0].Width)], Slack);
        foreach (var line in group)
        {
            line.Cells[0].Gap = Math.Max(0, width - line.Cells[0].Width);
        }
    }

    private static void AlignRun(List<LayoutLine> run)
    {
        if (run.Count == 0)
        {
            return;
        }
        var widths = run.ConvertAll(line => line.CodeWidth() + 2);
        var start = CommonStart([.. widths], WideSlack);
        for (var i = 0; i < run.Count; i++)
        {
            run[i].CommentGap = Math.Max(2, start - widths[i] + 2);
        }
    }

    /// <summary>The largest of the starts that is within the slack of their median. Sorts the list.</summary>
    private static int CommonStart(List<int> starts, int slack)
    {
        if (starts.Count == 0)
        {
            return 0;
        }
        starts.Sort();
        var limit = starts[(starts.Count - 1) / 2] + slack;
        var last = starts.Count - 1;
        while (starts[last] > limit)
        {
            last--;
        }
        return starts[last];
    }
}
