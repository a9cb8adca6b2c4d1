using RigLang.Checks.Midi;
using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>A track that plays parts of its own box, without any cable.</summary>
public class LocalControl
{
    private const string Keyboard = """
        gear Piano {
          in  midi  : midi on din-5
          out out   : midi on din-5
          track keys sends out, plays grand
          track pads sends out
          part grand, bells receives midi on channel any
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
          filters any
          maps channels
        }
        device piano : Piano {
          keys  on channel 1
          pads  on channel 3
          grand on channel 1
          bells on channel 2
        }
        device bass : Tern {
          voice on channel 1
        }
        connect piano.out to bass.midi

        """;

    private const string WithReturn = Keyboard + "connect bass.thru to piano.midi\n";

    private static string Setting(string rig, string device, string line) =>
        rig.Replace($"device {device} : {(device == "bass" ? "Tern" : "Piano")} {{", $"device {device} : {(device == "bass" ? "Tern" : "Piano")} {{\n  {line}", StringComparison.Ordinal);

    private static IEnumerable<string> HeardFrom(string rig, string track) =>
        Tracer.Answer(Rigs.Compile(rig).Rig, $"notes from {track}").Trace!.Heard.Select(h => h.Who).Order(StringComparer.Ordinal);

    private static ChannelUse InChart(string rig, string name) => ChannelChart.Of(Rigs.Compile(rig).Rig).Uses.Single(u => u.Text == name);

    private static IEnumerable<string> Returns(string rig) =>
        Rigs.Compile(rig).Findings.Where(f => f.Check is LocalAndReturn).Select(f => f.What);

    [Fact]
    public void A_trace_of_its_notes_names_the_part_inside_beside_those_over_cables() =>
        Assert.Equal(["bass.voice", "piano.grand"], HeardFrom(Keyboard, "piano.keys"));

    [Fact]
    public void With_local_off_a_trace_names_only_those_over_cables() =>
        Assert.Equal(["bass.voice"], HeardFrom(Setting(Keyboard, "piano", "keys local off"), "piano.keys"));

    [Fact]
    public void A_track_without_local_control_plays_nothing_inside() => Assert.Empty(HeardFrom(Keyboard, "piano.pads"));

    [Fact]
    public void The_chart_pairs_it_with_the_part_inside()
    {
        Assert.Equal(["bass.voice", "piano.grand"], InChart(Keyboard, "piano.keys").Partners);
        Assert.Equal(["piano.keys"], InChart(Keyboard, "piano.grand").Partners);
    }

    [Fact]
    public void With_local_off_the_chart_pairs_them_no_more()
    {
        Assert.Equal(["bass.voice"], InChart(Setting(Keyboard, "piano", "keys local off"), "piano.keys").Partners);
        Assert.Empty(InChart(Setting(Keyboard, "piano", "keys local off"), "piano.grand").Partners);
    }

    [Fact]
    public void A_part_inside_is_no_conflict_with_one_on_the_same_channel_over_a_cable() =>
        Assert.Empty(ChannelChart.Of(Rigs.Compile(Keyboard).Rig).Conflicts);

    [Fact]
    public void Notes_that_come_back_to_the_part_inside_are_told_with_their_way() =>
        Assert.Equal(
            ["piano.keys plays piano.grand inside, and its notes come back to it on channel 1: piano.out → bass.midi → bass.thru → piano.midi."],
            Returns(WithReturn));

    [Theory]
    [InlineData("piano", "keys local off")]
    [InlineData("bass", "thru drops notes")]
    [InlineData("bass", "thru maps channel 1 to 5")]
    [InlineData("bass", "thru thru off")]
    public void They_are_not_told_where_a_setting_keeps_them_from_sounding_twice(string device, string setting) =>
        Assert.Empty(Returns(Setting(WithReturn, device, setting)));

    [Fact]
    public void They_are_not_told_when_the_part_listens_on_another_channel() =>
        Assert.Empty(Returns(WithReturn.Replace("grand on channel 1", "grand on channel 4", StringComparison.Ordinal)));

    [Fact]
    public void They_are_told_when_a_map_brings_them_to_the_channel_of_the_part() =>
        Assert.Single(Returns(Setting(WithReturn, "bass", "thru maps channel 1 to 4").Replace("grand on channel 1", "grand on channel 4", StringComparison.Ordinal)));

    [Fact]
    public void A_return_that_goes_round_and_round_is_told_as_a_loop_only() =>
        Assert.Equal(["feedback-loop"], Rigs.Compile(WithReturn.Replace("  track keys", "  route midi to out\n  track keys", StringComparison.Ordinal)).Names()
            .Where(name => name is "feedback-loop" or "local-and-return"));

    [Fact]
    public void The_fix_switches_local_control_off()
    {
        var finding = Rigs.Compile(WithReturn).Findings.Single(f => f.Check is LocalAndReturn);
        var edit = finding.Fixes.Single().Edits.Single();
        var mended = WithReturn.Remove(edit.Span.Start, edit.Span.Length).Insert(edit.Span.Start, edit.NewText);
        Assert.Contains("  keys local off\n  keys  on channel 1\n", mended, StringComparison.Ordinal);
        Assert.Empty(Returns(mended));
    }

    [Theory]
    [InlineData("piano.grand", true)]
    [InlineData("piano", true)]
    [InlineData("piano.bells", false)]
    public void Must_takes_what_is_played_inside_as_heard(string to, bool holds) =>
        Assert.Equal(holds, Rigs.Compile(Keyboard + $"must notes from piano.keys reach {to}").Rig.Outcomes.Single().Holds);

    [Fact]
    public void With_local_off_nothing_is_played_inside() =>
        Assert.False(Rigs.Compile(Setting(Keyboard, "piano", "keys local off") + "must notes from piano.keys reach piano.grand").Rig.Outcomes.Single().Holds);

    [Fact]
    public void Why_not_says_that_it_is_played_inside() =>
        Assert.Equal("It does arrive: piano.keys plays piano.grand inside its own device.",
            Tracer.Answer(Rigs.Compile(Keyboard).Rig, "why not notes from piano.keys to piano.grand").Trace!.Summary);

    [Fact]
    public void A_track_that_plays_inside_is_heard_though_nobody_else_hears_it() =>
        Assert.DoesNotContain(
            Rigs.Compile(Keyboard.Replace("voice on channel 1", "voice on channel 5", StringComparison.Ordinal)).Findings,
            f => f.What.Contains("piano.keys", StringComparison.Ordinal));
}
