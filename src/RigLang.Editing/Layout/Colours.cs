using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>A colour word of a cable. Red, green and blue from 0 to 1.</summary>
public sealed record CableColour(TextSpan Span, string Word, double Red, double Green, double Blue);

/// <summary>The colours of cables, for an editor to show beside their words.</summary>
public static class Colours
{
    /// <summary>
    /// How a screen shows each word. The words are those of IEC 60757; the values are the CSS colours of the same or the nearest name
    /// (CSS Color Module Level 4), where violet is blueviolet so that it stands apart from pink.
    /// </summary>
    private static readonly Dictionary<string, int> Values = new(StringComparer.Ordinal)
    {
        ["black"] = 0x000000,
        ["brown"] = 0xA52A2A,
        ["red"] = 0xFF0000,
        ["orange"] = 0xFFA500,
        ["yellow"] = 0xFFFF00,
        ["green"] = 0x008000,
        ["blue"] = 0x0000FF,
        ["violet"] = 0x8A2BE2,
        ["grey"] = 0x808080,
        ["white"] = 0xFFFFFF,
        ["pink"] = 0xFFC0CB,
        ["gold"] = 0xFFD700,
        ["turquoise"] = 0x40E0D0,
        ["silver"] = 0xC0C0C0,
    };

    public static IReadOnlyCollection<string> Words => Values.Keys;

    public static IReadOnlyList<CableColour> In(RigView view)
    {
        var names = view.Tree.Statements.SelectMany(s => s switch
        {
            ConnectStatement connect => connect.Colours,
            StockStatement => s.Body.OfType<StockLine>().SelectMany(l => l.Colours),
            _ => [],
        });
        return [.. names.Where(n => Values.ContainsKey(n.Text)).Select(n => Of(n.Text, n.Span))];
    }

    /// <summary>The words in the order in which they come near to a colour.</summary>
    public static IReadOnlyList<string> Nearest(double red, double green, double blue) =>
        [.. Values.Keys.Select(word => Of(word, default)).OrderBy(c => Square(c.Red - red) + Square(c.Green - green) + Square(c.Blue - blue)).Select(c => c.Word)];

    private static CableColour Of(string word, TextSpan span)
    {
        var value = Values[word];
        return new CableColour(span, word, (value >> 16) / 255.0, ((value >> 8) & 0xFF) / 255.0, (value & 0xFF) / 255.0);
    }

    private static double Square(double x) => x * x;
}
