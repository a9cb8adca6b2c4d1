using System.Text.Json.Nodes;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>Documents as the client has them, and the squiggles in them.</summary>
public class Documents
{
    private const string Path = "/rigs/a.rig";

    /// <summary>One finding, at line 1: the gear is not known.</summary>
    private const string Faulty = "device bass : Tern\n";

    /// <summary>One hint and nothing else.</summary>
    private static readonly string Hinted = RigLang.Checks.CheckList.Find("ends-swapped")!.BadExample;

    private static List<string> Codes(JsonNode diagnostics) => [.. diagnostics["diagnostics"]!.AsArray().Select(d => d!["code"]!.GetValue<string>())];

    [Fact]
    public async Task Opening_a_document_tells_what_is_wrong_with_the_version()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, Faulty, 7);
        var told = (await client.DiagnosticsAsync(Path, 7))["diagnostics"]![0]!;
        Assert.Equal("unknown-name", told["code"]!.GetValue<string>());
        Assert.Equal(1, told["severity"]!.GetValue<int>());
        Assert.Equal("file:///library/checks/unknown-name.md", told["codeDescription"]!["href"]!.GetValue<string>());
        Assert.Equal("""{"start":{"line":0,"character":14},"end":{"line":0,"character":18}}""", told["range"]!.ToJsonString());
    }

    [Fact]
    public async Task A_squiggle_goes_when_its_fault_goes()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, Faulty);
        Assert.NotEmpty(Codes(await client.DiagnosticsAsync(Path, 1)));
        client.Change(Path, 2, Client.Replace((0, 0), (1, 0), ""));
        Assert.Empty(Codes(await client.DiagnosticsAsync(Path, 2)));
    }

    [Fact]
    public async Task Changes_of_one_message_are_made_one_after_the_other()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, "");
        client.Change(Path, 2, Client.Replace((0, 0), (0, 0), "rig \"b\""), Client.Replace((0, 5), (0, 6), "Night"), Client.Replace((0, 10), (0, 10), " 2"));
        var symbols = await client.ResultAsync("textDocument/documentSymbol", new JsonObject { ["textDocument"] = Client.Document(Path) });
        Assert.Equal("Night 2", symbols![0]!["name"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("utf-8", 12)]
    [InlineData("utf-16", 8)]
    [InlineData("utf-32", 7)]
    public async Task Places_are_counted_as_the_client_counts(string encoding, int character)
    {
        // "é" is two bytes in UTF-8 and one unit in the others; the note is four bytes, two units, one code point.
        const string Text = "// é\u03c0\U0001D160 x";
        await using var client = await Client.StartAsync(new JsonObject { ["general"] = new JsonObject { ["positionEncodings"] = new JsonArray(encoding) } });
        client.Open(Path, Text);
        client.Change(Path, 2, Client.Replace((0, character), (0, character + 1), "\ndevice y : Z"));
        var symbols = await client.ResultAsync("textDocument/documentSymbol", new JsonObject { ["textDocument"] = Client.Document(Path) });
        Assert.Equal("y", symbols![0]!["name"]!.GetValue<string>());
    }

    [Fact]
    public async Task A_place_outside_the_text_is_the_nearest_in_it()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, "rig \"a\"");
        client.Change(Path, 2, Client.Replace((0, 99), (77, 3), " {\n}\n"), Client.Replace((50, 0), (60, 0), "device x : Y"));
        var symbols = await client.ResultAsync("textDocument/documentSymbol", new JsonObject { ["textDocument"] = Client.Document(Path) });
        Assert.Equal(["a", "x"], symbols!.AsArray().Select(s => s!["name"]!.GetValue<string>()));
    }

    [Fact]
    public async Task A_change_to_what_is_not_open_is_passed_over()
    {
        await using var client = await Client.StartAsync();
        client.Change(Path, 2, Client.Whole(Faulty));
        client.Close(Path);
        client.Open(Path, "", 3);
        Assert.Empty(Codes(await client.DiagnosticsAsync(Path, 3)));
    }

    [Fact]
    public async Task Of_a_document_opened_twice_the_newer_text_counts()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, Faulty, 1);
        client.Open(Path, "", 2);
        Assert.Empty(Codes(await client.DiagnosticsAsync(Path, 2)));
    }

    [Fact]
    public async Task Closing_takes_the_squiggles_away()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, Faulty);
        await client.DiagnosticsAsync(Path, 1);
        client.Close(Path);
        Assert.Empty(Codes(await client.NextAsync("textDocument/publishDiagnostics", p => p["version"] is null)));
    }

    private const string Gear = "gear Tern {\n  in midi : midi on din-5\n}\n";
    private const string Importing = "import \"gear.rig\"\ndevice bass : Tern\n";

    [Fact]
    public async Task An_import_that_is_not_saved_counts_as_it_stands_in_the_editor()
    {
        await using var client = await Client.StartAsync(files: [("/rigs/gear.rig", "")]);
        client.Open(Path, Importing);
        Assert.Contains("unknown-name", Codes(await client.DiagnosticsAsync(Path, 1)));
        client.Open("/rigs/gear.rig", Gear);
        Assert.DoesNotContain("unknown-name", Codes(await client.DiagnosticsAsync(Path, 1)));
    }

    [Fact]
    public async Task Closing_an_import_brings_the_disk_version_back()
    {
        await using var client = await Client.StartAsync(files: [("/rigs/gear.rig", Gear)]);
        client.Open("/rigs/gear.rig", "");
        client.Open(Path, Importing);
        Assert.Contains("unknown-name", Codes(await client.DiagnosticsAsync(Path, 1)));
        client.Close("/rigs/gear.rig");
        Assert.DoesNotContain("unknown-name", Codes(await client.DiagnosticsAsync(Path, 1)));
    }

    [Fact]
    public async Task A_file_that_changes_on_disk_is_read_again()
    {
        await using var client = await Client.StartAsync(files: [("/rigs/gear.rig", "")]);
        client.Open(Path, Importing);
        Assert.Contains("unknown-name", Codes(await client.DiagnosticsAsync(Path, 1)));
        client.SetFile("/rigs/gear.rig", Gear);
        client.Notify("workspace/didChangeWatchedFiles", new JsonObject { ["changes"] = new JsonArray(new JsonObject { ["uri"] = "file:///rigs/gear.rig", ["type"] = 2 }) });
        Assert.DoesNotContain("unknown-name", Codes(await client.DiagnosticsAsync(Path, 1)));
    }

    [Fact]
    public async Task A_file_that_others_import_is_read_as_a_part_of_them()
    {
        // Alone, the devices would lack their gear.
        await using var client = await Client.StartAsync(folder: "/rigs", files:
        [
            ("/rigs/all.rig", Gear + "import \"devices.rig\"\n"), ("/rigs/devices.rig", "device bass : Tern\n"),
        ]);
        client.Open("/rigs/devices.rig", "device bass : Tern\n");
        Assert.DoesNotContain("unknown-name", Codes(await client.DiagnosticsAsync("/rigs/devices.rig", 1)));
    }

    [Fact]
    public async Task How_serious_a_finding_is_stands_in_the_rig_and_in_no_setting()
    {
        await using var client = await Client.StartAsync(options: JsonNode.Parse("""{ "severity": { "unknown-name": "off" } }""")!.AsObject());
        client.Open(Path, Faulty);
        Assert.Equal(1, (await client.DiagnosticsAsync(Path, 1))["diagnostics"]![0]!["severity"]!.GetValue<int>());
    }

    [Fact]
    public async Task A_client_that_can_be_asked_for_settings_is_asked()
    {
        await using var client = Client.Raw();
        client.Answers["workspace/configuration"] = JsonNode.Parse("""[{ "failOn": "hint" }]""");
        var capabilities = Client.Modern();
        capabilities["workspace"]!["configuration"] = true;
        await client.InitializeAsync(capabilities, options: JsonNode.Parse("""{ "status": true }""")!.AsObject());
        await client.NextAsync("workspace/configuration");
        client.Open(Path, Hinted);
        await client.NextAsync("rig/status", p => !p["passes"]!.GetValue<bool>() && p["hints"]!.GetValue<int>() == 1);
    }

    [Fact]
    public async Task Reading_a_folder_is_told_step_by_step()
    {
        await using var client = Client.Raw();
        client.SetFile("/rigs/a.rig", "");
        var capabilities = Client.Modern();
        capabilities["window"] = new JsonObject { ["workDoneProgress"] = true };
        await client.InitializeAsync(capabilities, folder: "/rigs");
        Assert.Equal("begin", (await client.NextAsync("$/progress"))["value"]!["kind"]!.GetValue<string>());
        await client.NextAsync("$/progress", p => p["value"]!["kind"]!.GetValue<string>() == "end");
    }

    [Fact]
    public async Task Files_are_watched_where_the_client_can()
    {
        await using var client = Client.Raw();
        var capabilities = Client.Modern();
        capabilities["workspace"]!["didChangeWatchedFiles"] = new JsonObject { ["dynamicRegistration"] = true };
        await client.InitializeAsync(capabilities);
        Assert.Equal("workspace/didChangeWatchedFiles", (await client.NextAsync("client/registerCapability"))["registrations"]![0]!["method"]!.GetValue<string>());
    }

    [Fact]
    public async Task Folders_can_come_and_go()
    {
        await using var client = await Client.StartAsync(files: [("/other/b.rig", "device pad : Nothing\n")]);
        client.Notify("workspace/didChangeWorkspaceFolders", JsonNode.Parse("""{ "event": { "added": [{ "uri": "file:///other", "name": "o" }], "removed": [] } }"""));
        Assert.Single((await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "pad" }))!.AsArray());
        client.Notify("workspace/didChangeWorkspaceFolders", JsonNode.Parse("""{ "event": { "added": [], "removed": [{ "uri": "file:///other", "name": "o" }] } }"""));
        Assert.Empty((await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "pad" }))!.AsArray());
    }

    [Fact]
    public async Task A_client_that_only_pulls_gets_diagnostics_when_it_asks()
    {
        await using var client = await Client.StartAsync(JsonNode.Parse("""{ "textDocument": { "diagnostic": {} } }""")!.AsObject());
        client.Open(Path, Faulty);
        var first = await client.ResultAsync("textDocument/diagnostic", new JsonObject { ["textDocument"] = Client.Document(Path) });
        Assert.Equal("full", first!["kind"]!.GetValue<string>());
        Assert.Equal("unknown-name", first["items"]![0]!["code"]!.GetValue<string>());
        var second = await client.ResultAsync("textDocument/diagnostic", new JsonObject
        {
            ["textDocument"] = Client.Document(Path),
            ["previousResultId"] = first["resultId"]!.GetValue<string>(),
        });
        Assert.Equal("unchanged", second!["kind"]!.GetValue<string>());
    }

    [Fact]
    public async Task The_whole_workspace_can_be_pulled_with_versions()
    {
        await using var client = await Client.StartAsync(folder: "/rigs", files: [("/rigs/b.rig", Faulty)]);
        client.Open(Path, "", 4);
        var report = await client.ResultAsync("workspace/diagnostic", new JsonObject { ["previousResultIds"] = new JsonArray() });
        Assert.Equal(["file:///rigs/a.rig 4 0", "file:///rigs/b.rig  1"],
            report!["items"]!.AsArray().Select(i => $"{i!["uri"]} {i["version"]?.ToJsonString()} {i["items"]!.AsArray().Count}"));
    }

    [Fact]
    public async Task An_editor_that_shows_a_status_is_told_what_was_verified()
    {
        await using var client = await Client.StartAsync(options: new JsonObject { ["status"] = true });
        client.Open(Path, Gear + "device bass : Tern\n");
        var status = await client.NextAsync("rig/status");
        Assert.True(status["passes"]!.GetValue<bool>());
        Assert.Contains("1 device", status["verified"]!.AsArray().Select(v => v!.GetValue<string>()));
    }

    [Fact]
    public async Task Each_hop_of_a_finding_is_a_related_place()
    {
        await using var client = await Client.StartAsync();
        client.Open(Path, "device a : X\ndevice a : X\ngear X {\n  in midi : midi on din-5\n}\n");
        var told = await client.DiagnosticsAsync(Path, 1);
        var duplicate = told["diagnostics"]!.AsArray().First(d => d!["code"]!.GetValue<string>() == "duplicate-name")!;
        Assert.Equal("file:///rigs/a.rig", duplicate["relatedInformation"]![0]!["location"]!["uri"]!.GetValue<string>());
    }
}
