using RigLang.Connectors;
using RigLang.Tests.Support;
using RigLang.Trade;
using RigLang.Wiring;
using Xunit;

namespace RigLang.Tests.Wiring;

/// <summary>
/// What each output, cable and input make of one another. The rows are those of common practice as collected in
/// application notes on interconnection; each builds a rig, compiles it, and reads the finding or the link.
/// </summary>
public class PlugAndJackMatrix
{
    private const string BalancedOut = "audio mono line balanced on trs 6.35 mm";
    private const string BalancedIn = "audio mono line balanced on trs 6.35 mm";
    private const string UnbalancedOut = "audio mono line on ts 6.35 mm";
    private const string UnbalancedIn = "audio mono line on ts 6.35 mm";
    private const string StereoOut = "audio stereo headphone on trs 6.35 mm";

    [Fact]
    public void Balanced_through_three_contacts_into_balanced_arrives_whole()
    {
        var rig = Bench.Join(BalancedOut, "Balanced 2 m", BalancedIn);
        Assert.Empty(rig.Names());
        Assert.Equal(1, rig.Level(1, 1), 9);
    }

    [Fact]
    public void Balanced_through_a_two_contact_plug_loses_six_decibels_and_shorts_the_cold_driver()
    {
        var rig = Bench.Join(BalancedOut, "Patch 2 m", UnbalancedIn);
        Assert.Equal(["cold-shorted"], rig.Names());
        Assert.Equal(-6.02, SignalLevels.Decibels(rig.Level(1, 1)), 2);
    }

    [Theory]
    [InlineData("impedance-balanced")]
    [InlineData("transformer-balanced")]
    public void An_output_that_forgives_a_grounded_cold_contact_arrives_whole(string kind)
    {
        var rig = Bench.Join($"audio mono line {kind} on trs 6.35 mm", "Patch 2 m", UnbalancedIn);
        Assert.Empty(rig.Names());
        Assert.Equal(1, rig.Level(1, 1), 9);
    }

    [Fact]
    public void Leaving_the_cold_contact_open_shorts_nothing()
    {
        var rig = Bench.Join(BalancedOut, "Unbalancing 2 m", UnbalancedIn);
        Assert.Empty(rig.Names());
    }

    [Fact]
    public void Unbalanced_through_a_two_contact_lead_into_balanced_arrives_whole()
    {
        var rig = Bench.Join(UnbalancedOut, "Patch 2 m", BalancedIn);
        Assert.Empty(rig.Names());
        Assert.Equal(1, rig.Level(1, 1), 9);
    }

    [Fact]
    public void Unbalanced_through_a_three_contact_lead_into_balanced_arrives_whole_because_the_output_jack_grounds_the_ring()
    {
        var rig = Bench.Join(UnbalancedOut, "Balanced 2 m", BalancedIn);
        Assert.Empty(rig.Names());
        Assert.Equal(1, rig.Level(1, 1), 9);
    }

    [Fact]
    public void Stereo_through_three_contacts_into_one_balanced_input_leaves_the_difference()
    {
        var rig = Bench.Join(StereoOut, "Balanced 2 m", BalancedIn);
        Assert.Equal(["stereo-into-balanced"], rig.Names());
    }

    [Fact]
    public void Stereo_through_a_two_contact_plug_shorts_the_right_channel()
    {
        var rig = Bench.Join(StereoOut, "Patch 2 m", UnbalancedIn);
        Assert.Equal(["channel-shorted"], rig.Names());
        Assert.Contains("right channel of a.out", rig.Findings[0].What, StringComparison.Ordinal);
        Assert.Equal([AudioChannel.Left], rig.Hears(AudioChannel.Mono).Select(t => t.Channel));
    }

