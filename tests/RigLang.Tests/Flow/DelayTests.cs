using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>
/// How late messages can be. Lengths and times after MIDI 1.0: a byte is 320 us, a note 960 us; the sums are worked out beside each test.
/// </summary>
public class DelayTests
{
    private const string Joined = """
        gear Keys {
          out midi : midi on din-5
          track a sends midi
        }
        gear Leader {
          out midi : midi on din-5
          track b sends midi
          clock sends midi
        }
        gear Join {
          in  in1, in2 : midi on din-5
          out out      : midi on din-5
          route in1, in2 to out
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
          clock follows midi
        }
        device keys   : Keys {
          a on channel 2
        }
        device leader : Leader {
          b on channel 3
          b up to 4 notes at once
        }
        device merge  : Join
        device bass   : Tern {
          voice on channel 2
          clock midi
        }
        device lead   : Tern {
          voice on channel 3
          clock midi
        }
        connect keys.midi   to merge.in1
        connect leader.midi to merge.in2
        connect merge.out   to bass.midi
        connect bass.thru   to lead.midi

        """;

    private static string Outcome(string line) =>
        Rigs.Compile(Joined + line).Rig.Outcomes.Single() is var outcome && outcome.Holds ? "holds" : outcome.Stopped;

    [Theory]
    // 320 us on the line, 960 us behind a note that is under way at the merge, 320 us again; thru adds nothing.
    [InlineData("must clock from leader reach bass within 1.6 ms", "holds")]
    [InlineData("must clock from leader reach lead within 1.6 ms", "holds")]
    [InlineData("must clock from leader reach bass within 1.5 ms", "it can take 1.6 ms, of which 0.96 ms at merge.out")]
    // 960 us on the line, behind four notes of b (note-on and note-off, 8 x 960 us), 960 us again.
    [InlineData("must notes from keys.a reach bass within 9.6 ms", "holds")]
    [InlineData("must notes from keys.a reach bass within 9 ms", "it can take 9.6 ms, of which 7.68 ms at merge.out")]
    // The last of four notes, 4 x 960 us, behind one note of a, 960 us again.
    [InlineData("must notes from leader.b reach lead within 6.72 ms", "holds")]
    [InlineData("must notes from leader.b reach lead within 6.7 ms", "it can take 6.72 ms, of which 1.92 ms at merge.out")]
    public void Within_counts_the_line_and_the_waits(string line, string outcome) => Assert.Equal(outcome, Outcome(line));

    [Theory]
    [InlineData("never clock from keys reach bass within 5 ms")]
    [InlineData("must audio from keys reach bass within 5 ms")]
    public void Only_messages_that_must_arrive_have_a_limit(string line) =>
        Assert.Contains(Rigs.Compile(Joined + line).Findings, f => f.Check.Name == "missing-ability" && f.What.Contains("a time limit", StringComparison.Ordinal));

    [Fact]
    public void A_limit_in_metres_is_refused() =>
        Assert.Contains(Rigs.Compile(Joined + "must clock from leader reach bass within 5 m").Findings, f => f.Check.Name == "wrong-dimension");

    [Fact]
    public void A_trace_tells_where_messages_can_wait()
    {
        var (trace, _) = Tracer.Answer(Rigs.Compile(Joined).Rig, "clock from leader");
        Assert.Equal(["merge.out 0.96 ms"], trace!.Ways.Single().Steps.Where(s => s.Wait.Value > 0).Select(s => $"{s.Port} {s.Wait}"));
    }

    [Fact]
    public void A_clock_whose_follower_is_not_set_is_not_proved() =>
        Assert.Equal("nobody says what bass takes its clock from",
            Rigs.Compile(Joined.Replace("voice on channel 2\n  clock midi", "voice on channel 2", StringComparison.Ordinal) + "must clock from leader reach bass").Rig.Outcomes.Single().Stopped);

    [Theory]
    [InlineData("must notes from keys.a reach bass within 9.6 ms", "holds")]
    [InlineData("must notes from keys.a reach bass within 9.5 ms", "it can take 9.6 ms")]
    public void Ten_notes_at_once_on_one_cable_take_ten_times_as_long(string line, string outcome)
    {
        var chord = Joined.Replace("a on channel 2", "a on channel 2\n  a up to 10 notes at once", StringComparison.Ordinal)
            .Replace("connect keys.midi   to merge.in1", "connect keys.midi to bass.midi", StringComparison.Ordinal)
            .Replace("connect merge.out   to bass.midi", "", StringComparison.Ordinal);
        Assert.Equal(outcome, Rigs.Compile(chord + line).Rig.Outcomes.Single() is var found && found.Holds ? "holds" : found.Stopped);
    }

    [Theory]
    [InlineData("must notes from leader.b reach lead within 9.72 ms", "holds")]
    [InlineData("must notes from leader.b reach lead within 9 ms", "it can take 9.72 ms, of which 3 ms at merge.out and 1.92 ms at merge.out")]
    public void The_latency_of_a_route_counts(string line, string outcome) =>
        Assert.Equal(outcome, Rigs.Compile(Joined.Replace("route in1, in2 to out", "route in1, in2 to out latency 3 ms", StringComparison.Ordinal) + line)
            .Rig.Outcomes.Single() is var found && found.Holds ? "holds" : found.Stopped);

    [Fact]
    public void A_port_stands_for_what_leaves_there() =>
        Assert.Equal("holds", Outcome("must notes from merge.out reach bass"));
}
