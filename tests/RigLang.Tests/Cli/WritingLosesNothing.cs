using System.Diagnostics;
using System.Text;
using RigLang.Cli;
using RigLang.Cli.Commands;
using RigLang.Cli.Files;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Cli;

/// <summary>Laying out keeps all that belongs to a file, and may be killed anywhere: the next run finds one of the two texts, whole.</summary>
public sealed class WritingLosesNothing : IDisposable
{
    private readonly Stage _stage = new();

    /// <summary>Longer than what is written at once.</summary>
    private static readonly string Old = string.Concat(Enumerable.Range(0, 20_000).Select(i => $"a line {i}\n"));

    private static string New => Capital(Old);

    public void Dispose() => _stage.Dispose();

    /// <summary>Stands in for a layout that makes a text shorter.</summary>
    private static string Capital(string text) => text.Replace("a line", "A", StringComparison.Ordinal);

    private static (int Code, string Out, string Error) Format(Stage stage, string name, LayOut layOut, bool onlyCheck = false) =>
        stage.With(host => FormatCommand.Run([name], onlyCheck, host, layOut));

    private static string AsItIs(SourceText source) => source.Content;

    private static string Write(string path, Action<string>? at = null) =>
        SafeWrite.Replace(path, File.ReadAllBytes(path), Encoding.UTF8.GetBytes(Capital(File.ReadAllText(path))), at) ?? "";

    private static void Run(string program, params string[] arguments)
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "made with a program of Unix");
        using var process = Process.Start(program, arguments);
        process.WaitForExit();
        Assert.Equal(0, process.ExitCode);
    }

    private static string Said(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        return process.StandardOutput.ReadToEnd().Trim();
    }

    /// <summary>A file that a rename would take one of its names from.</summary>
    private string PutWithTwoNames(string name, string text)
    {
        var path = _stage.Put(name, text);
        Run("ln", path, _stage.PathOf("other-name"));
        return path;
    }

    [Fact]
    public void A_second_name_of_the_file_shows_the_new_text()
    {
        PutWithTwoNames("one.rig", Old);
        Assert.Equal(0, Format(_stage, "one.rig", s => Capital(s.Content)).Code);
        Assert.Equal(New, File.ReadAllText(_stage.PathOf("one.rig")));
        Assert.Equal(New, File.ReadAllText(_stage.PathOf("other-name")));
        Assert.Equal(2, Directory.GetFileSystemEntries(_stage.Folder).Length);
    }

    [Fact]
    public void Owner_and_group_stay()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess, "only root gives files away");
        var path = _stage.Put("one.rig", "a line");
        Run("chown", "1234:2345", path);
        Assert.Equal(0, Format(_stage, "one.rig", s => Capital(s.Content)).Code);
        Assert.Equal("A 1234:2345", File.ReadAllText(path) + " " + Said("stat", "-c", "%u:%g", path));
    }

    [Fact]
    public void Extended_attributes_stay()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "attributes are read there only");
        var path = _stage.Put("one.rig", "a line");
        Assert.SkipUnless(SetAttribute(path, "user.song", "first"u8.ToArray(), 5, 0) == 0, "this file system has no attributes");
        Assert.Equal(0, Format(_stage, "one.rig", s => Capital(s.Content)).Code);
        Assert.Equal("A", File.ReadAllText(path));
        Assert.Equal(5, GetAttribute(path, "user.song", new byte[9], 9));
    }

#pragma warning disable SYSLIB1054, CA2101, CA5392 // A test needs no generated code for two calls.
    [System.Runtime.InteropServices.DllImport("libc.so.6", EntryPoint = "setxattr", CharSet = System.Runtime.InteropServices.CharSet.Ansi)]
    private static extern int SetAttribute(string path, string name, byte[] value, nint size, int flags);

    [System.Runtime.InteropServices.DllImport("libc.so.6", EntryPoint = "getxattr", CharSet = System.Runtime.InteropServices.CharSet.Ansi)]
    private static extern nint GetAttribute(string path, string name, byte[] value, nint size);
