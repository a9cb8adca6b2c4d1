using System.Text.Json.Nodes;
using Json.Schema;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class PowerCommandTests : IDisposable
{
    private const string Small = """
        import "shared/gear.rig"
        import "shared/leads.rig"
        rig "Slip Road" {
          mains 230 V 50 Hz 16 A
          set   3 h
        }
        gear Tern {
          in  power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
          out line  : audio mono line                on ts 6.35 mm
        }
        device wall  : WallSocket
        device strip : MainsStrip
        device nine  : Adapter9Positive
        device split : DcSplitter
        device bass  : Tern
        device lead  : Tern
        device amp   : ActiveSpeaker
        device twin  : ActiveSpeaker
        device cam   : Camera {
          runs on battery
        }
        connect wall.socket1  to strip.plug
        connect strip.outlet1 to nine.plug
        connect strip.outlet2 to amp.power  with MainsLead 2 m
        connect strip.outlet3 to twin.power with MainsLead 2 m
        connect nine.out      to split.in
        connect split.out1    to bass.power
        connect split.out2    to lead.power
        connect bass.line     to amp.line
        connect lead.line     to twin.line
        """;

    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(JsonReportTests.RepositoryFile("grammar/power-output.schema.json")));

    private readonly Stage _stage = new();

    public void Dispose() => _stage.Dispose();

    private string Power(string rig, string format = "text")
    {
        _stage.Put("small.rig", rig);
        var (code, text, _) = _stage.Rig("power", "small.rig", "--format", format);
        Assert.Equal(0, code);
        return text;
    }

    [Fact]
    public void The_sheet_shows_the_tree_batteries_order_cautions_and_safety()
        => Assert.Equal(
            """
            Power of Slip Road
            Mains 230 V 50 Hz, breaker 16 A, set 3 h

                                supply, plug                    takes  spare
            wall                                       525 of 3680 VA   85 %
              socket1: strip    230 V mains                    525 VA
                outlet1: nine   230 V mains                     25 VA
                  out: split    9 V DC (+) 5.5x2.1 mm  500 of 1000 mA   50 %
                    out1: bass  9 V DC (+) 5.5x2.1 mm          250 mA
                    out2: lead  9 V DC (+) 5.5x2.1 mm          250 mA
                outlet2: amp    230 V iec-c14                  250 VA
                outlet3: twin   230 V iec-c14                  250 VA

            (+) (-)  polarity of the centre contact
            VA  of gear that declares watts: at a power factor of 0.6

            On battery
              cam: about 2 h, too short for the set of 3 h

            Switching on
              Last on, first off: amp, twin.

            Cautions
              error at line 19: The battery of cam lasts about 2 h, and the set is 3 h.

            Safety
              Never remove or lift a protective earth, whatever hums. Prefer sockets behind
              a residual-current device (RCD, GFCI), no strip in a strip, no loaded cable on
              its reel. The sums are a plan made from what the gear declares, not a
              measurement: local code and a licensed electrician decide about mains wiring.

            """.ReplaceLineEndings("\n"),
            Power(Small));

    [Theory]
    [InlineData(Small)]
    [InlineData("")]
    public void Json_is_as_its_schema_says(string rig)
    {
        Assert.Equal("", Schema.Refusals(JsonNode.Parse(Power(rig, "json"))!));
    }

    [Theory]
    [InlineData("text")]
    [InlineData("json")]
    public void The_safety_text_is_there_whatever_the_rig(string format)
    {
        var words = string.Join(' ', Power("", format).Split((char[])[' ', '\n'], StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains("Never remove or lift a protective earth", words, StringComparison.Ordinal);
        Assert.Contains("local code and a licensed electrician decide", words, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("examples/pantile-yard.rig")]
    [InlineData("examples/tallow-loft.rig")]
    public void The_sheet_of_an_example_fits_a_terminal_of_80_columns(string path)
    {
        var (code, text, _) = _stage.Rig("power", Path.Combine(Repository.Root, path));
        Assert.Equal(0, code);
        Assert.All(text.Split('\n'), line => Assert.True(line.Length <= 80, line));
    }

    [Fact]
    public void What_is_over_its_rating_or_not_said_stands_out()
    {
        var text = Power(Small.Replace("centre-positive, 250 mA", "centre-positive, 600 mA", StringComparison.Ordinal));
        Assert.Contains("1200 of 1000 mA   over", text, StringComparison.Ordinal);
        Assert.Contains("error at line 26: nine.out gives 1 A, but bass and lead together take 1.2", text, StringComparison.Ordinal);
        Assert.Contains("? of 1 A\n", Power(Small.Replace("centre-positive, 250 mA", "centre-positive", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_long_lead_loses_is_on_the_sheet()
    {
        var text = Power("""
            import "shared/leads.rig"
            gear Brick {
              out out : dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm
            }
            gear Tern {
              in power : dc 9 V centre-positive, 500 mA on barrel 5.5x2.1 mm
            }
            device brick : Brick
            device bass  : Tern
            device lead  : Tern
            connect brick.out to bass.power with DcLead 2 m
            """);
        // 2 x 2 m x 84.22 ohms a kilometre x 0.5 A.
        Assert.Contains("Lost in leads\n  bass: 8.83 V of 9 V arrive, it works from 8.55 V\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Only_what_hangs_straight_on_an_isolated_output_is_marked()
    {
        var text = Power("""
            import "shared/gear.rig"
            device brick : PedalSupplyIsolated
            device split : DcSplitter
            device own   : MonoPedal
            device one   : MonoPedal
            device two   : MonoPedal
            connect brick.out1 to own.power
            connect brick.out2 to split.in
            connect split.out1 to one.power
            connect split.out2 to two.power
            """);
        Assert.Equal(["own", "split"], from line in text.Split('\n') where line.Contains(" mm *", StringComparison.Ordinal) select line.Split(": ")[1].Split(' ')[0]);
        Assert.Contains("*  an isolated output: it joins no grounds\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_rig_without_a_supply_says_so() => Assert.Contains("Nothing in this rig is fed by a supply.", Power(""), StringComparison.Ordinal);
}
