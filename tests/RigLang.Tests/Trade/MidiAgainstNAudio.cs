using CsCheck;
using NAudio.Midi;
using RigLang.Trade;
using Xunit;
using MidiMessage = RigLang.Trade.MidiMessage;

namespace RigLang.Tests.Trade;

/// <summary>Status bytes, messages and kinds against NAudio.Midi, which packs a short message into an int, the status byte lowest.</summary>
public class MidiAgainstNAudio
{
    /// <summary>What each of the library's commands is in the kinds of the language. Its meta event is of files, not of the wire.</summary>
    private static readonly Dictionary<MidiCommandCode, MessageKinds> Kinds = new()
    {
        [MidiCommandCode.NoteOff] = MessageKinds.Notes | MessageKinds.Velocity,
        [MidiCommandCode.NoteOn] = MessageKinds.Notes | MessageKinds.Velocity,
        [MidiCommandCode.KeyAfterTouch] = MessageKinds.Aftertouch,
        [MidiCommandCode.ControlChange] = MessageKinds.Controllers,
        [MidiCommandCode.PatchChange] = MessageKinds.ProgramChange,
        [MidiCommandCode.ChannelAfterTouch] = MessageKinds.Aftertouch,
        [MidiCommandCode.PitchWheelChange] = MessageKinds.PitchBend,
        [MidiCommandCode.Sysex] = MessageKinds.SystemExclusive,
        [MidiCommandCode.Eox] = MessageKinds.SystemExclusive,
        [MidiCommandCode.TimingClock] = MessageKinds.Clock,
        [MidiCommandCode.StartSequence] = MessageKinds.Start,
        [MidiCommandCode.ContinueSequence] = MessageKinds.Continue,
        [MidiCommandCode.StopSequence] = MessageKinds.Stop,
        [MidiCommandCode.AutoSensing] = MessageKinds.ActiveSensing,
        [MidiCommandCode.MetaEvent] = MessageKinds.None,
    };

    /// <summary>The commands that it reads as short messages.</summary>
    private static readonly MidiCommandCode[] RealTime =
    [
        MidiCommandCode.TimingClock, MidiCommandCode.StartSequence, MidiCommandCode.ContinueSequence, MidiCommandCode.StopSequence,
        MidiCommandCode.AutoSensing,
    ];

    [Fact]
    public void Every_command_of_the_library_is_in_the_table() => Assert.Equal(Enum.GetValues<MidiCommandCode>().Order(), Kinds.Keys.Order());

    [Fact]
    public void Every_command_is_of_the_kind_that_its_name_says_on_every_channel()
    {
        foreach (var (command, kinds) in Kinds)
        {
            foreach (var channel in Enumerable.Range(1, command < MidiCommandCode.Sysex ? 16 : 1))
            {
                var status = (byte)new MidiEvent(0, channel, command).GetAsShortMessage();
                Assert.True(kinds == MessageKinds.Of(status), $"{command}: {MessageKinds.Of(status)}");
            }
        }
    }

    [Fact]
    public void Song_position_is_the_only_kind_that_the_library_has_no_command_for()
    {
        var ours = Enumerable.Range(0, 256).Where(status => MessageKinds.Of((byte)status) != MessageKinds.None);
        var theirs = Kinds.Keys.Where(c => Kinds[c] != MessageKinds.None)
            .SelectMany(c => Enumerable.Range((int)c, c < MidiCommandCode.Sysex ? 16 : 1));

        Assert.Equal([MidiStatus.SongPosition], ours.Except(theirs).Select(status => (byte)status));
        Assert.Empty(theirs.Except(ours));
    }

    [Fact]
    public void Every_status_byte_names_the_same_channel() => Assert.All(ReadableStatuses(), status =>
    {
        var theirs = MidiEvent.FromRawMessage(status);
        Assert.Equal(status < 0xF0 ? theirs.Channel : null, MidiStatus.ChannelOf(status));
        Assert.Equal((byte)theirs.CommandCode, status < 0xF0 ? status & 0xF0 : status);
    });

    [Fact]
    public void Every_status_byte_makes_a_message_of_the_same_length() => Assert.All(ReadableStatuses(), status =>
    {
        const int timeBefore = 1;
        Assert.Equal(Exported(MidiEvent.FromRawMessage(status)).Length - timeBefore, MidiStatus.LengthOf(status));
    });

    [Fact]
    public void A_status_byte_without_meaning_has_none_for_the_library_either() => Assert.All(
        Enumerable.Range(0x80, 0x80).Select(status => (byte)status).Where(MidiStatus.IsUndefined),
        status => Assert.Throws<FormatException>(() => MidiEvent.FromRawMessage(status)));

    [Fact]
    public void Notes_are_the_same_bytes() => Gen.Select(MidiGen.Channel, MidiGen.Data, Gen.Int[1, 127]).Sample((channel, key, velocity) =>
    {
        Same(MidiMessage.NoteOn(channel, key, velocity), new NoteOnEvent(0, channel, key, velocity, 0));
        Same(MidiMessage.NoteOff(channel, key, velocity), new NoteEvent(0, channel, MidiCommandCode.NoteOff, key, velocity));
        Same(MidiMessage.KeyPressure(channel, key, velocity), new NoteEvent(0, channel, MidiCommandCode.KeyAfterTouch, key, velocity));
    });

