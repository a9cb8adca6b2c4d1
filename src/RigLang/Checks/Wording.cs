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

    /// <summary>The known name that a player most likely meant, or null when none is near.</summary>
    public static string? Nearest(string name, IEnumerable<string> known)
    {
        string? best = null;
        var least = Math.Max(1, name.Length / 3) + 1;
        foreach (var candidate in known)
        {
            if (candidate.Equals(name, StringComparison.OrdinalIgnoreCase))
            {
                return candidate;
            }
            if (Math.Abs(candidate.Length - name.Length) < least && Distance(name, candidate, least) is var distance && distance < least)
            {
                (best, least) = (candidate, distance);
            }
        }
        return best;
    }

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

    /// <summary>A path as a chain of ports: "keys.midi → thru.in → thru.out1 → bass.midi".</summary>
    public static string Way(IEnumerable<Hop> hops) => string.Join(" → ", hops.Select(hop =>
        hop.Text.LastIndexOf(" to ", StringComparison.Ordinal) is >= 0 and var at ? hop.Text[(at + 4)..] : hop.Text));

    public static string ContactName(Nets nets, int contact)
    {
        var seat = nets.SeatOf(contact);
        return $"{nets.Jack(seat)} {nets.Jack(seat).Jack.Form.Contacts[contact - nets.Contact(seat, 0)]}";
    }

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

    /// <summary>Edits between two names, a swap of neighbours counted once; gives up at <paramref name="limit"/>.</summary>
    private static int Distance(string a, string b, int limit)
    {
        var rows = new int[3, b.Length + 1];
        for (var j = 0; j <= b.Length; j++)
        {
            rows[0, j] = j;
        }
        for (var i = 1; i <= a.Length; i++)
        {
            var (row, up, up2) = (i % 3, (i + 2) % 3, (i + 1) % 3);
            rows[row, 0] = i;
            var least = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var same = char.ToLowerInvariant(a[i - 1]) == char.ToLowerInvariant(b[j - 1]);
                var cost = Math.Min(Math.Min(rows[up, j] + 1, rows[row, j - 1] + 1), rows[up, j - 1] + (same ? 0 : 1));
                if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                {
                    cost = Math.Min(cost, rows[up2, j - 2] + 1);
                }
                rows[row, j] = cost;
                least = Math.Min(least, cost);
            }
            if (least >= limit)
            {
                return limit;
            }
        }
        return rows[a.Length % 3, b.Length];
    }
}
