using System.Text;
using RigLang.Checks;
using RigLang.Findings;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>What the actions share: lines to put in, and the rig as it would be.</summary>
internal static class Rewriting
{
    public static TextEdit Insert(RigView view, int offset, string text) => new(view.Source, new TextSpan(offset, 0), text);

    public static string LineEnd(RigView view) => view.Source.LineEnd;

    public static TextEdit LineAfter(RigView view, int offset, string text) => SharedEdits.LineAfter(view.Source, offset, text);

    /// <summary>A statement of its own at the end of the file.</summary>
    public static TextEdit AtEnd(RigView view, string text)
    {
        var end = LineEnd(view);
        var content = view.Source.Content;
        var lead = content.Length == 0 ? "" : content[^1] is '\n' or '\r' ? end : end + end;
        return Insert(view, content.Length, lead + InLines(view, text) + end);
    }

    public static TextEdit? Import(RigView view, string path) => SharedEdits.Import(view.Rig, view.Source, path);

    /// <summary>The rig compiled with some edits of this file; the other files as they are.</summary>
    public static Compilation Trial(RigView view, IReadOnlyList<TextEdit> edits)
    {
        var files = view.Rig.Names.Files;
        return Compilation.Create(Changed(files[0].Source), path =>
        {
            foreach (var file in files)
            {
                if (file.Source.Path == path)
                {
                    return new OpenedFile(Changed(file.Source), null);
                }
            }
            return new OpenedFile(null, "there is no such file");
        });

        SourceText Changed(SourceText source) => source == view.Source ? new SourceText(source.Path, Apply(source, edits)) : source;
    }

    public static string Apply(SourceText source, IEnumerable<TextEdit> edits)
    {
        var text = new StringBuilder();
        var end = 0;
        foreach (var edit in edits.OrderBy(e => e.Span.Start))
        {
            text.Append(source.Content, end, edit.Span.Start - end).Append(edit.NewText);
            end = edit.Span.End;
        }
        return text.Append(source.Content, end, source.Length - end).ToString();
    }

    /// <summary>True when nothing is found in the second that is not found as often in the first.</summary>
    public static bool AddsNoFinding(Compilation before, Compilation after)
    {
        var known = before.Findings.GroupBy(f => f.Check.Name).ToDictionary(g => g.Key, g => g.Count(), StringComparer.Ordinal);
        return after.Findings.GroupBy(f => f.Check.Name).All(g => g.Count() <= known.GetValueOrDefault(g.Key));
    }

    /// <summary>The connection whose line a span touches, with what became of it.</summary>
    public static Wiring.Hookup? HookupAt(RigView view, TextSpan span)
    {
        foreach (var hookup in view.Rig.Wiring.Hookups)
        {
            var at = hookup.Connection.At;
            if (at.Source == view.Source && at.Span.Start <= span.End && span.Start <= at.Span.End)
            {
                return hookup;
            }
        }
        return null;
    }

    private static string InLines(RigView view, string text) => text.ReplaceLineEndings(LineEnd(view));
}
