using RigLang.Checks;
using RigLang.Findings;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Moves a gear into a file of its own, so that other rigs can import it; an import stands in its place.</summary>
internal static class GearExtraction
{
    public static IEnumerable<EditAction> In(RigView view, TextSpan span)
    {
        if (view.StatementAt(span.Start) is not GearStatement gear || span.Start > gear.Span.End || !IsClosed(view, gear))
        {
            yield break;
        }
        var whole = WithDocumentation(view, view.WholeSpan(gear));
        if (!StandsAlone(view, whole))
        {
            yield break;
        }
        var folder = view.Source.Path.LastIndexOf('/') is >= 0 and var slash ? view.Source.Path[..(slash + 1)] : "";
        var taken = view.Rig.Names.Files.Select(f => f.Source.Path).ToHashSet(StringComparer.Ordinal);
        var name = FixPlan.FreeName(FileName(gear.Name.Text), n => taken.Contains($"{folder}{n}.rig"));
        var edit = new TextEdit(view.Source, whole, $"import \"{name}.rig\"");
        yield return new EditAction(
            $"Move {gear.Name.Text} to {name}.rig", EditAction.Extract, false, null, [edit],
            ($"{folder}{name}.rig", view.Source.Slice(whole) + Rewriting.LineEnd(view)));
    }

    private static bool IsClosed(RigView view, GearStatement gear) => view.Tree.Outline.Lines.Any(line =>
        line.Block is { Close: >= 0 } && !line.Tokens.IsEmpty && view.Tree.Tokens[line.Tokens.First].Start == gear.Span.Start);

    /// <summary>False when something else stands before it on its line.</summary>
    private static bool StandsAlone(RigView view, TextSpan whole)
    {
        var line = view.Source.LineStart(view.Source.PositionOf(whole.Start).Line);
        return view.Source.Content.AsSpan(line, whole.Start - line).Trim(" \t\uFEFF\u00A0").IsEmpty;
    }

    private static TextSpan WithDocumentation(RigView view, TextSpan whole)
    {
        var start = whole.Start;
        for (var line = view.Source.PositionOf(start).Line - 1; line >= 0; line--)
        {
            var span = view.Source.LineSpan(line);
            var text = view.Source.Slice(span);
            if (!text.TrimStart().StartsWith("///", StringComparison.Ordinal))
            {
                break;
            }
            start = span.Start + text.Length - text.TrimStart().Length;
        }
        return TextSpan.Between(start, whole.End);
    }

    /// <summary>A name that every file system takes: <c>tern</c>, <c>tide-table</c>.</summary>
    private static string FileName(string gear)
    {
        var letters = new string([.. gear.Select(c => char.IsLetterOrDigit(c) || c == '_' ? char.ToLowerInvariant(c) : '-')]).Trim('-');
        return letters.Length > 0 ? letters : "gear";
    }
}
