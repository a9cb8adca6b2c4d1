using System.Globalization;
using System.Text;
using RigLang.Formatting;

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
        if (Visible(text) is { } visible)
        {
            return visible;
        }
        var length = StringInfo.GetNextTextElementLength(text);
        var shown = new StringBuilder(length);
        var width = 0;
        foreach (var rune in text[..length].EnumerateRunes())
        {
            // Inside a character made of several parts a joiner is in its place; other hidden signs are not.
            shown.Append(IsHidden(rune) && rune.Value is not 0x200D ? Name(rune) : rune.ToString());
            width = Math.Max(width, IsHidden(rune) ? 0 : DisplayWidth.Of(rune));
        }
        var text2 = shown.ToString();
        return text2.Length == length
            ? (length, text2, Math.Max(width, text[..length].Contains('\uFE0F') ? 2 : 1))
            : (length, text2, text2.Length);
    }

    /// <summary>A whole text on one line, safe to print.</summary>
    public static string Safe(string text)
    {
        if (IsPlain(text))
        {
            return text;
        }
        var safe = new StringBuilder(text.Length + 8);
        for (var rest = text.AsSpan(); rest.Length > 0;)
        {
            var (length, shown, _) = Next(rest, 0);
            safe.Append(rest[0] == '\t' ? " " : shown);
            rest = rest[length..];
        }
        return safe.ToString();
    }

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

    private static (int, string, int)? Visible(ReadOnlySpan<char> text)
    {
        if (Rune.DecodeFromUtf16(text, out var rune, out var length) != System.Buffers.OperationStatus.Done)
        {
            var name = $"<U+{(int)text[0]:X4}>";
            return (1, name, name.Length);
        }
        if (rune.Value < 0x20)
        {
            // The standard's own pictures of the control characters: U+2400 and on.
            return (1, ((char)(0x2400 + rune.Value)).ToString(), 1);
        }
        if (rune.Value == 0x7F)
        {
            return (1, "\u2421", 1);
        }
        if (IsHidden(rune))
        {
            var name = Name(rune);
            return (length, name, name.Length);
        }
        return null;
    }

    private static string Name(Rune rune) => $"<U+{rune.Value:X4}>";

    /// <summary>Controls, separators, direction marks and other signs without a shape. Variation selectors are marks, not these.</summary>
    private static bool IsHidden(Rune rune) => Rune.GetUnicodeCategory(rune)
        is UnicodeCategory.Control or UnicodeCategory.Format
        or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;
}
