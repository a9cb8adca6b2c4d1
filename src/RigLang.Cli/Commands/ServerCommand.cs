using System.CommandLine;
using System.IO.Pipelines;
using System.IO.Pipes;
using System.Net.Sockets;
using RigLang.Cli.Files;
using RigLang.Cli.Output;
using RigLang.Flow;
using RigLang.Flow.Ground;
using RigLang.LanguageServer;

namespace RigLang.Cli.Commands;

/// <summary><c>rig server</c>: speaks with an editor in the Language Server Protocol, over standard input and output or a pipe.</summary>
internal static class ServerCommand
{
    public static int Run(string? pipe, Host host)
    {
        if (pipe is null)
        {
            return Serve(host.Input(), host.Output, host);
        }
        try
        {
            using var stream = Connect(pipe);
            return Serve(stream, stream, host);
        }
        catch (Exception e) when (e is IOException or SocketException or TimeoutException or UnauthorizedAccessException or ArgumentException)
        {
            return Usage.Error(host, $"there is nobody at the pipe {pipe}.", "The editor opens the pipe first and starts rig server then; without --pipe it speaks over standard input and output.");
        }
    }

    private static int Serve(Stream input, Stream output, Host host) =>
        Session.RunAsync(
            PipeReader.Create(input, new StreamPipeReaderOptions(leaveOpen: true)),
            PipeWriter.Create(output, new StreamPipeWriterOptions(leaveOpen: true)),
            HostOf(host)).GetAwaiter().GetResult();

    /// <summary>On Windows a named pipe; elsewhere the path of a socket, as editors name it.</summary>
    private static Stream Connect(string pipe)
    {
        if (OperatingSystem.IsWindows())
        {
            const string Prefix = @"\\.\pipe\";
            var client = new NamedPipeClientStream(".", pipe.StartsWith(Prefix, StringComparison.OrdinalIgnoreCase) ? pipe[Prefix.Length..] : pipe, PipeDirection.InOut, System.IO.Pipes.PipeOptions.Asynchronous);
            client.Connect(TimeSpan.FromSeconds(5));
            return client;
        }
        var socket = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        try
        {
            socket.Connect(new UnixDomainSocketEndPoint(pipe));
            return new NetworkStream(socket, ownsSocket: true);
        }
        catch
        {
            socket.Dispose();
            throw;
        }
    }

    private static ServerHost HostOf(Host host) => new(
        ToolVersion.Number,
        new Disk(ReadFile, folder => RigFiles.InFolder(folder), (name, content) => LibraryCopy.Put(name, content, host))
        {
            RealPath = ImportFolders.RealPath,
            WhyUnreadable = path => SourceReader.ReadWhole(path).Problem,
            RepositoryOf = folder => ImportFolders.RepositoryOf(folder)?.Replace(Path.DirectorySeparatorChar, '/'),
        },
        TraceText,
        compilation => Page(text => ChannelPage.WriteText(text, ChannelChart.Of(compilation.Rig), compilation.Rig.Traffic)),
        compilation => Page(text => AudioPage.Write(text, AudioAnswer.Of(compilation.Rig), compilation.Files[0])),
        compilation => Page(text => PowerPage.Write(text, compilation.Rig, compilation.FindingsAbout(PowerPage.Topics))),
        compilation => Page(text => GroundPage.Write(text, compilation.Rig)),
        (compilation, sound) => Page(text => GroundPage.WriteHum(text, compilation.Rig.Ground, sound, HumSuspects.For(compilation.Rig.Ground, sound))))
    {
        LargestText = TextFile.LargestBytes,
    };

    private static string? ReadFile(string path) => SourceReader.ReadWhole(path).Text;

    private static string TraceText(Compilation compilation, string question)
    {
        var (trace, mistake) = Tracer.Answer(compilation.Rig, question);
        return trace is null ? mistake!.ToString() : Page(text => new TracePage(text, compilation.Files[0]).Write(trace));
    }

    private static string Page(Action<TextWriter> write)
    {
        var text = new StringWriter { NewLine = "\n" };
        write(text);
        return text.ToString();
    }

    public static RigVerb Define(Host host)
    {
        var pipe = new Option<string?>("--pipe") { Description = "Speak over this pipe or socket, which the editor has opened", HelpName = "NAME" };
        var stdio = new Option<bool>("--stdio") { Description = "Speak over standard input and output; this is what it does anyway" };
        var verb = new RigVerb("server", "Speaks with an editor, so that it shows mistakes while you type")
        {
            Operands = "",
            Page =
            [
                "A language server (LSP 3.17). Your editor starts it; the folder editors/ of the project has the settings for several. "
                + "Typed at a prompt it waits for an editor that is not there; end it with Ctrl+C.",
                "Exit code: 0 after a shutdown in good order, 1 otherwise.",
            ],
            Examples = [("rig server", "what an editor runs")],
        };
        verb.Add(pipe);
        verb.Add(stdio);
        verb.SetAction(result => Run(result.GetValue(pipe), host));
        return verb;
    }
}
