using System.Text.Json.Nodes;
using Json.Schema;
using RigLang.Cli.Commands;
using RigLang.Findings;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class JsonReportTests : IDisposable
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(RepositoryFile("grammar/check-output.schema.json")));

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    internal static string RepositoryFile(string relative)
    {
        for (var folder = new DirectoryInfo(ThisFolder()); folder is not null; folder = folder.Parent)
        {
            var path = Path.Combine(folder.FullName, relative);
            if (File.Exists(path))
            {
                return path;
            }
        }
        throw new FileNotFoundException(relative);
    }

    private static string ThisFolder([System.Runtime.CompilerServices.CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;

    private JsonNode Json(string[] named, Compile compile)
    {
        var text = _stage.With(host => CheckCommand.Run(new(named, CheckFormat.Json), host, compile)).Out;
        var node = JsonNode.Parse(text)!;
        Assert.Equal("", Schema.Refusals(node));
        return node;
    }

    [Fact]
    public void A_finding_carries_all_it_has_and_the_document_fits_the_schema()
    {
        _stage.Put("trio.rig", "gear\r\n\tpläg \"😀\"\n");
        var json = Json(["trio.rig"], (root, _) => MadeUp.Rig(root, MadeUp.At(root, "\"😀\"") with
        {
            Related = [new(MadeUp.Place(root, "gear"), "described here")],
            Fixes = [new("turn it", true, [new(root, new(0, 4), "lead")])],
        }));
        Assert.Equal(
            """
            {"path":"trio.rig","findings":[{"check":"plug-upside-down","severity":"error","start":{"line":2,"column":7,"offset":12},"end":{"line":2,"column":11,"offset":16},"what":"It is upside down.","why":"Nothing is heard.","advice":"Turn it round.","harm":"stage","caution":null,"breaks":[],"related":[{"path":"trio.rig","start":{"line":1,"column":1,"offset":0},"end":{"line":1,"column":5,"offset":4},"message":"described here"}],"fixes":[{"title":"turn it","safe":true,"edits":[{"path":"trio.rig","start":{"line":1,"column":1,"offset":0},"end":{"line":1,"column":5,"offset":4},"newText":"lead"}]}]}],"facts":[],"notChecked":[],"chosenLeads":[],"accepted":[]}
            """,
            json["files"]![0]!.ToJsonString());
        Assert.Equal("""{"errors":1,"warnings":0,"hints":0}""", json["summary"]!.ToJsonString());
    }

    [Fact]
    public void A_finding_in_an_import_is_listed_under_the_import_and_each_file_appears_once()
    {
        _stage.Put("one.rig", "");
        _stage.Put("gear.rig", "plug");
        var json = Json(["one.rig", "gear.rig"], (root, open) =>
        {
            var gear = open("gear.rig").Text!;
            return new()
            {
                Rig = MadeUp.NoRig,
                Files = root.Path == gear.Path ? [root] : [root, gear],
                Findings = [MadeUp.At(gear, "plug")],
                Facts = [new(1, root.Path)],
            };
        });
        Assert.Equal(["one.rig", "gear.rig"], json["files"]!.AsArray().Select(f => (string?)f!["path"]));
        Assert.Equal([0, 1], json["files"]!.AsArray().Select(f => f!["findings"]!.AsArray().Count));
        Assert.Equal([1, 1], json["files"]!.AsArray().Select(f => f!["facts"]!.AsArray().Count));
    }

    [Fact]
    public void Files_that_could_not_be_checked_are_listed_with_the_reason_and_nothing_goes_to_standard_error()
    {
        var (code, text, error) = _stage.Rig("check", "--format", "json", "nowhere.rig");
        Assert.Equal(2, code);
        Assert.Equal("", error);
        var json = JsonNode.Parse(text)!;
        Assert.Equal("", Schema.Refusals(json));
        Assert.Equal("""[{"path":"nowhere.rig","message":"there is no such file"}]""", json["problems"]!.ToJsonString());
    }

    [Fact]
    public void Text_that_is_no_valid_UTF_16_does_not_break_the_document()
    {
        _stage.Put("trio.rig", "plug");
        var json = Json(["trio.rig"], (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug", what: "half: \uD83D, control: \u0001")));
        Assert.Equal("half: \uFFFD, control: \u0001", (string?)json["files"]![0]!["findings"]![0]!["what"]);
    }

    [Fact]
    public void The_schema_refuses_a_severity_it_does_not_know()
    {
        _stage.Put("trio.rig", "plug");
        var json = Json(["trio.rig"], (root, _) => MadeUp.Rig(root, MadeUp.At(root, "plug", Severity.Hint)));
        var finding = json["files"]![0]!["findings"]![0]!.AsObject();
        finding["severity"] = "note";
        Assert.Contains("/files/0/findings/0/severity", Schema.Refusals(json), StringComparison.Ordinal);
    }
}
