using System.Diagnostics;
using Xunit;

namespace RigLang.Tests.Cli;

/// <summary>The real program, started as a process of its own.</summary>
public sealed class ProcessTests : IDisposable
{
    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private Process Start(params string[] args)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath is { } p && Path.GetFileNameWithoutExtension(p) == "dotnet" ? p : "dotnet")
        {
            WorkingDirectory = _stage.Folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "rig.dll"));
        foreach (var arg in args)
        {
            start.ArgumentList.Add(arg);
        }
        return Process.Start(start)!;
    }

    [Fact]
    public void The_program_reads_a_pipe_reports_and_exits()
    {
        using var rig = Start("check", "-", "nowhere.rig");
        rig.StandardInput.Write("rig \"低音\"\n");
        rig.StandardInput.Close();
        Assert.Equal("rig: nowhere.rig: there is no such file", rig.StandardError.ReadLine());
        Assert.Contains("1 file or folder was not checked.", rig.StandardOutput.ReadToEnd(), StringComparison.Ordinal);
        rig.WaitForExit();
        Assert.Equal(2, rig.ExitCode);
    }

    [Fact]
    public void A_reader_that_stops_reading_ends_the_program_quietly()
    {
        // More output than a pipe holds, so that the program is still writing when the reader is gone.
        for (var i = 0; i < 3000; i++)
        {
            _stage.Put($"songs/{i:D4}-{new string('x', 60)}.rig", "");
        }
        using var rig = Start("check", "songs");
        rig.StandardInput.Close();
        rig.StandardOutput.ReadLine();
        rig.StandardOutput.Close();
        Assert.Equal("", rig.StandardError.ReadToEnd());
        Assert.True(rig.WaitForExit(60_000));
    }
}
