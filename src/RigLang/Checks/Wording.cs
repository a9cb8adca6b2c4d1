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
    /// <summary>"a, b or c"; at most <paramref name="most"/>, then how many more.</summary>
    public static string Or(IEnumerable<string> items, int most = 8) => List(items, "or", most);

    /// <summary>"a, b and c".</summary>
    public static string And(IEnumerable<string> items, int most = 8) => List(items, "and", most);

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
        : "the " + string.Join(" + ", hookup.Leads.Select(l => l.Name)) + " lead";

    /// <summary>"bass.line to desk.ch1".</summary>
    public static string Ends(ConnectionSymbol connection) =>
        $"{string.Join(", ", connection.From.Select(e => e.Text).Distinct())} to {string.Join(", ", connection.To.Select(e => e.Text).Distinct())}";

    /// <inheritdoc cref="WayWords.Chain"/>
    public static string Way(IEnumerable<WayStep> steps) => WayWords.Chain(steps);

    /// <summary>The steps of a way as places to go to.</summary>
    public static IEnumerable<RelatedPlace> Places(IEnumerable<WayStep> steps) => steps.Select(step => Also(step.At, WayWords.Of(step)));

    private static string List(IEnumerable<string> items, string last, int most)
    {
        var all = items.Take(most + 1).ToList();
        var more = all.Count > most;
        if (more)
        {
            all[most] = "others";
        }
        return all.Count < 2 ? string.Concat(all) : $"{string.Join(", ", all.Take(all.Count - 1))} {last} {all[^1]}";
    }
}
