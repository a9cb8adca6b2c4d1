namespace RigLang.Trade;

/// <summary>
/// One event packet of USB-MIDI 1.0: four bytes that carry up to three MIDI bytes of one virtual cable. Cables count from 0 to 15,
/// as in the standard. Source: USB-IF, Universal Serial Bus Device Class Definition for MIDI Devices 1.0 (1999), 4.
/// </summary>
public readonly record struct MidiUsbPacket
{
    /// <summary>Bytes a packet, sent whole even where fewer MIDI bytes are in it.</summary>
    public const int Length = 4;

    public const int Cables = 16;

    private static readonly int[] ByteCounts = [0, 0, 2, 3, 3, 1, 2, 3, 3, 3, 3, 3, 2, 2, 3, 1];

    private MidiUsbPacket(int cable, byte codeIndex, byte byte1, byte byte2, byte byte3) =>
        (Cable, CodeIndex, Byte1, Byte2, Byte3) = (cable, codeIndex, byte1, byte2, byte3);

    /// <summary>0 to 15.</summary>
    public int Cable { get; }

    /// <summary>The code index number, 0 to 15: what the MIDI bytes are, and so how many.</summary>
    public byte CodeIndex { get; }

    public byte Byte1 { get; }

    /// <summary>0 where the packet carries one MIDI byte.</summary>
    public byte Byte2 { get; }

    /// <summary>0 where the packet carries fewer than three MIDI bytes.</summary>
    public byte Byte3 { get; }

    /// <summary>How many MIDI bytes a packet with this code index number carries. The reserved 0 and 1 carry none.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The code index number is above 15.</exception>
    public static int ByteCountOf(byte codeIndex) => codeIndex < ByteCounts.Length
        ? ByteCounts[codeIndex]
        : throw new ArgumentOutOfRangeException(nameof(codeIndex), codeIndex, "A code index number is 0 to 15.");

    /// <summary>The MIDI bytes in this packet, without the padding.</summary>
    public IEnumerable<byte> MidiBytes => new[] { Byte1, Byte2, Byte3 }.Take(ByteCountOf(CodeIndex));

    /// <summary>The four bytes on the bus.</summary>
    public byte[] ToBytes() => [(byte)((Cable << 4) | CodeIndex), Byte1, Byte2, Byte3];

    /// <exception cref="ArgumentException">There are not four bytes.</exception>
    public static MidiUsbPacket FromBytes(ReadOnlySpan<byte> bytes) => bytes.Length == Length
        ? new(bytes[0] >> 4, (byte)(bytes[0] & 0x0F), bytes[1], bytes[2], bytes[3])
        : throw new ArgumentException("A USB-MIDI event packet has four bytes.", nameof(bytes));

    /// <summary>A message as packets: one, or several for a system exclusive message of more than three bytes.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The cable is not 0 to 15.</exception>
    public static IReadOnlyList<MidiUsbPacket> Of(int cable, MidiMessage message)
    {
        if (cable is < 0 or >= Cables)
        {
            throw new ArgumentOutOfRangeException(nameof(cable), cable, "A USB-MIDI cable is 0 to 15.");
        }
        var chunks = message.Body.Prepend(message.Status).Chunk(3).ToList();
        return [.. chunks.Select((chunk, i) => new MidiUsbPacket(
            cable,
            message.Status == MidiStatus.SystemExclusive ? CodeIndexOfExclusive(chunk.Length, i == chunks.Count - 1) : CodeIndexOf(message),
            chunk[0],
            chunk.ElementAtOrDefault(1),
            chunk.ElementAtOrDefault(2)))];
    }

    private static byte CodeIndexOfExclusive(int bytes, bool isLast) => (byte)(isLast ? 0x4 + bytes : 0x4);

    private static byte CodeIndexOf(MidiMessage message) => message switch
    {
        { Channel: not null } => (byte)(message.Status >> 4),
        { Length: 3 } => 0x3,
        { Length: 2 } => 0x2,
        { Status: MidiStatus.TuneRequest } => 0x5,
        _ => 0xF,
    };
}
