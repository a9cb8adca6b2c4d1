using System.Text.Json.Nodes;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>From hello to goodbye, and what is answered out of turn. Codes after JSON-RPC 2.0 and LSP 3.17.</summary>
public class Life
{
    private const int ParseError = -32700;
    private const int InvalidRequest = -32600;
    private const int MethodNotFound = -32601;
    private const int InvalidParams = -32602;
    private const int ServerNotInitialized = -32002;
    private const string Path = "/rigs/a.rig";

    [Fact]
    public async Task A_request_before_initialize_is_refused()
    {
        await using var client = Client.Raw();
        Assert.Equal(ServerNotInitialized, (await client.ErrorAsync("textDocument/hover", Client.Place(Path, "x", "x"))).Code);
    }

    [Fact]
    public async Task What_is_opened_before_initialize_is_passed_over()
    {
        await using var client = Client.Raw();
        client.Open(Path, "device");
        await client.InitializeAsync();
        Assert.Null(await client.ResultAsync("textDocument/hover", Client.Place(Path, "device", "device")));
    }

    [Fact]
    public async Task A_second_initialize_is_refused()
    {
        await using var client = await Client.StartAsync();
        Assert.Equal(InvalidRequest, (await client.ErrorAsync("initialize", new JsonObject { ["processId"] = null, ["rootUri"] = null, ["capabilities"] = new JsonObject() })).Code);
    }

    [Fact]
    public async Task After_shutdown_requests_are_refused_and_exit_is_in_good_order()
    {
        await using var client = await Client.StartAsync();
        await client.ResultAsync("shutdown");
        Assert.Equal(InvalidRequest, (await client.ErrorAsync("textDocument/hover", Client.Place(Path, "x", "x"))).Code);
        client.Notify("exit");
        Assert.Equal(0, await client.Exit);
    }

    [Fact]
    public async Task Exit_without_shutdown_is_a_failure()
    {
        await using var client = await Client.StartAsync();
        client.Notify("exit");
        Assert.Equal(1, await client.Exit);
    }

    [Fact]
    public async Task A_client_that_hangs_up_ends_the_server()
    {
        await using var client = await Client.StartAsync();
        client.HangUp();
        Assert.Equal(1, await client.Exit);
    }

    [Fact]
    public async Task An_unknown_method_is_named()
    {
        await using var client = await Client.StartAsync();
        var (code, message) = await client.ErrorAsync("textDocument/nonsense", new JsonObject());
        Assert.Equal(MethodNotFound, code);
        Assert.Contains("textDocument/nonsense", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Unknown_notifications_are_passed_over()
    {
        await using var client = await Client.StartAsync();
        client.Notify("$/nonsense", new JsonObject());
        client.Notify("nonsense", new JsonObject());
        Assert.NotNull(await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }));
    }

    [Theory]
    [InlineData("{bad}")]
    [InlineData("")]
    [InlineData("\u0000\u0001")]
    public async Task What_is_not_JSON_is_answered_and_the_next_message_is_read(string body)
    {
        await using var client = await Client.StartAsync();
        client.SendBytes(System.Text.Encoding.UTF8.GetBytes($"Content-Length: {body.Length}\r\n\r\n{body}"));
        Assert.Equal(ParseError, (await client.StrayErrorAsync())["error"]!["code"]!.GetValue<int>());
        Assert.NotNull(await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }));
    }

    [Theory]
    [InlineData("[]")]
    [InlineData("42")]
    [InlineData("{\"jsonrpc\":\"2.0\"}")]
    [InlineData("{\"jsonrpc\":\"2.0\",\"id\":7}")]
    [InlineData("{\"jsonrpc\":\"2.0\",\"method\":42}")]
    public async Task JSON_that_is_no_message_is_answered_and_the_next_message_is_read(string body)
    {
        await using var client = await Client.StartAsync();
        client.SendBytes(System.Text.Encoding.UTF8.GetBytes($"Content-Length: {body.Length}\r\n\r\n{body}"));
        Assert.Equal(InvalidRequest, (await client.StrayErrorAsync())["error"]!["code"]!.GetValue<int>());
        Assert.NotNull(await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }));
    }

    [Theory]
    [InlineData("Foo: 1\r\n\r\n")]
    [InlineData("Content-Length: many\r\n\r\n")]
    [InlineData("Content-Length: -5\r\n\r\n")]
    [InlineData("Content-Length: 99999999999999\r\n\r\n")]
    public async Task A_header_without_a_length_is_answered_and_the_next_message_is_read(string header)
    {
        await using var client = await Client.StartAsync();
        client.SendBytes(System.Text.Encoding.ASCII.GetBytes(header));
        Assert.Equal(InvalidRequest, (await client.StrayErrorAsync())["error"]!["code"]!.GetValue<int>());
        Assert.NotNull(await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }));
    }

    [Fact]
    public async Task A_message_longer_than_its_header_says_costs_no_later_one()
    {
        await using var client = await Client.StartAsync();
        client.SendBytes("Content-Length: 10\r\n\r\n{\"jsonrpc\":\"2.0\",\"id\":99,\"method\":\"shutdown\"}"u8);
        await client.StrayErrorAsync();
        Assert.NotNull(await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }));
    }

    [Fact]
    public async Task A_message_that_is_cut_off_ends_the_server_in_peace()
    {
        await using var client = await Client.StartAsync();
        client.SendBytes("Content-Length: 1000\r\n\r\n{\"jsonrpc\""u8);
        client.HangUp();
        Assert.Equal(1, await client.Exit);
    }

    [Fact]
    public async Task Parameters_of_the_wrong_shape_are_refused()
    {
        await using var client = await Client.StartAsync();
        var (code, message) = await client.ErrorAsync("textDocument/hover", new JsonObject { ["textDocument"] = 42 });
        Assert.Equal(InvalidParams, code);
        Assert.DoesNotContain("   at ", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_header_in_pieces_is_put_together()
    {
        await using var client = await Client.StartAsync();
        const string Body = "{\"jsonrpc\":\"2.0\",\"id\":\"own\",\"method\":\"textDocument/x\"}";
        foreach (var piece in $"Content-Type: x\r\nContent-Length: {Body.Length}\r\n\r\n{Body}")
        {
            client.SendBytes([(byte)piece]);
        }
        Assert.Equal("own", (await client.StrayErrorAsync())["id"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("""["utf-8", "utf-16"]""", "utf-8")]
    [InlineData("""["utf-32"]""", "utf-32")]
    [InlineData("""["klingon", "utf-16"]""", "utf-16")]
    [InlineData("""[]""", "utf-16")]
    public async Task The_first_encoding_that_both_know_is_taken(string offered, string taken)
    {
        await using var client = Client.Raw();
        var result = await client.InitializeAsync(new JsonObject { ["general"] = new JsonObject { ["positionEncodings"] = JsonNode.Parse(offered) } });
        Assert.Equal(taken, result["capabilities"]!["positionEncoding"]!.GetValue<string>());
    }

    [Fact]
    public async Task A_cancelled_request_is_answered_all_the_same()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, "device a : Nothing\n");
        var answer = client.AnswerAsync("textDocument/documentSymbol", new JsonObject { ["textDocument"] = Client.Document(Path) });
        client.Notify("$/cancelRequest", new JsonObject { ["id"] = 2 });
        Assert.True((await answer)["result"] is not null || (await answer)["error"]!["code"]!.GetValue<int>() == -32800);
    }
}
