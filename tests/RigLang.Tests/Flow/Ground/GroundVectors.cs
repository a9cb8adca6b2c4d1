using RigLang.Flow.Ground;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow.Ground;

/// <summary>What stage practice says of small rigs, each as a text through the compiler. Source: common practice; E − V + C is Diestel 1.9.</summary>
public class GroundVectors
{
    private const string Places = """
        gear Wall {
          out s1..s4 : mains 230 V earthed on mains
        }
        gear Desk {
          in  power     : mains 230 V earthed, 40 W on iec-c14
          in  ch1, ch2  : audio mono line           on ts 6.35 mm
          in  pair      : audio stereo line         on 2 ts 6.35 mm
          in  balanced  : audio mono line balanced  on xlr-3
          out record    : audio mono line           on rca
          out out       : audio mono line balanced  on xlr-3
        }
        gear Laptop {
          in  power : mains 230 V earthed, 60 W on iec-c14
          out usb   : usb host 5 V 900 mA       on usb-a
          battery
        }
        gear Synth {
          in  usb  : usb device        on usb-b
          out line : audio mono line   on ts 6.35 mm
          out pair : audio stereo line on 2 ts 6.35 mm
          battery
        }
        gear Recorder {
          in line : audio mono line on rca
          battery
        }
        gear Earthed {
          in  power : mains 230 V earthed, 40 W on iec-c14
          out line  : audio mono line           on ts 6.35 mm
          out pair  : audio stereo line         on 2 ts 6.35 mm
          out safe  : audio stereo line isolated on 2 ts 6.35 mm
          out out   : audio mono line balanced  on xlr-3
        }
        gear Chain {
          in  in   : dc on barrel 5.5x2.1 mm
          out a, b, c : dc on captive barrel 5.5x2.1 mm
          join in to a, b, c
        }
        gear Brick {
          in  power      : mains 230 V double-insulated, 20 W     on iec-c8
          out shared     : dc 9 V centre-negative, 1 A            on barrel 5.5x2.1 mm
          out own1..own3 : dc 9 V centre-negative isolated, 1 A   on barrel 5.5x2.1 mm
        }
        gear Pedal {
          in  power : dc 9 V centre-negative, 50 mA on barrel 5.5x2.1 mm
          in  in    : audio mono instrument         on ts 6.35 mm
          out out   : audio mono instrument         on ts 6.35 mm
          route in to out
        }
        """;

    private static GroundLoops Of(string rig) => Rigs.Compile(Places + "\nimport \"shared/leads.rig\"\n" + rig).Rig.Ground;

    private const string LaptopRig = """

        device wall : Wall
        device desk : Desk
        device laptop : Laptop
        device synth : Synth
        device recorder : Recorder
        connect wall.s1 to desk.power
        connect wall.s2 to laptop.power
        connect laptop.usb to synth.usb
        connect synth.line to desk.ch1
        connect desk.record to recorder.line
        """;

    [Fact]
    public void V5_1_laptop_synthesizer_and_desk_make_one_loop_and_the_recorder_hangs_from_a_bridge()
    {
        var loops = Of(LaptopRig);
        Assert.Equal((5, 5, 1), (loops.Ground.Domains.Count, loops.Ground.Links.Count, loops.Count));
        var bridge = Assert.Single(loops.Ground.Links, l => loops.Ground.Graph.Bridges()[l.Index]);
        Assert.Equal("desk.record to recorder.line", bridge.Text);
        Assert.True(Assert.Single(loops.Loops).IsHeard);
    }

    [Fact]
    public void V5_1_with_the_laptop_on_its_battery_there_is_none()
        => Assert.Equal(0, Of(LaptopRig.Replace("connect wall.s2 to laptop.power\n", "", StringComparison.Ordinal)).Count);

    private static string TwoEarthed(string cable) => $"""

        device wall : Wall
        device synth : Earthed
        device desk : Desk
        connect wall.s1 to desk.power
        connect wall.s2 to synth.power
        connect {cable}
        """;

