using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>Two devices on one supply, of which one has the other polarity or the other side as ground.</summary>
public class MixedPolarityOnOneChain
{
    private static Compilation Two(string second, string power = "chain.out2", string audio = "connect first.out to second.in", string lead = "") => Rigs.Compile($$"""
        import "shared/leads.rig"
        gear Brick {
          out out  : dc 9 V centre-negative, 1 A          on barrel 5.5x2.1 mm
          out own  : dc 9 V centre-negative isolated, 1 A on barrel 5.5x2.1 mm
          out two  : dc 9 V centre-negative, 1 A          on barrel 5.5x2.1 mm
        }
        gear Chain {
          in  in         : dc on barrel 5.5x2.1 mm
          out out1, out2 : dc on captive barrel 5.5x2.1 mm
          join in to out1, out2
        }
        gear First {
          in  power : dc 9 V centre-negative, 50 mA on barrel 5.5x2.1 mm
          out out   : audio mono line               on ts 6.35 mm
        }
        gear Second {
          in power : dc 9 V {{second}}, 50 mA on barrel 5.5x2.1 mm
          in in    : audio mono line          on ts 6.35 mm
        }
        lead Reversing : socket barrel 5.5x2.1 mm to barrel 5.5x2.1 mm {
          centre to outer
          outer  to centre
        }
        gear Between {
          in  in  : audio mono line          on ts 6.35 mm
          out out : audio mono line          on ts 6.35 mm
          out far : audio mono line isolated on ts 6.35 mm
          route in to out, far
        }
        device brick  : Brick
        device chain  : Chain
        device first  : First
        device second : Second
        connect brick.out to chain.in
        connect chain.out1 to first.power
        connect {{power}} to second.power {{lead}}
        {{audio}}
        """);

    private const string OverAThird = "device middle : Between\nconnect first.out to middle.in\nconnect middle.out to second.in";

    [Theory]
    [InlineData("centre-positive", "connect first.out to second.in")]
    [InlineData("centre-positive", OverAThird)]
    [InlineData("centre-negative positive-ground", "connect first.out to second.in")]
    public void Sharing_an_audio_ground_they_short_the_supply_and_that_is_told_once(string second, string audio) =>
        Assert.Equal(["mixed-polarity@36"], Two(second, audio: audio).Found());

    [Fact]
    public void The_finding_names_the_cable_and_both_polarities() =>
        Assert.Equal("second has its ground on the plus of brick.out: centre-negative into centre-positive; first.out to second.in joins it to first, whose ground is on the minus: brick.out is shorted.",
            Two("centre-positive").Findings.Single().What);

    [Fact]
    public void An_isolated_output_that_is_free_is_offered() =>
        Assert.Equal("Feed second from brick.own", Assert.Single(Two("centre-negative positive-ground").Findings.Single().Fixes).Title);

    [Theory]
    [InlineData("Adapter9Negative", "GermaniumFuzz", "device adapter : Adapter9Negative")]
    [InlineData("Adapter9Positive", "MonoPedal", "device adapter : Adapter9Negative")]
    public void An_adapter_of_its_own_is_offered_and_leaves_a_clean_rig(string supply, string second, string adapter)
    {
        var before = Rigs.Compile($$"""
            import "shared/leads.rig"
            import "shared/gear.rig"
            gear Loud {
              in power : dc 9 V {{(supply == "Adapter9Negative" ? "centre-negative" : "centre-positive")}}, 50 mA on barrel 5.5x2.1 mm
              in in    : audio mono instrument on ts 6.35 mm
            }
            device wall   : WallSocket
            device nine   : {{supply}}
            device chain  : DaisyChain
            device first  : {{second}}
            device second : Loud
            connect wall.socket1 to nine.plug
            connect nine.out to chain.in
            connect chain.out1 to first.power
            connect chain.out2 to second.power
            connect first.out to second.in with Patch 1 m
            """);
        Assert.Equal(["mixed-polarity"], before.Names());
        var edits = Assert.Single(before.Findings.Single().Fixes).Edits;
        var text = edits.OrderByDescending(e => e.Span.Start).Aggregate(
            before.Files[0].Content, (text, edit) => text.Remove(edit.Span.Start, edit.Span.Length).Insert(edit.Span.Start, edit.NewText));
        Assert.Contains(adapter, text, StringComparison.Ordinal);
        Assert.Empty(Rigs.Compile(text).Found());
    }

    [Fact]
    public void With_a_transformer_between_their_grounds_only_the_polarity_is_wrong() =>
        Assert.Equal(["polarity-reversed@36"], Two("centre-positive", audio: "device middle : Between\nconnect first.out to middle.in\nconnect middle.far to second.in").Found());

    [Fact]
    public void An_outlet_of_the_same_shared_return_shorts_the_supply_too() =>
        Assert.Equal(["mixed-polarity@36"], Two("centre-negative positive-ground", "brick.two").Found());

    [Fact]
    public void On_an_isolated_output_its_ground_may_be_its_plus() =>
        Assert.Empty(Two("centre-negative positive-ground", "brick.own").Found());

    [Fact]
    public void A_reversing_lead_puts_the_grounds_of_both_on_the_minus() =>
        Assert.Equal(["ground-loop@36"], Two("centre-positive", lead: "with Reversing").Found());
}
