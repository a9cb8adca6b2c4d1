using System.Globalization;
using RigLang.Fuzz;

// Tries to break the tool, by chance and by lists; exit 0 when nothing broke, 1 when something did, 2 for wrong arguments.
//   commands | edits | protocol | kills | files | growth | all     the parts to run, several with spaces
//   again FILE…                                                    judges cases once more that were written down
// RIG_FUZZ sets how many commands a run makes, the other parts in proportion (1,000); RIG_FUZZ_SEED which ones (by chance);
// RIG_FUZZ_FOUND the folder for failing cases (artifacts/found). RIG names a native program for the parts that start one.

if (args is ["again", _, ..])
{
    var stillFailing = 0;
    foreach (var path in args[1..])
    {
        var why = CampaignRun.PartOf(path) is { } part ? await part.JudgeAsync(await File.ReadAllTextAsync(path)) : "its name does not begin with that of a part";
        stillFailing += why is null ? 0 : 1;
        Console.Out.WriteLine($"{path}: {why ?? "holds"}");
    }
    return stillFailing > 0 ? 1 : 0;
}
var chosen = args is ["all"] ? CampaignRun.Parts : [.. CampaignRun.Parts.Where(p => args.Contains(p.Name))];
if (chosen.Count == 0 || (args is not ["all"] && chosen.Count != args.Length))
{
    Console.Error.WriteLine($"Name what to run: {string.Join(", ", CampaignRun.Parts.Select(p => p.Name))}, all, or again and the files of failing cases.");
    return 2;
}
var runs = int.TryParse(Environment.GetEnvironmentVariable("RIG_FUZZ"), CultureInfo.InvariantCulture, out var wanted) && wanted > 0 ? wanted : 1_000;
var seed = ulong.TryParse(Environment.GetEnvironmentVariable("RIG_FUZZ_SEED"), CultureInfo.InvariantCulture, out var given) ? given : (ulong)Random.Shared.NextInt64();
var folder = Environment.GetEnvironmentVariable("RIG_FUZZ_FOUND") is { Length: > 0 } named ? named : Path.Combine(Repository.Root, "artifacts", "found");
Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"RIG_FUZZ={runs} RIG_FUZZ_SEED={seed}"));
var failures = 0;
foreach (var part in chosen)
{
    failures += await new CampaignRun(folder, seed, Console.Out).RunAsync(part, runs);
}
return failures > 0 ? 1 : 0;
