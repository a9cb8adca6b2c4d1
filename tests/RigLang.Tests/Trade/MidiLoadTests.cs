using CsCheck;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Trade;

/// <summary>How full a MIDI link gets, and how late a clock.</summary>
public class MidiLoadTests
{
    private static readonly Bpm At120 = new(120);

    [Fact]
    public void A_clock_alone_loads_a_link_by_its_own_bytes() => Assert.Equal(0.01536, MidiLoad.LinkLoad(true, At120, []), 9);

    [Fact]
    public void A_link_with_nothing_on_it_is_idle() => Assert.Equal(0, MidiLoad.LinkLoad(false, At120, []));

    // Eight sixteenths a second, each with eight note-offs and eight note-ons of three bytes: 384 of 3,125 bytes.
    [Fact]
    public void Eight_notes_at_once_at_120_take_12_3_percent() => Assert.Equal(0.12288, MidiLoad.LinkLoad(false, At120, [8]), 9);

    [Fact]
    public void Eight_such_tracks_and_a_clock_leave_nothing_to_spare() =>
        Assert.Equal((8 * 0.12288) + 0.01536, MidiLoad.LinkLoad(true, At120, Enumerable.Repeat(8, 8)), 9);

    [Fact]
    public void Sixteen_tracks_that_say_nothing_stay_below_half() =>
        Assert.InRange(MidiLoad.LinkLoad(true, At120, Enumerable.Repeat(MidiLoad.DefaultNotesAtOnce, 16)), 0.2, 0.5);

    [Fact]
    public void The_load_is_what_the_notes_of_a_sixteenth_take_on_the_wire() => Gen
        .Select(Gen.Int[0, 12].Array[0, 16], Gen.Double[20, 300], Gen.Bool, Gen.Bool)
        .Sample(
            (tracks, tempo, clock, runningStatus) =>
            {
                var step = MidiWire.TimeOf(tracks.SelectMany((notes, track) => Step(track + 1, notes)), runningStatus).Value;
                var clocks = clock ? 6 * MidiWire.ByteTime.Value : 0;
                var sixteenth = 60 / tempo / 4;

                Assert.Equal((step + clocks) / sixteenth, MidiLoad.LinkLoad(clock, new Bpm(tempo), tracks, runningStatus), 9);
            },
            iter: 1000);

    [Fact]
    public void Running_status_never_makes_a_link_fuller() => Gen.Int[0, 20].Array[0, 16].Sample(
        tracks => Assert.True(MidiLoad.LinkLoad(true, At120, tracks, runningStatus: true) <= MidiLoad.LinkLoad(true, At120, tracks)),
        iter: 500);

    [Fact]
    public void Figures_that_make_no_sense_give_a_load_all_the_same()
    {
        Assert.Equal(0, MidiLoad.LinkLoad(true, new Bpm(0), [8]));
        Assert.Equal(0, MidiLoad.LinkLoad(false, At120, [-3]));
        Assert.True(MidiLoad.LinkLoad(false, At120, [int.MaxValue, int.MaxValue]) > 1);
    }

    [Fact]
    public void The_last_of_ten_notes_started_and_ended_at_once_is_19_2_ms_late() => Assert.Equal(0.0192, MidiLoad.StepTime([10]).Value, 12);

    [Theory]
    [InlineData(true, 0.32e-3, 0.01536)]
    [InlineData(false, 0.96e-3, 0.04608)]
    public void A_clock_waits_at_a_merge_for_a_byte_or_for_a_message(bool interleaves, double delay, double ofInterval)
    {
        var waits = MidiLoad.ClockDelayAtMerge(interleaves);

        Assert.Equal(delay, waits.Value, 12);
        Assert.Equal(ofInterval, MidiClock.ShareOfInterval(waits, At120), 9);
    }

    [Fact]
    public void A_clock_waits_for_all_of_a_system_exclusive_message_unless_the_merge_interleaves()
    {
        var dump = MidiMessage.SystemExclusive(new byte[254]);

        Assert.Equal(256 * 320e-6, MidiLoad.ClockDelayAtMerge(interleaves: false, dump.Length).Value, 12);
        Assert.Equal(320e-6, MidiLoad.ClockDelayAtMerge(interleaves: true, dump.Length).Value, 12);
    }

    [Fact]
    public void A_message_without_a_byte_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MidiLoad.ClockDelayAtMerge(interleaves: false, longestMessage: 0));

    /// <summary>The notes that end and then those that begin, ended by velocity 0 so that one status byte can serve for all.</summary>
    private static IEnumerable<MidiMessage> Step(int channel, int notes) =>
    [
        .. Enumerable.Range(40, notes).Select(key => MidiMessage.NoteOn(channel, key, 0)),
        .. Enumerable.Range(60, notes).Select(key => MidiMessage.NoteOn(channel, key, 100)),
    ];
}
