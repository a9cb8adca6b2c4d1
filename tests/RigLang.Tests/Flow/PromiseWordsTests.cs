using RigLang.Checks.Whole;
using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>What a player reads of a promise that fails: what is broken nearest to the target, and the edit that mends it.</summary>
public class PromiseWordsTests
{
    private const string Gear = """
        gear Rook {
          out midi, midi2 : midi on din-5
          track a, b sends midi, midi2
          clock sends midi
        }
        gear Weir {
          in  in         : midi on din-5
          out out1, out2 : midi on din-5
          out out3       : midi on din-5
          route in to out1, out2
          filters any
          maps channels
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
          clock follows internal, midi
        }
        gear Fixed {
          in midi : midi on din-5
          part drums receives midi on channel 10
        }
        device seq : Rook {
          a on channel 2
        }

        """;

    [Theory]
    [InlineData("device thru : Weir", "voice on channel 2", "seq.midi to thru.in", "must notes from seq.a reach bass",
        "notes from seq.a do not reach bass: no cable is in bass.midi.", "Connect seq.midi2 to bass.midi.")]
    [InlineData("device thru : Weir", "voice on channel 3", "seq.midi to bass.midi", "must notes from seq.a reach bass",
        "notes from seq.a do not reach bass: bass.voice listens to channel 3, and notes come on channel 2.", "Set bass.voice to channel 2, or seq.a to channel 3.")]
    [InlineData("device thru : Weir {\n  in passes only notes\n}", "clock midi", "seq.midi to thru.in\nconnect thru.out1 to bass.midi", "must clock from seq reach bass",
        "clock from seq does not reach bass: thru.in drops clock.", "Add `clock` to line 29.")]
    [InlineData("device thru : Weir {\n  out1 drops clock, stop\n}", "clock midi", "seq.midi to thru.in\nconnect thru.out1 to bass.midi", "must clock from seq reach bass",
        "clock from seq does not reach bass: thru.out1 drops clock.", "Take `clock` out of what thru.out1 drops (line 29).")]
    [InlineData("device thru : Weir", "clock internal", "seq.midi to bass.midi", "must clock from seq reach bass",
        "clock from seq does not reach bass: bass keeps its own clock and takes none at bass.midi.", "Set `clock midi` at bass.")]
    [InlineData("device thru : Weir", "voice on channel 2", "seq.midi to thru.in\nconnect thru.out3 to bass.midi", "must notes from seq.a reach bass",
        "notes from seq.a do not reach bass: what comes in at thru.in has no route to thru.out3.", "thru.in goes on to out1 or out2: plug in there.")]
    [InlineData("device thru : Weir {\n  in maps channel 2 to 5\n}", "voice on channel 2", "seq.midi to thru.in\nconnect thru.out1 to bass.midi", "must notes from seq.a reach bass",
        "notes from seq.a do not reach bass: thru.in moves channel 2 to 5.", "Take the map out of line 29, or let the target listen to channel 5.")]
    public void A_must_that_fails_names_the_gap_and_the_edit(string thru, string bass, string cables, string must, string what, string advice)
    {
        var text = Gear + $$"""
            {{thru}}
            device bass : Tern {
              {{bass}}
            }
            connect {{cables}}
            {{must}}
            """;
        var outcome = Rigs.Compile(text).Rig.Outcomes.Single();
        Assert.Equal((what, advice), (Told(outcome), BrokenWords.Mend(outcome.Broken!, outcome.Target.At.Source)!));
    }

    [Fact]
    public void A_filter_on_a_branch_that_leads_elsewhere_is_not_blamed()
    {
        var outcome = Rigs.Compile(Gear + """
            device thru : Weir {
              out1 drops notes
            }
            device bass : Tern
            device lead : Tern
            connect seq.midi  to thru.in
            connect thru.out1 to lead.midi
            must notes from seq.a reach bass
            """).Rig.Outcomes.Single();
        Assert.Equal("notes from seq.a do not reach bass: no cable is in bass.midi.", Told(outcome));
    }

    [Fact]
    public void A_part_with_a_fixed_channel_is_met_by_the_track()
    {
        var rig = Rigs.Compile(Gear + "device kit : Fixed\nconnect seq.midi to kit.midi\nmust notes from seq.a reach kit\n").Rig;
        Assert.Equal("Set seq.a to channel 10.", BrokenWords.Mend(rig.Outcomes.Single().Broken!, rig.Names.Files[0].Source));
        Assert.Equal("Set seq.a to channel 10", Assert.Single(PromiseFixes.Of(rig, rig.Outcomes.Single())).Title);
    }

    /// <summary>Both tracks send to three outputs, the first the same: one's way is not the other's.</summary>
    [Fact]
    public void Tracks_that_share_an_output_are_followed_each_by_itself()
    {
        var outcomes = Rigs.Compile(Gear + """
            gear Three {
              out o1, o2, o3 : midi on din-5
              track a sends o1, o2
              track b sends o1, o3
            }
            device two : Three {
              a on channel 2
              b on channel 2
            }
            device bass : Tern {
              voice on channel 2
            }
            connect two.o2 to bass.midi
            must notes from two.a reach bass
            must notes from two.b reach bass
            """).Rig.Outcomes;
        Assert.Equal([true, false], outcomes.Select(o => o.Holds));
    }

    private static string Told(Outcome outcome) =>
        $"{outcome.Expectation.What} from {outcome.Expectation.From.Text} {(outcome.Expectation.What is "notes" or "controllers" || outcome.Expectation.What.Contains(',', StringComparison.Ordinal) ? "do" : "does")} not reach {outcome.Target.Text}: {outcome.Stopped}.";

    [Theory]
    [InlineData("never clock from seq reach bass", "connect seq.midi to thru.in\nconnect thru.out1 to bass.midi",
        "Filter clock at thru.out1: `out1 drops clock` in thru.")]
    [InlineData("never clock from seq reach bass", "connect seq.midi to bass.midi",
        "Take out the cable in line 32, seq.midi to bass.midi: nothing on the way has a filter for it.")]
    public void A_never_that_fails_names_the_one_change_that_keeps_it(string never, string cables, string advice)
    {
        var finding = Assert.Single(
            Rigs.Compile(Gear + $"device thru : Weir\ndevice bass : Tern {{\n  clock midi\n}}\n{cables}\n{never}\n").Findings, f => f.Check.Name == "never-fails");
        Assert.Equal(advice, finding.Advice);
    }
}
