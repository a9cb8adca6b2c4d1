using RigLang.Text;

namespace RigLang.Editing;

public enum SuggestionKind
{
    Keyword,
    Device,
    Port,
    Gear,
    Lead,
    Part,
    Track,
    Channel,
    Unit,
    File,
    /// <summary>The name that an import has in this file.</summary>
    Import,
    Snippet,
    Word,
    Colour,
}

/// <summary>One thing that could be typed at the caret.</summary>
/// <param name="Replace">The word around the caret; empty where none is begun.</param>
/// <param name="IsSnippet"><see cref="Insert"/> has placeholders as in LSP 3.17: <c>$1</c>, <c>${2:name}</c>.</param>
/// <param name="SortKey">Compared letter by letter, gives the order that is meant.</param>
/// <param name="Key">What <see cref="CompletionFinder.Documentation"/> takes; null when there is nothing more to say.</param>
public sealed record Suggestion(
    string Label, SuggestionKind Kind, string Detail, TextSpan Replace, string Insert, bool IsSnippet, string SortKey, string? Key);
