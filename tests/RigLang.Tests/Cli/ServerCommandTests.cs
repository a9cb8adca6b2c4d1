using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Xunit;

namespace RigLang.Tests.Cli;

/// <summary><c>rig server</c>: over standard input and output, over a socket, and the copies that editors open.</summary>
public sealed class ServerCommandTests : IDisposable
{
    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private static byte[] Frame(string body) => Encoding.UTF8.GetBytes($"Content-Length: {Encoding.UTF8.GetByteCount(body)}\r\n\r\n{body}");

    private static readonly byte[] Visit =
    [
        .. Frame("""{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":null,"rootUri":null,"capabilities":{}}}"""),
        .. Frame("""{"jsonrpc":"2.0","id":2,"method":"shutdown"}"""),
        .. Frame("""{"jsonrpc":"2.0","method":"exit"}"""),
    ];

    [Fact]
    public void A_visit_over_standard_input_and_output_ends_in_good_order()
    {
        _stage.Input = Visit;
        var (code, said, _) = _stage.Rig("server", "--stdio");
        Assert.Equal(0, code);
        Assert.Contains("\"hoverProvider\":true", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Input_that_ends_without_a_word_is_a_failure() => Assert.Equal(1, _stage.Rig("server").Code);

    [Fact]
    public async Task A_visit_over_a_socket_ends_in_good_order()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }
        var path = _stage.PathOf("editor.sock");
        using var listener = new Socket(AddressFamily.Unix, SocketType.Stream, ProtocolType.Unspecified);
        listener.Bind(new UnixDomainSocketEndPoint(path));
        listener.Listen();
        var server = Task.Run(() => _stage.Rig("server", "--pipe", path).Code);
        using var editor = new NetworkStream(await listener.AcceptAsync(TestContext.Current.CancellationToken), ownsSocket: true);
        await editor.WriteAsync(Visit, TestContext.Current.CancellationToken);
        using var reader = new StreamReader(editor);
        Assert.Contains("Content-Length", await reader.ReadLineAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(0, await server.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken));
    }

    [Fact]
    public void A_pipe_where_nobody_listens_is_told()
    {
        var (code, _, error) = _stage.Rig("server", "--pipe", _stage.PathOf("nobody.sock"));
        Assert.Equal(2, code);
        Assert.Contains("there is nobody at the pipe", error, StringComparison.Ordinal);
    }

    /// <summary>A synth with a channel, earthed like the desk that it plays into: there is something to say of it on every page.</summary>
    private const string Earthed = """
        import "shared/gear.rig"
        import "shared/leads.rig"

        gear Desk {
          in tape  : audio mono line           on ts 6.35 mm
          in power : mains 230 V earthed, 30 W on iec-c14
        }

        gear Synth {
          in  midi  : midi                      on din-5
          out line  : audio mono line           on ts 6.35 mm
          in  power : mains 230 V earthed, 20 W on iec-c14
          part voice receives midi on channel 3
        }

        device wall  : WallSocket
        device desk  : Desk
        device synth : Synth
        connect wall.socket1 to desk.power
        connect wall.socket2 to synth.power
        connect synth.line   to desk.tape

        """;

    [Theory]
    [InlineData("rig.channels", "", "channels")]
    [InlineData("rig.audio", "", "audio")]
    [InlineData("rig.power", "", "power")]
    [InlineData("rig.ground", "", "ground")]
    [InlineData("rig.hum", ",\"buzz\"", "hum", "--heard", "buzz")]
    public void The_page_in_an_editor_is_that_of_the_command(string command, string more, string verb, params string[] options)
    {
        var uri = new Uri(_stage.Put("earthed.rig", Earthed)).AbsoluteUri;
        _stage.Input =
        [
            .. Frame("""{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":null,"rootUri":null,"capabilities":{}}}"""),
            .. Frame($$$$"""{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"{{{{uri}}}}","languageId":"rig","version":1,"text":{{{{JsonSerializer.Serialize(Earthed)}}}}}}}"""),
            .. Frame($$$"""{"jsonrpc":"2.0","id":2,"method":"workspace/executeCommand","params":{"command":"{{{command}}}","arguments":["{{{uri}}}"{{{more}}}]}}"""),
            .. Frame("""{"jsonrpc":"2.0","id":3,"method":"shutdown"}"""),
            .. Frame("""{"jsonrpc":"2.0","method":"exit"}"""),
        ];
        var answer = Array.Find(_stage.Rig("server").Out.Split("Content-Length"), m => m.Contains("\"id\":2", StringComparison.Ordinal))!;
        var page = JsonNode.Parse(answer[answer.IndexOf('{', StringComparison.Ordinal)..])!["result"]!.GetValue<string>();
        Assert.Contains("synth", page, StringComparison.Ordinal);
        Assert.Equal(_stage.Rig([verb, "earthed.rig", .. options]).Out, page);
    }

    [Fact]
    public void A_copy_of_the_library_is_put_where_an_editor_can_open_it_and_put_back_when_it_was_changed()
    {
        _stage.Variables["RIG_LIBRARY"] = _stage.PathOf("library");
        string? path = null;
        _stage.With(host =>
        {
            path = RigLang.Cli.Files.LibraryCopy.Put("shared/a.rig", "gear A {\n}\n", host);
            File.WriteAllText(path!, "changed");
            return RigLang.Cli.Files.LibraryCopy.Put("shared/a.rig", "gear A {\n}\n", host) == path ? 0 : 1;
        });
        Assert.Equal("gear A {\n}\n", File.ReadAllText(path!));
    }
}