    [Fact]
    public void Controllers_programs_pressure_and_pitch_bend_are_the_same_bytes() => Gen
        .Select(MidiGen.Channel, MidiGen.Data, MidiGen.Data, Gen.Int[0, 16_383])
        .Sample((channel, number, value, bend) =>
        {
            Same(MidiMessage.ControlChange(channel, number, value), new ControlChangeEvent(0, channel, (MidiController)number, value));
            Same(MidiMessage.ProgramChange(channel, number), new PatchChangeEvent(0, channel, number));
            Same(MidiMessage.ChannelPressure(channel, value), new ChannelAfterTouchEvent(0, channel, value));
            Same(MidiMessage.PitchBend(channel, bend), new PitchWheelChangeEvent(0, channel, bend));
        });

    [Fact]
    public void Real_time_is_the_same_byte() =>
        Assert.All(RealTime, command => Same(MidiMessage.Of((byte)command), new MidiEvent(0, 1, command)));

    [Fact]
    public void A_message_begins_or_ends_a_note_when_the_library_says_so() => MidiGen.ChannelMessage.Sample(message =>
    {
        var theirs = MidiEvent.FromRawMessage(Short(message));
        Assert.Equal(MidiEvent.IsNoteOn(theirs), message.IsNoteOn);
        Assert.Equal(MidiEvent.IsNoteOff(theirs), message.IsNoteOff);
    });

    [Fact]
    public void What_the_library_exports_is_read_as_the_same_messages() => MidiGen.ChannelMessage.Array[0, 30].Sample(messages =>
    {
        var bytes = messages.SelectMany(m => Exported(MidiEvent.FromRawMessage(Short(m))).Skip(1));
        Assert.Equal(messages, MidiWire.Read(bytes));
    });

    [Fact]
    public void The_library_reads_our_running_status() => MidiGen.ChannelMessage.Array[1, 30].Sample(messages =>
    {
        // In a file a time of 0 stands before every message.
        var file = new MemoryStream();
        for (var i = 0; i < messages.Length; i++)
        {
            file.WriteByte(0);
            file.Write([.. MidiWire.Write(messages.Take(i + 1), true).Skip(MidiWire.Write(messages.Take(i), true).Count())]);
        }
        file.Position = 0;
        var reader = new BinaryReader(file);
        MidiEvent? previous = null;

        foreach (var message in messages)
        {
            previous = MidiEvent.ReadNextEvent(reader, previous);
            Assert.Equal(Short(message), previous.GetAsShortMessage());
        }
        Assert.Equal(file.Length, file.Position);
    });

    [Fact]
    public void Numbers_of_variable_length_are_the_same_bytes() => Gen.Int[0, 28]
        .SelectMany(bits => Gen.Int[0, (int)((1L << bits) - 1)])
        .Sample(number =>
        {
            var theirs = new MemoryStream();
            MidiEvent.WriteVarInt(new BinaryWriter(theirs), number);

            Assert.Equal(theirs.ToArray(), MidiVariableLength.Write(number));
            Assert.Equal(number, MidiEvent.ReadVarInt(new BinaryReader(new MemoryStream(MidiVariableLength.Write(number)))));
            Assert.Equal((number, (int)theirs.Length), MidiVariableLength.Read(theirs.ToArray()));
        });

    [Fact]
    public void A_tempo_event_holds_the_same_tempo_and_bytes() => Gen.Int[1, 0xFF_FFFF].Sample(microseconds =>
    {
        var theirs = new TempoEvent(microseconds, 0);
        var ours = MidiClock.TempoOf(microseconds);

        Assert.Equal(theirs.Tempo, ours.Value, theirs.Tempo * 1e-12);
        Assert.Equal(microseconds, MidiClock.MicrosecondsPerQuarter(ours));
        Assert.Equal(Exported(theirs)[^3..], MidiClock.TempoEventData(ours));
    });

    private static void Same(MidiMessage ours, MidiEvent theirs)
    {
        Assert.Equal(theirs.GetAsShortMessage(), Short(ours));
        Assert.Equal(theirs.GetAsShortMessage(), MidiEvent.FromRawMessage(Short(ours)).GetAsShortMessage());
        Assert.Equal([ours], MidiWire.Read(Exported(theirs).Skip(1)));
    }

    /// <summary>Our bytes on the wire, packed as the library packs them.</summary>
    private static int Short(MidiMessage message) =>
        MidiWire.Write([message], runningStatus: false).Select((data, i) => data << (8 * i)).Sum();

    /// <summary>The library's bytes of an event in a file: a time of 0 in one byte, then the message.</summary>
    private static byte[] Exported(MidiEvent theirs)
    {
        var file = new MemoryStream();
        var time = 0L;
        theirs.Export(ref time, new BinaryWriter(file));
        return file.ToArray();
    }

    private static IEnumerable<byte> ReadableStatuses() =>
        Enumerable.Range(0x80, 0x70).Select(status => (byte)status).Concat(RealTime.Select(command => (byte)command));
}
