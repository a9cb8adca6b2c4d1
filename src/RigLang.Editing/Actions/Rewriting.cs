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

    /// <summary>The line end that the file uses.</summary>
    public static string LineEnd(RigView view) =>
        view.Source.LineCount > 1 && view.Source.Content[view.Source.LineSpan(0).End..view.Source.LineStart(1)] is { Length: > 0 } end ? end : "\n";

    /// <summary>A statement of its own on the lines behind an offset, whatever else stands on its line.</summary>
    public static TextEdit LineAfter(RigView view, int offset, string text)
    {
        var end = view.Source.LineSpan(view.Source.PositionOf(offset).Line).End;
        return Insert(view, end, LineEnd(view) + InLines(view, text));
    }

    /// <summary>A statement of its own at the end of the file.</summary>
    public static TextEdit AtEnd(RigView view, string text)
    {
        var end = LineEnd(view);
        var content = view.Source.Content;
        var lead = content.Length == 0 ? "" : content[^1] is '\n' or '\r' ? end : end + end;
        return Insert(view, content.Length, lead + InLines(view, text) + end);
    }

    /// <summary>The line that imports a file, at the top and behind a byte order mark; null when the file is imported already.</summary>
    public static TextEdit? Import(RigView view, string path) =>
        view.Rig.Names.Files.Any(f => f.Source.Path == path)
            ? null
            : Insert(view, view.Source.Content.StartsWith('\uFEFF') ? 1 : 0, $"import \"{path}\"{LineEnd(view)}");

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

    /// <summary>A name that no device has yet: <c>isolator</c>, <c>isolator2</c>.</summary>
    public static string FreeName(string name, Func<string, bool> isTaken)
    {
        var free = name;
        for (var i = 2; isTaken(free); i++)
        {
            free = $"{name}{i}";
        }
        return free;
    }

    private static string InLines(RigView view, string text) => text.ReplaceLineEndings(LineEnd(view));
}
