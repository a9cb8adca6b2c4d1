using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>The words of a `control` port depend on what is controlled: a wiper is of an expression pedal, normally open of a switch.</summary>
internal static class ControlWords
{
    private static readonly Dictionary<string, string[]> Behind = new(StringComparer.Ordinal)
    {
        ["volt-per-octave"] = ["pitch"],
        ["hertz-per-volt"] = ["pitch"],
        ["wiper"] = ["expression"],
        ["tip"] = ["wiper"],
        ["ring"] = ["wiper"],
        ["normally"] = ["switch"],
        ["open"] = ["normally"],
        ["closed"] = ["normally"],
        ["inverted"] = ["gate", "trigger"],
    };

    private static readonly string[] Kinds = ["pitch", "gate", "trigger", "expression", "switch"];

    public static bool Fits(string word, IReadOnlyList<Token> tokens, int colon)
    {
        var said = tokens.Skip(colon + 1).Select(t => t.Text ?? "").ToList();
        return !Behind.TryGetValue(word, out var wanted) ? !said.Exists(s => Kinds.Contains(s))
            : word is "tip" or "ring" or "open" or "closed" ? wanted.Contains(said[^1])
            : said.Exists(s => wanted.Contains(s));
    }
}
