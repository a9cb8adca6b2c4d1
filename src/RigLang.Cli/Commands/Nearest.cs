using RigLang.Text;

namespace RigLang.Cli.Commands;

/// <summary>What somebody may have meant by a word that is not known.</summary>
internal static class Nearest
{
    /// <returns>The known words within a slip or two of <paramref name="word"/>, those that are nearest, at most three.</returns>
    public static List<string> To(string word, IEnumerable<string> known)
    {
        var near = new List<(int Distance, string Word)>();
        foreach (var candidate in known)
        {
            var allowed = Math.Max(1, Math.Min(word.Length, candidate.Length) / 3);
            var isPart = word.Length >= 4 && candidate.Contains(word, StringComparison.OrdinalIgnoreCase);
            var distance = isPart ? 0 : Spelling.Distance(word, candidate, allowed + 1);
            if (distance <= allowed)
            {
                near.Add((distance, candidate));
            }
        }
        near.Sort((a, b) => a.Distance != b.Distance ? a.Distance.CompareTo(b.Distance) : string.CompareOrdinal(a.Word, b.Word));
        // What is a slip nearer is what was meant.
        return [.. near.TakeWhile(n => n.Distance == near[0].Distance).Take(3).Select(n => n.Word)];
    }

    /// <returns>A sentence to go after a message, or nothing.</returns>
    public static string Suggestion(string word, IEnumerable<string> known)
    {
        var near = To(word, known);
        return near.Count == 0 ? "" : $" Did you mean {string.Join(" or ", near)}?";
    }
}
