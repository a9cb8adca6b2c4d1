using RigLang.Checks;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>Every check's page has two examples, and they are its tests.</summary>
public class CheckExamples
{
    public static TheoryData<string> Names => [.. CheckList.All.Select(c => c.Name)];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_bad_example_gives_one_finding_of_its_check_and_no_other(string name)
    {
        var compilation = Rigs.Compile(CheckList.Find(name)!.BadExample);
        Assert.True(compilation.Names() is [var only] && only == name, compilation.Told());
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_good_example_gives_no_finding(string name)
    {
        var compilation = Rigs.Compile(CheckList.Find(name)!.GoodExample);
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void The_page_says_what_why_what_to_do_and_where_it_comes_from(string name)
    {
        var check = CheckList.Find(name)!;
        Assert.Matches("^[a-z]+(-[a-z]+)*$", check.Name);
        Assert.False(check.Title.EndsWith('.'));
        Assert.EndsWith(".", check.Why);
        Assert.EndsWith(".", check.Advice);
        Assert.NotEmpty(check.Source);
    }

    [Fact]
    public void No_two_checks_share_a_name() =>
        Assert.Equal(CheckList.All.Length, CheckList.All.Select(c => c.Name).Distinct().Count());
}
