namespace RigLang.Trade;

/// <summary>
/// One MIDI 1.0 message. Channels count from 1 to 16, data bytes from 0 to 127. Two messages are equal when their bytes are: a
/// note-on of velocity 0 and a note-off mean the same and are still two messages. Source: IEC 63035:2017 (MIDI 1.0).
/// </summary>
public readonly record struct MidiMessage
{
    private MidiMessage(byte status, byte data1, byte data2, ReadOnlyMemory<byte> exclusive = default) =>
        (Status, Data1, Data2, Exclusive) = (status, data1, data2, exclusive);

    public byte Status { get; }

    /// <summary>The first data byte: key, controller, program, pressure; 0 where the message has none.</summary>
    public byte Data1 { get; }

    /// <summary>The second data byte: velocity, value; 0 where the message has none.</summary>
    public byte Data2 { get; }

    /// <summary>What stands between the first and the last byte of a system exclusive message; empty in all others.</summary>
    public ReadOnlyMemory<byte> Exclusive { get; }

    /// <summary>1 to 16, or null for a system message.</summary>
    public int? Channel => MidiStatus.ChannelOf(Status);

    public MessageKinds Kinds => MessageKinds.Of(Status);

    /// <summary>A note begins: a note-on with a velocity above 0.</summary>
    public bool IsNoteOn => (Status & 0xF0) == MidiStatus.NoteOn && Data2 > 0;

    /// <summary>A note ends: a note-off, or a note-on of velocity 0.</summary>
    public bool IsNoteOff => (Status & 0xF0) == MidiStatus.NoteOff || ((Status & 0xF0) == MidiStatus.NoteOn && Data2 == 0);

    /// <summary>Bytes on the wire with the status byte sent.</summary>
    public int Length => MidiStatus.LengthOf(Status) ?? Exclusive.Length + 2;

    /// <summary>The bytes that follow the status byte; those of a system exclusive message end with its end byte.</summary>
    public IEnumerable<byte> Body => MidiStatus.LengthOf(Status) switch
    {
        1 => [],
        2 => [Data1],
        3 => [Data1, Data2],
        _ => [.. Exclusive.Span, MidiStatus.EndOfExclusive],
    };

    public static MidiMessage NoteOff(int channel, int key, int velocity) => OnChannel(MidiStatus.NoteOff, channel, key, velocity);

    public static MidiMessage NoteOn(int channel, int key, int velocity) => OnChannel(MidiStatus.NoteOn, channel, key, velocity);

    public static MidiMessage KeyPressure(int channel, int key, int pressure) => OnChannel(MidiStatus.KeyPressure, channel, key, pressure);

    public static MidiMessage ControlChange(int channel, int controller, int value) =>
        OnChannel(MidiStatus.ControlChange, channel, controller, value);

    /// <param name="program">0 to 127 as on the wire; panels often show 1 to 128.</param>
    public static MidiMessage ProgramChange(int channel, int program) => OnChannel(MidiStatus.ProgramChange, channel, program, 0);

    public static MidiMessage ChannelPressure(int channel, int pressure) => OnChannel(MidiStatus.ChannelPressure, channel, pressure, 0);

    /// <param name="value">0 to 16,383, the wheel at rest at 8,192.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value takes more than 14 bits, or the channel is not 1 to 16.</exception>
    public static MidiMessage PitchBend(int channel, int value) => value is >= 0 and < 1 << 14
        ? OnChannel(MidiStatus.PitchBend, channel, value & 0x7F, value >> 7)
        : throw new ArgumentOutOfRangeException(nameof(value), value, "A pitch bend is 0 to 16,383.");

    /// <param name="content">What stands between the first and the last byte, each 0 to 127.</param>
    /// <exception cref="ArgumentOutOfRangeException">A byte of the content is above 127.</exception>
    public static MidiMessage SystemExclusive(ReadOnlySpan<byte> content)
    {
        foreach (var data in content)
        {
            Data(data, nameof(content));
        }
        return new(MidiStatus.SystemExclusive, 0, 0, content.ToArray());
    }

    /// <summary>Any message of a fixed length from its bytes.</summary>
    /// <exception cref="ArgumentOutOfRangeException">
    /// The status fixes no length (see <see cref="MidiStatus.LengthOf"/>) or is undefined, or a data byte is above 127, or
    /// above 0 where the message has no such byte.
    /// </exception>
    public static MidiMessage Of(byte status, int data1 = 0, int data2 = 0)
    {
        if (MidiStatus.IsUndefined(status) || MidiStatus.LengthOf(status) is not { } length)
        {
            throw new ArgumentOutOfRangeException(nameof(status), status, "This byte does not begin a message of a fixed length.");
        }
        return new(status, Data(data1, nameof(data1), length > 1), Data(data2, nameof(data2), length > 2));
    }

    public bool Equals(MidiMessage other) => Status == other.Status && Data1 == other.Data1 && Data2 == other.Data2
        && Exclusive.Span.SequenceEqual(other.Exclusive.Span);

    public override int GetHashCode() => HashCode.Combine(Status, Data1, Data2, Exclusive.Length);

    /// <summary>The bytes in hexadecimal, as manuals print them: <c>90 3C 40</c>.</summary>
    public override string ToString() => string.Join(' ', Body.Prepend(Status).Select(b => b.ToString("X2")));

    private static MidiMessage OnChannel(byte status, int channel, int data1, int data2) =>
        Of(MidiStatus.OnChannel(status, channel), data1, data2);

    private static byte Data(int value, string name, bool isSent = true) => value >= 0 && value <= (isSent ? 127 : 0)
        ? (byte)value
        : throw new ArgumentOutOfRangeException(name, value, isSent ? "A data byte is 0 to 127." : "This message has no such data byte.");
}
