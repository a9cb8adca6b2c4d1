namespace RigLang.Text;

/// <summary>
/// Small turns of English that every message needs, and how much of a long list a message says: what is told of a rig grows with the number of
/// its mistakes, never with the length of a list in one of them.
/// </summary>
public static class Prose
{
    /// <summary>Names that a sentence says before it says how many more there are.</summary>
    public const int MostNames = 8;

    /// <summary>Ways from one place to another that a finding tells; two show where they meet.</summary>
    public const int MostWays = 2;

    /// <summary>Other places that a finding names: as many as a player looks at.</summary>
    public const int MostPlaces = 10;

    /// <summary>Letters of a sentence whose names are longer than any panel's; the longest with names of usual length has half as many.</summary>
    public const int MostLetters = 1000;

    /// <summary>Of a chain that is longer, this many of its first links are said, and twice as many of its last, which lie nearest to the trouble.</summary>
    private const int ChainStart = 3;

    /// <summary>"a", "a and b", "a, b and c"; all of them, as the answer to a question wants it.</summary>
    public static string And(IReadOnlyList<string> names) => names.Count < 2 ? string.Concat(names)
        : $"{string.Join(", ", names.Take(names.Count - 1))} and {names[^1]}";

    /// <summary>"a, b and c"; of more than a sentence holds the first by their words, and how many more.</summary>
    public static string Few(IEnumerable<string> names, int most = MostNames) => Few([.. names], name => name, name => name, most);

    /// <summary>The same of things that have to be put into words: of many only those that are said are.</summary>
    /// <param name="name">By which the first are chosen.</param>
    public static string Few<T>(IReadOnlyCollection<T> items, Func<T, string> name, Func<T, string> words, int most = MostNames)
    {
        if (items.Count <= most)
        {
            return And([.. items.Select(words)]);
        }
        // The last of those that are kept is the first to be let go.
        var first = new PriorityQueue<T, string>(most + 1, Comparer<string>.Create((a, b) => string.CompareOrdinal(b, a)));
        foreach (var item in items)
        {
            first.Enqueue(item, name(item));
            if (first.Count > most)
            {
                first.Dequeue();
            }
        }
        return And([.. first.UnorderedItems.OrderBy(f => f.Priority, StringComparer.Ordinal).Select(f => words(f.Element)), $"{items.Count - most} more"]);
    }

    /// <summary>The same in the order that they have, which says something: "a, b and 98 more", and "a, b" where they are few.</summary>
    /// <param name="between">What stands between two.</param>
    public static string InOrder(IEnumerable<string> items, string between = ", ", int most = MostNames)
    {
        var shown = new List<string>(most);
        var more = 0;
        foreach (var item in items)
        {
            if (shown.Count < most)
            {
                shown.Add(item);
            }
            else
            {
                more++;
            }
        }
        return string.Join(between, shown) + (more > 0 ? $" and {more} more" : "");
    }

    /// <summary>"a → b → c"; the middle of a long chain is counted.</summary>
    public static string Chain(IReadOnlyList<string> links, string between = " → ") => !IsLong(links.Count, out var left) ? string.Join(between, links)
        : string.Join(between, [.. links.Take(ChainStart), $"({left} more)", .. links.Skip(ChainStart + left)]);

    /// <summary>The same of a circle, "a → b → a": it begins at the first by name, wherever it was entered.</summary>
    public static string Round(IReadOnlyList<string> links, string between = " → ")
    {
        var first = 0;
        for (var i = 1; i < links.Count; i++)
        {
            first = string.CompareOrdinal(links[i], links[first]) < 0 ? i : first;
        }
        return Chain([.. links.Skip(first), .. links.Take(first), links[first]], between);
    }

    /// <summary>Whether a chain is too long to be said, and how many of its links are left out after the first <see cref="ChainStart"/>.</summary>
    private static bool IsLong(int count, out int left)
    {
        left = count - (3 * ChainStart);
        return left > 1;
    }

    /// <summary>The first links of a chain and the last ones, and how many are left out before each: 0 before all but one.</summary>
    public static IEnumerable<(T Link, int LeftOutBefore)> Ends<T>(IReadOnlyList<T> chain)
    {
        var isLong = IsLong(chain.Count, out var left);
        for (var i = 0; i < chain.Count; i++)
        {
            if (isLong && i == ChainStart)
            {
                i += left;
                yield return (chain[i], left);
                continue;
            }
            yield return (chain[i], 0);
        }
    }

    /// <summary>A sentence that names of any length cannot make longer than <see cref="MostLetters"/>: what is beyond is cut.</summary>
    public static string Clipped(string sentence)
    {
        if (sentence.Length <= MostLetters)
        {
            return sentence;
        }
        var end = char.IsHighSurrogate(sentence[MostLetters - 2]) ? MostLetters - 2 : MostLetters - 1;
        return string.Concat(sentence.AsSpan(0, end), "…");
    }

    /// <summary>The same text with a capital in front, to open a sentence.</summary>
    public static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
