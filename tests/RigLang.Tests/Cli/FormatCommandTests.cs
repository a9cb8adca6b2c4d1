using System.Runtime.Versioning;
using System.Text;
using RigLang.Cli.Commands;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class FormatCommandTests : IDisposable
{
    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    /// <summary>Stands in for the layout: every <c>a</c> becomes <c>A</c>.</summary>
    private (int Code, string Out, string Error) Format(bool onlyCheck, params string[] named)
        => _stage.With(host => FormatCommand.Run(named, onlyCheck, host, source => source.Content.Replace('a', 'A')));

    [Fact]
    public void A_file_is_laid_out_in_place_and_one_in_order_is_not_touched()
    {
        var changed = _stage.Put("one.rig", "rig a\r\n");
        var inOrder = _stage.Put("two.rig", "RIG\n");
        var longAgo = new DateTime(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc);
        File.SetLastWriteTimeUtc(inOrder, longAgo);
        Assert.Equal((0, "one.rig: laid out\n1 file laid out, 1 already in order.\n", ""), Format(false, "."));
        Assert.Equal("rig A\r\n", File.ReadAllText(changed));
        Assert.Equal(longAgo, File.GetLastWriteTimeUtc(inOrder));
        Assert.Equal(2, Directory.GetFileSystemEntries(_stage.Folder).Length);
    }

    [Fact]
    public void Check_lists_what_would_change_and_writes_nothing()
    {
        var path = _stage.Put("one.rig", "a");
        Assert.Equal((1, "one.rig: would change\n1 file would change, 0 already in order.\n", ""), Format(true, "one.rig"));
        Assert.Equal("a", File.ReadAllText(path));
    }

    [Fact]
    public void Check_of_files_in_order_exits_0()
    {
        _stage.Put("one.rig", "b");
        Assert.Equal(0, Format(true, "one.rig").Code);
    }

    [Fact]
    public void A_byte_order_mark_stays()
    {
        var path = _stage.Put("one.rig", [0xEF, 0xBB, 0xBF, (byte)'a']);
        Format(false, "one.rig");
        Assert.Equal([0xEF, 0xBB, 0xBF, (byte)'A'], File.ReadAllBytes(path));
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public void Permissions_stay_and_a_link_stays_a_link()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Unix permissions and links");
        var target = _stage.Put("real/one.rig", "a");
        var mode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.OtherRead | UnixFileMode.GroupWrite;
        File.SetUnixFileMode(target, mode);
        File.CreateSymbolicLink(_stage.PathOf("link.rig"), "real/one.rig");
        Assert.Equal(0, Format(false, "link.rig").Code);
        Assert.Equal("A", File.ReadAllText(target));
        Assert.Equal(mode, File.GetUnixFileMode(target));
        Assert.Equal("real/one.rig", new FileInfo(_stage.PathOf("link.rig")).LinkTarget);
    }

    [Fact]
    public void A_file_that_is_not_text_is_left_as_it_is_and_the_others_are_laid_out()
    {
        var odd = _stage.Put("odd.rig", [(byte)'a', 0xFF]);
        var good = _stage.Put("good.rig", "a");
        var (code, _, error) = Format(false, "odd.rig", "good.rig");
        Assert.Equal(2, code);
        Assert.StartsWith("rig: odd.rig: it is not UTF-8 text", error, StringComparison.Ordinal);
        Assert.Equal([(byte)'a', 0xFF], File.ReadAllBytes(odd));
        Assert.Equal("A", File.ReadAllText(good));
    }

    [Fact]
    public void A_file_that_changed_meanwhile_is_left_as_it_is()
    {
        var path = _stage.Put("one.rig", "a");
        var result = _stage.With(host => FormatCommand.Run(["one.rig"], false, host, _ =>
        {
            File.WriteAllText(path, "saved by the editor");
            return "A";
        }));
        Assert.Equal(2, result.Code);
        Assert.Equal("saved by the editor", File.ReadAllText(path));
        Assert.Single(Directory.GetFileSystemEntries(_stage.Folder));
    }

    [Fact]
    public void A_fault_of_the_layout_leaves_the_file_and_says_which()
    {
        _stage.Put("one.rig", "a");
        var host = _stage.HostOn(new MemoryStream(), new MemoryStream());
        Assert.Throws<InvalidOperationException>(
            () => FormatCommand.Run(["one.rig"], false, host, _ => throw new InvalidOperationException()));
        Assert.Equal("one.rig", host.At);
        Assert.Equal("a", File.ReadAllText(_stage.PathOf("one.rig")));
    }

    [Fact]
    public void A_dash_hands_standard_input_on_laid_out()
    {
        _stage.Input = Encoding.UTF8.GetBytes("rig a\n");
        Assert.Equal((0, "rig A\n", ""), Format(false, "-"));
        Assert.Equal((1, "<stdin>: would change\n", ""), Format(true, "-"));
    }
}
