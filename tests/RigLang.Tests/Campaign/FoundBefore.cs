using Xunit;

namespace RigLang.Tests.Campaign;

/// <summary>What the campaign found once, each as the least text that showed it.</summary>
public class FoundBefore
{
    private static readonly string Folder = Path.Combine(Repository.Root, "tests/RigLang.Tests/Fixtures/Found");

    public static TheoryData<string> Names => [.. Directory.EnumerateFiles(Folder).Select(path => Path.GetFileName(path)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task What_was_found_once_stays_mended(string name)
    {
        var part = RigLang.Fuzz.CampaignRun.PartOf(name);
        Assert.True(part is not null, $"{name} does not begin with the name of a part of the campaign");
        var why = await part.JudgeAsync(await File.ReadAllTextAsync(Path.Combine(Folder, name), TestContext.Current.CancellationToken));
        Assert.True(why is null, why);
    }
}
