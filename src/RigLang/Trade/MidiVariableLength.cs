namespace RigLang.Trade;

/// <summary>
/// Whole numbers as MIDI files write them: seven bits a byte, the highest first, the top bit set in all bytes but the last.
/// Source: Standard MIDI Files 1.0 (RP-001), variable-length quantities.
/// </summary>
public static class MidiVariableLength
{
    /// <summary>The greatest number that the four bytes allowed can hold.</summary>
    public const int Greatest = 0x0FFF_FFFF;

    private const int MostBytes = 4;

    /// <summary>One to four bytes, as few as do.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The number is below 0 or above <see cref="Greatest"/>.</exception>
    public static byte[] Write(int number)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(number);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(number, Greatest);
        var bytes = new Stack<byte>([(byte)(number & 0x7F)]);
        while ((number >>= 7) > 0)
        {
            bytes.Push((byte)(0x80 | (number & 0x7F)));
        }
        return [.. bytes];
    }

    /// <summary>The number at the start of the bytes, and how many of them it takes; null when none ends within four bytes.</summary>
    public static (int Number, int Length)? Read(ReadOnlySpan<byte> bytes)
    {
        var number = 0;
        for (var i = 0; i < Math.Min(bytes.Length, MostBytes); i++)
        {
            number = (number << 7) | (bytes[i] & 0x7F);
            if (bytes[i] < 0x80)
            {
                return (number, i + 1);
            }
        }
        return null;
    }
}