    [Fact]
    public void V5_2_one_unbalanced_cable_between_two_earthed_devices_is_a_loop_that_is_heard()
    {
        var loops = Of(TwoEarthed("synth.line to desk.ch1"));
        Assert.Equal((3, 3), (loops.Ground.Domains.Count, loops.Ground.Links.Count));
        Assert.True(Assert.Single(loops.Loops).IsHeard);
        Assert.Equal("synth.line to desk.ch1", Assert.Single(Assert.Single(loops.Cure).Bundle.Links).Text);
    }

    [Fact]
    public void V5_2_a_pair_makes_two_loops_the_second_too_small_to_be_heard()
    {
        var loops = Of(TwoEarthed("synth.pair to desk.pair"));
        Assert.Equal(2, loops.Count);
        Assert.Equal([false, true], loops.Loops.Select(l => l.IsHeard));
        Assert.Equal(2, Assert.Single(loops.Cure).Bundle.Links.Count);
        Assert.Empty(loops.LeftByCure());
    }

    [Fact]
    public void V5_2_through_transformers_there_is_none() => Assert.Equal(0, Of(TwoEarthed("synth.safe to desk.pair")).Count);

    [Fact]
    public void A_short_balanced_cable_between_two_earthed_devices_is_a_loop_that_is_not_heard()
    {
        var loops = Of(TwoEarthed("synth.out to desk.balanced with Xlr 5 m"));
        Assert.False(Assert.Single(loops.Loops).IsHeard);
        Assert.Empty(loops.Cure);
    }

    [Fact]
    public void A_balanced_cable_of_more_than_ten_metres_is_taken_to_be_heard()
        => Assert.True(Assert.Single(Of(TwoEarthed("synth.out to desk.balanced with Xlr 12 m")).Loops).IsHeard);

    private static string Pedals(string a, string b, string c) => $"""

        device brick : Brick
        device chain : Chain
        device p1 : Pedal
        device p2 : Pedal
        device p3 : Pedal
        connect brick.shared to chain.in with DcLead 1 m
        connect {a} to p1.power
        connect {b} to p2.power
        connect {c} to p3.power
        connect p1.out to p2.in
        connect p2.out to p3.in
        """;

    [Fact]
    public void V5_3_three_pedals_in_series_on_a_daisy_chain_make_two_loops()
    {
        var loops = Of(Pedals("chain.a", "chain.b", "chain.c"));
        // The daisy chain is a domain of its own, joined to the supply by one link more: 6 - 5 + 1 in place of 5 - 4 + 1.
        Assert.Equal((5, 6, 2), (loops.Ground.Domains.Count, loops.Ground.Links.Count, loops.Count));
        Assert.All(loops.Loops, l => Assert.Equal(3, l.Links.Count));
        Assert.Equal(2, loops.Cure.Count);
        Assert.All(loops.Cure, c => Assert.Equal(GroundLinkKind.Supply, c.Bundle.Kind));
        Assert.Empty(loops.LeftByCure());
    }

    [Fact]
    public void V5_3_on_isolated_outputs_there_is_none() => Assert.Equal(0, Of(Pedals("brick.own1", "brick.own2", "brick.own3")).Count);

    [Theory]
    [InlineData("28 awg", "4.7 m", "line", 1, -60)]
    [InlineData("28 awg", "2.35 m", "line", 0.5, -66)]
    [InlineData("28 awg", "4.7 m", "instrument", 1, -50)]
    public void V5_4_300_microamperes_in_a_screen_of_1_ohm_lie_60_dB_under_a_line(string gauge, string length, string level, double ohms, double decibels)
    {
        var rig = TwoEarthed($"synth.line to desk.ch1 with Thin {length}").Replace("Earthed", "Loud", StringComparison.Ordinal) + $$"""

            gear Loud {
              in  power : mains 230 V earthed, 40 W on iec-c14
              out line  : audio mono {{level}}      on ts 6.35 mm
            }
            lead Thin : ts 6.35 mm to ts 6.35 mm {
              gauge {{gauge}}
            }
            """;
        var noise = Assert.Single(Of(rig).Ground.Links, l => l.Kind == GroundLinkKind.Audio).Noise!.Value;
        Assert.Equal((ohms, decibels), (Math.Round(noise.Ohms, 2), Math.Round(noise.Level)));
    }

