using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using RigLang.Flow.Ground;
using RigLang.Tests.Examples;
using Xunit;

namespace RigLang.Tests.Snapshots;

/// <summary>What each command prints for each rig of the repository, the sound ones and those with mistakes.</summary>
public class Commands
{
    internal const string Group = nameof(Commands);

    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    internal static readonly string[] Examples = [.. Shipped.RigsIn("examples"), .. Shipped.RigsIn("examples/mistakes")];

    /// <summary>What is typed for a rig; the questions of <c>rig trace</c> are those of <see cref="Questions"/>.</summary>
    private static readonly Dictionary<string, string[][]> Typed = new(StringComparer.Ordinal)
    {
        ["check"] = [["check"]],
        ["format"] = [["format", "--check"]],
        ["channels"] = [["channels"]],
        ["audio"] = [["audio"]],
        ["power"] = [["power"]],
        ["ground"] = [["ground"]],
        ["hum"] = [.. HumSounds.Words.Select(sound => (string[])["hum", "--heard", sound])],
    };

    /// <summary>For each rig: ways that hold, ways that something stops, what comes in, and what nobody plugged.</summary>
    private static readonly Dictionary<string, string[]> Questions = new(StringComparer.Ordinal)
    {
        ["lath-shed"] =
        [
            "notes from laptop.software", "what reaches rack", "audio from sampler", "what feeds desk", "power to rack",
            "why not notes from keys.lower to rack", "why not audio from rack to fog", "why not power from nine3 to desk",
        ],
        ["pantile-yard"] =
        [
            "notes from seq", "clock from seq", "what reaches poly", "audio from bass", "what feeds tape", "power to bass",
            "why not clock from keys to bass", "why not notes from seq.a to poly", "why not audio from guitar to camera",
            "why not power from wall to camera", "notes from sek",
        ],
        ["pantile-yard-gear"] = ["notes from seq"],
        ["tallow-loft"] =
        [
            "notes from keys.upper", "clock from drums", "transport from keys", "what reaches organ", "power from brick",
            "why not clock from drums to bass", "why not start from keys to lead", "why not audio from lead to drums",
        ],
    };

    public static TheoryData<string, string> All
    {
        get
        {
            var data = new TheoryData<string, string>();
            foreach (var command in Typed.Keys.Append("trace"))
            {
                foreach (var rig in Examples)
                {
                    data.Add(command, rig);
                }
            }
            return data;
        }
    }

    public static TheoryData<string> Rigs => [.. Examples];

    [Theory]
    [MemberData(nameof(All))]
    public void For_reading(string command, string rig)
    {
        using var session = new Session().WithExamples();
        string[][] lines = command == "trace"
            ? [.. Questions[Path.GetFileNameWithoutExtension(rig)].Select(question => (string[])["trace", rig, question])]
            : [.. Typed[command].Select(line => (string[])[.. line, rig])];
        foreach (var line in lines)
        {
            session.Type(line);
        }
        Shot.Match(Group, NameOf(command, rig), session.Seen);
    }

    [Theory]
    [MemberData(nameof(Rigs))]
    public void Findings_for_other_programs(string rig)
    {
        using var session = new Session().WithExamples();
        Shot.Match(Group, NameOf("check-json", rig), session.Output("check", "--format", "json", rig));
    }

    /// <summary>
    /// Without the table of checks, which is the same for every rig and stands in <see cref="Pages"/>, and the tool's version.
    /// One change of a check's words would otherwise change a file for each rig.
    /// </summary>
    [Theory]
    [MemberData(nameof(Rigs))]
    public void Findings_for_code_hosts(string rig)
    {
        using var session = new Session().WithExamples();
        var log = JsonNode.Parse(session.Output("check", "--format", "sarif", rig))!;
        var driver = log["runs"]![0]!["tool"]!["driver"]!.AsObject();
        foreach (var same in (string[])["rules", "version", "semanticVersion"])
        {
            Assert.True(driver.Remove(same), same);
        }
        Shot.Match(Group, NameOf("check-sarif", rig), log.ToJsonString(Readable));
    }

    [Fact]
    public void Every_rig_is_asked_about() =>
        Assert.Equal(Examples.Select(Path.GetFileNameWithoutExtension).Distinct().Order(), Questions.Keys.Order());

    internal static IReadOnlyList<string> Names =>
    [
        .. from command in (string[])[.. Typed.Keys, "trace", "check-json", "check-sarif"]
        from rig in Examples
        select NameOf(command, rig),
    ];

    private static string NameOf(string command, string rig) =>
        $"{command}.{Path.ChangeExtension(rig["examples/".Length..], null).Replace('/', '-')}";
}
