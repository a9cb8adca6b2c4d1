using System.Text.Json.Nodes;
using RigLang.LanguageServer;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>Every feature through the protocol, on the duo's rig. What exactly is said is tested where it is made, in RigLang.Editing.</summary>
public class Features
{
    private const string File = "/rigs/duo.rig";
    private static readonly string Duo = System.IO.File.ReadAllText(Path.Combine(Repository.Root, "examples", "tallow-loft.rig"));
    private static readonly string Mistaken = System.IO.File.ReadAllText(Path.Combine(Repository.Root, "examples", "mistakes", "tallow-loft.rig"));

    private static async Task<Client> OpenedAsync(string? text = null, JsonObject? options = null)
    {
        var client = await Client.StartAsync(options: options);
        client.Open(File, text ?? Duo);
        return client;
    }

    private static JsonObject At(string words, int into = 0) => Client.Place(File, Duo, words, into);

    private static JsonObject OfDocument(params (string Name, JsonNode? Value)[] more)
    {
        var parameters = new JsonObject { ["textDocument"] = Client.Document(File) };
        foreach (var (name, value) in more)
        {
            parameters[name] = value;
        }
        return parameters;
    }

    private static string LineAt(JsonNode location) => new SourceText("", Duo).Slice(new SourceText("", Duo).LineSpan(location["range"]!["start"]!["line"]!.GetValue<int>()));

    private static JsonObject Span(string text, string words)
    {
        var source = new SourceText(File, text);
        var start = text.IndexOf(words, StringComparison.Ordinal);
        var (from, to) = (source.PositionOf(start), source.PositionOf(start + words.Length));
        return Client.Range((from.Line, from.Column), (to.Line, to.Column));
    }

    private static string Applied(string text, JsonNode edits)
    {
        var source = new SourceText(File, text);
        foreach (var edit in edits.AsArray().OrderByDescending(e => Offset(e!["range"]!["start"]!)))
        {
            var (start, end) = (Offset(edit!["range"]!["start"]!), Offset(edit["range"]!["end"]!));
            text = text[..start] + edit["newText"]!.GetValue<string>() + text[end..];
        }
        return text;

        int Offset(JsonNode position) => source.LineStart(position["line"]!.GetValue<int>()) + position["character"]!.GetValue<int>();
    }

