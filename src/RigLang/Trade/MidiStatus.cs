namespace RigLang.Trade;

/// <summary>
/// The status bytes of MIDI 1.0, 0x80 to 0xFF, by their names in the standard. The low four bits of a channel message are the
/// channel less one; the constants here are those of channel 1. Source: IEC 63035:2017 (MIDI 1.0), message tables.
/// </summary>
public static class MidiStatus
{
    public const byte NoteOff = 0x80;
    public const byte NoteOn = 0x90;
    public const byte KeyPressure = 0xA0;
    public const byte ControlChange = 0xB0;
    public const byte ProgramChange = 0xC0;
    public const byte ChannelPressure = 0xD0;
    public const byte PitchBend = 0xE0;

    public const byte SystemExclusive = 0xF0;
    public const byte TimeCodeQuarterFrame = 0xF1;
    public const byte SongPosition = 0xF2;
    public const byte SongSelect = 0xF3;
    public const byte TuneRequest = 0xF6;

    /// <summary>Ends a system exclusive message; no message of its own.</summary>
    public const byte EndOfExclusive = 0xF7;

    public const byte Clock = 0xF8;
    public const byte Start = 0xFA;
    public const byte Continue = 0xFB;
    public const byte Stop = 0xFC;
    public const byte ActiveSensing = 0xFE;
    public const byte SystemReset = 0xFF;

    /// <summary>Channels a port; players and the language count them from 1.</summary>
    public const int Channels = 16;

    /// <summary>
    /// Bytes in a message with this status, the status byte counted and none left out by running status: 1 to 3. Null where the
    /// status byte fixes none: system exclusive, which runs to its end byte, that end byte, the undefined 0xF4 and 0xF5, and
    /// data bytes (below 0x80). The undefined 0xF9 and 0xFD are single bytes, as every real-time message is.
    /// </summary>
    public static int? LengthOf(byte status) => status switch
    {
        < NoteOff => null,
        >= ProgramChange and < PitchBend => 2,
        < SystemExclusive => 3,
        TimeCodeQuarterFrame or SongSelect => 2,
        SongPosition => 3,
        TuneRequest or >= Clock => 1,
        _ => null,
    };

    /// <summary>True for messages that carry a channel: 0x80 to 0xEF. Only these may leave their status byte out.</summary>
    public static bool IsChannelMessage(byte status) => status is >= NoteOff and < SystemExclusive;

    /// <summary>True for system real time, 0xF8 to 0xFF: single bytes that may stand between the bytes of any message.</summary>
    public static bool IsRealTime(byte status) => status >= Clock;

    /// <summary>True for the four status bytes to which the standard gives no meaning. A receiver passes over them.</summary>
    public static bool IsUndefined(byte status) => status is 0xF4 or 0xF5 or 0xF9 or 0xFD;

    /// <summary>The channel in a status byte, 1 to 16, or null when it carries none.</summary>
    public static int? ChannelOf(byte status) => IsChannelMessage(status) ? (status & 0x0F) + 1 : null;

    /// <summary>The status byte of a channel message, such as <see cref="NoteOn"/>, on a channel counted from 1.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The channel is not 1 to 16, or the status is not that of a channel message.</exception>
    public static byte OnChannel(byte status, int channel)
    {
        if (!IsChannelMessage(status))
        {
            throw new ArgumentOutOfRangeException(nameof(status), status, "A channel message has a status byte from 0x80 to 0xEF.");
        }
        return channel is >= 1 and <= Channels
            ? (byte)((status & 0xF0) | (channel - 1))
            : throw new ArgumentOutOfRangeException(nameof(channel), channel, "A MIDI channel is 1 to 16.");
    }
}

public static class MidiStatusKinds
{
    extension(MessageKinds)
    {
        /// <summary>
        /// What a message with this status byte is, in the kinds that the language filters by. Note messages carry notes and
        /// velocity. None for messages that the language has no word for (time code, song select, tune request, reset), for
        /// undefined status bytes, and for data bytes.
        /// </summary>
        public static MessageKinds Of(byte status) => status switch
        {
            < MidiStatus.NoteOff => MessageKinds.None,
            < MidiStatus.KeyPressure => MessageKinds.Notes | MessageKinds.Velocity,
            < MidiStatus.ControlChange => MessageKinds.Aftertouch,
            < MidiStatus.ProgramChange => MessageKinds.Controllers,
            < MidiStatus.ChannelPressure => MessageKinds.ProgramChange,
            < MidiStatus.PitchBend => MessageKinds.Aftertouch,
            < MidiStatus.SystemExclusive => MessageKinds.PitchBend,
            MidiStatus.SystemExclusive or MidiStatus.EndOfExclusive => MessageKinds.SystemExclusive,
            MidiStatus.SongPosition => MessageKinds.SongPosition,
            MidiStatus.Clock => MessageKinds.Clock,
            MidiStatus.Start => MessageKinds.Start,
            MidiStatus.Continue => MessageKinds.Continue,
            MidiStatus.Stop => MessageKinds.Stop,
            MidiStatus.ActiveSensing => MessageKinds.ActiveSensing,
            _ => MessageKinds.None,
        };
    }
}
