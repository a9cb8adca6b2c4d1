using System.Globalization;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Checks.Language;

/// <summary>A jack size in fractions of an inch, as players write it: <c>1/4 inch</c>, <c>trs 1/4"</c>, <c>jack 1/8 inch</c>.</summary>
/// <param name="Place">The words to replace: the fraction, its unit, and the word for the jack beside it.</param>
internal sealed record Inches(string Written, string Size, Location Place, IReadOnlyList<string> Texts)
{
    /// <summary>What stands around the stroke at an offset; null when it is no such size.</summary>
    public static Inches? At(SourceText source, int stroke)
    {
        var text = source.Content;
        if (text[stroke] != '/')
        {
            return null;
        }
        var start = stroke;
        while (start > 0 && char.IsAsciiDigit(text[start - 1]))
        {
            start--;
        }
        var end = stroke + 1;
        while (end < text.Length && char.IsAsciiDigit(text[end]))
        {
            end++;
        }
        if (!int.TryParse(text.AsSpan(start, stroke - start), CultureInfo.InvariantCulture, out var part)
            || !int.TryParse(text.AsSpan(stroke + 1, end - stroke - 1), CultureInfo.InvariantCulture, out var whole) || whole == 0)
        {
            return null;
        }
        var unit = end;
        while (unit < text.Length && text[unit] == ' ')
        {
            unit++;
        }
        var rest = text.AsSpan(unit);
        var length = rest.StartsWith("inch") ? 4 : rest.StartsWith("in") && !(rest.Length > 2 && char.IsLetter(rest[2])) ? 2 : rest.StartsWith("\"") ? 1 : 0;
        if (LooseSize(25.4 * part / whole) is not { } size)
        {
            return null;
        }
        end = length == 0 ? end : unit + length;
        var (before, word) = WordBefore(text, start);
        var (after, next) = WordAfter(text, end);
        var kind = word is "ts" or "trs" or "trrs" ? word : next is "ts" or "trs" or "trrs" ? next : "";
        var from = word is "ts" or "trs" or "trrs" or "jack" ? before : start;
        var to = next is "ts" or "trs" or "trrs" or "jack" ? after : end;
        IReadOnlyList<string> texts = kind.Length > 0 ? [$"{kind} {size} mm"] : [$"ts {size} mm", $"trs {size} mm"];
        return new Inches(text[start..end], size, new Location(source, TextSpan.Between(from, to)), texts);
    }

    private static string? LooseSize(double millimetres) => millimetres switch
    {
        >= 6 and <= 6.6 => "6.35",
        >= 3.1 and <= 3.6 => "3.5",
        >= 2.3 and <= 2.6 => "2.5",
        _ => null,
    };

    private static (int Start, string Word) WordBefore(string text, int end)
    {
        var last = end;
        while (last > 0 && text[last - 1] == ' ')
        {
            last--;
        }
        var start = last;
        while (start > 0 && char.IsAsciiLetter(text[start - 1]))
        {
            start--;
        }
        return (start, text[start..last]);
    }

    private static (int End, string Word) WordAfter(string text, int start)
    {
        while (start < text.Length && text[start] == ' ')
        {
            start++;
        }
        var end = start;
        while (end < text.Length && char.IsAsciiLetter(text[end]))
        {
            end++;
        }
        return (end, text[start..end]);
    }
}
