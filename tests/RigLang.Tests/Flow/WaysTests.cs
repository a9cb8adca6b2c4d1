using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>A way is steps of known kinds; a name can hold whatever a player likes and changes nothing about them.</summary>
public class WaysTests
{
    private const string Gear = """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
          clock sends midi
        }
        gear Join {
          in  in1, in2 : midi on din-5
          out out      : midi on din-5
          route in1, in2 to out
          filters any
          maps channels
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
          clock follows internal, midi
        }

        """;

    [Theory]
    [InlineData("seq")]
    [InlineData("up to date")]
    [InlineData("a, b to c")]
    [InlineData("x → y, channel 3 moved to 5")]
    public void The_name_of_a_device_does_not_move_a_finding(string name)
    {
        var compilation = Rigs.Compile(Gear + $$"""
            device "{{name}}" : Rook
            device drums : Rook
            device merge : Join
            device bass  : Tern {
              clock midi
            }
            connect "{{name}}".midi to merge.in1
            connect drums.midi to merge.in2
            connect merge.out  to bass.midi
            """);
        var finding = Assert.Single(compilation.Findings, f => f.Check.Name == "two-clocks");
        Assert.Contains("connect drums.midi to merge.in2", LineOf(finding.Location), StringComparison.Ordinal);
        Assert.EndsWith($"{name}.midi → merge.in1 → merge.out → bass.midi and drums.midi → merge.in2 → merge.out → bass.midi.", finding.What, StringComparison.Ordinal);
    }

    [Fact]
    public void A_map_on_the_way_stands_at_the_port_that_moves()
    {
        var rig = Rigs.Compile(Gear + """
            device seq : Rook {
              a on channel 3
            }
            device map : Join {
              in1 maps channel 3 to 5
            }
            device bass : Tern {
              voice on channel 5
            }
            connect seq.midi to map.in1
            connect map.out  to bass.midi
            must notes from seq.a reach bass
            """).Rig;
        var outcome = Assert.Single(rig.Outcomes);
        Assert.Equal("seq.midi → map.in1 (channel 3 becomes 5) → map.out → bass.midi", WayWords.Chain(outcome.Hops));
        Assert.Equal(
            ["Start seq.midi", "Cable map.in1", "Moved map.in1", "Through map.out", "Cable bass.midi"],
            outcome.Hops.Select(step => $"{step.GetType().Name} {step.Port}"));
        Assert.Contains("maps channel 3 to 5", LineOf(outcome.Hops[2].At), StringComparison.Ordinal);
    }

    [Fact]
    public void A_filter_ends_the_way_at_its_own_line()
    {
        var rig = Rigs.Compile(Gear + """
            device seq   : Rook
            device merge : Join {
              in1 drops clock
            }
            device bass : Tern {
              clock midi
            }
            connect seq.midi  to merge.in1
            connect merge.out to bass.midi
            must clock from seq reach bass
            """).Rig;
        var stop = Assert.IsType<WayStep.Stopped>(rig.Outcomes[0].Hops[^1]);
        Assert.Contains("in1 drops clock", LineOf(stop.At), StringComparison.Ordinal);
        Assert.Equal("merge.in1 drops clock", WayWords.Of(stop));
    }

    private static string LineOf(Text.Location at)
    {
        var line = at.Source.PositionOf(at.Span.Start).Line;
        return at.Source.Content.Split('\n')[line];
    }
}
