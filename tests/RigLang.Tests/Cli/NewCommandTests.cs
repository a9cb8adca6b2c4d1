using Xunit;

namespace RigLang.Tests.Cli;

public sealed class NewCommandTests : IDisposable
{
    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    [Fact]
    public void It_writes_a_commented_rig_that_checks_clean_and_is_in_order()
    {
        var (code, said, _) = _stage.Rig("new", "mine.rig");
        Assert.Equal(0, code);
        Assert.Equal("mine.rig: a rig to start from. Open it in your editor, then: rig check mine.rig\n", said);
        Assert.StartsWith("//", File.ReadAllText(_stage.PathOf("mine.rig")), StringComparison.Ordinal);
        Assert.Equal(0, _stage.Rig("check", "--fail-on", "hint", "mine.rig").Code);
        Assert.Equal(0, _stage.Rig("format", "--check", "mine.rig").Code);
    }

    [Fact]
    public void An_existing_file_is_never_written_over()
    {
        var path = _stage.Put("mine.rig", "my work");
        Assert.Equal(
            (2, "", "rig: mine.rig: it exists already and was left as it is; choose another name, or move that file away first\n"),
            _stage.Rig("new", "mine.rig"));
        Assert.Equal("my work", File.ReadAllText(path));
    }

    [Fact]
    public void A_missing_folder_is_said()
        => Assert.Equal((2, "", "rig: no/mine.rig: its folder does not exist; make the folder first\n"), _stage.Rig("new", "no/mine.rig"));

    [Fact]
    public void A_folder_in_its_place_is_said()
    {
        Directory.CreateDirectory(_stage.PathOf("mine.rig"));
        Assert.Equal(2, _stage.Rig("new", "mine.rig").Code);
    }

    [Theory]
    [InlineData("new")]
    [InlineData("new", "a.rig", "b.rig")]
    [InlineData("new", "-")]
    [InlineData("new", "")]
    public void Anything_but_one_name_is_a_usage_error_and_writes_nothing(params string[] args)
    {
        Assert.Equal(2, _stage.Rig(args).Code);
        Assert.Empty(Directory.GetFileSystemEntries(_stage.Folder));
    }
}
