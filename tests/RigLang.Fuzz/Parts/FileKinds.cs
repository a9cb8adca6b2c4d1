using System.Diagnostics;
using System.Net.Sockets;
using CsCheck;

namespace RigLang.Fuzz.Parts;

/// <summary>
/// What is called a rig and is none: a pipe, a socket, a folder, a device. A case is the kind of file and the way in which it is met. Every command ends,
/// with an exit code that says so and words; a server goes on.
/// </summary>
internal sealed class FileKinds : Part
{
    private const string Odd = "odd.rig";
    private const string Root = "root.rig";
    private const string Importing = "import \"odd.rig\"\ndevice bass : Nothing\n";

    /// <summary>Only to call a command stuck that never ends; what works takes a thousandth of it.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private static readonly Dictionary<string, string[]> Ways = new()
    {
        ["check"] = ["check", Odd],
        ["check as JSON"] = ["check", Odd, "--format", "json"],
        ["check of the folder"] = ["check", "."],
        ["format"] = ["format", Odd],
        ["format --check"] = ["format", "--check", Odd],
        ["trace"] = ["trace", Odd, "what reaches bass"],
        ["power"] = ["power", Odd],
        ["import"] = ["check", Root],
    };

    private const string Server = "server";

    private static readonly string[] Kinds = ["pipe", "socket", "folder", "endless device", "empty device", "links in a circle", "link to nothing", "unreadable", "huge", "growing"];

    public override string Name => "files";

    public override string About => "what is no regular file ends every command with 1 or 2 and words, and stops no server";

    public override IReadOnlyList<string> Listed { get; } = OperatingSystem.IsWindows() ? [] : [.. Kinds.SelectMany(kind => Ways.Keys.Append(Server).Select(way => $"{kind}, {way}"))];

    public override Gen<string> Cases => Gen.OneOf<string>([.. Listed]);

    public override async Task<string?> JudgeAsync(string written)
    {
        if (!Listed.Contains(written.Trim()) || written.Trim().Split(", ") is not [var kind, var way] || (kind == "unreadable" && Environment.IsPrivilegedProcess))
        {
            return null;
        }
        return way == Server ? await JudgeServerAsync(kind) : await JudgeCommandAsync(kind, way);
    }

    private static async Task<string?> JudgeCommandAsync(string kind, string way)
    {
        using var run = new RigRun();
        if (way == "import")
        {
            run.Put(Root, Importing);
        }
        using var stop = new CancellationTokenSource();
        using var socket = Make(kind, run, stop.Token);
        var running = Task.Factory.StartNew(() => run.Rig(Ways[way]), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        var hasEnded = await Task.WhenAny(running, Task.Delay(Patience, CancellationToken.None)) == running;
        await stop.CancelAsync();
        if (!hasEnded)
        {
            Release(kind, run);
            return $"{way} of what is called a rig never ends: {kind}";
        }
        var result = await running;
        var isGrowing = kind == "growing";
        return result.Code is not (1 or 2) && !isGrowing ? $"{way} takes it for a rig: {kind}, code {result.Code}"
            : result.Out.Length + result.Error.Length == 0 ? $"{way} says nothing: {kind}"
            : (result.Out + result.Error).Contains("rig itself failed", StringComparison.Ordinal) ? $"{way} fails inside the tool: {kind}, {result.Error}"
            : null;
    }

    private static async Task<string?> JudgeServerAsync(string kind)
    {
        await using var wire = new Wire();
        using var stop = new CancellationTokenSource();
        using var socket = Make(kind, wire.Run, stop.Token);
        await wire.InitializeAsync();
        await wire.OpenAsync(wire.UriOf(Root), Importing, 1);
        var hover = wire.AskAsync("textDocument/hover", Wire.Place(wire.UriOf(Root), 1, 2));
        var isAnswered = await Task.WhenAny(hover, Task.Delay(Patience, CancellationToken.None)) == hover;
        await stop.CancelAsync();
        if (!isAnswered)
        {
            Release(kind, wire.Run);
            return $"a server that imports it never answers: {kind}";
        }
        return (await hover)?["result"]?["contents"] is null ? $"a server that imports it has no hover: {kind}" : null;
    }

    /// <returns>What has to stay open as long as the file is to be.</returns>
    private static Socket? Make(string kind, RigRun run, CancellationToken stop)
    {
        var path = run.PathOf(Odd);
        switch (kind)
        {
            case "pipe":
                using (var mkfifo = Process.Start("mkfifo", [path]))
                {
                    mkfifo.WaitForExit();
                }
                break;
            case "socket":
                var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
                socket.Bind(new UnixDomainSocketEndPoint(path));
                socket.Listen();
                return socket;
            case "folder":
                Directory.CreateDirectory(path);
                break;
            case "endless device":
                File.CreateSymbolicLink(path, "/dev/zero");
                break;
            case "empty device":
                File.CreateSymbolicLink(path, "/dev/null");
                break;
            case "links in a circle":
                File.CreateSymbolicLink(path, run.PathOf("other.rig"));
                File.CreateSymbolicLink(run.PathOf("other.rig"), path);
                break;
            case "link to nothing":
                File.CreateSymbolicLink(path, run.PathOf("nothing"));
                break;
            case "unreadable" when !OperatingSystem.IsWindows():
                run.Put(Odd, "device a : Nothing\n");
                File.SetUnixFileMode(path, UnixFileMode.None);
                break;
            case "huge":
                using (var huge = File.Create(path))
                {
                    huge.SetLength(1L << 40);
                }
                break;
            default:
                run.Put(Odd, "// begun\n");
                _ = GrowAsync(path, stop);
                break;
        }
        return null;
    }

    /// <summary>Another program that writes on and on, up to what a rig may be.</summary>
    private static async Task GrowAsync(string path, CancellationToken stop)
    {
        var line = new byte[4096];
        Array.Fill(line, (byte)'/');
        line[^1] = (byte)'\n';
        try
        {
            await using var file = new FileStream(path, FileMode.Append, FileAccess.Write, FileShare.ReadWrite | FileShare.Delete, bufferSize: 0);
            while (!stop.IsCancellationRequested && file.Length < 100 << 20)
            {
                await file.WriteAsync(line, stop);
            }
        }
        catch (Exception e) when (e is OperationCanceledException or IOException)
        {
            // The command has ended, and its folder is gone.
        }
    }

    /// <summary>Lets go what still waits for a writer, so that this program can end.</summary>
    private static void Release(string kind, RigRun run)
    {
        if (kind == "pipe")
        {
            using var writer = new FileStream(run.PathOf(Odd), FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
        }
    }
}
