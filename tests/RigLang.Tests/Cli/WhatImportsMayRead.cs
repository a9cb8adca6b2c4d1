using RigLang.Cli;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Cli;

/// <summary>A rig from somebody else reads rig files of its own folder and repository, and nothing else.</summary>
public sealed class WhatImportsMayRead : IDisposable
{
    private readonly Stage _stage = new();

    private const string Gear = "gear Tern {\n  in midi : midi on din-5\n}\n";

    public void Dispose() => _stage.Dispose();

    [Theory]
    [InlineData("/rigs/band/gear.rig", true)]
    [InlineData("/rigs/band/deep/gear.RIG", true)]
    [InlineData("/rigs/bandit/gear.rig", false)]
    [InlineData("/rigs/gear.rig", false)]
    [InlineData("/rigs/band/secret.txt", false)]
    [InlineData("/rigs/band", false)]
    public void The_verdict_is_by_folder_and_ending(string path, bool isAllowed) =>
        Assert.Equal(isAllowed, new ImportPolicy(["/rigs/band"]).WhyNot(path) is null);

    [Fact]
    public void A_neighbouring_folder_is_refused_with_the_way_to_allow_it_and_allowed_by_it()
    {
        _stage.Put("gear/our.rig", Gear);
        _stage.Put("trio/trio.rig", "import \"../gear/our.rig\"\n");
        var refused = _stage.Rig("check", "trio/trio.rig");
        Assert.Equal(ExitCode.Findings, refused.Code);
        Assert.Contains("--root", refused.Out, StringComparison.Ordinal);
        Assert.Equal(ExitCode.Clear, _stage.Rig("check", "--root", "gear", "trio/trio.rig").Code);
        Assert.DoesNotContain("errors", _stage.Rig("power", "--root", "gear", "trio/trio.rig").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_repository_is_one_place()
    {
        Directory.CreateDirectory(_stage.PathOf(".git"));
        _stage.Put("gear/our.rig", Gear);
        _stage.Put("trio/trio.rig", "import \"../gear/our.rig\"\n");
        Assert.Equal(ExitCode.Clear, _stage.Rig("check", "trio/trio.rig").Code);
    }

    [Fact]
    public void Nothing_of_a_refused_file_is_shown()
    {
        _stage.Put("secret.txt", "hunter2 : the words\n");
        _stage.Put("other/secret.rig", "hunter2 : the words\n");
        _stage.Put("trio/trio.rig", "import \"../secret.txt\"\nimport \"../other/secret.rig\"\nimport \"notes.txt\"\n");
        _stage.Put("trio/notes.txt", "hunter2 : the words\n");
        var said = _stage.Rig("check", "trio/trio.rig");
        Assert.DoesNotContain("hunter2", said.Out + said.Error, StringComparison.Ordinal);
        Assert.Equal(3, said.Out.Split("import-not-found").Length - 1);
    }

    [Fact]
    public void A_link_is_judged_by_where_it_leads()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "making a link needs a right there");
        _stage.Put("elsewhere/secret.rig", "hunter2 : the words\n");
        _stage.Put("trio/trio.rig", "import \"file.rig\"\nimport \"folder/secret.rig\"\n");
        File.CreateSymbolicLink(_stage.PathOf("trio/file.rig"), _stage.PathOf("elsewhere/secret.rig"));
        Directory.CreateSymbolicLink(_stage.PathOf("trio/folder"), _stage.PathOf("elsewhere"));
        var said = _stage.Rig("check", "trio/trio.rig");
        Assert.DoesNotContain("hunter2", said.Out, StringComparison.Ordinal);
        Assert.Equal(2, said.Out.Split("import-not-found").Length - 1);
    }
}
