using System.Text.Json.Nodes;
using RigLang.LanguageServer;
using StreamJsonRpc;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>Whatever an editor sends, the session goes on, and the text on both sides is the same or known not to be.</summary>
public class WhatCannotEndIt
{
    private const int InvalidParams = -32602;
    private const int RequestFailed = -32803;
    private const string Path = "/rigs/a.rig";
    private const string Unknown = "device a : Nothing\n";

    [Theory]
    [InlineData("""{"jsonrpc":"2.0","id":5,"result":1}""")]
    [InlineData("""{"jsonrpc":"2.0","id":"five","result":null}""")]
    [InlineData("""{"jsonrpc":"2.0","id":5,"error":{"code":-32600,"message":"no"}}""")]
    [InlineData("""{"jsonrpc":"2.0","id":null,"error":{"code":-32700,"message":"no"}}""")]
    [InlineData("""{"jsonrpc":"2.0","id":null,"result":1}""")]
    [InlineData("""{"jsonrpc":"2.0","id":4,"error":[]}""")]
    public async Task An_answer_to_what_was_not_asked_is_passed_over_and_logged_once(string answer)
    {
        await using var client = await Client.StartAsync();
        client.SendBytes(System.Text.Encoding.UTF8.GetBytes($"Content-Length: {answer.Length}\r\n\r\n{answer}Content-Length: {answer.Length}\r\n\r\n{answer}"));
        Assert.Contains("passed over", (await client.NextAsync("window/logMessage"))["message"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.NotNull(await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }));
        Assert.False(client.Has("window/logMessage"));
    }

