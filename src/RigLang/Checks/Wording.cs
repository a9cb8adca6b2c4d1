using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks;

/// <summary>Turns of phrase that the checks share.</summary>
internal static class Wording
{
    /// <summary>"a, b or c", the likeliest first; at most <paramref name="most"/>, then "others".</summary>
    public static string Or(IEnumerable<string> items, int most = Prose.MostNames)
    {
        var all = items.Take(most + 1).ToList();
        if (all.Count > most)
        {
            all[most] = "others";
        }
        return all.Count < 2 ? string.Concat(all) : $"{string.Join(", ", all.Take(all.Count - 1))} or {all[^1]}";
    }

    /// <inheritdoc cref="Prose.Few"/>
    public static string And(IEnumerable<string> items, int most = Prose.MostNames) => Prose.Few(items, most);

    /// <summary>"1 plug", "2 plugs".</summary>
    public static string Count(int count, string noun) => count == 1 ? $"1 {noun}" : $"{count} {noun}s";

    /// <inheritdoc cref="Spelling.Nearest"/>
    public static string? Nearest(string name, IEnumerable<string> known) => Spelling.Nearest(name, known);

    public static RelatedPlace Also(Location at, string message) => new(at, message);

    /// <summary>Replaces one piece of text by another.</summary>
    public static Fix Replace(string title, Location at, string text, bool isSafe = false) =>
        new(title, isSafe, [new TextEdit(at.Source, at.Span, text)]);

    /// <summary>A name as it must be written: quoted unless it is a bare word.</summary>
    public static string Written(string name) => Syntax.Lexer.IsBareWord(name) ? name : $"\"{name}\"";

    /// <summary>The lead of a connection in words: "the MidiDin lead", or "the lead" when none was named.</summary>
    public static string LeadOf(Hookup hookup) => hookup.Leads.Count == 0
        ? "the plug"
        : "the " + Prose.InOrder(hookup.Leads.Select(l => l.Name), " + ", MostEnds) + " lead";

    /// <summary>"bass.line to desk.ch1".</summary>
    public static string Ends(ConnectionSymbol connection) => $"{Ends(connection.From)} to {Ends(connection.To)}";

    private static string Ends(IEnumerable<Endpoint> ends) => Prose.InOrder(ends.Select(e => e.Text).Distinct(), most: MostEnds);

    /// <summary>Plugs of one side of a cable that are named.</summary>
    public const int MostEnds = 4;

    /// <inheritdoc cref="WayWords.Chain"/>
    public static string Way(IReadOnlyList<WayStep> steps) => WayWords.Chain(steps);

    /// <summary>Those ways that are told, and how many more there are.</summary>
    public static string Ways(IReadOnlyList<IReadOnlyList<WayStep>> told, int all) =>
        string.Join(" and ", told.Select(Way)) + (all > told.Count ? $" and {Count(all - told.Count, "more way")}" : "");

    /// <summary>The steps of a way as places to go to, those in the middle of a long one left out.</summary>
    public static IEnumerable<RelatedPlace> Places(IReadOnlyList<WayStep> steps) => Prose.Ends(steps).Select(end =>
        Also(end.Link.At, end.LeftOutBefore == 0 ? WayWords.Of(end.Link) : $"{end.LeftOutBefore} more steps on, {WayWords.Of(end.Link)}"));
}
