using System.Text.Json.Nodes;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>Requests are answered about what the editor has opened and what belongs to it; a file of elsewhere is not read for a request.</summary>
public class WhatRequestsMayRead
{
    private const string Secret = "/// hunter2\ngear Hunter2 {\n  in hunter2 : midi on din-5\n}\ndevice hunter2 : Hunter2\n";

    private const string Elsewhere = "/else/secret.rig";

    private static Task<Client> WithAsync(string? folder, params (string Path, string Text)[] files) => Client.StartAsync(folder: folder, files: files);

    private static JsonObject Asking(string command, string path, params string[] more) => new()
    {
        ["command"] = command,
        ["arguments"] = new JsonArray(["file://" + path, .. more.Select(m => JsonValue.Create(m))]),
    };

    [Theory]
    [InlineData("rig.power")]
    [InlineData("rig.channels")]
    [InlineData("rig.ground")]
    [InlineData("rig.trace", "clock from hunter2")]
    [InlineData("rig.hum", "hum")]
    public async Task A_command_on_a_file_of_elsewhere_is_refused_with_the_way_out(string command, params string[] more)
    {
        await using var client = await WithAsync("/rigs", (Elsewhere, Secret));
        var (code, message) = await client.ErrorAsync("workspace/executeCommand", Asking(command, Elsewhere, more));
        Assert.Equal(-32602, code);
        Assert.Equal($"file://{Elsewhere} is neither open nor in a folder of the workspace, so it was not read; open it in the editor first.", message);
    }

    [Theory]
    [InlineData("")]
    [InlineData("git:/")]
    [InlineData("file:///%00")]
    public async Task A_workspace_folder_that_is_none_opens_nothing(string uri)
    {
        await using var client = await WithAsync("/rigs", (Elsewhere, Secret));
        client.Notify("workspace/didChangeWorkspaceFolders", new JsonObject
        {
            ["event"] = new JsonObject { ["added"] = new JsonArray(new JsonObject { ["uri"] = uri, ["name"] = "none" }), ["removed"] = new JsonArray() },
        });
        Assert.Equal(-32602, (await client.ErrorAsync("workspace/executeCommand", Asking("rig.power", Elsewhere))).Code);
    }

    [Fact]
    public async Task Nothing_is_said_of_whether_there_is_such_a_file()
    {
        await using var client = await WithAsync("/rigs", (Elsewhere, Secret));
        var there = await client.ErrorAsync("workspace/executeCommand", Asking("rig.power", Elsewhere));
        var missing = await client.ErrorAsync("workspace/executeCommand", Asking("rig.power", "/else/nothing.rig"));
        Assert.Equal(there.Message.Replace("secret", "nothing", StringComparison.Ordinal), missing.Message);
    }

    [Theory]
    [InlineData("textDocument/hover")]
    [InlineData("textDocument/definition")]
    [InlineData("textDocument/documentSymbol")]
    [InlineData("textDocument/diagnostic")]
    [InlineData("textDocument/semanticTokens/full")]
    [InlineData("textDocument/formatting")]
    public async Task A_request_about_a_file_of_elsewhere_shows_nothing_of_it(string method)
    {
        await using var client = await WithAsync("/rigs", (Elsewhere, Secret));
        var parameters = Client.Place(Elsewhere, Secret, "Hunter2");
        parameters["options"] = JsonNode.Parse("""{ "tabSize": 2, "insertSpaces": true }""");
        var answer = await client.ResultAsync(method, parameters);
        var items = answer is JsonObject report && (report["items"] ?? report["data"]) is { } inside ? inside : answer;
        Assert.True(items is null or JsonArray { Count: 0 }, answer?.ToJsonString());
    }

    [Fact]
    public async Task A_file_of_a_folder_of_the_workspace_is_read_without_being_opened()
    {
        await using var client = await WithAsync("/rigs", ("/rigs/a.rig", Secret));
        Assert.Equal("the power", (await client.ResultAsync("workspace/executeCommand", Asking("rig.power", "/rigs/a.rig")))!.GetValue<string>());
    }

    [Fact]
    public async Task A_file_that_came_after_the_folder_was_read_belongs_to_it()
    {
        await using var client = await WithAsync("/rigs");
        client.SetFile("/rigs/later.rig", Secret);
        Assert.Equal("the power", (await client.ResultAsync("workspace/executeCommand", Asking("rig.power", "/rigs/later.rig")))!.GetValue<string>());
    }

    [Fact]
    public async Task An_open_file_of_elsewhere_is_answered_until_it_is_closed()
    {
        await using var client = await WithAsync("/rigs", (Elsewhere, Secret));
        client.Open(Elsewhere, Secret);
        Assert.Equal("the power", (await client.ResultAsync("workspace/executeCommand", Asking("rig.power", Elsewhere)))!.GetValue<string>());
        client.Close(Elsewhere);
        Assert.Equal(-32602, (await client.ErrorAsync("workspace/executeCommand", Asking("rig.power", Elsewhere))).Code);
    }

    [Fact]
    public async Task A_file_that_an_open_rig_imports_is_part_of_it()
    {
        await using var client = await WithAsync(null, ("/band/gear.rig", Secret));
        client.Open("/band/a.rig", "import \"gear.rig\"\n");
        Assert.Contains("Hunter2", (await client.ResultAsync("textDocument/hover", Client.Place("/band/gear.rig", Secret, "Hunter2")))!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_link_in_the_workspace_that_leads_elsewhere_is_not_read()
    {
        await using var client = await Client.StartAsync(files: ("/rigs/link.rig", Secret));
        client.Links["/rigs/link.rig"] = Elsewhere;
        client.Notify("workspace/didChangeWorkspaceFolders", new JsonObject
        {
            ["event"] = new JsonObject { ["added"] = new JsonArray(new JsonObject { ["uri"] = "file:///rigs", ["name"] = "rigs" }), ["removed"] = new JsonArray() },
        });
        Assert.Equal(-32602, (await client.ErrorAsync("workspace/executeCommand", Asking("rig.power", "/rigs/link.rig"))).Code);
        Assert.Empty((await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }))!.AsArray());
    }

    [Fact]
    public async Task An_import_that_cannot_be_read_is_told_with_the_reason()
    {
        await using var client = await WithAsync("/rigs");
        client.Unreadable["/rigs/gear.rig"] = "it is not an ordinary file but a pipe";
        client.Open("/rigs/a.rig", "import \"gear.rig\"\n");
        Assert.Contains("not an ordinary file but a pipe", (await client.DiagnosticsAsync("/rigs/a.rig", 1)).ToJsonString(), StringComparison.Ordinal);
    }
}
