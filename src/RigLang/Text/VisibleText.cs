using System.Buffers;
using System.Globalization;
using System.Text;

namespace RigLang.Text;

/// <summary>
/// Signs that would move the cursor, hide or reorder what stands around them, made visible. A rig may come from a stranger, and what is
/// told of it must show what is there.
/// </summary>
public static class VisibleText
{
    private const int Joiner = 0x200D;

    /// <param name="text">Any text.</param>
    /// <param name="keepLines">Whether it may have several lines; otherwise their ends are shown too.</param>
    public static string Of(string text, bool keepLines = false)
    {
        if (!text.AsSpan().ContainsAnyExceptInRange(' ', '~'))
        {
            return text;
        }
        var shown = new StringBuilder(text.Length + 8);
        for (var rest = text.AsSpan(); rest.Length > 0;)
        {
            var length = 1;
            if (rest[0] == '\t')
            {
                shown.Append(' ');
            }
            else if (rest[0] == '\n' && keepLines)
            {
                shown.Append('\n');
            }
            else if (First(rest) is { } first)
            {
                shown.Append(first.Shown);
                length = first.Length;
            }
            else
            {
                length = StringInfo.GetNextTextElementLength(rest);
                AppendElement(shown, rest[..length]);
            }
            rest = rest[length..];
        }
        return shown.ToString();
    }

    /// <summary>What stands for the first sign of a text: null when it is shown as it is.</summary>
    /// <returns>Its length in UTF-16 units, and what to show.</returns>
    public static (int Length, string Shown)? First(ReadOnlySpan<char> text)
    {
        if (Rune.DecodeFromUtf16(text, out var rune, out var length) != OperationStatus.Done)
        {
            return (1, $"<U+{(int)text[0]:X4}>");
        }
        return rune.Value < 0x20 ? (1, ((char)(0x2400 + rune.Value)).ToString()) // The standard's own pictures of the control characters.
            : rune.Value == 0x7F ? (1, "\u2421")
            : IsHidden(rune) ? (length, Name(rune))
            : null;
    }

    /// <summary>One user-perceived character. Inside one made of several parts a joiner is in its place; other hidden signs are not.</summary>
    public static void AppendElement(StringBuilder shown, ReadOnlySpan<char> element)
    {
        foreach (var rune in element.EnumerateRunes())
        {
            shown.Append(IsHidden(rune) && rune.Value != Joiner ? Name(rune) : rune.ToString());
        }
    }

    /// <summary>Controls, separators, direction marks and other signs without a shape. Variation selectors are marks, not these.</summary>
    public static bool IsHidden(Rune rune) => Rune.GetUnicodeCategory(rune)
        is UnicodeCategory.Control or UnicodeCategory.Format
        or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator;

    private static string Name(Rune rune) => $"<U+{rune.Value:X4}>";
}
