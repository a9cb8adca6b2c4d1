using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Examples;

/// <summary>A cable of an example that is left out is missed, and one that is plugged in the wrong way round is told at its line.</summary>
public class EveryCableCounts
{
    public static TheoryData<string> Files => [.. Shipped.RigsIn("examples").Where(path => !path.EndsWith("-gear.rig", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Files))]
    public void A_cable_that_is_left_out_is_told(string path)
    {
        var lines = Shipped.Read(path).Content.Split('\n');
        Assert.Empty(Connections(lines).Where(at => With(path, lines, at, "").Findings.IsEmpty).Select(at => lines[at]));
    }

    /// <summary>A lead that is the same at both ends makes no difference; any other does not fit, or joins the wrong contacts.</summary>
    [Theory]
    [MemberData(nameof(Files))]
    public void A_cable_that_is_turned_round_is_told_or_is_the_same(string path)
    {
        var lines = Shipped.Read(path).Content.Split('\n');
        var links = Links(Shipped.Compile(path));
        foreach (var at in Connections(lines))
        {
            var end = lines[at].IndexOf(" with ", StringComparison.Ordinal) is >= 0 and var with ? with : lines[at].IndexOf(" //", StringComparison.Ordinal) is >= 0 and var comment ? comment : lines[at].Length;
            var ends = lines[at]["connect ".Length..end].Split(" to ");
            var turned = With(path, lines, at, $"connect {ends[1].Trim()} to {ends[0].Trim()}{lines[at][end..]}");
            Assert.True(turned.Findings.Any(f => f.Location.Source.PositionOf(f.Location.Span.Start).Line == at) || (turned.Findings.IsEmpty && Links(turned).SetEquals(links)), lines[at]);
        }
    }

    private static HashSet<string> Links(Compilation compilation) => [.. compilation.Rig.Links.Links.Select(link => $"{link.From} {link.To} {link.Kind}")];

    private static IEnumerable<int> Connections(string[] lines) => Enumerable.Range(0, lines.Length).Where(i => lines[i].StartsWith("connect ", StringComparison.Ordinal));

    private static Compilation With(string path, string[] lines, int at, string line) =>
        Shipped.Compile(new SourceText(path, string.Join('\n', lines.Select((text, i) => i == at ? line : text))));
}
