using RigLang.Tests.Support;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Wiring;

/// <summary>Each pattern on the nets, and what the player reads: every row of the model's table.</summary>
public class WhatTheNetsShow
{
    [Fact]
    public void A_right_output_on_the_ground_net_is_a_lost_and_shorted_channel() =>
        Assert.Equal(["channel-shorted"], Bench.Join("audio stereo headphone on trs 3.5 mm", "Short 1 m", "audio mono line on ts 3.5 mm",
            "lead Short : ts 3.5 mm to ts 3.5 mm").Names());

    [Fact]
    public void Left_and_right_outputs_on_one_net_are_shorted_together() =>
        Assert.Equal(["left-right-joined"], Bench.Join("audio stereo line on trs 3.5 mm", "Sum 1 m", "audio mono line on ts 6.35 mm",
            """
            lead Sum : trs 3.5 mm to ts 6.35 mm {
              tip to tip
              ring to tip
              sleeve to sleeve
            }
            """).Names());

    /// <summary>Vector V4.4: equal sides vanish, one side alone arrives, opposite sides add up to +6.02 dB.</summary>
    [Theory]
    [InlineData(1, 1, 0)]
    [InlineData(1, 0, 1)]
    [InlineData(1, -1, 2)]
    public void Left_on_hot_and_right_on_cold_is_heard_as_the_difference(double left, double right, double arrives)
    {
        var rig = Bench.Join("audio stereo line on trs 6.35 mm", "Balanced 1 m", "audio mono line balanced on trs 6.35 mm");
        Assert.Equal(["stereo-into-balanced"], rig.Names());
        Assert.Equal(arrives, rig.Level(left, right), 9);
    }

    [Fact]
    public void The_difference_of_opposite_sides_is_six_decibels_up() =>
        Assert.Equal(6.02, SignalLevels.Decibels(
            Bench.Join("audio stereo line on trs 6.35 mm", "Balanced 1 m", "audio mono line balanced on trs 6.35 mm").Level(1, -1)), 2);

    [Fact]
    public void Hot_and_cold_on_left_and_right_are_the_same_signal_with_one_side_inverted() =>
        Assert.Equal(["balanced-into-stereo"],
            Bench.Join("audio mono line balanced on trs 6.35 mm", "Balanced 1 m", "audio stereo line on trs 6.35 mm").Names());

    [Fact]
    public void Supply_minus_on_the_loads_plus_is_reversed_polarity() =>
        Assert.Equal(["polarity-reversed"],
            Bench.Join("dc 9 V centre-negative, 1 A on barrel 5.5x2.1 mm", "DcLead 1 m", "dc 9 V centre-positive, 100 mA on barrel 5.5x2.1 mm").Names());

    [Fact]
    public void A_reversing_lead_puts_reversed_polarity_right() =>
        Assert.Empty(
            Bench.Join("dc 9 V centre-negative, 1 A on barrel 5.5x2.1 mm", "DcReversing 1 m", "dc 9 V centre-positive, 100 mA on barrel 5.5x2.1 mm").Names());

    [Fact]
    public void A_reversing_lead_makes_equal_polarity_wrong() =>
        Assert.Equal(["polarity-reversed"],
            Bench.Join("dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm", "DcReversing 1 m", "dc 9 V centre-positive, 100 mA on barrel 5.5x2.1 mm").Names());

    [Fact]
    public void A_load_of_any_polarity_is_fed_either_way_round()
    {
        var rig = Bench.Join("dc 9 V centre-negative, 1 A on barrel 5.5x2.1 mm", "DcLead 1 m", "dc 9 V any-polarity, 100 mA on barrel 5.5x2.1 mm");
        Assert.Empty(rig.Names());
        Assert.Single(rig.Rig.Links.Links);
    }

    /// <summary>Vector V1.7.</summary>
    [Fact]
    public void Midi_type_a_through_a_straight_lead_into_type_b_is_no_midi()
    {
        var rig = Bench.Join("midi on trs 3.5 mm type-a", "MidiTrs 1 m", "midi on trs 3.5 mm type-b");
        Assert.Equal(["midi-loop-open"], rig.Names());
        Assert.Empty(rig.Rig.Links.Links);
    }

    /// <summary>Vector V1.7.</summary>
    [Fact]
    public void Midi_type_a_through_a_crossed_lead_into_type_b_is_fine()
    {
        var rig = Bench.Join("midi on trs 3.5 mm type-a", "MidiTrsCrossed 1 m", "midi on trs 3.5 mm type-b");
        Assert.Empty(rig.Names());
        Assert.Single(rig.Rig.Links.Links);
    }

