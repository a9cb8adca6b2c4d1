using RigLang.Editing;

namespace RigLang.Tests.Editing;

/// <summary>What is suggested at the caret of a text.</summary>
internal static class Completed
{
    public static readonly EditorStyle Metres = new(Markdown: false, InFeet: false);
    public static readonly EditorStyle Feet = new(Markdown: false, InFeet: true);

    public static IReadOnlyList<Suggestion> At(string text, params string[] importable) => At(text, Metres, importable);

    public static IReadOnlyList<Suggestion> At(string text, EditorStyle style, params string[] importable)
    {
        var caret = Caret.In(text);
        return CompletionFinder.At(caret.View, caret.Offset, style, importable);
    }

    /// <summary>The labels in their order, snippets left out.</summary>
    public static string[] Labels(string text) => [.. At(text).Where(s => !s.IsSnippet).Select(s => s.Label)];

    public static Suggestion Find(string text, string label) => At(text).Single(s => s.Label == label && !s.IsSnippet);

    /// <summary>The text with a suggestion taken.</summary>
    public static string Taken(string text, string label)
    {
        var caret = Caret.In(text);
        var found = CompletionFinder.At(caret.View, caret.Offset, Metres, []).Single(s => s.Label == label && !s.IsSnippet);
        var content = caret.View.Source.Content;
        return content[..found.Replace.Start] + found.Insert + content[found.Replace.End..];
    }
}
