using RigLang.Editing;
using RigLang.Findings;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>What can be done at the caret of a text, and the text afterwards.</summary>
internal static class Acted
{
    public static IReadOnlyList<EditAction> At(string text)
    {
        var caret = Caret.In(text);
        return ActionFinder.In(caret.View, new TextSpan(caret.Offset, 0));
    }

    public static string[] Titles(string text) => [.. At(text).Select(a => a.Title)];

    /// <summary>The text after the action whose title starts so. It can be read, and what the action mends is gone.</summary>
    public static string After(string text, string title)
    {
        var caret = Caret.In(text);
        var action = ActionFinder.In(caret.View, new TextSpan(caret.Offset, 0)).Single(a => a.Title.StartsWith(title, StringComparison.Ordinal));
        var after = Apply(caret.View.Source, action.Edits);
        var compiled = action.NewFile is { } file ? Rigs.Compile(after, file) : Rigs.Compile(after);
        Assert.DoesNotContain("syntax-error", compiled.Names());
        if (action.Mends is { } mended)
        {
            Assert.True(Count(compiled, mended.Check) < Count(caret.View.Compilation, mended.Check), $"{action.Title} leaves: {mended.What}\n{after}\n{compiled.Told()}");
        }
        return after;
    }

    public static string Apply(SourceText source, IEnumerable<TextEdit> edits)
    {
        var text = source.Content;
        // From the end, so that places stay right; of two at one place the later is put in first.
        foreach (var edit in edits.OrderBy(e => e.Span.Start).ThenBy(e => e.Span.End).Reverse())
        {
            text = text[..edit.Span.Start] + edit.NewText + text[edit.Span.End..];
        }
        return text;
    }

    private static int Count(Compilation compilation, Check check) => compilation.Findings.Count(f => f.Check.Name == check.Name);
}
