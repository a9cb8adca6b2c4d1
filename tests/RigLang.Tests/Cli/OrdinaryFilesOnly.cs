using System.Diagnostics;
using System.Net.Sockets;
using RigLang.Cli;
using RigLang.Cli.Files;
using Xunit;

namespace RigLang.Tests.Cli;

/// <summary>What is no ordinary file is refused at once, however it comes to be named: a pipe or a device would stop the tool for ever.</summary>
public sealed class OrdinaryFilesOnly : IDisposable
{
    private readonly Stage _stage = new();

    /// <summary>Long enough for a busy machine; only a tool that waits for a pipe meets it.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    public void Dispose() => _stage.Dispose();

    private async Task<(int Code, string Out, string Error)> RigAsync(params string[] args) =>
        await Task.Run(() => _stage.Rig(args)).WaitAsync(Patience, TestContext.Current.CancellationToken);

    private void MakePipe(string name)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "pipes in folders are of Unix");
        using var made = Process.Start("mkfifo", [_stage.PathOf(name)]);
        made.WaitForExit();
        Assert.Equal(0, made.ExitCode);
    }

    [Theory]
    [InlineData("check")]
    [InlineData("format")]
    [InlineData("power")]
    public async Task A_pipe_given_by_name_is_refused_with_the_way_out(string command)
    {
        MakePipe("song.rig");
        var (code, _, error) = await RigAsync(command, "song.rig");
        Assert.Equal(ExitCode.CouldNot, code);
        Assert.Contains("song.rig: it is not an ordinary file but a pipe", error, StringComparison.Ordinal);
        Assert.Contains("name - for what another program writes", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_pipe_in_a_folder_is_refused_and_the_other_rigs_are_checked()
    {
        MakePipe("a.rig");
        _stage.Put("b.rig", "rig \"Tern\"\n");
        var (code, output, error) = await RigAsync("check", ".");
        Assert.Equal(ExitCode.CouldNot, code);
        Assert.Contains("a.rig: it is not an ordinary file", error, StringComparison.Ordinal);
        Assert.Contains("1 file or folder was not checked.", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_pipe_that_a_rig_imports_is_a_finding()
    {
        MakePipe("gear.rig");
        _stage.Put("trio.rig", "import \"gear.rig\"\n");
        var (code, output, _) = await RigAsync("check", "trio.rig");
        Assert.Equal(ExitCode.Findings, code);
        Assert.Contains("not an ordinary file but a pipe", output.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_socket_is_refused()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "elsewhere nothing tells a socket from a file that cannot be opened");
        using var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        socket.Bind(new UnixDomainSocketEndPoint(_stage.PathOf("song.rig")));
        Assert.Contains("not an ordinary file but a socket", (await RigAsync("check", "song.rig")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_link_to_a_device_is_refused_before_it_is_opened()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "elsewhere a device is told by having no length");
        File.CreateSymbolicLink(_stage.PathOf("song.rig"), "/dev/zero");
        Assert.Contains("not an ordinary file but a device", (await RigAsync("check", "song.rig")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Standard_input_may_be_a_pipe()
    {
        _stage.Input = "rig \"Tern\"\n"u8.ToArray();
        Assert.Equal(ExitCode.Clear, (await RigAsync("check", "-")).Code);
    }

    [Fact]
    public void A_text_that_is_written_while_it_is_read_is_read_again()
    {
        var path = _stage.Put("song.rig", "half");
        var read = ReadWhile(path, () => File.AppendAllText(path, " and half"));
        Assert.Equal("half and half", read.Text);
    }

    [Fact]
    public void A_text_that_changes_without_growing_is_read_again()
    {
        var path = _stage.Put("song.rig", "one");
        var longAgo = new DateTime(2001, 1, 1, 0, 0, 0, DateTimeKind.Utc);
        File.SetLastWriteTimeUtc(path, longAgo);
        var read = ReadWhile(path, () => File.WriteAllText(path, "two"));
        Assert.Equal("two", read.Text);
    }

    /// <summary>Something happens to the file while it is read for the first time.</summary>
    private static ReadText ReadWhile(string path, Action happens)
    {
        var reads = 0;
        return TextFile.Read(path, () =>
        {
            if (reads++ == 0)
            {
                happens();
            }
        });
    }

    [Fact]
    public void A_text_that_never_rests_is_refused_in_words()
    {
        var path = _stage.Put("song.rig", "");
        var read = TextFile.Read(path, () => File.AppendAllText(path, "more"));
        Assert.Null(read.Text);
        Assert.Contains("another program keeps writing to it", read.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_trickles_in_is_given_up()
    {
        var clock = new HandClock();
        var read = TextFile.Read(new Trickle(clock, TimeSpan.FromSeconds(1)), 0, clock);
        Assert.Null(read.Text);
        Assert.Equal("reading it takes longer than 30 s; copy it to a disk of this computer", read.Problem);
    }

    [Fact]
    public void Standard_input_may_take_its_time()
    {
        var clock = new HandClock();
        Assert.Equal(100, TextFile.Read(new Trickle(clock, TimeSpan.FromHours(1))).Text?.Length);
    }

    private sealed class HandClock : TimeProvider
    {
        public long Now { get; set; }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => Now;
    }

    /// <summary>A hundred letters, each after a while.</summary>
    private sealed class Trickle(HandClock clock, TimeSpan pause) : MemoryStream([.. Enumerable.Repeat((byte)'a', 100)])
    {
        public override int Read(byte[] buffer, int offset, int count)
        {
            clock.Now += pause.Ticks;
            return base.Read(buffer, offset, Math.Min(1, count));
        }
    }
}
