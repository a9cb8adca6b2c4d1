namespace RigLang.Text;

/// <summary>Finds what somebody meant by a word with a slip in it.</summary>
public static class Spelling
{
    /// <summary>
    /// The known word within a slip or two (a third of the letters), the nearest one and of equals the first in order; a word that differs
    /// in capitals only is always near. Null when none is.
    /// </summary>
    public static string? Nearest(string word, IEnumerable<string> known)
    {
        string? best = null;
        var least = Math.Max(1, word.Length / 3) + 1;
        foreach (var candidate in known)
        {
            if (candidate.Equals(word, StringComparison.OrdinalIgnoreCase))
            {
                return candidate;
            }
            if (Distance(word, candidate, least + 1) is var distance
                && (distance < least || (distance == least && best is not null && string.CompareOrdinal(candidate, best) < 0)))
            {
                (best, least) = (candidate, distance);
            }
        }
        return best;
    }

    /// <summary>
    /// Optimal string alignment: letters put in, left out, replaced, or swapped with their neighbour, case aside. Gives up and
    /// answers <paramref name="limit"/> as soon as it cannot be less.
    /// </summary>
    public static int Distance(string a, string b, int limit)
    {
        if (Math.Abs(a.Length - b.Length) >= limit)
        {
            return limit;
        }
        var before = new int[b.Length + 1];
        var last = new int[b.Length + 1];
        var row = new int[b.Length + 1];
        for (var j = 0; j <= b.Length; j++)
        {
            last[j] = j;
        }
        for (var i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            var least = i;
            for (var j = 1; j <= b.Length; j++)
            {
                row[j] = Math.Min(Math.Min(row[j - 1], last[j]) + 1, last[j - 1] + (Same(a[i - 1], b[j - 1]) ? 0 : 1));
                if (i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1]))
                {
                    row[j] = Math.Min(row[j], before[j - 2] + 1);
                }
                least = Math.Min(least, row[j]);
            }
            if (least > limit)
            {
                return limit;
            }
            (before, last, row) = (last, row, before);
        }
        return Math.Min(last[b.Length], limit);
    }

    private static bool Same(char a, char b) => char.ToLowerInvariant(a) == char.ToLowerInvariant(b);
}
