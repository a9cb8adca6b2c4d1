using System.Buffers;
using System.Diagnostics;
using System.IO.Pipelines;
using System.Text;
using System.Text.Json.Nodes;
using RigLang.LanguageServer;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>What goes wrong costs only itself, and nothing grows without a bound.</summary>
public class Bounds
{
    private const string Path = "/rigs/a.rig";
    private const string Unknown = "device a : Nothing\n";

    [Fact]
    public async Task An_answer_that_fails_is_told_once_and_the_others_are_given()
    {
        await using var client = await Client.StartWithAsync(host => host with { BeforeAnswer = what => Fail(what, "HoverAsync") });
        client.Open(Path, Unknown);
        Assert.Null(await client.ResultAsync("textDocument/hover", Client.Place(Path, Unknown, "a :")));
        Assert.Null(await client.ResultAsync("textDocument/hover", Client.Place(Path, Unknown, "a :")));
        Assert.StartsWith("Hover failed inside rig", (await client.NextAsync("window/showMessage"))["message"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.False(client.Has("window/showMessage"));
        Assert.Single((await client.ResultAsync("textDocument/documentSymbol", new JsonObject { ["textDocument"] = Client.Document(Path) }))!.AsArray());
        Assert.Single((await client.DiagnosticsAsync(Path, 1))["diagnostics"]!.AsArray());
    }

    [Fact]
    public async Task What_is_asked_for_by_hand_and_fails_is_refused_each_time()
    {
        await using var client = await Client.StartWithAsync(host => host with { BeforeAnswer = what => Fail(what, "RenameAsync") });
        client.Open(Path, Unknown);
        var rename = Client.Place(Path, Unknown, "a :");
        rename["newName"] = "b";
        Assert.Equal(-32603, (await client.ErrorAsync("textDocument/rename", rename.DeepClone())).Code);
        Assert.Equal(-32603, (await client.ErrorAsync("textDocument/rename", rename)).Code);
    }

    [Fact]
    public async Task Checking_that_fails_leaves_the_session_alive()
    {
        var isBroken = false;
        await using var client = await Client.StartWithAsync(host => host with
        {
            Disk = host.Disk with { RealPath = path => isBroken ? throw new InvalidOperationException() : path },
        });
        client.Open(Path, Unknown);
        await client.DiagnosticsAsync(Path, 1);
        isBroken = true;
        client.Change(Path, 2, Client.Whole("import \"b.rig\"\n"));
        Assert.StartsWith("Checking failed inside rig", (await client.NextAsync("window/showMessage"))["message"]!.GetValue<string>(), StringComparison.Ordinal);
        isBroken = false;
        client.Change(Path, 3, Client.Whole(Unknown));
        Assert.Single((await client.DiagnosticsAsync(Path, 3))["diagnostics"]!.AsArray());
    }

    [Theory]
    [InlineData("opened")]
    [InlineData("edited")]
    public async Task A_text_that_is_too_large_is_not_taken_in_and_that_is_said(string how)
    {
        await using var client = await Client.StartWithAsync(host => host with { LargestText = 1_000_000 });
        var large = new string('#', 1_000_001);
        client.Open(Path, how == "opened" ? large : Unknown);
        if (how == "edited")
        {
            client.Change(Path, 2, Client.Replace((0, 0), (0, 0), large));
        }
        Assert.Contains("larger than 1 MB", (await client.NextAsync("window/showMessage"))["message"]!.GetValue<string>(), StringComparison.Ordinal);
        client.Change(Path, 3, Client.Whole(Unknown));
        Assert.Single((await client.DiagnosticsAsync(Path, 3))["diagnostics"]!.AsArray());
    }

    [Fact]
    public async Task The_limit_counts_bytes_as_files_do()
    {
        await using var client = await Client.StartWithAsync(host => host with { LargestText = 1_000_000 });
        client.Open(Path, "#" + new string('\u20ac', 333_334));
        Assert.Contains("larger than 1 MB", (await client.NextAsync("window/showMessage"))["message"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_client_that_does_not_read_is_not_read_from_either()
    {
        Pipe toServer = new(), toClient = new();
        var server = Session.RunAsync(toServer.Reader, toClient.Writer, Host);
        await Send(toServer, "initialize", 0, new JsonObject { ["processId"] = null, ["rootUri"] = null, ["capabilities"] = new JsonObject() });
        await Send(toServer, "textDocument/didOpen", null, new JsonObject
        {
            ["textDocument"] = new JsonObject { ["uri"] = "file://" + Path, ["languageId"] = "rig", ["version"] = 1, ["text"] = string.Concat(Enumerable.Range(0, 500).Select(i => $"device a{i} : Nothing\n")) },
        });
        var symbols = new JsonObject { ["textDocument"] = Client.Document(Path) };
        // Answers of some 100 KB each, which nobody takes: what follows has to stay in the pipe.
        var sent = 0;
        while (sent < 2_000 && Send(toServer, "textDocument/documentSymbol", sent + 1, symbols) is var flushed && await Task.WhenAny(flushed, Task.Delay(500, TestContext.Current.CancellationToken)) == flushed)
        {
            sent++;
        }
        Assert.InRange(sent, 1, 1_999);

        // Once it reads, every answer is there.
        var reading = CountAnswers(toClient.Reader, sent + 1);
        Assert.Equal(sent + 1, await reading.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken));
        await toServer.Writer.CompleteAsync();
        await toClient.Reader.CompleteAsync();
        await server.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task Memory_is_looked_after_at_every_message_whether_or_not_findings_are_told()
    {
        var handled = 0;
        var pace = new Pace(new AtOnce(), () => handled++);
        for (var message = 0; message < 200; message++)
        {
            await pace.MayReadAsync(unanswered: 0, TestContext.Current.CancellationToken);
            pace.HandedOver();
        }
        Assert.Equal(200, handled);
    }

    [Fact]
    public void What_is_left_behind_is_collected_in_the_midst_of_work()
    {
        // What else runs in this process must not count.
        var memory = 10_000_000L;
        using var tidying = new IdleTidying(new AtOnce(), () => memory);
        memory = 50_000_000;
        var garbage = OldGarbage();
        tidying.WorkDone();
        Assert.False(garbage.IsAlive);
    }

    /// <summary>Much that has grown old and that nobody holds any more: no collection of what is young finds it.</summary>
    [System.Runtime.CompilerServices.MethodImpl(System.Runtime.CompilerServices.MethodImplOptions.NoInlining)]
    private static WeakReference OldGarbage()
    {
        var pieces = Enumerable.Range(0, 1_000).Select(_ => new byte[1_000]).ToList();
        GC.Collect();
        GC.Collect();
        return new WeakReference(pieces);
    }

    /// <summary>A queue that is always free.</summary>
    private sealed class AtOnce : SynchronizationContext
    {
        public override void Post(SendOrPostCallback d, object? state) => d(state);
    }

    [Fact]
    public async Task The_server_ends_when_the_editor_has_been_killed()
    {
        using var editor = Process.Start(new ProcessStartInfo("sleep", "1000"))!;
        var gone = new TaskCompletionSource();
        using var watch = ClientWatch.Of(editor.Id, () => gone.TrySetResult(), TimeSpan.FromMilliseconds(10));
        Assert.NotNull(watch);
        Assert.False(gone.Task.IsCompleted);
        editor.Kill();
        await editor.WaitForExitAsync(TestContext.Current.CancellationToken);
        await gone.Task.WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken);
    }

    [Fact]
    public void An_editor_that_is_not_to_be_seen_is_not_watched() =>
        Assert.Null(ClientWatch.Of(int.MaxValue, () => { }));

    private static ServerHost Host { get; } = new(
        "1.2.3", new Disk(_ => null, _ => [], (_, _) => null), (_, _) => "", _ => "", _ => "", _ => "", _ => "", (_, _) => "");

    private static void Fail(string what, string failing)
    {
        if (what == failing)
        {
            throw new InvalidOperationException("made to fail");
        }
    }

    private static Task Send(Pipe pipe, string method, int? id, JsonObject parameters)
    {
        var message = new JsonObject { ["jsonrpc"] = "2.0", ["method"] = method, ["params"] = parameters.DeepClone() };
        if (id is { } number)
        {
            message["id"] = number;
        }
        var body = Encoding.UTF8.GetBytes(message.ToJsonString());
        pipe.Writer.Write(Encoding.ASCII.GetBytes($"Content-Length: {body.Length}\r\n\r\n"));
        pipe.Writer.Write(body);
        return pipe.Writer.FlushAsync().AsTask();
    }

    private static async Task<int> CountAnswers(PipeReader reader, int wanted)
    {
        var stream = reader.AsStream();
        var answers = 0;
        while (answers < wanted && await Wire.BodyAsync(stream) is { } body)
        {
            answers += JsonNode.Parse(body)!["id"] is null ? 0 : 1;
        }
        return answers;
    }
}
