using System.Text.Json.Nodes;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>The server reads for an import what the command would read, and of other files nothing is shown.</summary>
public class WhatImportsMayRead
{
    private const string Secret = """
        /// hunter2
        gear Hunter2 {
          in hunter2 : midi on din-5
          out midi : midi on din-5
        }
        lead Hunter2Lead : din-5 to din-5 {
          4 to 4
          5 to 5
        }
        device hunter2 : Hunter2

        """;

    private const string Refused = "folder and repository; to allow";

    private static async Task<Client> WithAsync(string? folder, params (string Path, string Text)[] files) => await Client.StartAsync(folder: folder, files: files);

    private static async Task<string> FindingsAsync(Client client, string path, string text)
    {
        client.Open(path, text);
        return (await client.DiagnosticsAsync(path, 1)).ToJsonString();
    }

    private static async Task<int> LinksAsync(Client client, string path) =>
        (await client.ResultAsync("textDocument/documentLink", new JsonObject { ["textDocument"] = Client.Document(path) }))!.AsArray().Count;

    /// <summary>Everything that an editor could show of a document, and the completions at the end of each of its lines.</summary>
    private static async Task<string> ShownAsync(Client client, string path, string text)
    {
        var shown = await FindingsAsync(client, path, text);
        var lines = text.Split('\n');
        for (var line = 0; line < lines.Length; line++)
        {
            for (var column = 0; column <= lines[line].Length; column += Math.Max(1, lines[line].Length / 6))
            {
                shown += await AtAsync("textDocument/hover", line, column);
                shown += await AtAsync("textDocument/definition", line, column);
            }
            shown += await AtAsync("textDocument/completion", line, lines[line].Length);
        }
        shown += (await client.ResultAsync("textDocument/documentLink", new JsonObject { ["textDocument"] = Client.Document(path) }))?.ToJsonString();
        return shown + (await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "" }))?.ToJsonString();

        async Task<string> AtAsync(string method, int line, int column) => (await client.ResultAsync(method, new JsonObject
        {
            ["textDocument"] = Client.Document(path),
            ["position"] = Client.At(line, column),
        }))?.ToJsonString() ?? "";
    }

    private const string Curious = "import \"../else/secret.rig\" as s\ndevice x : \ndevice y : s.\nconnect \nconnect s.\nconnect s.hunter2.\nmust notes from \n";

    [Fact]
    public async Task A_folder_of_the_workspace_counts()
    {
        const string Trio = "import \"../gear/our.rig\"\ndevice a : Hunter2\n";
        await using (var open = await WithAsync("/band", ("/band/gear/our.rig", Secret)))
        {
            Assert.DoesNotContain("import-not-found", await FindingsAsync(open, "/band/trio/trio.rig", Trio), StringComparison.Ordinal);
            Assert.Equal(1, await LinksAsync(open, "/band/trio/trio.rig"));
        }
        await using var closed = await WithAsync("/band/trio", ("/band/gear/our.rig", Secret));
        Assert.Contains("open that folder in your editor", await FindingsAsync(closed, "/band/trio/trio.rig", Trio), StringComparison.Ordinal);
        Assert.Equal(0, await LinksAsync(closed, "/band/trio/trio.rig"));
    }

    [Fact]
    public async Task A_folder_that_is_opened_later_counts_from_then_on()
    {
        const string Trio = "import \"../gear/our.rig\"\n";
        await using var client = await WithAsync("/band/trio", ("/band/gear/our.rig", Secret));
        Assert.Contains(Refused, await FindingsAsync(client, "/band/trio/trio.rig", Trio), StringComparison.Ordinal);
        client.Notify("workspace/didChangeWorkspaceFolders", new JsonObject
        {
            ["event"] = new JsonObject { ["added"] = new JsonArray(new JsonObject { ["uri"] = "file:///band/gear", ["name"] = "gear" }), ["removed"] = new JsonArray() },
        });
        client.Change("/band/trio/trio.rig", 2, Client.Whole(Trio + "\n"));
        Assert.DoesNotContain(Refused, (await client.DiagnosticsAsync("/band/trio/trio.rig", 2)).ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_repository_counts()
    {
        await using var client = await WithAsync(null, ("/band/gear/our.rig", Secret));
        client.Repositories.Add("/band");
        Assert.DoesNotContain("import-not-found", await FindingsAsync(client, "/band/trio/trio.rig", "import \"../gear/our.rig\"\n"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Nothing_of_a_file_outside_is_shown()
    {
        await using var client = await WithAsync("/rigs", ("/else/secret.rig", Secret));
        var shown = await ShownAsync(client, "/rigs/a.rig", Curious);
        Assert.Contains(Refused, shown, StringComparison.Ordinal);
        Assert.DoesNotContain("hunter2", shown.Replace("s.hunter2", "", StringComparison.Ordinal), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(0, await LinksAsync(client, "/rigs/a.rig"));
    }

    [Fact]
    public async Task What_is_allowed_is_shown_at_all_those_places()
    {
        await using var client = await WithAsync("/rigs", ("/rigs/else/secret.rig", Secret));
        var shown = await ShownAsync(client, "/rigs/band/a.rig", Curious);
        foreach (var seen in (string[])["Hunter2Lead", "s.hunter2", "\"label\":\"Hunter2\"", "\"label\":\"midi\"", "/rigs/else/secret.rig"])
        {
            Assert.Contains(seen, shown, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("/rigs/link.rig", "/else/secret.rig", "link.rig")]
    [InlineData("/rigs/folder", "/else", "folder/secret.rig")]
    [InlineData("/rigs/link.rig", "/rigs/notes.txt", "link.rig")]
    public async Task A_link_that_leads_outside_is_refused(string link, string target, string import)
    {
        await using var client = await WithAsync("/rigs", ("/rigs/" + import, Secret));
        client.Links[link] = target;
        const string Path = "/rigs/a.rig";
        Assert.Contains("import-not-found", await FindingsAsync(client, Path, $"import \"{import}\"\ndevice x : \n"), StringComparison.Ordinal);
        var offered = await client.ResultAsync("textDocument/completion", new JsonObject { ["textDocument"] = Client.Document(Path), ["position"] = Client.At(1, 11) });
        Assert.DoesNotContain("Hunter2", offered!.ToJsonString(), StringComparison.Ordinal);
        Assert.Equal(0, await LinksAsync(client, Path));
    }

    [Fact]
    public async Task A_link_that_stays_inside_is_followed()
    {
        await using var client = await WithAsync("/rigs", ("/rigs/link.rig", Secret));
        client.Links["/rigs/link.rig"] = "/rigs/gear/our.rig";
        Assert.DoesNotContain("import-not-found", await FindingsAsync(client, "/rigs/a.rig", "import \"link.rig\"\n"), StringComparison.Ordinal);
    }

    private static async Task<string> OfUntitledAsync(Client client, string uri, string text)
    {
        client.Notify("textDocument/didOpen", new JsonObject
        {
            ["textDocument"] = new JsonObject { ["uri"] = uri, ["languageId"] = "rig", ["version"] = 1, ["text"] = text },
        });
        return (await client.NextAsync("textDocument/publishDiagnostics", p => p["uri"]!.GetValue<string>() == uri)).ToJsonString();
    }

    [Theory]
    [InlineData("untitled:Untitled-1", "our.rig", true)]
    [InlineData("untitled:Untitled-1", "gear/our.rig", true)]
    [InlineData("untitled:Untitled-1", "../else/secret.rig", false)]
    [InlineData("untitled:Untitled-1", "shared/leads.rig", true)]
    [InlineData("untitled:/rigs/new.rig", "our.rig", true)]
    [InlineData("untitled:/rigs/gear/new.rig", "../our.rig", true)]
    [InlineData("untitled:/else/new.rig", "secret.rig", false)]
    [InlineData("untitled:/rigs/new.rig", "../else/secret.rig", false)]
    public async Task A_document_on_no_disk_imports_from_the_library_and_the_workspace(string uri, string import, bool isAllowed)
    {
        await using var client = await WithAsync("/rigs", ("/rigs/our.rig", Secret), ("/rigs/gear/our.rig", Secret), ("/else/secret.rig", Secret), ("our.rig", Secret));
        var found = await OfUntitledAsync(client, uri, $"import \"{import}\"\n");
        Assert.Equal(isAllowed, !found.Contains("import-not-found", StringComparison.Ordinal));
        var links = await client.ResultAsync("textDocument/documentLink", new JsonObject { ["textDocument"] = new JsonObject { ["uri"] = uri } });
        Assert.Equal(isAllowed ? 1 : 0, links!.AsArray().Count);
        Assert.DoesNotContain("/else", links.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Without_a_folder_such_a_document_imports_only_the_library()
    {
        await using var client = await WithAsync(null, ("our.rig", Secret), ("/our.rig", Secret));
        Assert.Contains("save it, or open a folder", await OfUntitledAsync(client, "untitled:Untitled-1", "import \"our.rig\"\n"), StringComparison.Ordinal);
        Assert.DoesNotContain("import-not-found", await OfUntitledAsync(client, "untitled:Untitled-2", "import \"shared/leads.rig\"\n"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_somebody_imports_without_leave_stays_a_rig_of_its_own()
    {
        await using var client = await WithAsync("/rigs", ("/rigs/a.rig", "import \"../else/secret.rig\"\n"), ("/else/secret.rig", Secret));
        Assert.Contains("unwired-device", await FindingsAsync(client, "/else/secret.rig", Secret), StringComparison.Ordinal);
        var hover = await client.ResultAsync("textDocument/hover", Client.Place("/else/secret.rig", Secret, "device hunter2", 8));
        Assert.Contains("hunter2", hover!.ToJsonString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_import_is_offered_only_where_it_is_allowed()
    {
        await using var client = await WithAsync("/rigs", ("/rigs/our.rig", Secret));
        client.Open("/else/secret.rig", Secret);
        const string Text = "import \"\"\n";
        client.Open("/rigs/a.rig", Text);
        var offered = (await client.ResultAsync("textDocument/completion", Client.Place("/rigs/a.rig", Text, "\"\"", 1)))!.ToJsonString();
        Assert.Contains("our.rig", offered, StringComparison.Ordinal);
        Assert.DoesNotContain("secret.rig", offered, StringComparison.Ordinal);
    }
}
