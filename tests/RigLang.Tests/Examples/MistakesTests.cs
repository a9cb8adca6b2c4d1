using System.Text.RegularExpressions;
using RigLang.Checks;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Examples;

/// <summary>
/// The twins of the examples, full of mistakes. A wrong line ends in a comment, <c>// mistake: check-name</c>: the findings
/// are these and no others.
/// </summary>
public partial class MistakesTests
{
    public static TheoryData<string> Files => [.. Shipped.RigsIn("examples/mistakes")];

    [Theory]
    [MemberData(nameof(Files))]
    public void Each_mistake_is_found_once_at_its_line_and_nothing_else_is(string path)
    {
        var compilation = Shipped.Compile(path);
        Assert.All(compilation.Findings, finding => Assert.Equal(path, finding.Location.Source.Path));
        Assert.Equal(Announced(path).Order(), compilation.Found().Order());
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void Every_announced_mistake_has_a_check(string path) =>
        Assert.All(Announced(path), mistake => Assert.NotNull(CheckList.Find(mistake.Split('@')[0])));

    [Fact]
    public void The_mistakes_are_many_and_no_two_of_a_kind()
    {
        var names = Announced("examples/mistakes/pantile-yard.rig").Select(mistake => mistake.Split('@')[0]).ToList();
        Assert.True(names.Count >= 40, $"{names.Count} mistakes");
        Assert.Equal(names.Distinct(), names);
    }

    /// <summary>"name@line" of each comment, lines from 1.</summary>
    private static string[] Announced(string path) =>
        [.. Shipped.Read(path).Content.Split('\n')
            .Select((text, index) => (Match: Mistake().Match(text), Line: index + 1))
            .Where(line => line.Match.Success)
            .Select(line => $"{line.Match.Groups[1].Value}@{line.Line}")];

    [GeneratedRegex(@"// mistake: ([a-z-]+)\s*$")]
    private static partial Regex Mistake();
}
