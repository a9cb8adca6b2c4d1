using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Trade;

/// <summary>Tempo on its way from one device to the next.</summary>
public class MidiClockTests
{
    [Theory]
    [InlineData(120, 0.0208333, 0.01536)]
    [InlineData(60, 0.0416667, 0.00768)]
    public void Clock_comes_24_times_a_quarter_note(double tempo, double interval, double load)
    {
        Assert.Equal(interval, MidiClock.Interval(new Bpm(tempo)).Value, 7);
        Assert.Equal(load, MidiClock.Load(new Bpm(tempo)), 9);
    }

    [Fact]
    public void Two_pulses_a_quarter_note_at_120_are_250_ms_and_12_clocks_apart()
    {
        Assert.Equal(0.25, MidiClock.PulseInterval(new Bpm(120), new Ppqn(2)).Value, 12);
        Assert.Equal(12, MidiClock.ClocksPerPulse(new Ppqn(2)));
    }

    [Theory]
    [InlineData(2, 4, 60)]
    [InlineData(24, 2, 1440)]
    [InlineData(24, 24, 120)]
    public void A_follower_that_expects_another_rate_plays_at_another_tempo(double sent, double expected, double tempo) =>
        Assert.Equal(tempo, MidiClock.FollowerTempo(new Bpm(120), new Ppqn(sent), new Ppqn(expected)).Value, 9);

    [Fact]
    public void A_tempo_or_rate_of_nothing_never_pulses()
    {
        Assert.Equal(double.PositiveInfinity, MidiClock.Interval(new Bpm(0)).Value);
        Assert.Equal(double.PositiveInfinity, MidiClock.Interval(new Bpm(-5)).Value);
        Assert.Equal(double.PositiveInfinity, MidiClock.PulseInterval(new Bpm(120), new Ppqn(0)).Value);
        Assert.Equal(double.PositiveInfinity, MidiClock.ClocksPerPulse(new Ppqn(0)));
        Assert.Equal(double.PositiveInfinity, MidiClock.FollowerTempo(new Bpm(120), new Ppqn(24), new Ppqn(0)).Value);
        Assert.Equal(0, MidiClock.Load(new Bpm(0)));
    }

    [Fact]
    public void Bar_9_in_four_four_is_128_sixteenths_and_768_clocks_in()
    {
        var position = MidiSongPosition.At(bar: 9, beat: 1);

        Assert.Equal(128, position.Sixteenths);
        Assert.Equal(768, position.Clocks);
        Assert.Equal([0xF2, 0x00, 0x01], MidiWire.Write([position.ToMessage()], runningStatus: false));
    }

    [Fact]
    public void A_pointer_of_8_sixteenths_is_48_clocks_in()
    {
        var position = MidiSongPosition.Of(Assert.Single(MidiWire.Read([0xF2, 0x08, 0x00])));

        Assert.Equal(8, position.Sixteenths);
        Assert.Equal(48, position.Clocks);
    }

    [Theory]
    [InlineData(1, 1, 4, 4, 0)]
    [InlineData(1, 4, 4, 4, 12)]
    [InlineData(2, 3, 3, 4, 20)]
    [InlineData(3, 2, 6, 8, 26)]
    public void A_place_in_any_metre(int bar, int beat, int beatsPerBar, int beatUnit, int sixteenths) =>
        Assert.Equal(sixteenths, MidiSongPosition.At(bar, beat, beatsPerBar, beatUnit).Sixteenths);

    [Theory]
    [InlineData(0, 1, 4, 4)]
    [InlineData(1, 5, 4, 4)]
    [InlineData(1, 1, 4, 3)]
    [InlineData(1025, 1, 4, 4)]
    [InlineData(int.MaxValue, 1, int.MaxValue, 1)]
    public void A_place_that_a_pointer_cannot_tell_is_refused(int bar, int beat, int beatsPerBar, int beatUnit) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MidiSongPosition.At(bar, beat, beatsPerBar, beatUnit));

    [Fact]
    public void Every_place_comes_back_from_its_pointer() => Assert.All(
        Enumerable.Range(0, MidiSongPosition.Last + 1),
        sixteenths => Assert.Equal(sixteenths, MidiSongPosition.Of(new MidiSongPosition(sixteenths).ToMessage()).Sixteenths));

    [Fact]
    public void A_tempo_of_128_is_468750_microseconds_a_quarter_note()
    {
        Assert.Equal(468_750, MidiClock.MicrosecondsPerQuarter(new Bpm(128)));
        Assert.Equal([0x07, 0x27, 0x0E], MidiClock.TempoEventData(new Bpm(128)));
        Assert.Equal(128, MidiClock.TempoOf(468_750).Value, 9);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-120)]
    [InlineData(3.5)]
    [InlineData(1e9)]
    public void A_tempo_that_a_file_cannot_hold_has_no_figure(double tempo)
    {
        Assert.Null(MidiClock.MicrosecondsPerQuarter(new Bpm(tempo)));
        Assert.Null(MidiClock.TempoEventData(new Bpm(tempo)));
    }

    [Theory]
    [InlineData(0x00, new byte[] { 0x00 })]
    [InlineData(0x40, new byte[] { 0x40 })]
    [InlineData(0x7F, new byte[] { 0x7F })]
    [InlineData(0x80, new byte[] { 0x81, 0x00 })]
    [InlineData(0x2000, new byte[] { 0xC0, 0x00 })]
    [InlineData(0x3FFF, new byte[] { 0xFF, 0x7F })]
    public void Numbers_of_variable_length(int number, byte[] bytes)
    {
        Assert.Equal(bytes, MidiVariableLength.Write(number));
        Assert.Equal((number, bytes.Length), MidiVariableLength.Read([.. bytes, 0x55]));
    }

    [Theory]
    [InlineData(new byte[] { })]
    [InlineData(new byte[] { 0x81 })]
    [InlineData(new byte[] { 0x81, 0x80, 0x80, 0x80, 0x00 })]
    public void A_number_that_does_not_end_within_four_bytes_is_none(byte[] bytes) => Assert.Null(MidiVariableLength.Read(bytes));

    [Theory]
    [InlineData(-1)]
    [InlineData(MidiVariableLength.Greatest + 1)]
    public void A_number_of_more_than_28_bits_is_refused(int number) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MidiVariableLength.Write(number));
}
