using System.Diagnostics;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using CsCheck;
using RigLang.Fuzz.Parts;

namespace RigLang.Fuzz;

/// <summary>Runs parts, makes failing cases smaller and writes them down.</summary>
/// <param name="folder">Where failing cases go.</param>
/// <param name="seed">The same seed gives the same cases.</param>
internal sealed class CampaignRun(string folder, ulong seed, TextWriter output)
{
    public static IReadOnlyList<Part> Parts { get; } = [new Commands(), new Edits(), new Protocol(), new Kills(), new FileKinds(), new Growths()];

    /// <summary>The part that a failing case was written down for, by the file's name.</summary>
    public static Part? PartOf(string path) => Parts.FirstOrDefault(p => Path.GetFileName(path).StartsWith(p.Name + "-", StringComparison.Ordinal));

    /// <returns>How many kinds of failure there were.</returns>
    public async Task<int> RunAsync(Part part, int runs)
    {
        output.WriteLine($"{part.Name}: {part.About}");
        var watch = Stopwatch.StartNew();
        var failures = new Dictionary<string, int>(StringComparer.Ordinal);
        var count = 0;
        foreach (var written in CasesOf(part, runs))
        {
            count++;
            if (await part.JudgeAsync(written) is not { } why)
            {
                continue;
            }
            var kind = KindOf(why);
            failures[kind] = failures.GetValueOrDefault(kind) + 1;
            if (failures[kind] == 1)
            {
                await WriteDownAsync(part, written, why);
            }
        }
        foreach (var line in part.Summary)
        {
            output.WriteLine("  " + line);
        }
        foreach (var (kind, times) in failures)
        {
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {times} times: {kind}"));
        }
        output.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"  {count} cases, {failures.Values.Sum()} failed in {failures.Count} ways, {watch.Elapsed.TotalSeconds:0} s"));
        return failures.Count;
    }

    private IEnumerable<string> CasesOf(Part part, int runs)
    {
        if (part.Listed.Count > 0)
        {
            return part.Listed;
        }
        // A stream a case: a case does not depend on those before it.
        return Enumerable.Range(0, part.CasesIn(runs)).Select(i => part.Cases.Generate(new PCG((uint)i, seed), null, out _));
    }

    private async Task WriteDownAsync(Part part, string written, string why)
    {
        output.WriteLine($"  failed: {why}");
        var kind = KindOf(why);
        var least = await Smaller.OfAsync(written, async text => await part.JudgeAsync(text) is { } again && KindOf(again) == kind);
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, $"{part.Name}-{HashOf(kind)}.txt");
        await File.WriteAllTextAsync(path, least, new UTF8Encoding(false));
        output.WriteLine($"  written down: {path} ({least.Length} characters of {written.Length})");
    }

    public static string KindOf(string why) => why.Split(':')[0];

    private static string HashOf(string kind) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(kind)))[..8];
}
