using System.Globalization;
using System.Text;

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
            width = Math.Max(width, IsHidden(rune) ? 0 : WidthOf(rune));
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

    private static int WidthOf(Rune rune) => Rune.GetUnicodeCategory(rune) switch
    {
        UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark => 0,
        _ => IsWide(rune.Value) ? 2 : 1,
    };

    private static bool IsWide(int value)
    {
        if (value < Wide[0].First)
        {
            return false;
        }
        foreach (var (first, last) in Wide)
        {
            if (value <= last)
            {
                return value >= first;
            }
        }
        return false;
    }

    /// <summary>
    /// Characters that take two cells: W and F of the Unicode Standard, Annex 11 (East Asian Width), from memory,
    /// with neighbouring ranges joined where only unassigned characters lie between.
    /// </summary>
    private static readonly (int First, int Last)[] Wide =
    [
        (0x1100, 0x115F), (0x231A, 0x231B), (0x2329, 0x232A), (0x23E9, 0x23EC), (0x23F0, 0x23F0), (0x23F3, 0x23F3),
        (0x25FD, 0x25FE), (0x2614, 0x2615), (0x2648, 0x2653), (0x267F, 0x267F), (0x2693, 0x2693), (0x26A1, 0x26A1),
        (0x26AA, 0x26AB), (0x26BD, 0x26BE), (0x26C4, 0x26C5), (0x26CE, 0x26CE), (0x26D4, 0x26D4), (0x26EA, 0x26EA),
        (0x26F2, 0x26F3), (0x26F5, 0x26F5), (0x26FA, 0x26FA), (0x26FD, 0x26FD), (0x2705, 0x2705), (0x270A, 0x270B),
        (0x2728, 0x2728), (0x274C, 0x274C), (0x274E, 0x274E), (0x2753, 0x2755), (0x2757, 0x2757), (0x2795, 0x2797),
        (0x27B0, 0x27B0), (0x27BF, 0x27BF), (0x2B1B, 0x2B1C), (0x2B50, 0x2B50), (0x2B55, 0x2B55), (0x2E80, 0x303E),
        (0x3041, 0x4DBF), (0x4E00, 0xA4CF), (0xA960, 0xA97F), (0xAC00, 0xD7A3), (0xF900, 0xFAFF), (0xFE10, 0xFE19),
        (0xFE30, 0xFE6F), (0xFF01, 0xFF60), (0xFFE0, 0xFFE6), (0x16FE0, 0x18DFF), (0x1AFF0, 0x1B2FF), (0x1F004, 0x1F004),
        (0x1F0CF, 0x1F0CF), (0x1F18E, 0x1F18E), (0x1F191, 0x1F19A), (0x1F1E6, 0x1F1FF), (0x1F200, 0x1F320),
        (0x1F32D, 0x1F335), (0x1F337, 0x1F37C), (0x1F37E, 0x1F393), (0x1F3A0, 0x1F3CA), (0x1F3CF, 0x1F3D3),
        (0x1F3E0, 0x1F3F0), (0x1F3F4, 0x1F3F4), (0x1F3F8, 0x1F43E), (0x1F440, 0x1F440), (0x1F442, 0x1F4FC),
        (0x1F4FF, 0x1F53D), (0x1F54B, 0x1F54E), (0x1F550, 0x1F567), (0x1F57A, 0x1F57A), (0x1F595, 0x1F596),
        (0x1F5A4, 0x1F5A4), (0x1F5FB, 0x1F64F), (0x1F680, 0x1F6C5), (0x1F6CC, 0x1F6CC), (0x1F6D0, 0x1F6D2),
        (0x1F6D5, 0x1F6DF), (0x1F6EB, 0x1F6EC), (0x1F6F4, 0x1F6FC), (0x1F7E0, 0x1F7EB), (0x1F90C, 0x1F9FF),
        (0x1FA70, 0x1FAFF), (0x20000, 0x3FFFD),
    ];
}