    [Theory]
    [InlineData("""{"jsonrpc":"2.0","id":3,"method":null}""")]
    [InlineData("""{"jsonrpc":"2.0","id":3,"method":null,"result":1}""")]
    public async Task A_method_that_is_no_name_is_refused(string message)
    {
        await using var client = await Client.StartAsync();
        client.SendBytes(System.Text.Encoding.UTF8.GetBytes($"Content-Length: {message.Length}\r\n\r\n{message}"));
        Assert.Equal(-32600, (await client.StrayErrorAsync())["error"]!["code"]!.GetValue<int>());
        Assert.NotNull(await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }));
    }

    [Fact]
    public async Task A_request_under_the_id_of_one_that_is_not_answered_is_refused()
    {
        await using var client = await Client.StartAsync();
        const string Message = """{"jsonrpc":"2.0","id":"twice","method":"workspace/symbol","params":{"query":""}}""";
        var one = $"Content-Length: {Message.Length}\r\n\r\n{Message}";
        client.SendBytes(System.Text.Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(one, 20))));
        Assert.Equal(-32600, (await client.StrayErrorAsync())["error"]!["code"]!.GetValue<int>());
    }

    [Fact]
    public async Task A_place_beyond_every_number_is_the_end_of_its_line()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, "device a : Nothing # one\ndevice b : Nothing\n");
        client.Change(Path, 2, new JsonObject
        {
            ["range"] = new JsonObject { ["start"] = Client.At(0, 19), ["end"] = new JsonObject { ["line"] = 0, ["character"] = 1L << 32 } },
            ["text"] = "",
        });
        Assert.Equal(2, (await client.DiagnosticsAsync(Path, 2))["diagnostics"]!.AsArray().Count);
        Assert.Equal(["a", "b"], await DevicesOf(client));
    }

    [Fact]
    public async Task A_range_the_wrong_way_round_is_turned()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, Unknown);
        client.Change(Path, 2, Client.Replace((0, 8), (0, 7), "ab"));
        Assert.Equal(["ab"], await DevicesOf(client));
    }

    [Theory]
    [InlineData("""{ "textDocument": { "uri": "file:///rigs/a.rig", "version": 2 }, "contentChanges": [{ "range": 7, "text": "x" }] }""")]
    [InlineData("""{ "textDocument": { "uri": "file:///rigs/a.rig", "version": 2 }, "contentChanges": [{}] }""")]
    [InlineData("""{ "textDocument": { "uri": "file:///rigs/a.rig", "version": 2 } }""")]
    [InlineData("""{ "textDocument": 3, "contentChanges": [] }""")]
    [InlineData("""{}""")]
    public async Task An_edit_that_cannot_be_read_is_told_once_and_nothing_is_said_about_the_text(string edit)
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, Unknown);
        Assert.NotEmpty((await client.DiagnosticsAsync(Path, 1))["diagnostics"]!.AsArray());
        client.Notify("textDocument/didChange", JsonNode.Parse(edit));
        client.Notify("textDocument/didChange", JsonNode.Parse(edit));
        Assert.Contains("a.rig is not checked any more", (await client.NextAsync("window/showMessage"))["message"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Empty((await client.DiagnosticsAsync(Path, 1))["diagnostics"]!.AsArray());
        Assert.Null(await client.ResultAsync("textDocument/hover", Client.Place(Path, Unknown, "a :")));
        Assert.False(client.Has("window/showMessage"));
    }

    [Fact]
    public async Task A_text_out_of_step_is_checked_again_when_it_comes_as_a_whole()
    {
        await using var client = await OutOfStep();
        client.Change(Path, 4, Client.Replace((0, 0), (0, 0), "lost"), Client.Whole(Unknown));
        Assert.Single((await client.DiagnosticsAsync(Path, 4))["diagnostics"]!.AsArray());
    }

    [Fact]
    public async Task A_text_out_of_step_is_checked_again_when_it_is_opened_again()
    {
        await using var client = await OutOfStep();
        client.Close(Path);
        client.Open(Path, Unknown, 4);
        Assert.Single((await client.DiagnosticsAsync(Path, 4))["diagnostics"]!.AsArray());
    }

    [Fact]
    public async Task A_text_out_of_step_is_checked_again_when_it_is_saved()
    {
        await using var client = await OutOfStep();
        client.SetFile(Path, Unknown);
        client.Notify("textDocument/didSave", new JsonObject { ["textDocument"] = Client.Document(Path) });
        Assert.Single((await client.NextAsync("textDocument/publishDiagnostics", p => p["diagnostics"]!.AsArray().Count > 0))["diagnostics"]!.AsArray());
    }

    [Theory]
    [MemberData(nameof(Requests))]
    public async Task A_request_without_what_it_needs_is_refused_as_such(string method)
    {
        await using var client = await Client.StartAsync();
        Assert.Equal(InvalidParams, (await client.ErrorAsync(method, new JsonObject())).Code);
    }

    /// <summary>Every request of the protocol that the server answers, but hello and goodbye, which need nothing.</summary>
    public static TheoryData<string> Requests => new(typeof(IRigProtocol).GetMethods()
        .Where(m => m.ReturnType.IsGenericType)
        .Select(m => (JsonRpcMethodAttribute)m.GetCustomAttributes(typeof(JsonRpcMethodAttribute), false)[0])
        .Select(m => m.Name!)
        .Where(name => name is not ("initialize" or "shutdown")));

    [Fact]
    public async Task A_rename_that_is_refused_has_failed_and_is_not_malformed()
    {
        await using var client = await Client.StartAsync();
        const string Text = "import \"shared/gear.rig\"\ndevice a : MonoSynth\ndevice b : MonoSynth\n";
        client.Open(Path, Text);
        var toAnother = Client.Place(Path, Text, "a : MonoSynth");
        toAnother["newName"] = "b";
        Assert.Equal(RequestFailed, (await client.ErrorAsync("textDocument/rename", toAnother)).Code);
        Assert.Equal(RequestFailed, (await client.ErrorAsync("textDocument/prepareRename", Client.Place(Path, Text, "MonoSynth"))).Code);
    }

    private static async Task<Client> OutOfStep()
    {
        var client = await Client.StartAsync();
        client.Open(Path, Unknown);
        client.Change(Path, 3, new JsonObject { ["range"] = "all" });
        await client.NextAsync("window/showMessage");
        return client;
    }

    /// <summary>The names in the text as the server has it.</summary>
    private static async Task<List<string>> DevicesOf(Client client) =>
        [.. (await client.ResultAsync("textDocument/documentSymbol", new JsonObject { ["textDocument"] = Client.Document(Path) }))!.AsArray().Select(s => s!["name"]!.GetValue<string>())];
}
