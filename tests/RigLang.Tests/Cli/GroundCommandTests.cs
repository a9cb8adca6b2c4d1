using System.Text.Json.Nodes;
using Json.Schema;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class GroundCommandTests : IDisposable
{
    /// <summary>Two earthed boxes with an unbalanced cable, and a laptop at both by USB.</summary>
    private const string Humming = """
        gear Wall {
          out s1, s2 : mains 230 V earthed on mains
        }
        gear Desk {
          in power : mains 230 V earthed, 40 W on iec-c14
          in ch1   : audio mono line           on ts 6.35 mm
          in usb   : usb device                on usb-b
        }
        gear Synth {
          in  power : mains 230 V earthed, 40 W on iec-c14
          out line  : audio mono line           on ts 6.35 mm
          in  usb   : usb device                on usb-b
        }
        gear Laptop {
          out usb1, usb2 : usb host 5 V 900 mA on usb-a
          battery
        }
        device wall : Wall
        device desk : Desk
        device synth : Synth
        device laptop : Laptop {
          runs on battery
        }
        connect wall.s1 to desk.power
        connect wall.s2 to synth.power
        connect synth.line to desk.ch1
        connect laptop.usb1 to desk.usb
        connect laptop.usb2 to synth.usb
        """;

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private string Told(params string[] args)
    {
        _stage.Put("hum.rig", Humming);
        var (code, text, _) = _stage.Rig([args[0], "hum.rig", .. args[1..]]);
        Assert.Equal(0, code);
        return text;
    }

    [Fact]
    public void Ground_tells_domains_loops_and_the_cure()
    {
        var text = Told("ground");
        Assert.Contains("4 ground domains, 5 links, 2 independent loops, 2 of them heard", text, StringComparison.Ordinal);
        Assert.Contains("Earthed through the mains: desk, synth", text, StringComparison.Ordinal);
        Assert.Contains("Put a line isolator into synth.line to desk.ch1.", text, StringComparison.Ordinal);
        Assert.Contains("Put a USB isolator into", text, StringComparison.Ordinal);
        Assert.Contains("It leaves no loop.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Ground_marks_what_to_isolate_and_what_never_to_lift()
    {
        var text = Told("ground");
        Assert.Matches("synth.line to desk.ch1 +audio +isolate\\n", text);
        Assert.Matches("the mains plug of desk +protective earth +never lift\\n", text);
        var links = JsonNode.Parse(Told("ground", "--format", "json"))!["links"]!.AsArray();
        Assert.All(links, l => Assert.Equal(
            (string)l!["kind"]! == "protective earth" ? "unsafe" : "cure or possible",
            (string)l["isolation"]! is "cure" or "possible" ? "cure or possible" : (string)l["isolation"]!));
    }

    [Fact]
    public void A_rig_without_loops_says_so()
    {
        _stage.Put("empty.rig", "");
        Assert.StartsWith("Grounds\n0 ground domains, 0 links, no loop\nNothing is earthed through the mains.\n\nThere is no loop, so nothing has to be isolated.\n",
            _stage.Rig("ground", "empty.rig").Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Ground_fits_a_terminal_of_80_columns()
    {
        var (_, text, _) = _stage.Rig("ground", Path.Combine(Repository.Root, "examples/mistakes/lath-shed.rig"));
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 80, line));
    }

    [Theory]
    [InlineData("hum", "earthed")]
    [InlineData("buzz", "earthed")]
    [InlineData("whine", "USB is in it: what the computer does")]
    public void Hum_names_the_loop_that_fits_the_sound_first(string heard, string because)
        => Assert.Contains(because, Told("hum", "--heard", heard).Split("\n\n")[0], StringComparison.Ordinal);

    [Theory]
    [InlineData("ground")]
    [InlineData("hum")]
    public void The_safety_text_is_always_there_and_the_earth_stays(string verb)
    {
        Assert.Contains("A protective earth stays connected", Told(verb), StringComparison.Ordinal);
        Assert.Contains("A protective earth stays connected", Told(verb, "--format", "json"), StringComparison.Ordinal);
        _stage.Put("empty.rig", "");
        Assert.Contains("A protective earth stays connected", _stage.Rig(verb, "empty.rig").Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ground")]
    [InlineData("hum")]
    public void Json_is_as_its_schema_says(string verb)
    {
        var schema = JsonSchema.FromText(File.ReadAllText(JsonReportTests.RepositoryFile($"grammar/{verb}-output.schema.json")));
        Assert.Equal("", schema.Refusals(JsonNode.Parse(Told(verb, "--format", "json"))!));
    }
}
