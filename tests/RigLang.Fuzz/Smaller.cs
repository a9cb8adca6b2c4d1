using System.Diagnostics;

namespace RigLang.Fuzz;

/// <summary>Makes a failing case smaller: greedily fewer lines, then fewer characters, as long as it fails in the same way.</summary>
internal static class Smaller
{
    private const int MostTries = 3_000;
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(60);

    public static async Task<string> OfAsync(string written, Func<string, Task<bool>> fails)
    {
        var watch = Stopwatch.StartNew();
        var tries = 0;
        var lines = await WithoutAsync(written.Split('\n'), left => FailsAsync(string.Join('\n', left)));
        var characters = await WithoutAsync(string.Join('\n', lines).ToCharArray(), left => FailsAsync(new string(left)));
        return new string(characters);

        async Task<bool> FailsAsync(string text) => tries++ < MostTries && watch.Elapsed < Longest && await fails(text);
    }

    /// <summary>Takes runs of items out, long ones first, down to single items.</summary>
    private static async Task<T[]> WithoutAsync<T>(T[] items, Func<T[], Task<bool>> fails)
    {
        for (var length = Math.Max(1, items.Length / 2); ; length /= 2)
        {
            for (var at = 0; at < items.Length;)
            {
                T[] left = [.. items[..at], .. items[Math.Min(items.Length, at + length)..]];
                if (await fails(left))
                {
                    items = left;
                }
                else
                {
                    at += length;
                }
            }
            if (length <= 1)
            {
                return items;
            }
        }
    }
}
