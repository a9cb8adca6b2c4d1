using RigLang.Cli.Commands;
using RigLang.Cli;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class RigCommandTests : IDisposable
{
    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    public static TheoryData<string> Verbs => new("check", "explain", "format", "new");

    [Fact]
    public void The_front_page_lists_every_command_and_a_way_to_begin()
    {
        var (code, page, _) = _stage.Rig("--help");
        Assert.Equal(0, code);
        Assert.All(Verbs, v => Assert.Contains($"rig {v.Data} ", page, StringComparison.Ordinal));
        Assert.Contains("rig new my-rig.rig", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_arguments_the_front_page_is_shown()
        => Assert.Equal(_stage.Rig("--help"), _stage.Rig());

    [Theory]
    [MemberData(nameof(Verbs))]
    public void Each_help_page_has_every_option_of_its_command_and_an_example(string name)
    {
        var host = _stage.HostOn(new MemoryStream(), new MemoryStream());
        var verb = (RigVerb)RigCommand.Define(host, new PlayersHelp(host)).Subcommands.Single(c => c.Name == name);
        var (code, page, error) = _stage.Rig(name, "--help");
        Assert.Equal((0, ""), (code, error));
        Assert.All(verb.Options, o => Assert.Contains(o.Name, page, StringComparison.Ordinal));
        Assert.All(verb.Examples, e => Assert.Contains(e.Line, page, StringComparison.Ordinal));
        Assert.NotEmpty(verb.Examples);
    }

    [Theory]
    [MemberData(nameof(Verbs))]
    public void Help_followed_by_a_command_is_its_help_page(string name)
        => Assert.Equal(_stage.Rig(name, "--help"), _stage.Rig("help", name));

    [Fact]
    public void The_version_is_one_line() => Assert.Matches("^rig [0-9]+\\.[0-9]+\\.[0-9]+\n$", _stage.Rig("--version").Out);

    [Theory]
    [InlineData("chek", "there is no command \"chek\". Did you mean check?")]
    [InlineData("songs/trio.rig", "there is no command \"songs/trio.rig\". Did you mean rig check songs/trio.rig?")]
    [InlineData("--hlep", "there is no option --hlep here. Did you mean --help?")]
    [InlineData("xyzzy", "there is no command \"xyzzy\".")]
    public void An_unknown_command_suggests_the_nearest(string word, string message)
        => Assert.Equal((2, "", $"rig: {message}\nrig --help shows what there is.\n"), _stage.Rig(word));

    public static TheoryData<string[], string> WrongCommandLines => new()
    {
        { ["check"], "check needs the name of a rig file or a folder." },
        { ["format"], "format needs the name of a rig file or a folder." },
        { ["check", "--formt", "json", "a.rig"], "check has no option --formt. Did you mean --format?" },
        { ["check", "-x"], "check has no option -x." },
        { ["check", "a.rig", "--format", "jsn"], "--format does not know \"jsn\"; it takes text, json, sarif. Did you mean json?" },
        { ["check", "a.rig", "--fail-on"], "--fail-on needs one of error, warning, hint after it." },
        { ["check", "a.rig", "--color", "auto", "--color", "never"], "--color is given more than once." },
    };

    [Theory]
    [MemberData(nameof(WrongCommandLines))]
    public void A_wrong_command_line_says_what_is_wrong(string[] args, string message)
    {
        var (code, output, error) = _stage.Rig(args);
        Assert.Equal((2, ""), (code, output));
        Assert.StartsWith($"rig: {message}\n", error, StringComparison.Ordinal);
    }

    [Fact]
    public void After_two_dashes_a_name_may_begin_with_a_dash()
        => Assert.Equal((2, "", "rig: -x.rig: there is no such file\n"), _stage.Rig("check", "--", "-x.rig"));

    [Fact]
    public void A_fault_of_the_tool_is_one_line_without_a_stack_trace()
    {
        var (code, _, error) = _stage.With(host => Fault.Say(new InvalidOperationException("boom"), host));
        Assert.Equal(2, code);
        Assert.Equal(1, error.Count(c => c == '\n'));
        Assert.DoesNotContain("boom", error, StringComparison.Ordinal);
    }

    [Fact]
    public void RIG_TRACE_adds_the_details()
    {
        _stage.Variables["RIG_TRACE"] = "1";
        Assert.Contains("boom", _stage.With(host => Fault.Say(new InvalidOperationException("boom"), host)).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Output_that_cannot_be_written_is_said_calmly()
    {
        var error = new MemoryStream();
        Assert.Equal(2, RigCommand.Run(["--help"], _stage.HostOn(new FullDisk(), error)));
        Assert.Equal("rig: not all of the output could be written; is the disk full?\n", System.Text.Encoding.UTF8.GetString(error.ToArray()));
    }

    [Fact]
    public void Output_is_UTF_8_without_a_byte_order_mark()
    {
        var output = new MemoryStream();
        RigCommand.Run(["check", "--help"], _stage.HostOn(output, new MemoryStream()));
        Assert.Equal("rig check FILE…\n"u8.ToArray(), output.ToArray()[.."rig check FILE…\n"u8.Length]);
    }

    private sealed class FullDisk : MemoryStream
    {
        public override void Write(ReadOnlySpan<byte> buffer) => throw new IOException();

        public override void Write(byte[] buffer, int offset, int count) => throw new IOException();
    }
}