    [Fact]
    public void A_lead_with_two_tails_is_linked_from_its_one_plug()
    {
        var loops = Of("""

            gear Rook {
              out mix : audio stereo headphone on trs 3.5 mm
            }
            device rook : Rook
            device desk : Desk
            connect rook.mix to desk.pair with Breakout 1 m
            """);
        Assert.Equal(["rook.mix to desk.pair.left", "rook.mix to desk.pair.right"], loops.Ground.Links.Select(l => l.Text));
    }

    [Theory]
    [InlineData("3 h", "the mains plug of laptop")]
    [InlineData("30 min", "synth.line to desk.ch1")]
    [InlineData("", "synth.line to desk.ch1")]
    public void A_battery_that_lasts_the_set_is_the_cheapest_cure_and_one_that_does_not_is_none(string battery, string cut)
    {
        var loops = Of("\nrig \"R\" {\n  set 1 h\n}\n" + LaptopRig.Replace("laptop : Laptop", "laptop : Portable", StringComparison.Ordinal) + $$"""

            gear Portable {
              in  power : mains 230 V earthed, 60 W on iec-c14
              out usb   : usb host 5 V 900 mA       on usb-a
              battery {{battery}}
            }
            """);
        Assert.Equal(cut, Assert.Single(Assert.Single(loops.Cure).Bundle.Links).Text);
        Assert.Empty(loops.LeftByCure());
    }

    [Fact]
    public void Midi_through_an_opto_isolated_input_joins_no_grounds()
    {
        const string twoBoxes = """
            gear Box {
              in  in   : midi on CONNECTOR
              out out  : midi on CONNECTOR
              out line : audio mono line on ts 6.35 mm
              in  tape : audio mono line on ts 6.35 mm
            }
            device a : Box
            device b : Box
            connect a.out to b.in
            connect b.line to a.tape
            """;
        Assert.Single(Of(twoBoxes.Replace("CONNECTOR", "din-5", StringComparison.Ordinal)).Ground.Links);
        Assert.Single(Of(twoBoxes.Replace("CONNECTOR", "trs 3.5 mm type-a", StringComparison.Ordinal)).Ground.Links);
        // The panel grounds the sleeve of a two-pole jack, against the standard.
        Assert.Equal(2, Of(twoBoxes.Replace("CONNECTOR", "ts 3.5 mm", StringComparison.Ordinal)).Ground.Links.Count);
    }

    [Fact]
    public void Din_sync_joins_grounds()
    {
        var loops = Of("""

            gear Rook {
              out sync : din-sync 24 ppqn on din-5
            }
            gear Tern {
              in sync : din-sync 24 ppqn on din-5
            }
            device a : Rook
            device b : Tern
            connect a.sync to b.sync with DinSync
            """);
        Assert.Equal(GroundLinkKind.Sync, Assert.Single(loops.Ground.Links).Kind);
    }

    [Fact]
    public void A_protective_earth_is_never_in_a_cure()
    {
        var loops = Of(LaptopRig.Replace("laptop : Laptop", "laptop : Earthed", StringComparison.Ordinal).Replace("laptop.usb to synth.usb", "laptop.line to desk.ch2", StringComparison.Ordinal));
        Assert.NotEmpty(loops.Cure);
        Assert.DoesNotContain(loops.Cure.SelectMany(c => c.Bundle.Links), l => l.IsEarth);
        Assert.All(loops.Ground.Links.Where(l => l.IsEarth), l => Assert.Null(l.Cost));
    }
}
