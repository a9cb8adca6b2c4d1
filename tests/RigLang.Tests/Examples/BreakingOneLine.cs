using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Examples;

/// <summary>In the trio's rig each cable in turn loses its `to`, as when typing: one mistake, one finding, nothing that follows from it.</summary>
public class BreakingOneLine
{
    private static readonly string[] Lines = File.ReadAllLines(Path.Combine(Repository.Root, "examples", "pantile-yard.rig"));

    public static TheoryData<int> Cables =>
        [.. Enumerable.Range(0, Lines.Length).Where(i => Lines[i].StartsWith("connect ", StringComparison.Ordinal))];

    [Theory]
    [MemberData(nameof(Cables))]
    public void A_cable_that_cannot_be_read_is_told_once(int line)
    {
        var broken = (string[])Lines.Clone();
        broken[line] = broken[line].Replace(" to ", " ", StringComparison.Ordinal);
        var gear = File.ReadAllText(Path.Combine(Repository.Root, "examples", "pantile-yard-gear.rig"));
        var compilation = Rigs.Compile(string.Join('\n', broken), ("pantile-yard-gear.rig", gear));
        Assert.True(compilation.Found() is [var only] && only == $"syntax-error@{line + 1}", compilation.Told());
    }

    [Theory]
    [MemberData(nameof(Cables))]
    public void A_cable_with_a_misspelt_device_is_told_once(int line)
    {
        var broken = (string[])Lines.Clone();
        var dot = broken[line].IndexOf('.', StringComparison.Ordinal);
        broken[line] = broken[line].Insert(dot, "x");
        var gear = File.ReadAllText(Path.Combine(Repository.Root, "examples", "pantile-yard-gear.rig"));
        var compilation = Rigs.Compile(string.Join('\n', broken), ("pantile-yard-gear.rig", gear));
        Assert.True(compilation.Found() is [var only] && only == $"unknown-name@{line + 1}", compilation.Told());
    }
}
