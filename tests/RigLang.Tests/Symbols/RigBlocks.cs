using RigLang.Findings;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Symbols;

public class RigBlocks
{
    [Theory]
    [InlineData("mains 120 V", "mains 230 V", Severity.Error)]
    [InlineData("mains 230 V 60 Hz", "mains 230 V 50 Hz", Severity.Error)]
    [InlineData("tempo 120 bpm", "tempo 90 bpm", Severity.Warning)]
    [InlineData("set 75 min", "set 60 min", Severity.Warning)]
    public void Two_that_disagree_are_told_once(string one, string other, Severity severity)
    {
        var found = Assert.Single(Rigs.Compile($"rig {{\n  {one}\n}}\nrig {{\n  {other}\n}}\n").Findings);
        Assert.Equal(("rig-blocks-disagree", severity), (found.Check.Name, found.Severity));
    }

    [Theory]
    [InlineData("mains 230 V", "mains 0.23 kV")]
    [InlineData("mains 230 V", "tempo 112 bpm")]
    public void Two_that_agree_or_add_to_each_other_are_silent(string one, string other) =>
        Assert.Empty(Rigs.Compile($"rig {{\n  {one}\n}}\nrig {{\n  {other}\n}}\n").Findings);

    [Theory]
    [InlineData("import \"a.rig\"\nrig {\n  mains 120 V\n}\n")]
    [InlineData("rig {\n  mains 120 V\n}\nimport \"a.rig\"\n")]
    public void The_checked_file_wins_over_its_imports(string text)
    {
        var rig = Rigs.Compile(text, ("a.rig", "rig {\n  mains 230 V\n}\n"));
        Assert.Equal(["rig-blocks-disagree"], rig.Names());
        Assert.Equal(120, rig.Rig.Names.MainsVolts!.Value.Low.Value);
    }
}