    [Fact]
    public void Stereo_through_a_breakout_into_two_inputs_keeps_left_and_right_apart()
    {
        var rig = Rigs.Compile("""
            import "shared/leads.rig"
            gear Left {
              out out : audio stereo headphone on trs 6.35 mm
            }
            gear Right {
              in in1, in2 : audio mono line on ts 6.35 mm
            }
            device a : Left
            device b : Right
            connect a.out to b.in1, b.in2 with BreakoutJack 1 m
            """);
        Assert.Empty(rig.Names());
        Assert.Equal([AudioChannel.Left, AudioChannel.Right], rig.Rig.Links.Arrivals.Select(a => Assert.Single(a.Terms).Channel));
    }

    [Fact]
    public void A_mono_output_on_headphones_is_heard_in_one_ear()
    {
        var rig = Bench.Join(UnbalancedOut, "Balanced 2 m", "audio stereo headphone on trs 6.35 mm");
        Assert.Equal(["one-side-silent"], rig.Names());
        Assert.Contains("nothing on the right", rig.Findings[0].What, StringComparison.Ordinal);
    }

    [Fact]
    public void An_insert_straight_into_a_balanced_input_loses_its_return()
    {
        var rig = Bench.Join("insert on trs 6.35 mm", "Balanced 2 m", BalancedIn);
        Assert.Equal(["insert-without-return"], rig.Names());
    }

    [Fact]
    public void An_insert_lead_sends_and_returns()
    {
        var rig = Rigs.Compile("""
            import "shared/leads.rig"
            gear Desk {
              out ins : insert on trs 6.35 mm
            }
            gear Press {
              in  in  : audio mono line on ts 6.35 mm
              out out : audio mono line on ts 6.35 mm
            }
            device desk : Desk
            device comp : Press
            connect desk.ins to comp.in, comp.out with InsertY 1 m
            """);
        Assert.Empty(rig.Names());
        Assert.Equal(2, rig.Rig.Links.Arrivals.Count(a => a.Terms.Count == 1));
    }

    [Fact]
    public void An_unbalanced_line_into_a_microphone_input_with_phantom_power_on_is_in_danger()
    {
        var rig = Bench.Join(UnbalancedOut, "MonoJackToXlr 2 m", "audio mono mic phantom on xlr-3", settings: "in phantom on");
        Assert.Equal(["phantom-into-output"], rig.Names());
    }

    [Fact]
    public void An_unbalanced_line_into_a_microphone_input_overloads_it()
    {
        var rig = Bench.Join(UnbalancedOut, "MonoJackToXlr 2 m", "audio mono mic phantom on xlr-3");
        Assert.Equal(["level-mismatch"], rig.Names());
    }

    [Fact]
    public void A_headphone_output_into_a_stereo_line_input_works()
    {
        var rig = Bench.Join(StereoOut, "BreakoutJack 2 m", "audio stereo line on 2 ts 6.35 mm");
        Assert.Empty(rig.Names());
        Assert.Equal(2, rig.Rig.Links.Arrivals.Count);
    }

    [Fact]
    public void A_telephone_plug_in_a_three_contact_jack_shorts_its_microphone_but_its_output_is_fine()
    {
        var rig = Bench.Join("audio stereo headphone on trrs 3.5 mm", "Headset 1 m", "audio stereo line on trs 3.5 mm");
        Assert.Empty(rig.Names());
        var nets = rig.Rig.Nets;
        Assert.True(nets.AreJoined(nets.Contact(0, 2), nets.Contact(0, 3)), "ring 2 and sleeve meet on the jack's sleeve");
        Assert.Equal(AudioChannel.Left, Assert.Single(rig.Hears(AudioChannel.Left)).Channel);
        Assert.Equal(AudioChannel.Right, Assert.Single(rig.Hears(AudioChannel.Right)).Channel);
    }

    [Theory]
    [InlineData("audio mono speaker on ts 6.35 mm", "audio mono line on ts 6.35 mm")]
    [InlineData("audio mono line on ts 6.35 mm", "audio mono speaker on ts 6.35 mm")]
    public void Loudspeaker_level_and_line_level_never_meet(string output, string input)
    {
        var rig = Bench.Join(output, "Patch 2 m", input);
        Assert.Equal(["level-mismatch"], rig.Names());
        Assert.Equal(RigLang.Findings.Severity.Error, rig.Findings[0].Severity);
    }
}
