using CsCheck;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Trade;

/// <summary>Messages as bytes on a serial line: how long, how fast, and what a receiver makes of them.</summary>
public class MidiWireTests
{
    [Fact]
    public void A_byte_takes_320_microseconds() => Assert.Equal(320e-6, MidiWire.ByteTime.Value, 15);

    [Fact]
    public void A_note_on_takes_0_96_ms()
    {
        var note = MidiMessage.NoteOn(1, 0x3C, 0x40);

        Assert.Equal([0x90, 0x3C, 0x40], MidiWire.Write([note], runningStatus: false));
        Assert.Equal(0.96e-3, MidiWire.TimeOf([note], runningStatus: false).Value, 12);
    }

    [Fact]
    public void Two_notes_with_running_status_take_1_6_ms()
    {
        MidiMessage[] notes = [MidiMessage.NoteOn(1, 0x3C, 0x40), MidiMessage.NoteOn(1, 0x40, 0x40)];

        Assert.Equal([0x90, 0x3C, 0x40, 0x40, 0x40], MidiWire.Write(notes, runningStatus: true));
        Assert.Equal(1.6e-3, MidiWire.TimeOf(notes, runningStatus: true).Value, 12);
        Assert.Equal(1.92e-3, MidiWire.TimeOf(notes, runningStatus: false).Value, 12);
    }

    [Fact]
    public void A_clock_inside_a_note_comes_first_and_leaves_running_status_alone()
    {
        var messages = Read(0x90, 0x3C, 0xF8, 0x40, 0x3E, 0x00);

        Assert.Equal([MidiMessage.Of(MidiStatus.Clock), MidiMessage.NoteOn(1, 60, 64), MidiMessage.NoteOn(1, 62, 0)], messages);
        Assert.Equal([false, true, false], messages.Select(m => m.IsNoteOn));
        Assert.Equal([false, false, true], messages.Select(m => m.IsNoteOff));
    }

    [Theory]
    [InlineData(0x80, 0xBF, 3)]
    [InlineData(0xC0, 0xDF, 2)]
    [InlineData(0xE0, 0xEF, 3)]
    [InlineData(0xF1, 0xF1, 2)]
    [InlineData(0xF2, 0xF2, 3)]
    [InlineData(0xF3, 0xF3, 2)]
    [InlineData(0xF6, 0xF6, 1)]
    [InlineData(0xF8, 0xFF, 1)]
    public void The_status_byte_tells_the_length(int first, int last, int length) =>
        Assert.All(Enumerable.Range(first, last - first + 1), status => Assert.Equal(length, MidiStatus.LengthOf((byte)status)));

    [Theory]
    [InlineData(0x00)]
    [InlineData(0x7F)]
    [InlineData(0xF0)]
    [InlineData(0xF4)]
    [InlineData(0xF5)]
    [InlineData(0xF7)]
    public void Exclusive_undefined_and_data_bytes_tell_no_length(byte status) => Assert.Null(MidiStatus.LengthOf(status));

    [Fact]
    public void A_system_exclusive_message_is_as_long_as_its_content_and_two_bytes_more()
    {
        var message = MidiMessage.SystemExclusive([0x7D, 0x01, 0x02]);

        Assert.Equal([0xF0, 0x7D, 0x01, 0x02, 0xF7], MidiWire.Write([message], runningStatus: true));
        Assert.Equal(5, message.Length);
        Assert.Equal([message], Read(0xF0, 0x7D, 0x01, 0x02, 0xF7));
    }

    [Fact]
    public void Real_time_passes_through_a_system_exclusive_message() => Assert.Equal(
        [MidiMessage.Of(MidiStatus.Clock), MidiMessage.SystemExclusive([0x7D, 0x01])],
        Read(0xF0, 0x7D, 0xF8, 0x01, 0xF7));

    [Fact]
    public void Another_message_ends_a_system_exclusive_message() => Assert.Equal(
        [MidiMessage.SystemExclusive([0x7D]), MidiMessage.Of(MidiStatus.TuneRequest), MidiMessage.NoteOn(2, 1, 2)],
        Read(0xF0, 0x7D, 0xF6, 0x91, 0x01, 0x02));

