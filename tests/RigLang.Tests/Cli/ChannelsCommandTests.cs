using System.Text.Json.Nodes;
using Json.Schema;
using RigLang.Cli.Output;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class ChannelsCommandTests : IDisposable
{
    private const string Two = """
        gear Rook {
          out midi : midi on din-5
          track a, b sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
          b on channel 3
        }
        device bass : Tern {
          voice on channel 2
        }
        device lead : Tern {
          voice on channel 2
        }
        connect seq.midi  to bass.midi
        connect bass.thru to lead.midi
        """;

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private string Chart(string rig, string format = "text")
    {
        _stage.Put("two.rig", rig);
        var (code, text, _) = _stage.Rig("channels", "two.rig", "--format", format);
        Assert.Equal(0, code);
        return text;
    }

    [Fact]
    public void The_chart_shows_senders_hearers_conflicts_and_what_is_free()
        => Assert.Equal(
            """
            channel   1   2   3   4   5   6   7   8   9  10  11  12  13  14  15  16
            seq       .   S   S   .   .   .   .   .   .   .   .   .   .   .   .   .
            bass      .  H!   .   .   .   .   .   .   .   .   .   .   .   .   .   .
            lead      .  H!   .   .   .   .   .   .   .   .   .   .   .   .   .   .

            S sends   H hears   ! conflict   . nothing

            seq.a sends on channel 2: heard by bass.voice, lead.voice
            seq.b sends on channel 3: no part hears it
            Conflict on channel 2: seq.a plays bass.voice, lead.voice at once
            Free channels: 1, 4 to 16

            MIDI cables at 120 bpm, at worst; 100 % is 31,250 baud

            seq.midi to bass.midi     3.1 %  seq.a, seq.b
            bass.thru to lead.midi    3.1 %  seq.a, seq.b

            """.ReplaceLineEndings("\n"),
            Chart(Two));

    [Fact]
    public void Parts_called_layered_are_no_conflict()
        => Assert.DoesNotContain("!", Chart(Two.Replace("voice on channel 2", "voice on channel 2 layered", StringComparison.Ordinal)).Replace("! conflict", "", StringComparison.Ordinal), StringComparison.Ordinal);

    [Fact]
    public void CSV_has_a_row_a_device_and_lines_that_end_as_the_standard_says()
    {
        var lines = Chart(Two, "csv").Split("\r\n");
        Assert.Equal("device,1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,any,off,not set", lines[0]);
        Assert.Equal("bass,,hears voice (conflict),,,,,,,,,,,,,,,,,", lines[2]);
        Assert.Equal("", lines[^1]);
    }

    [Fact]
    public void Json_is_as_its_schema_says()
    {
        var schema = JsonSchema.FromText(File.ReadAllText(JsonReportTests.RepositoryFile("grammar/channels-output.schema.json")));
        Assert.Equal("", schema.Refusals(JsonNode.Parse(Chart(Two, "json"))!));
    }

    [Fact]
    public void A_clock_that_meets_other_messages_is_told_how_long_it_can_wait()
        => Assert.Contains("""
            merge.out to bass.midi      3.1 %  keys.a; clock, which can wait 0.96 ms at merge.out
            """, Chart("""
            gear Keys {
              out midi : midi on din-5
              track a sends midi
            }
            gear Leader {
              out midi : midi on din-5
              clock sends midi
            }
            gear Join {
              in  in1, in2 : midi on din-5
              out out      : midi on din-5
              route in1, in2 to out
            }
            gear Tern {
              in midi : midi on din-5
              part voice receives midi on channel any
              clock follows midi
            }
            device keys   : Keys {
              a on channel 2
            }
            device leader : Leader
            device merge  : Join
            device bass   : Tern {
              voice on channel 2
              clock midi
            }
            connect keys.midi   to merge.in1
            connect leader.midi to merge.in2
            connect merge.out   to bass.midi
            """), StringComparison.Ordinal);

    [Theory]
    [InlineData("plain", "plain")]
    [InlineData("a, b", "\"a, b\"")]
    [InlineData("the \"big\" one", "\"the \"\"big\"\" one\"")]
    [InlineData("=HYPERLINK(1)", "'=HYPERLINK(1)")]
    [InlineData("+1", "'+1")]
    [InlineData("-1", "'-1")]
    [InlineData("@sum, all", "\"'@sum, all\"")]
    [InlineData("\tx", " x")]
    [InlineData("a\u202Eb", "a<U+202E>b")]
    public void A_field_is_quoted_only_where_it_must_be_and_is_never_a_formula(string text, string field) => Assert.Equal(field, ChannelPage.Field(text));

    [Fact]
    public void JSON_has_uses_conflicts_and_free_channels()
    {
        var json = JsonNode.Parse(Chart(Two, "json"))!;
        Assert.Equal(
            """{"device":"bass","name":"voice","role":"hears","channel":2,"setting":"set","layered":false,"conflict":true,"partners":["seq.a"]}""",
            json["uses"]![2]!.ToJsonString());
        Assert.Equal("""[{"channel":2,"track":"seq.a","parts":["bass.voice","lead.voice"]}]""", json["conflicts"]!.ToJsonString());
        Assert.Equal(14, json["free"]!.AsArray().Count);
    }

    [Fact]
    public void Markdown_is_a_table() => Assert.Contains("\n| bass |   | H! |", Chart(Two, "markdown"), StringComparison.Ordinal);

    [Theory]
    [InlineData("<script>alert(1)</script>", @"\<script\>alert(1)\</script\>")]
    [InlineData("a | b", @"a \| b")]
    [InlineData("![x](http://tern.example)", @"\!\[x\](http\://tern.example)")]
    [InlineData("bass_voice", "bass_voice")]
    public void What_a_rig_says_stays_text_in_Markdown(string text, string shown) => Assert.Equal(shown, ChannelPage.Escaped(text));

    [Fact]
    public void Without_a_file_the_way_out_is_named()
        => Assert.Equal((2, "", "rig: channels needs the name of a rig file.\nFor example: rig channels trio.rig\n"), _stage.Rig("channels"));
}
