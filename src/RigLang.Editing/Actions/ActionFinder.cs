using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>What can be changed where the caret is: fixes of findings first, then other changes.</summary>
public static class ActionFinder
{
    /// <param name="isPassing">The caret only comes by, nobody asked: what takes compiling the changed rig is left out.</param>
    public static IReadOnlyList<EditAction> In(RigView view, TextSpan span, bool isPassing = false)
    {
        // The library is not the player's to change.
        if (Symbols.SharedLibrary.IsShared(view.Source.Path))
        {
            return [];
        }
        var findings = view.Compilation.Findings
            .Where(f => f.Location.Source == view.Source && f.Location.Span.Start <= span.End && span.Start <= f.Location.Span.End).ToList();
        return
        [
            .. FindingFixes.In(findings),
            .. AcceptLines.In(view, findings),
            .. ChannelMoves.In(view, span, findings),
            .. findings.Count == 0 && isPassing ? [] : LeadsThatFit.In(view, span, findings),
            .. GearStubs.In(view, findings),
            .. isPassing ? [] : Isolators.In(view, span),
            .. isPassing ? [] : RouteExpectations.In(view, span),
            .. GearExtraction.In(view, span),
            .. ConnectionSorting.In(view, span),
        ];
    }

    /// <summary>All safe fixes of the file. Of two that want the same place the first is taken; running it again gives the other.</summary>
    public static IReadOnlyList<TextEdit> FixAll(RigView view)
    {
        var taken = new List<TextEdit>();
        foreach (var fix in view.Compilation.Findings.SelectMany(f => f.Fixes).Where(f => f.IsSafe && f.Edits.All(e => e.Source == view.Source)))
        {
            if (!fix.Edits.Any(edit => taken.Exists(other => Overlap(edit, other))))
            {
                taken.AddRange(fix.Edits);
            }
        }
        return [.. taken.OrderBy(e => e.Span.Start)];
    }

    /// <summary>Two at one place are in each other's way only when they say the same: two imports at the top are both wanted.</summary>
    private static bool Overlap(TextEdit a, TextEdit b) =>
        a == b || (a.Span.Start < b.Span.End && b.Span.Start < a.Span.End) || (a.Span.Start == b.Span.Start && (a.Span.Length > 0 || b.Span.Length > 0));
}