    [Theory]
    [InlineData(0xF0, 0xF7)]
    [InlineData(0xF3, 0x05)]
    [InlineData(0xF4, 0xF4)]
    [InlineData(0xF6, 0xF6)]
    [InlineData(0xF7, 0xF7)]
    public void System_messages_end_running_status(byte first, byte second) => Assert.DoesNotContain(
        Read(0x90, 0x3C, 0x40, first, second, 0x3E, 0x40),
        message => message == MidiMessage.NoteOn(1, 0x3E, 0x40));

    [Theory]
    [InlineData(0xF9)]
    [InlineData(0xFD)]
    public void Undefined_real_time_is_passed_over_and_changes_nothing(byte undefined) => Assert.Equal(
        [MidiMessage.NoteOn(1, 0x3C, 0x40), MidiMessage.NoteOn(1, 0x3E, 0x40)],
        Read(0x90, undefined, 0x3C, 0x40, undefined, 0x3E, 0x40));

    [Fact]
    public void Data_that_belongs_to_no_message_is_passed_over() => Assert.Equal(
        [MidiMessage.ProgramChange(1, 5)],
        Read(0x01, 0x02, 0xF5, 0x03, 0x90, 0x3C, 0xC0, 0x05));

    [Fact]
    public void A_channel_counts_from_1() => Assert.All(Enumerable.Range(0, 0x80), low =>
    {
        var status = (byte)(0x80 | low);
        Assert.Equal(status < 0xF0 ? (low % 16) + 1 : null, MidiStatus.ChannelOf(status));
    });

    [Theory]
    [InlineData(0)]
    [InlineData(17)]
    public void There_is_no_channel_outside_1_to_16(int channel) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MidiMessage.NoteOn(channel, 60, 64));

    [Theory]
    [InlineData(0x90, 128, 0)]
    [InlineData(0x90, 0, -1)]
    [InlineData(0xC0, 0, 1)]
    [InlineData(0xF8, 1, 0)]
    [InlineData(0xF0, 0, 0)]
    [InlineData(0xF4, 0, 0)]
    [InlineData(0xFD, 0, 0)]
    [InlineData(0x7F, 0, 0)]
    public void A_message_that_cannot_be_is_refused(byte status, int data1, int data2) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => MidiMessage.Of(status, data1, data2));

    [Fact]
    public void What_is_written_is_read_back_with_real_time_anywhere_in_between() => Gen
        .Select(
            Gen.Select(MidiGen.AnyMessage, Gen.Select(Gen.Double.Unit, MidiGen.RealTime).Array[0, 3]).Array[0, 30],
            Gen.Bool)
        .Sample(
            (cases, runningStatus) =>
            {
                var messages = cases.Select(c => c.Item1).ToList();
                List<byte> sent = [];
                List<MidiMessage> expected = [];
                for (var i = 0; i < messages.Count; i++)
                {
                    // The bytes of one message, as they stand after those before it.
                    var before = MidiWire.Write(messages.Take(i), runningStatus).Count();
                    var bytes = MidiWire.Write(messages.Take(i + 1), runningStatus).Skip(before).ToList();
                    var insertions = cases[i].Item2
                        .Select(r => (At: (int)(r.Item1 * bytes.Count), Message: r.Item2))
                        .OrderBy(r => r.At)
                        .ToList();
                    for (var at = 0; at < bytes.Count; at++)
                    {
                        var here = insertions.Where(r => r.At == at).Select(r => r.Message).ToList();
                        sent.AddRange(here.Select(m => m.Status));
                        expected.AddRange(here);
                        sent.Add(bytes[at]);
                    }
                    expected.Add(messages[i]);
                }

                Assert.Equal(expected, MidiWire.Read(sent));
            },
            iter: 3000);

    [Fact]
    public void Any_bytes_can_be_read_and_every_message_found_is_whole() => Gen.Byte.Array[0, 200].Sample(
        bytes =>
        {
            var messages = MidiWire.Read(bytes).ToList();
            Assert.Equal(messages, MidiWire.Read(MidiWire.Write(messages, runningStatus: true)));
        },
        iter: 3000);

    private static List<MidiMessage> Read(params byte[] bytes) => [.. MidiWire.Read(bytes)];
}