    [Theory]
    [InlineData("midi on trs 3.5 mm type-a", "MidiTrsA", true)]
    [InlineData("midi on trs 3.5 mm type-b", "MidiTrsA", false)]
    [InlineData("midi on trs 3.5 mm type-b", "MidiTrsB", true)]
    [InlineData("midi on trs 3.5 mm type-a", "MidiTrsB", false)]
    public void An_adapter_to_din_serves_one_type_only(string output, string lead, bool works) =>
        Assert.Equal(works ? [] : ["midi-loop-open"], Bench.Join(output, lead + " 1 m", "midi on din-5").Names());

    [Fact]
    public void A_midi_loop_that_is_tied_to_the_screen_is_no_midi() =>
        Assert.Equal(["midi-loop-open"], Bench.Join("midi on trs 3.5 mm type-a", "MiniMono 1 m", "midi on trs 3.5 mm type-a").Names());

    [Fact]
    public void Leads_in_series_compose() =>
        Assert.Empty(Bench.Join("midi on din-5", "MidiDin 1 m + MidiAdapterB", "midi on trs 3.5 mm type-b").Names());

    [Fact]
    public void An_adapter_of_the_wrong_type_in_the_chain_opens_the_loop() =>
        Assert.Equal(["midi-loop-open"], Bench.Join("midi on din-5", "MidiDin 1 m + MidiAdapterA", "midi on trs 3.5 mm type-b").Names());

    [Fact]
    public void Phantom_power_on_an_output_not_built_for_it_can_damage_it() =>
        Assert.Equal(["phantom-into-output"],
            Bench.Join("audio mono line balanced on xlr-3", "Xlr 2 m", "audio mono mic phantom on xlr-3", settings: "in phantom on").Names());

    [Fact]
    public void A_pulse_on_an_audio_input_is_a_look_alike_jack() =>
        Assert.Equal(["signal-mismatch"], Bench.Join("pulse 2 ppqn 5 V on ts 3.5 mm", "MiniMono 1 m", "audio mono line on ts 3.5 mm").Names());

    [Fact]
    public void Audio_on_a_sync_input_is_a_look_alike_jack() =>
        Assert.Equal(["signal-mismatch"], Bench.Join("audio mono line on ts 3.5 mm", "MiniMono 1 m", "pulse 2 ppqn 5 V on ts 3.5 mm").Names());

    [Fact]
    public void Two_outputs_on_one_net_are_in_conflict() =>
        Assert.Equal(["outputs-joined"], Rigs.Compile("""
            import "shared/leads.rig"
            gear Left {
              out out : midi on din-5
            }
            device a : Left
            device b : Left
            connect a.out to b.out with MidiDin 1 m
            """).Names());

    [Fact]
    public void A_conflict_is_found_through_a_passive_box()
    {
        var rig = Rigs.Compile("""
            import "shared/leads.rig"
            gear Left {
              out out : audio mono line on ts 6.35 mm
            }
            gear Right {
              in in : audio mono line on ts 6.35 mm
            }
            /// A passive box that simply joins three jacks.
            gear Box {
              in  a, b : audio mono line on ts 6.35 mm
              out c    : audio mono line on ts 6.35 mm
              join a, b to c
            }
            device one : Left
            device two : Left
            device box : Box
            device end : Right
            connect one.out to box.a with Patch 1 m
            connect two.out to box.b with Patch 1 m
            connect box.c to end.in with Patch 1 m
            """);
        Assert.Equal(["outputs-joined"], rig.Names());
    }

    /// <summary>Vector V3.5: class 03 for 9 V, class 04 for 12 V, and a 4.0x1.7 mm plug (class 02) on 9 V is suspect.</summary>
    [Theory]
    [InlineData(9, "03")]
    [InlineData(12, "04")]
    [InlineData(3.15, "01")]
    [InlineData(6.3, "02")]
    [InlineData(18, "05")]
    public void A_unified_barrel_class_stands_for_a_voltage(double volts, string name) =>
        Assert.Equal(name, UnifiedBarrels.ForVoltage(new Volt(volts))!.Name);

    /// <summary>Vector V3.5.</summary>
    [Fact]
    public void A_barrel_of_a_lower_class_on_nine_volts_is_a_warning()
    {
        var rig = Rigs.Compile("""
            gear Tern {
              in power : dc 9 V centre-positive, 250 mA on barrel 4.0x1.7 mm
            }
            """);
        Assert.Equal(["barrel-voltage-class@2"], rig.Found());
        Assert.Contains("3.15 V to 6.3 V", rig.Findings[0].What, StringComparison.Ordinal);
    }
}
