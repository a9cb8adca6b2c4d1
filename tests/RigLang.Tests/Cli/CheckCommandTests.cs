using RigLang.Cli.Commands;
using RigLang.Findings;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class CheckCommandTests : IDisposable
{
    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private (int Code, string Out, string Error) Check(CheckRequest request, Compile compile)
        => _stage.With(host => CheckCommand.Run(request, host, compile));

    /// <summary>Names each file it is asked to compile, and finds nothing.</summary>
    private List<string> FilesCheckedBy(params string[] named)
    {
        var files = new List<string>();
        Check(new(named), (root, _) =>
        {
            files.Add(root.Path);
            return MadeUp.Rig(root);
        });
        return files;
    }

    [Theory]
    [InlineData(Severity.Error, Severity.Error, 1)]
    [InlineData(Severity.Warning, Severity.Error, 0)]
    [InlineData(Severity.Hint, Severity.Error, 0)]
    [InlineData(Severity.Error, Severity.Warning, 1)]
    [InlineData(Severity.Warning, Severity.Warning, 1)]
    [InlineData(Severity.Hint, Severity.Warning, 0)]
    [InlineData(Severity.Warning, Severity.Hint, 1)]
    [InlineData(Severity.Hint, Severity.Hint, 1)]
    public void A_finding_at_or_above_the_threshold_makes_the_exit_code_1(Severity found, Severity failOn, int code)
    {
        _stage.Put("trio.rig", "plug");
        var result = Check(new(["trio.rig"], FailOn: failOn), (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug", found)));
        Assert.Equal(code, result.Code);
    }

    [Fact]
    public void A_file_that_is_not_there_makes_the_exit_code_2_and_the_others_are_still_checked()
    {
        _stage.Put("trio.rig", "plug");
        var result = Check(new(["nowhere.rig", "trio.rig"]), (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug")));
        Assert.Equal(2, result.Code);
        Assert.Equal("rig: nowhere.rig: there is no such file\n", result.Error);
        Assert.Contains("trio.rig:1:1  error  plug-upside-down", result.Out, StringComparison.Ordinal);
        Assert.EndsWith("1 error in 1 file. 1 file or folder was not checked.\n", result.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(new byte[] { (byte)'a', (byte)'\n', 0 }, "it is not text: line 2 contains a zero byte")]
    [InlineData(new byte[] { (byte)'a', (byte)'\n', (byte)'\n', 0xC3, 0x28 }, "it is not UTF-8 text: line 3 cannot be read; save it as UTF-8 in your editor")]
    [InlineData(new byte[] { 0xED, 0xA0, 0x80 }, "it is not UTF-8 text: line 1 cannot be read; save it as UTF-8 in your editor")]
    [InlineData(new byte[] { 0xFF, 0xFE, (byte)'r', 0 }, "it is text, but saved as UTF-16; save it as UTF-8 in your editor")]
    public void What_is_not_text_is_refused_with_the_reason(byte[] bytes, string reason)
    {
        _stage.Put("odd.rig", bytes);
        var result = _stage.Rig("check", "odd.rig");
        Assert.Equal((2, "", $"rig: odd.rig: {reason}\n"), result);
    }

    [Fact]
    public void A_byte_order_mark_is_taken_off()
    {
        _stage.Put("trio.rig", [0xEF, 0xBB, 0xBF, (byte)'r', (byte)'i', (byte)'g']);
        string? text = null;
        Check(new(["trio.rig"]), (root, _) =>
        {
            text = root.Content;
            return MadeUp.Rig(root);
        });
        Assert.Equal("rig", text);
    }

    [Fact]
    public void A_file_over_64_MB_is_refused()
    {
        using (var file = new FileStream(_stage.PathOf("huge.rig"), FileMode.Create))
        {
            file.SetLength(64 * 1024 * 1024 + 1);
        }
        Assert.Equal((2, "", "rig: huge.rig: it is larger than 64 MB, which no rig is\n"), _stage.Rig("check", "huge.rig"));
    }

    [Fact]
    public void A_folder_is_searched_to_the_bottom_in_ordinal_order_without_what_is_hidden()
    {
        foreach (var name in (string[])["b.rig", "B.rig", "a/z.rig", "a.txt", ".hidden/c.rig", "a/.d.rig", "x.rig/inside.rig", "é.rig"])
        {
            _stage.Put("songs/" + name, "");
        }
        Assert.Equal(
            ["songs/B.rig", "songs/a/z.rig", "songs/b.rig", "songs/x.rig/inside.rig", "songs/é.rig"],
            FilesCheckedBy("songs/"));
    }

    [Fact]
    public void The_current_folder_gives_plain_names()
    {
        _stage.Put("trio.rig", "");
        Assert.Equal(["trio.rig"], FilesCheckedBy("."));
    }

    [Fact]
    public void A_file_named_twice_is_checked_once()
    {
        _stage.Put("songs/trio.rig", "");
        Assert.Equal(["songs/trio.rig"], FilesCheckedBy("songs/trio.rig", "songs", "./songs/../songs/trio.rig"));
    }

    [Fact]
    public void A_link_to_a_folder_that_contains_it_does_not_lead_in_circles()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links need a privilege there");
        _stage.Put("songs/trio.rig", "");
        Directory.CreateSymbolicLink(_stage.PathOf("songs/again"), _stage.PathOf("songs"));
        Assert.Equal(["songs/trio.rig"], FilesCheckedBy("songs"));
    }

    [Fact]
    public void A_folder_without_a_rig_is_a_problem()
    {
        Directory.CreateDirectory(_stage.PathOf("empty"));
        Assert.Equal((2, "", "rig: empty: there is no .rig file in this folder\n"), _stage.Rig("check", "empty"));
    }

    [Fact]
    public void A_name_no_file_can_have_is_a_problem()
        => Assert.Equal((2, "", "rig: a\u2400b: no file can have such a name\n"), _stage.Rig("check", "a\0b"));

    [Fact]
    public void A_dash_reads_standard_input()
    {
        _stage.Input = "plug"u8.ToArray();
        var result = Check(new(["-"]), (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug")));
        Assert.StartsWith("<stdin>:1:1  error", result.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Imports_are_opened_from_the_current_folder_each_once()
    {
        _stage.Put("songs/one.rig", "");
        _stage.Put("songs/two.rig", "");
        _stage.Put("songs/our-gear.rig", "gear");
        var opened = new List<OpenedFile>();
        Check(new(["songs/one.rig", "songs/two.rig"]), (root, open) =>
        {
            opened.Add(open("songs/our-gear.rig"));
            return MadeUp.Rig(root);
        });
        Assert.Equal("gear", opened[0].Text!.Content);
        Assert.Equal("songs/our-gear.rig", opened[0].Text!.Path);
        Assert.Same(opened[0].Text, opened[1].Text);
    }

    [Theory]
    [InlineData("no.rig", "there is no such file")]
    [InlineData("no/no.rig", "there is no such file, nor its folder")]
    [InlineData("songs", "only files whose name ends in .rig are imported")]
    [InlineData("songs.rig", "this is a folder, not a file")]
    [InlineData("", "only files whose name ends in .rig are imported")]
    [InlineData("a\0b", "no file can have such a name")]
    [InlineData("zero.rig", "it is not text: line 1 contains a zero byte")]
    public void An_import_that_cannot_be_opened_says_why(string path, string why)
    {
        _stage.Put("trio.rig", "");
        _stage.Put("zero.rig", [0]);
        Directory.CreateDirectory(_stage.PathOf("songs"));
        Directory.CreateDirectory(_stage.PathOf("songs.rig"));
        OpenedFile opened = default;
        Check(new(["trio.rig"]), (root, open) =>
        {
            opened = open(path);
            return MadeUp.Rig(root);
        });
        Assert.Equal(new OpenedFile(null, why), opened);
    }

    [Fact]
    public void A_finding_in_a_file_that_two_rigs_import_is_given_once()
    {
        _stage.Put("one.rig", "");
        _stage.Put("two.rig", "");
        _stage.Put("gear.rig", "plug");
        var result = Check(new(["one.rig", "two.rig"]), (root, open) =>
        {
            var gear = open("gear.rig").Text!;
            return new() { Rig = MadeUp.NoRig, Files = [root, gear], Findings = [MadeUp.At(gear, "plug")] };
        });
        Assert.EndsWith("1 error in 2 files.\n", result.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fault_of_the_tool_is_one_calm_line_and_the_other_files_are_still_checked()
    {
        _stage.Put("bad.rig", "");
        _stage.Put("good.rig", "plug");
        var result = Check(new(["bad.rig", "good.rig"]), (root, _) =>
            root.Path == "bad.rig" ? throw new InvalidOperationException("boom") : MadeUp.Rig(root, MadeUp.At(root, "plug")));
        Assert.Equal(2, result.Code);
        Assert.Contains("good.rig:1:1", result.Out, StringComparison.Ordinal);
        Assert.Equal(
            "rig: bad.rig: rig itself failed here (InvalidOperationException); this is a fault of the tool, not of your file. "
            + "Please report it together with the file.\n",
            result.Error);
    }

    public static TheoryData<string[]> PlainCommandLines => new(
        ["check", "songs"],
        ["check", "songs/one.rig", "nowhere.rig"],
        ["check", "-"],
        ["check", "@songs"],
        ["check", "[suggest]", "songs"],
        ["check", ""]);

    [Theory]
    [MemberData(nameof(PlainCommandLines))]
    public void The_short_way_for_a_plain_check_does_what_the_option_parser_would(string[] args)
    {
        _stage.Put("songs/one.rig", "rig \"One\"\n");
        _stage.Put("songs/two.rig", "gear {\n");
        Assert.Equal(_stage.With(host => RigLang.Cli.RigCommand.Parse(args, host)), _stage.Rig(args));
    }
}
