using System.Globalization;
using System.Text;
using RigLang.Formatting;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>
/// Text as a terminal lays it out: how many cells a piece takes, and signs that would move the cursor, hide or
/// reorder text made visible instead of sent raw.
/// </summary>
internal static class Cells
{
    private const int TabStop = 4;

    /// <summary>The first user-perceived character of <paramref name="text"/>: its length in UTF-16 units, what to show, its cells.</summary>
    public static (int Length, string Shown, int Width) Next(ReadOnlySpan<char> text, int column)
    {
        var first = text[0];
        if (first is >= ' ' and <= '~' && (text.Length == 1 || text[1] <= '~'))
        {
            return (1, Ascii(first), 1);
        }
        if (first == '\t')
        {
            var cells = TabStop - column % TabStop;
            return (1, new string(' ', cells), cells);
        }
        if (VisibleText.First(text) is { } visible)
        {
            return (visible.Length, visible.Shown, visible.Shown.Length);
        }
        var length = StringInfo.GetNextTextElementLength(text);
        var shown = new StringBuilder(length);
        var width = 0;
        VisibleText.AppendElement(shown, text[..length]);
        foreach (var rune in text[..length].EnumerateRunes())
        {
            width = Math.Max(width, VisibleText.IsHidden(rune) ? 0 : DisplayWidth.Of(rune));
        }
        var text2 = shown.ToString();
        return text2.Length == length
            ? (length, text2, Math.Max(width, text[..length].Contains('\uFE0F') ? 2 : 1))
            : (length, text2, text2.Length);
    }

    /// <summary>A whole text on one line, safe to print.</summary>
    public static string Safe(string text) => VisibleText.Of(text);

    public static int WidthOf(string text)
    {
        if (IsPlain(text))
        {
            return text.Length;
        }
        var cells = 0;
        for (var rest = text.AsSpan(); rest.Length > 0;)
        {
            var (length, _, width) = Next(rest, cells);
            cells += width;
            rest = rest[length..];
        }
        return cells;
    }

    private static bool IsPlain(string text) => !text.AsSpan().ContainsAnyExceptInRange(' ', '~');

    private static readonly string[] AsciiStrings = new string['~' + 1];

    private static string Ascii(char c) => AsciiStrings[c] ??= c.ToString();
}
