using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>
/// Groups the connections around the caret by what they carry, with a blank line between groups. The first kind stays first, and the
/// order inside a group stays; a comment goes with the line that it is on or above.
/// </summary>
internal static class ConnectionSorting
{
    public static IEnumerable<EditAction> In(RigView view, TextSpan span)
    {
        if (view.StatementAt(span.Start) is not ConnectStatement connect)
        {
            yield break;
        }
        var entries = Around(view, connect);
        var groups = entries.GroupBy(e => KindOf(view, e.Statement)).ToList();
        if (groups.Count < 2)
        {
            yield break;
        }
        var end = Rewriting.LineEnd(view);
        var sorted = string.Join(end + end, groups.Select(g => string.Join(end, g.Select(e => view.Source.Slice(e.Span)))));
        var whole = entries[0].Span.To(entries[^1].Span);
        yield return EditAction.Changing("Group these connections by signal", EditAction.Rewrite, new TextEdit(view.Source, whole, sorted));
    }

    private readonly record struct Entry(ConnectStatement Statement, TextSpan Span, int FirstLine, int LastLine);

    /// <summary>The connections in the lines that stand together with this one, without a blank line or another statement between.</summary>
    private static List<Entry> Around(RigView view, ConnectStatement connect)
    {
        var block = new List<Entry>();
        foreach (var statement in view.Tree.Statements.OfType<ConnectStatement>())
        {
            if (EntryOf(view, statement) is not { } entry)
            {
                continue;
            }
            if (block.Count > 0 && entry.FirstLine != block[^1].LastLine + 1)
            {
                if (block.Exists(Holds))
                {
                    break;
                }
                block.Clear();
            }
            block.Add(entry);
        }
        return block.Exists(Holds) ? block : [];

        bool Holds(Entry entry) => entry.Span.Start <= connect.Span.Start && connect.Span.End <= entry.Span.End;
    }

    /// <summary>The whole lines of a connection with the comment lines above it; null when something else stands on them.</summary>
    private static Entry? EntryOf(RigView view, ConnectStatement statement)
    {
        var source = view.Source;
        var first = source.PositionOf(statement.Span.Start).Line;
        var last = source.PositionOf(statement.Span.End).Line;
        var before = source.Content.AsSpan(source.LineStart(first), statement.Span.Start - source.LineStart(first));
        var behind = source.Content.AsSpan(statement.Span.End, source.LineSpan(last).End - statement.Span.End).Trim();
        if (!before.Trim(" \t").IsEmpty || !(behind.IsEmpty || behind.StartsWith("//", StringComparison.Ordinal)))
        {
            return null;
        }
        while (first > 0 && source.Slice(source.LineSpan(first - 1)).TrimStart().StartsWith("//", StringComparison.Ordinal))
        {
            first--;
        }
        return new Entry(statement, TextSpan.Between(source.LineStart(first), source.LineSpan(last).End), first, last);
    }

    private static string KindOf(RigView view, ConnectStatement statement) =>
        (view.Rig.Names.Connections.Find(c => ReferenceEquals(c.Statement, statement))?.Jacks is [var jack, ..] ? jack.Jack.Port.Signal?.Kind : null) switch
        {
            SignalKind.Audio or SignalKind.Insert => "audio",
            SignalKind.Midi => "midi",
            SignalKind.Usb => "usb",
            SignalKind.Pulse or SignalKind.DinSync => "sync",
            SignalKind.Control => "control",
            SignalKind.Dc or SignalKind.Ac or SignalKind.Mains => "power",
            _ => "",
        };
}
