using RigLang.Flow;
using RigLang.Tests.Support;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>Questions about messages, answered from the rig: who hears, what is in the way, what is not understood.</summary>
public class TraceTests
{
    private const string Small = """
        gear Rook {
          out midi : midi on din-5
          track a, b sends midi
          clock sends midi
        }
        gear Box {
          in  in   : midi on din-5
          out out1 : midi on din-5
          out out2 : midi on din-5
          route in to out1, out2
          filters any
          maps channels
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
          clock follows internal, midi
        }
        device seq : Rook {
          a on channel 1
          b on channel 9
        }
        device box : Box {
          out1 drops clock
          out2 maps channel 1 to 5
        }
        device bass : Tern {
          voice on channel 1
          clock midi
        }
        device pad : Tern {
          voice on channel 5
          clock midi
        }
        connect seq.midi to box.in
        connect box.out1 to bass.midi
        connect box.out2 to pad.midi
        """;

    private static Trace Ask(string question)
    {
        var (trace, mistake) = Tracer.Answer(Rigs.Compile(Small).Rig, question);
        Assert.Null(mistake);
        return trace!;
    }

    private static TraceMistake Refused(string question)
    {
        var (trace, mistake) = Tracer.Answer(Rigs.Compile(Small).Rig, question);
        Assert.Null(trace);
        return mistake!;
    }

    private static int LineOf(string words) => Small[..Small.IndexOf(words, StringComparison.Ordinal)].Count(c => c == '\n');

    private static int LineOf(Text.Location at) => at.Source.PositionOf(at.Span.Start).Line;

    [Fact]
    public void A_tree_has_each_step_after_the_one_it_comes_from() =>
        Assert.Equal(
            ["0 seq.midi", "1 box.in", "2 box.out1", "3 bass.midi", "2 box.out2", "3 pad.midi"],
            Ask("notes from seq.a").Ways.Single().Steps.Select(s => $"{s.Depth} {s.Port}"));

    [Fact]
    public void Notes_are_heard_by_parts_on_their_channel_even_where_a_map_moved_them() =>
        Assert.Equal(
            [new("bass.voice", HearingWay.Plays, 1, true), new("pad.voice", HearingWay.Plays, 5, true)],
            Ask("notes from seq.a").Heard);

    [Fact]
    public void A_move_names_its_line()
    {
        var move = Ask("notes from seq.a").Ways[0].Steps.Single(s => s.Move is not null).Move!;
        Assert.Equal((1, 5, LineOf("out2 maps")), (move.From, move.To, LineOf(move.At)));
    }

    [Fact]
    public void A_device_without_a_track_named_is_asked_for_all_its_tracks() =>
        Assert.Equal(["seq.a", "seq.b"], Ask("notes from seq").Ways.Select(w => w.Source));

    [Fact]
    public void Kinds_that_go_the_same_way_share_a_tree() =>
        Assert.Equal(["Start, Stop, Continue".Replace("Start, Stop, Continue", "Transport", StringComparison.Ordinal), "Clock"],
            Ask("transport, clock from seq").Ways.Select(w => w.Kinds.ToString()).OrderDescending());

    [Fact]
    public void A_filter_in_the_way_is_named_with_its_line()
    {
        var verdict = Ask("why not clock from seq to bass").Verdict!;
        Assert.False(verdict.Arrives);
        Assert.Equal(("box.out1", LineOf("out1 drops")), (verdict.StoppedBy!.Port.ToString(), LineOf(verdict.StoppedBy.At)));
    }

    [Fact]
    public void What_does_arrive_is_shown_with_its_way()
    {
        var verdict = Ask("why not clock from seq to pad").Verdict!;
        Assert.True(verdict.Arrives);
        Assert.Equal(["seq.midi", "box.in", "box.out2", "pad.midi"], verdict.Steps.Select(s => s.Port.ToString()));
    }

    [Fact]
    public void At_the_door_on_the_wrong_channel_both_channels_are_told() =>
        Assert.Equal("bass.voice listens to channel 1, and notes come on channel 9", Ask("why not notes from seq.b to bass.voice").Verdict!.Reason);

    [Fact]
    public void What_sends_nothing_is_said_so() =>
        Assert.Equal("nothing in bass sends notes", Ask("why not notes from bass to pad").Verdict!.Reason);

    [Fact]
    public void What_reaches_a_device_tells_senders_and_channels_port_by_port() =>
        Assert.Equal(
            ["seq.a 5 pad.voice", "seq.b 9 ", "seq 0 pad"],
            Ask("what reaches pad").Ports.Single().Arrivals.Select(a => $"{a.Source} {a.Channel} {string.Join(' ', a.Heard.Select(h => h.Who).Distinct())}"));

    [Theory]
    [InlineData("nots from seq", "notes")]
    [InlineData("notes from sek", "seq")]
    [InlineData("what reaches bass.voise", "bass.voice")]
    [InlineData("notes from bass.voice", null)]
    [InlineData("notes from seq to bass", null)]
    [InlineData("what reaches", null)]
    [InlineData("why not clock from seq", null)]
    [InlineData("notes from", null)]
    [InlineData("from seq", null)]
    [InlineData("", null)]
    public void What_is_not_understood_is_refused_with_the_nearest_name(string question, string? nearest) =>
        Assert.Equal(nearest, Refused(question).Nearest);

    /// <summary>`must` and `why not` judge by the same flow: they agree.</summary>
    [Fact]
    public void Why_not_agrees_with_must_and_never()
    {
        var rig = Rigs.Compile(Small + "\nmust notes from seq.a reach bass, pad\nmust clock from seq reach bass, pad\nmust notes from seq.b reach bass, pad").Rig;
        Assert.Equal(6, rig.Outcomes.Count);
        foreach (var outcome in rig.Outcomes)
        {
            var (trace, _) = Tracer.Answer(rig, $"why not {outcome.Expectation.What} from {outcome.Expectation.From.Text} to {outcome.Target.Text}");
            Assert.Equal(outcome.Holds, trace!.Verdict!.Arrives);
        }
    }
}
