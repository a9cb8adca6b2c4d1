namespace RigLang.Cli.Commands;

/// <summary>What somebody may have meant by a word that is not known.</summary>
internal static class Nearest
{
    /// <returns>The known words within a slip or two of <paramref name="word"/>, nearest first, at most three.</returns>
    public static List<string> To(string word, IEnumerable<string> known)
    {
        var near = new List<(int Distance, string Word)>();
        foreach (var candidate in known)
        {
            var allowed = Math.Max(1, Math.Min(word.Length, candidate.Length) / 3);
            var isPart = word.Length >= 4 && candidate.Contains(word, StringComparison.OrdinalIgnoreCase);
            var distance = isPart ? 0 : Distance(word, candidate);
            if (distance <= allowed)
            {
                near.Add((distance, candidate));
            }
        }
        near.Sort((a, b) => a.Distance != b.Distance ? a.Distance.CompareTo(b.Distance) : string.CompareOrdinal(a.Word, b.Word));
        return [.. near.Take(3).Select(n => n.Word)];
    }

    /// <returns>A sentence to go after a message, or nothing.</returns>
    public static string Suggestion(string word, IEnumerable<string> known)
    {
        var near = To(word, known);
        return near.Count == 0 ? "" : $" Did you mean {string.Join(" or ", near)}?";
    }

    /// <summary>
    /// Optimal string alignment: letters put in, left out, replaced, or swapped with their neighbour, case aside.
    /// Words too unlike in length to be a slip are not compared.
    /// </summary>
    private static int Distance(string a, string b)
    {
        if (Math.Abs(a.Length - b.Length) > 8)
        {
            return int.MaxValue;
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
            for (var j = 1; j <= b.Length; j++)
            {
                var cost = Same(a[i - 1], b[j - 1]) ? 0 : 1;
                row[j] = Math.Min(Math.Min(row[j - 1], last[j]) + 1, last[j - 1] + cost);
                if (i > 1 && j > 1 && Same(a[i - 1], b[j - 2]) && Same(a[i - 2], b[j - 1]))
                {
                    row[j] = Math.Min(row[j], before[j - 2] + 1);
                }
            }
            (before, last, row) = (last, row, before);
        }
        return last[b.Length];
    }

    private static bool Same(char a, char b) => char.ToLowerInvariant(a) == char.ToLowerInvariant(b);
}
