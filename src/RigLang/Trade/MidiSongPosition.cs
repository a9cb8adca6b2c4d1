namespace RigLang.Trade;

/// <summary>
/// A place in a song, in sixteenth notes from its start: what a song position pointer tells. Source: IEC 63035:2017 (MIDI 1.0),
/// system common.
/// </summary>
public readonly record struct MidiSongPosition
{
    /// <summary>The last place that 14 bits can tell.</summary>
    public const int Last = (1 << 14) - 1;

    /// <summary>MIDI clocks a sixteenth note.</summary>
    public const int ClocksPerSixteenth = 6;

    /// <exception cref="ArgumentOutOfRangeException">The place is not 0 to 16,383.</exception>
    public MidiSongPosition(int sixteenths) => Sixteenths = sixteenths is >= 0 and <= Last
        ? sixteenths
        : throw new ArgumentOutOfRangeException(nameof(sixteenths), sixteenths, "A song position is 0 to 16,383 sixteenths.");

    /// <summary>0 to 16,383.</summary>
    public int Sixteenths { get; }

    /// <summary>MIDI clocks from the start of the song.</summary>
    public int Clocks => Sixteenths * ClocksPerSixteenth;

    /// <summary>A beat of a bar, both counted from 1, in a metre of so many beats a bar, each one a whole note's part.</summary>
    /// <param name="beatUnit">The lower figure of the time signature: 1, 2, 4, 8 or 16.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such beat, or it lies beyond the last place.</exception>
    public static MidiSongPosition At(int bar, int beat, int beatsPerBar = 4, int beatUnit = 4)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(bar, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(beat, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(beat, beatsPerBar);
        if (beatUnit is not (1 or 2 or 4 or 8 or 16))
        {
            throw new ArgumentOutOfRangeException(nameof(beatUnit), beatUnit, "A beat is a whole note or a half, a 4th, an 8th or a 16th of it.");
        }
        var sixteenths = (((bar - 1.0) * beatsPerBar) + beat - 1) * (16 / beatUnit);
        return new((int)Math.Min(sixteenths, Last + 1));
    }

    /// <summary>The song position pointer: the low seven bits first.</summary>
    public MidiMessage ToMessage() => MidiMessage.Of(MidiStatus.SongPosition, Sixteenths & 0x7F, Sixteenths >> 7);

    /// <exception cref="ArgumentException">The message is no song position pointer.</exception>
    public static MidiSongPosition Of(MidiMessage message) => message.Status == MidiStatus.SongPosition
        ? new(message.Data1 | (message.Data2 << 7))
        : throw new ArgumentException("This message is no song position pointer.", nameof(message));
}