#pragma warning restore SYSLIB1054, CA2101, CA5392

    /// <summary>What a kill at each step of a write leaves on the disk, as folders.</summary>
    private List<(string Step, Stage Left)> KillAtEveryStep(bool hasTwoNames)
    {
        var path = hasTwoNames ? PutWithTwoNames("one.rig", Old) : _stage.Put("one.rig", Old);
        var left = new List<(string, Stage)>();
        Assert.Equal("", Write(path, step =>
        {
            var copy = new Stage();
            foreach (var file in Directory.GetFiles(_stage.Folder))
            {
                // Opened in the way that takes no lock.
                copy.Put(Path.GetFileName(file), BytesOf(file));
            }
            left.Add((step, copy));
        }));
        return left;
    }

    private static byte[] BytesOf(string path)
    {
        using var stream = new FileStream(OrdinaryFile.Open(path).Handle!, FileAccess.Read, 0);
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void After_a_kill_anywhere_the_next_run_finds_a_whole_text_and_leaves_nothing_else(bool hasTwoNames)
    {
        var left = KillAtEveryStep(hasTwoNames);
        Assert.Contains(left, l => Directory.GetFiles(l.Left.Folder, ".*").Length > 0);
        foreach (var (step, stage) in left)
        {
            using (stage)
            {
                File.Delete(stage.PathOf("other-name"));
                var (code, _, error) = Format(stage, "one.rig", AsItIs);
                Assert.Equal((0, ""), (code, error));
                var text = File.ReadAllText(stage.PathOf("one.rig"));
                Assert.True(text == Old || text == New, $"a kill after {step} cost the text");
                Assert.Equal([stage.PathOf("one.rig")], Directory.GetFileSystemEntries(stage.Folder));
            }
        }
    }

    /// <summary>The folder as a kill in the middle of writing into the file leaves it.</summary>
    private Stage HalfWritten()
    {
        var left = KillAtEveryStep(hasTwoNames: true);
        var half = left.Find(l => File.ReadAllText(l.Left.PathOf("one.rig")) is var text && text != Old && text != New).Left;
        Assert.NotNull(half);
        left.FindAll(l => l.Left != half).ForEach(l => l.Left.Dispose());
        File.Delete(half.PathOf("other-name"));
        return half;
    }

    [Fact]
    public void A_half_written_text_is_put_back_and_that_is_said()
    {
        using var half = HalfWritten();
        var (_, said, _) = Format(half, "one.rig", AsItIs);
        Assert.Contains("one.rig: put back as it was before an earlier run that was ended in the middle", said, StringComparison.Ordinal);
        Assert.Equal(Old, File.ReadAllText(half.PathOf("one.rig")));
    }

    [Fact]
    public void A_half_written_text_is_not_checked_as_if_it_were_one()
    {
        using var half = HalfWritten();
        var (code, _, error) = half.Rig("check", "one.rig");
        Assert.Equal(ExitCode.CouldNot, code);
        Assert.Contains("run rig format again", error, StringComparison.Ordinal);
        Assert.Contains("run rig format again", Format(half, "one.rig", AsItIs, onlyCheck: true).Error, StringComparison.Ordinal);
        Assert.Equal(2, Directory.GetFileSystemEntries(half.Folder).Length);
    }

    [Fact]
    public void What_a_player_wrote_after_the_kill_stays_and_the_text_from_before_is_kept_beside_it()
    {
        using var half = HalfWritten();
        half.Put("one.rig", "written anew\n");
        var (code, _, error) = Format(half, "one.rig", s => Capital(s.Content));
        Assert.Equal(ExitCode.CouldNot, code);
        Assert.Contains("its text from before is in one.rig.before", error, StringComparison.Ordinal);
        Assert.Equal("written anew\n", File.ReadAllText(half.PathOf("one.rig")));
        Assert.Equal(Old, File.ReadAllText(half.PathOf("one.rig.before")));
        Assert.Equal(0, Format(half, "one.rig", AsItIs).Code);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_run_beside_another_takes_nothing_away_from_it(bool hasTwoNames)
    {
        var path = hasTwoNames ? PutWithTwoNames("one.rig", Old) : _stage.Put("one.rig", Old);
        _stage.Put("two.rig", "a line\n");
        var beside = new List<int>();
        Assert.Equal("", Write(path, _ => beside.Add(Format(_stage, "two.rig", AsItIs).Code)));
        Assert.All(beside, code => Assert.Equal(0, code));
        Assert.Equal(New, File.ReadAllText(path));
    }

    [Fact]
    public void A_file_that_another_run_is_writing_into_is_left_to_it()
    {
        var path = PutWithTwoNames("one.rig", Old);
        var said = "";
        Assert.Equal("", Write(path, step => said += step == "piece written" ? Format(_stage, "one.rig", AsItIs).Error : ""));
        Assert.Contains("another run of rig format is at it", said, StringComparison.Ordinal);
        Assert.Equal(New, File.ReadAllText(path));
    }

    [Fact]
    public void A_disk_that_is_full_in_the_middle_costs_nothing()
    {
        var path = PutWithTwoNames("one.rig", Old);
        var said = Write(path, step => _ = step == "piece written" ? throw new IOException() : step);
        Assert.Contains("is the disk full?", said, StringComparison.Ordinal);
        Assert.Equal(Old, File.ReadAllText(path));
        Assert.Equal(2, Directory.GetFileSystemEntries(_stage.Folder).Length);
    }

    [Theory]
    [InlineData(".one.rig.rig-new")]
    [InlineData(".notes.rig-new")]
    [InlineData("one.rig.abcdefgh.ijk.rig-new")]
    public void Files_of_others_stay(string name)
    {
        _stage.Put("one.rig", "a line\n");
        _stage.Put(name, "mine");
        Format(_stage, "one.rig", AsItIs);
        Assert.True(File.Exists(_stage.PathOf(name)));
    }

    [Fact]
    public void A_journal_from_somebody_else_writes_nothing()
    {
        var path = _stage.Put("one.rig", "a line\n");
        _stage.Put(".one.rig.rig-undo", "rig format undo 1 3 3 0000\nabcdef");
        Assert.Equal(0, Format(_stage, "one.rig", AsItIs).Code);
        Assert.Equal("a line\n", File.ReadAllText(path));
        Assert.Single(Directory.GetFileSystemEntries(_stage.Folder));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_program_that_is_really_killed_loses_nothing(bool hasTwoNames)
    {
        var text = string.Concat(Enumerable.Range(0, 3_000).Select(i => $"device   d{i}   :   Tern\n"));
        var path = hasTwoNames ? PutWithTwoNames("one.rig", text) : _stage.Put("one.rig", text);
        var laidOut = RigLang.Formatting.Formatter.Format(new SourceText("one.rig", text));
        for (var i = 0; i < 3; i++)
        {
            using (var file = new FileStream(path, FileMode.Truncate))
            {
                file.Write(Encoding.UTF8.GetBytes(text));
            }
            using var rig = Start("format", "one.rig");
            // As soon as it has begun to write, or has ended.
            while (!rig.HasExited && Directory.GetFiles(_stage.Folder, ".*").Length == 0)
            {
                Thread.Yield();
            }
            rig.Kill();
            rig.WaitForExit();
            Assert.Equal("", Format(_stage, "one.rig", AsItIs).Error);
            Assert.Contains(File.ReadAllText(path), (string[])[text, laidOut]);
            Assert.Equal(hasTwoNames ? 2 : 1, Directory.GetFileSystemEntries(_stage.Folder).Length);
        }
    }

    private Process Start(params string[] arguments)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath is { } p && Path.GetFileNameWithoutExtension(p) == "dotnet" ? p : "dotnet") { WorkingDirectory = _stage.Folder };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "rig.dll"));
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }
        start.RedirectStandardOutput = start.RedirectStandardError = true;
        return Process.Start(start)!;
    }
}