    [Fact]
    public async Task Hover_on_a_connection_tells_signal_and_channel_count()
    {
        await using var client = await OpenedAsync();
        var hover = await client.ResultAsync("textDocument/hover", At("connect drums.mix"));
        Assert.Equal("markdown", hover!["contents"]!["kind"]!.GetValue<string>());
        var text = hover["contents"]!["value"]!.GetValue<string>();
        Assert.Contains("audio", text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("2", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hover_is_plain_for_a_client_without_Markdown()
    {
        await using var client = await Client.StartAsync(JsonNode.Parse("""{ "textDocument": { "hover": { "contentFormat": ["plaintext"] } } }""")!.AsObject());
        client.Open(File, Duo);
        Assert.Equal("plaintext", (await client.ResultAsync("textDocument/hover", At("connect drums.mix")))!["contents"]!["kind"]!.GetValue<string>());
    }

    [Fact]
    public async Task Hover_gives_lengths_in_feet_where_they_are_wanted()
    {
        await using var client = await OpenedAsync(options: new JsonObject { ["units"] = "ft" });
        Assert.Contains(" ft", (await client.ResultAsync("textDocument/hover", At("connect drums.mix")))!["contents"]!["value"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Completion_after_a_dot_offers_the_ports_of_the_device_and_resolve_explains_them()
    {
        var typed = Duo + "\nconnect lead.";
        await using var client = await OpenedAsync(typed);
        var list = await client.ResultAsync("textDocument/completion", Client.Place(File, typed, "\nconnect lead.", "\nconnect lead.".Length));
        var labels = list!["items"]!.AsArray().Select(i => i!["label"]!.GetValue<string>()).ToList();
        Assert.Contains("phones", labels);
        Assert.DoesNotContain("merge", labels);
    }

    [Fact]
    public async Task Completion_of_gear_is_explained_when_asked()
    {
        var typed = Duo + "\ndevice extra : Mono";
        await using var client = await OpenedAsync(typed);
        var list = await client.ResultAsync("textDocument/completion", Client.Place(File, typed, ": Mono\0".TrimEnd('\0'), 6));
        var gear = list!["items"]!.AsArray().First(i => i!["label"]!.GetValue<string>() == "MonoSynth")!;
        var resolved = await client.ResultAsync("completionItem/resolve", gear.DeepClone());
        Assert.Contains("Monophonic synthesizer", resolved!["documentation"]!["value"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Definition_leads_from_a_device_to_its_line()
    {
        await using var client = await OpenedAsync();
        var places = await client.ResultAsync("textDocument/definition", At("drums.mix"));
        Assert.StartsWith("device drums", LineAt(places![0]!), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Definition_of_library_gear_leads_to_a_copy_that_an_editor_can_open()
    {
        await using var client = await OpenedAsync();
        var places = await client.ResultAsync("textDocument/definition", At(": MonoSynth", 4));
        Assert.Equal("file:///library/shared/gear.rig", places![0]!["uri"]!.GetValue<string>());
    }

    [Fact]
    public async Task Type_definition_of_a_device_is_its_gear()
    {
        await using var client = await OpenedAsync();
        Assert.StartsWith("gear Tollick", LineAt((await client.ResultAsync("textDocument/typeDefinition", At("drums.mix")))![0]!), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Implementations_of_a_gear_are_its_devices()
    {
        await using var client = await OpenedAsync();
        var places = await client.ResultAsync("textDocument/implementation", At(": MonoSynth", 4));
        Assert.Equal(4, places!.AsArray().Count);
    }

    [Fact]
    public async Task References_count_every_place_once()
    {
        await using var client = await OpenedAsync();
        var parameters = At("device thru", 8);
        parameters["context"] = new JsonObject { ["includeDeclaration"] = true };
        Assert.Equal(7, (await client.ResultAsync("textDocument/references", parameters))!.AsArray().Count);
    }

    [Fact]
    public async Task A_name_is_highlighted_where_it_stands()
    {
        await using var client = await OpenedAsync();
        var highlights = (await client.ResultAsync("textDocument/documentHighlight", At("device thru", 8)))!.AsArray();
        Assert.Equal(7, highlights.Count);
        Assert.Single(highlights, h => h!["kind"]!.GetValue<int>() == 3);
    }

    [Fact]
    public async Task Renaming_a_device_changes_every_place_and_leaves_a_sound_rig()
    {
        await using var client = await OpenedAsync();
        Assert.Equal("thru", (await client.ResultAsync("textDocument/prepareRename", At("device thru", 8)))!["placeholder"]!.GetValue<string>());
        var parameters = At("device thru", 8);
        parameters["newName"] = "split box";
        var edit = await client.ResultAsync("textDocument/rename", parameters);
        var renamed = Applied(Duo, edit!["documentChanges"]![0]!["edits"]!);
        Assert.Contains("connect \"split box\".out1", renamed, StringComparison.Ordinal);
        Assert.Empty(Rigs.Compile(renamed).Findings);
    }

    [Fact]
    public async Task Renaming_to_a_name_that_is_taken_is_refused_with_the_reason()
    {
        await using var client = await OpenedAsync();
        var parameters = At("device thru", 8);
        parameters["newName"] = "bass";
        var (code, message) = await client.ErrorAsync("textDocument/rename", parameters);
        Assert.Equal(-32803, code);
        Assert.Contains("There is a device called bass already", message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Renaming_what_comes_with_the_tool_is_refused()
    {
        await using var client = await OpenedAsync();
        Assert.Contains("comes with the tool", (await client.ErrorAsync("textDocument/prepareRename", At(": MonoSynth", 4))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_gear_in_another_file_is_renamed_in_all_files()
    {
        const string Gear = "gear Tern {\n  in midi : midi on din-5\n}\n";
        const string Rig = "import \"gear.rig\"\ndevice bass : Tern\n";
        await using var client = await Client.StartAsync(folder: "/rigs", files: [("/rigs/gear.rig", Gear), ("/rigs/a.rig", Rig), ("/rigs/b.rig", Rig)]);
        client.Open("/rigs/gear.rig", Gear);
        var parameters = Client.Place("/rigs/gear.rig", Gear, "Tern");
        parameters["newName"] = "Plover";
        var edit = await client.ResultAsync("textDocument/rename", parameters);
        Assert.Equal(["file:///rigs/a.rig", "file:///rigs/b.rig", "file:///rigs/gear.rig"],
            edit!["documentChanges"]!.AsArray().Select(c => c!["textDocument"]!["uri"]!.GetValue<string>()).Order());
    }

    [Fact]
    public async Task The_outline_has_devices_with_their_settings()
    {
        await using var client = await OpenedAsync();
        var symbols = (await client.ResultAsync("textDocument/documentSymbol", OfDocument()))!.AsArray();
        var keys = symbols.First(s => s!["name"]!.GetValue<string>() == "keys")!;
        Assert.Equal("Keyboard", keys["detail"]!.GetValue<string>());
        Assert.Equal(["upper", "lower"], keys["children"]!.AsArray().Select(c => c!["name"]!.GetValue<string>()));
    }

    [Fact]
    public async Task The_workspace_is_searched_by_the_letters_of_a_name()
    {
        await using var client = await OpenedAsync();
        var found = (await client.ResultAsync("workspace/symbol", new JsonObject { ["query"] = "tlk" }))!.AsArray();
        Assert.Equal("Tollick", found.Single()!["name"]!.GetValue<string>());
    }

    [Fact]
    public async Task Blocks_and_comments_fold()
    {
        await using var client = await OpenedAsync();
        var kinds = (await client.ResultAsync("textDocument/foldingRange", OfDocument()))!.AsArray().Select(f => f!["kind"]!.GetValue<string>()).Distinct();
        Assert.Equal(["comment", "imports", "region"], kinds.Order());
    }

    [Fact]
    public async Task A_selection_grows_from_word_to_path_to_line_to_file()
    {
        await using var client = await OpenedAsync();
        var place = At("desk.ch34.left", 6);
        var selection = (await client.ResultAsync("textDocument/selectionRange", OfDocument(("positions", new JsonArray(place["position"]!.DeepClone())))))![0];
        var texts = new List<string>();
        for (; selection is not null; selection = selection["parent"])
        {
            texts.Add(new SourceText("", Duo).Slice(SpanOf(selection["range"]!)));
        }
        Assert.Equal("ch34", texts[0]);
        Assert.Equal("desk.ch34.left", texts[1]);
        Assert.StartsWith("connect organ.line", texts[2], StringComparison.Ordinal);
        Assert.Equal(Duo, texts[^1]);
    }

    private static TextSpan SpanOf(JsonNode range)
    {
        var source = new SourceText("", Duo);
        return TextSpan.Between(Offset(range["start"]!), Offset(range["end"]!));

        int Offset(JsonNode position) => source.LineStart(position["line"]!.GetValue<int>()) + position["character"]!.GetValue<int>();
    }

    [Fact]
    public async Task Imports_are_links()
    {
        await using var client = await OpenedAsync();
        var links = (await client.ResultAsync("textDocument/documentLink", OfDocument()))!.AsArray();
        Assert.Equal(["file:///library/shared/leads.rig", "file:///library/shared/gear.rig"], links.Select(l => l!["target"]!.GetValue<string>()));
    }

    [Fact]
    public async Task Tokens_come_in_fives_and_changes_as_one_edit()
    {
        await using var client = await OpenedAsync();
        var full = await client.ResultAsync("textDocument/semanticTokens/full", OfDocument());
        Assert.Equal(0, full!["data"]!.AsArray().Count % 5);
        client.Change(File, 2, Client.Replace((0, 0), (0, 0), "// new\n"));
        var delta = await client.ResultAsync("textDocument/semanticTokens/full/delta", OfDocument(("previousResultId", full["resultId"]!.DeepClone())));
        var edit = delta!["edits"]!.AsArray().Single()!;
        var before = full["data"]!.AsArray().Select(n => n!.GetValue<int>()).ToList();
        before.RemoveRange(edit["start"]!.GetValue<int>(), edit["deleteCount"]!.GetValue<int>());
        before.InsertRange(edit["start"]!.GetValue<int>(), edit["data"]!.AsArray().Select(n => n!.GetValue<int>()));
        var now = await client.ResultAsync("textDocument/semanticTokens/full", OfDocument());
        Assert.Equal(now!["data"]!.AsArray().Select(n => n!.GetValue<int>()), before);
    }

    [Fact]
    public async Task Tokens_of_a_range_are_those_in_it()
    {
        await using var client = await OpenedAsync();
        var some = await client.ResultAsync("textDocument/semanticTokens/range", OfDocument(("range", Client.Range((3, 0), (4, 0)))));
        Assert.Equal([3, 0, 6, 0, 0, 0, 7, 18, 7, 0], some!["data"]!.AsArray().Select(n => n!.GetValue<int>()).Take(10));
    }

    [Fact]
    public async Task A_statement_that_is_being_typed_shows_its_form()
    {
        var typed = Duo + "\nconnect lead.phones to ";
        await using var client = await OpenedAsync(typed);
        var help = await client.ResultAsync("textDocument/signatureHelp", Client.Place(File, typed, "\nconnect lead.phones to ", "\nconnect lead.phones to ".Length));
        Assert.StartsWith("connect", help!["signatures"]![0]!["label"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_sides_of_a_pair_are_edited_together()
    {
        const string Text = "connect a.x to desk.ch34.left, desk.ch34.right";
        await using var client = await OpenedAsync(Text);
        var linked = await client.ResultAsync("textDocument/linkedEditingRange", Client.Place(File, Text, "ch34"));
        Assert.Equal(2, linked!["ranges"]!.AsArray().Count);
    }

    [Fact]
    public async Task A_supply_has_its_sum_above_it()
    {
        await using var client = await OpenedAsync();
        var lenses = (await client.ResultAsync("textDocument/codeLens", OfDocument()))!.AsArray();
        Assert.Contains(lenses, l => l!["command"]!["title"]!.GetValue<string>().Contains("outlets used", StringComparison.Ordinal));
    }

    [Fact]
    public async Task An_automatic_channel_shows_its_number()
    {
        await using var client = await OpenedAsync();
        var hints = (await client.ResultAsync("textDocument/inlayHint", OfDocument(("range", Client.Range((0, 0), (60, 0))))))!.AsArray();
        Assert.Contains(hints, h => h!["label"]!.GetValue<string>().Contains("14", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_cable_colour_is_shown_and_can_be_picked()
    {
        const string Text = "import \"shared/leads.rig\"\nstock {\n  1 MidiDin 1.5 m red\n}\n";
        await using var client = await OpenedAsync(Text);
        var colour = (await client.ResultAsync("textDocument/documentColor", OfDocument()))!.AsArray().Single()!;
        Assert.Equal(1, colour["color"]!["red"]!.GetValue<double>());
        var choices = await client.ResultAsync("textDocument/colorPresentation", OfDocument(
            ("color", JsonNode.Parse("""{ "red": 0.1, "green": 0.1, "blue": 0.9, "alpha": 1 }""")), ("range", colour["range"]!.DeepClone())));
        Assert.Equal("blue", choices![0]!["label"]!.GetValue<string>());
    }

    [Fact]
    public async Task Formatting_is_the_smallest_edits()
    {
        const string Text = "device  a : X\ndevice b : X\n";
        await using var client = await OpenedAsync(Text);
        var edits = await client.ResultAsync("textDocument/formatting", OfDocument(("options", JsonNode.Parse("""{ "tabSize": 2, "insertSpaces": true }"""))));
        Assert.Equal("""[{"range":{"start":{"line":0,"character":6},"end":{"line":0,"character":8}},"newText":" "}]""", edits!.ToJsonString());
    }

    [Fact]
    public async Task Formatting_a_range_leaves_the_rest()
    {
        const string Text = "device  a : X\n\n\n\ndevice  b : X\n";
        await using var client = await OpenedAsync(Text);
        var edits = await client.ResultAsync("textDocument/rangeFormatting", OfDocument(
            ("range", Client.Range((4, 0), (4, 3))), ("options", JsonNode.Parse("""{ "tabSize": 2, "insertSpaces": true }"""))));
        Assert.Equal("device  a : X\n\n\n\ndevice b : X\n", Applied(Text, edits!));
    }

    [Fact]
    public async Task After_a_line_end_in_a_block_the_next_line_is_indented()
    {
        const string Text = "device a : X {\n";
        await using var client = await OpenedAsync(Text);
        var edits = await client.ResultAsync("textDocument/onTypeFormatting", OfDocument(
            ("position", Client.At(1, 0)), ("ch", "\n"), ("options", JsonNode.Parse("""{ "tabSize": 2, "insertSpaces": true }"""))));
        Assert.Equal("device a : X {\n  ", Applied(Text, edits!));
    }

    [Fact]
    public async Task Signal_flow_is_a_call_hierarchy()
    {
        await using var client = await OpenedAsync();
        var items = await client.ResultAsync("textDocument/prepareCallHierarchy", At("device filter", 8));
        var outgoing = (await client.ResultAsync("callHierarchy/outgoingCalls", new JsonObject { ["item"] = items![0]!.DeepClone() }))!.AsArray();
        Assert.Contains(outgoing, c => c!["to"]!["name"]!.GetValue<string>().Contains("thru", StringComparison.Ordinal));
        var incoming = (await client.ResultAsync("callHierarchy/incomingCalls", new JsonObject { ["item"] = items[0]!.DeepClone() }))!.AsArray();
        Assert.Contains(incoming, c => c!["from"]!["name"]!.GetValue<string>().Contains("drums", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_fix_names_the_diagnostic_that_it_mends_and_mends_it()
    {
        const string Text = "import \"shared/leads.rig\"\nimport \"shared/gear.rig\"\ndevice lead : MonoSint\n";
        await using var client = await OpenedAsync(Text);
        var actions = (await client.ResultAsync("textDocument/codeAction", OfDocument(
            ("range", Span(Text, "MonoSint")), ("context", new JsonObject { ["diagnostics"] = new JsonArray() }))))!.AsArray();
        var fix = actions.First(a => a!["kind"]!.GetValue<string>() == "quickfix" && a["diagnostics"] is not null)!;
        Assert.Equal("unknown-name", fix["diagnostics"]![0]!["code"]!.GetValue<string>());
        Assert.DoesNotContain("unknown-name", Rigs.Compile(Applied(Text, fix["edit"]!["documentChanges"]![0]!["edits"]!)).Names());
    }

    [Fact]
    public async Task Only_the_kinds_that_are_asked_for_are_offered()
    {
        await using var client = await OpenedAsync();
        var actions = (await client.ResultAsync("textDocument/codeAction", OfDocument(
            ("range", Span(Duo, "connect drums.mix")), ("context", JsonNode.Parse("""{ "diagnostics": [], "only": ["refactor"] }""")))))!.AsArray();
        Assert.All(actions, a => Assert.StartsWith("refactor", a!["kind"]!.GetValue<string>(), StringComparison.Ordinal));
    }

    [Fact]
    public async Task What_can_be_mended_safely_is_mended_on_save()
    {
        var text = new RigLang.Checks.Wiring.EndsSwapped().BadExample;
        await using var client = await OpenedAsync(text);
        var actions = (await client.ResultAsync("textDocument/codeAction", OfDocument(
            ("range", Client.Range((0, 0), (0, 0))), ("context", JsonNode.Parse("""{ "diagnostics": [], "only": ["source.fixAll"] }""")))))!.AsArray();
        Assert.Equal("source.fixAll.rig", actions.Single()!["kind"]!.GetValue<string>());
        Assert.Empty(Rigs.Compile(Applied(text, actions[0]!["edit"]!["documentChanges"]![0]!["edits"]!)).Findings);
    }

    [Fact]
    public async Task A_caret_that_only_comes_by_gets_no_action_that_takes_long()
    {
        await using var client = await OpenedAsync();
        var parameters = OfDocument(("range", Span(Duo, "connect drums.mix")), ("context", JsonNode.Parse("""{ "diagnostics": [], "triggerKind": 2 }""")));
        var passing = (await client.ResultAsync("textDocument/codeAction", parameters))!.AsArray().Select(a => a!["title"]!.GetValue<string>());
        parameters = OfDocument(("range", Span(Duo, "connect drums.mix")), ("context", JsonNode.Parse("""{ "diagnostics": [], "triggerKind": 1 }""")));
        var asked = (await client.ResultAsync("textDocument/codeAction", parameters))!.AsArray().Select(a => a!["title"]!.GetValue<string>());
        Assert.Contains(asked, title => title.Contains("must audio", StringComparison.Ordinal));
        Assert.DoesNotContain(passing, title => title.Contains("must audio", StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_pages_of_the_command_line_are_commands()
    {
        await using var client = await OpenedAsync(Mistaken);
        Assert.Equal("answer to clock from drums", await PageAsync(client, "rig.trace", "clock from drums"));
        Assert.Equal("the chart", await PageAsync(client, "rig.channels"));
        Assert.Equal("the audio", await PageAsync(client, "rig.audio"));
        Assert.Equal("the power", await PageAsync(client, "rig.power"));
        Assert.Equal("the ground", await PageAsync(client, "rig.ground"));
        Assert.Equal("suspects of a Whine", await PageAsync(client, "rig.hum", "whine"));
    }

    private static async Task<string> PageAsync(Client client, string command, params string[] more) =>
        (await client.ResultAsync("workspace/executeCommand", Asking(command, ["file://" + File, .. more])))!.GetValue<string>();

    private static JsonObject Asking(string command, params string[] arguments) =>
        new() { ["command"] = command, ["arguments"] = new JsonArray([.. arguments.Select(a => JsonValue.Create(a))]) };

    [Theory]
    [InlineData("rig.nonsense", "There is no command rig.nonsense; there are rig.trace, rig.channels, rig.audio, rig.power, rig.ground, rig.hum.")]
    [InlineData("rig.trace", "rig.trace wants the URI of a rig and a question.", "file://" + File)]
    [InlineData("rig.channels", "rig.channels wants the URI of a rig.")]
    [InlineData("rig.audio", "rig.audio wants the URI of a rig.")]
    [InlineData("rig.power", "rig.power wants the URI of a rig.")]
    [InlineData("rig.ground", "rig.ground wants the URI of a rig.")]
    [InlineData("rig.hum", "rig.hum wants the URI of a rig and what is heard: hum, buzz, whine.", "file://" + File)]
    [InlineData("rig.hum", "rig.hum does not know the sound \"hiss\"; it takes hum, buzz, whine.", "file://" + File, "hiss")]
    public async Task A_command_without_what_it_needs_says_what_that_is(string command, string refusal, params string[] arguments)
    {
        await using var client = await OpenedAsync(Mistaken);
        Assert.Equal((-32602, refusal), await client.ErrorAsync("workspace/executeCommand", Asking(command, arguments)));
    }

    /// <summary>The methods that a client can call, from the contract itself.</summary>
    public static TheoryData<string> AboutDocuments =>
    [
        .. typeof(IRigProtocol).GetMethods()
            .Select(m => ((StreamJsonRpc.JsonRpcMethodAttribute)m.GetCustomAttributes(typeof(StreamJsonRpc.JsonRpcMethodAttribute), false)[0]).Name!)
            .Where(name => name.StartsWith("textDocument/", StringComparison.Ordinal) && !name.StartsWith("textDocument/did", StringComparison.Ordinal)),
    ];

    [Theory]
    [MemberData(nameof(AboutDocuments))]
    public async Task No_request_about_a_document_fails_on_a_half_typed_file_or_a_place_outside_it(string method)
    {
        string[] texts = ["", "device", "connect lead.", "gear X {\n  in ", Duo[..(Duo.Length / 2)], "\"\n}}{{ : .. ,", "import \"", "\uFEFF// \U0001D160"];
        await using var client = await Client.StartAsync();
        foreach (var text in texts)
        {
            client.Open(File, text);
            foreach (var (line, character) in new[] { (0, 0), (0, 7), (1, 4), (40, 3), (-1, -1), (9999, 9999) })
            {
                var parameters = OfDocument(
                    ("position", Client.At(line, character)),
                    ("positions", new JsonArray(Client.At(line, character))),
                    ("range", Client.Range((line, character), (line + 1, character))),
                    ("context", JsonNode.Parse("""{ "diagnostics": [], "includeDeclaration": true }""")),
                    ("options", JsonNode.Parse("""{ "tabSize": 2, "insertSpaces": true }""")),
                    ("color", JsonNode.Parse("""{ "red": 0, "green": 0, "blue": 0, "alpha": 1 }""")),
                    ("ch", "\n"), ("newName", "other"), ("previousResultId", "0"));
                var answer = await client.AnswerAsync(method, parameters);
                Assert.True(answer["error"] is null || (method.EndsWith("ename", StringComparison.Ordinal) && answer["error"]!["code"]!.GetValue<int>() is -32803 or -32600), answer.ToJsonString());
                Assert.Equal("", ProtocolSchema.Refusals(method, "Result", answer["result"]?.DeepClone()));
            }
        }
    }

    [Fact]
    public async Task A_document_that_nobody_opened_has_no_answers()
    {
        await using var client = await Client.StartAsync();
        Assert.Null(await client.ResultAsync("textDocument/hover", At("drums")));
        Assert.Empty((await client.ResultAsync("textDocument/documentSymbol", OfDocument()))!.AsArray());
    }
}
