using System.IO.Pipelines;
using RigLang.Flow.Ground;

namespace RigLang.LanguageServer;

/// <summary>What the server cannot know by itself.</summary>
/// <param name="Version">Of the tool.</param>
/// <param name="Trace">The page of <c>rig trace</c>: rig and question to text.</param>
/// <param name="Channels">The page of <c>rig channels</c>.</param>
/// <param name="Audio">The page of <c>rig audio</c>.</param>
/// <param name="Power">The page of <c>rig power</c>.</param>
/// <param name="Ground">The page of <c>rig ground</c>.</param>
/// <param name="Hum">The page of <c>rig hum</c>: rig and what is heard to text.</param>
public sealed record ServerHost(
    string Version,
    Disk Disk,
    Func<Compilation, string, string> Trace,
    Func<Compilation, string> Channels,
    Func<Compilation, string> Audio,
    Func<Compilation, string> Power,
    Func<Compilation, string> Ground,
    Func<Compilation, HumSound, string> Hum)
{
    /// <summary>Bytes of the largest text that is taken in, in an editor as on the disk.</summary>
    public int LargestText { get; init; } = int.MaxValue;

    /// <summary>Called before each answer with the name of its method.</summary>
    public Action<string> BeforeAnswer { get; init; } = _ => { };
}

/// <summary>The way in.</summary>
public static class Session
{
    /// <summary>Speaks with one client until it says exit or hangs up.</summary>
    /// <returns>0 after a shutdown in good order, 1 otherwise, as the protocol wants it of the process.</returns>
    public static Task<int> RunAsync(PipeReader input, PipeWriter output, ServerHost host) => RigServer.RunAsync(input, output, host);
}
