namespace RigLang.Trade;

/// <summary>
/// The serial line of MIDI 1.0: how fast it is, and how messages stand on it as bytes. Source: IEC 63035:2017 (MIDI 1.0), 4.1,
/// for the line; its message tables for running status and real time.
/// </summary>
public static class MidiWire
{
    /// <summary>Bits a second, within 1 %.</summary>
    public const int Baud = 31_250;

    /// <summary>One start bit, eight of data, one stop bit.</summary>
    public const int BitsPerByte = 10;

    /// <summary>What the line carries when it is never idle.</summary>
    public const int BytesPerSecond = Baud / BitsPerByte;

    /// <summary>320 us.</summary>
    public static readonly Second ByteTime = new(1.0 / BytesPerSecond);

    /// <summary>How long the line is busy with this many bytes.</summary>
    public static Second TimeOf(long bytes) => new((double)bytes / BytesPerSecond);

    /// <summary>How long the line is busy with these messages, sent one after the other.</summary>
    public static Second TimeOf(IEnumerable<MidiMessage> messages, bool runningStatus) => TimeOf(Write(messages, runningStatus).LongCount());

    /// <summary>
    /// The messages as bytes. With running status a channel message leaves its status byte out when it is that of the channel
    /// message before; real time in between does not matter, any other system message does.
    /// </summary>
    public static IEnumerable<byte> Write(IEnumerable<MidiMessage> messages, bool runningStatus)
    {
        byte? running = null;
        foreach (var message in messages)
        {
            if (!runningStatus || message.Status != running)
            {
                yield return message.Status;
            }
            foreach (var data in message.Body)
            {
                yield return data;
            }
            if (!MidiStatus.IsRealTime(message.Status))
            {
                running = MidiStatus.IsChannelMessage(message.Status) ? message.Status : null;
            }
        }
    }

    /// <summary>
    /// The messages in a stream of bytes, each as soon as its last byte is there; so real time inside a message comes before it.
    /// What no receiver can use is passed over: undefined status bytes, data bytes that belong to no status, and a message
    /// that another cuts short. Any status byte other than real time ends a system exclusive message.
    /// </summary>
    public static IEnumerable<MidiMessage> Read(IEnumerable<byte> bytes)
    {
        byte? status = null;
        byte? data1 = null;
        List<byte>? exclusive = null;
        foreach (var next in bytes)
        {
            if (MidiStatus.IsRealTime(next))
            {
                if (!MidiStatus.IsUndefined(next))
                {
                    yield return MidiMessage.Of(next);
                }
            }
            else if (next >= MidiStatus.NoteOff)
            {
                if (exclusive is not null)
                {
                    yield return MidiMessage.SystemExclusive([.. exclusive]);
                }
                if (next == MidiStatus.TuneRequest)
                {
                    yield return MidiMessage.Of(next);
                }
                exclusive = next == MidiStatus.SystemExclusive ? [] : null;
                status = MidiStatus.LengthOf(next) > 1 ? next : null;
                data1 = null;
            }
            else if (exclusive is not null)
            {
                exclusive.Add(next);
            }
            else if (status is { } current)
            {
                if (data1 is null && MidiStatus.LengthOf(current) == 3)
                {
                    data1 = next;
                    continue;
                }
                yield return data1 is { } first ? MidiMessage.Of(current, first, next) : MidiMessage.Of(current, next);
                data1 = null;
                status = MidiStatus.IsChannelMessage(current) ? current : null;
            }
        }
    }
}
