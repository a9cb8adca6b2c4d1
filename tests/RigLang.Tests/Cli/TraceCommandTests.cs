using System.Text.Json.Nodes;
using Json.Schema;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class TraceCommandTests : IDisposable
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(JsonReportTests.RepositoryFile("grammar/trace-output.schema.json")));

    private const string Small = """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
          clock sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          filters any
          part voice receives midi on channel any
          clock follows internal, midi
        }
        device seq : Rook {
          a on channel 2
        }
        device bass : Tern {
          voice on channel 2
          clock midi
          thru drops clock
        }
        device lead : Tern {
          voice on channel 3
          clock midi
        }
        connect seq.midi  to bass.midi
        connect bass.thru to lead.midi
        """;

    private readonly Stage _stage = new();

    public TraceCommandTests() => _stage.Put("small.rig", Small);

    public void Dispose() => _stage.Dispose();

    private string Told(string question)
    {
        var (code, text, _) = _stage.Rig("trace", "small.rig", question);
        Assert.Equal(0, code);
        return text;
    }

    [Fact]
    public void A_trace_shows_ports_cables_and_who_hears()
        => Assert.Equal(
            """
            notes from seq.a, channel 2

              seq.midi
                > bass.midi      line 26  * bass.voice plays, channel 2
                  > bass.thru
                    > lead.midi  line 27  - no part is on channel 2

            Plays: bass.voice.

            """.ReplaceLineEndings("\n"),
            Told("notes from seq.a"));

    [Fact]
    public void Why_not_names_the_filter_and_its_line()
        => Assert.Equal(
            """
              seq.midi
                > bass.midi    line 26  * bass follows this clock
                  > bass.thru           x drops clock (line 20)

            Clock from seq does not get to lead: bass.thru drops clock. Take `clock` out of what bass.thru drops (line 20).

            """.ReplaceLineEndings("\n"),
            Told("why not clock from seq to lead"));

    [Fact]
    public void What_reaches_lists_senders_port_by_port()
        => Assert.StartsWith(
            "at bass.midi\n\n  seq.a  channel 2  notes and all other channel messages; * bass.voice plays\n", Told("what reaches bass"), StringComparison.Ordinal);

    [Fact]
    public void The_question_needs_no_quotes()
        => Assert.Equal(Told("notes from seq.a"), _stage.Rig("trace", "small.rig", "notes", "from", "seq.a").Out);

    [Theory]
    [InlineData("notes from seq.a")]
    [InlineData("any from seq")]
    [InlineData("what reaches lead")]
    [InlineData("why not clock from seq to lead")]
    [InlineData("why not stop from lead to seq")]
    public void JSON_fits_the_schema(string question)
    {
        var json = JsonNode.Parse(_stage.Rig("trace", "small.rig", question, "--format", "json").Out)!;
        Assert.Equal("", Schema.Refusals(json));
    }

    [Fact]
    public void A_long_chain_is_told_in_JSON_as_well()
    {
        var chain = string.Concat(Enumerable.Range(1, 300).Select(i => $"\ndevice t{i} : Tern\nconnect {(i == 1 ? "lead" : $"t{i - 1}")}.thru to t{i}.midi"));
        _stage.Put("long.rig", Small + chain);
        var json = JsonNode.Parse(_stage.Rig("trace", "long.rig", "notes from seq.a", "--format", "json").Out)!;
        Assert.Equal("t300.midi", (string?)json["ways"]![0]!["steps"]!.AsArray()[^1]!["port"]);
    }

    [Theory]
    [InlineData("why not")]
    [InlineData("why", "not")]
    [InlineData("why not?")]
    [InlineData("why not from")]
    [InlineData("what")]
    [InlineData("from")]
    [InlineData("\"")]
    [InlineData("?")]
    [InlineData(" ")]
    public void A_question_that_breaks_off_is_told_how_it_goes_on(params string[] words)
    {
        var (code, text, error) = _stage.Rig(["trace", "small.rig", .. words]);
        Assert.Equal((2, ""), (code, text));
        Assert.StartsWith("rig: ", error, StringComparison.Ordinal);
        Assert.EndsWith("rig trace --help shows what can be asked.\n", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_question_that_is_not_understood_names_what_and_the_nearest()
        => Assert.Equal(
            (2, "", "rig: there is no device called \"baas\". Did you mean bass?\n  what reaches baas\n               ~~~~\nrig trace --help shows what can be asked.\n"),
            _stage.Rig("trace", "small.rig", "what reaches baas"));

    [Fact]
    public void A_file_that_is_not_there_is_no_answer()
    {
        var (code, text, error) = _stage.Rig("trace", "other.rig", "notes from seq");
        Assert.Equal((2, ""), (code, text));
        Assert.StartsWith("rig: other.rig: ", error, StringComparison.Ordinal);
    }

    [Fact]
    public void Errors_in_the_rig_are_mentioned_beside_the_answer()
    {
        _stage.Put("wrong.rig", Small + "\nconnect nobody.midi to bass.midi\n");
        var (code, text, error) = _stage.Rig("trace", "wrong.rig", "notes from seq.a");
        Assert.Equal(0, code);
        Assert.EndsWith("Plays: bass.voice.\n", text, StringComparison.Ordinal);
        Assert.Contains("wrong.rig has 1 error", error, StringComparison.Ordinal);
    }
}
