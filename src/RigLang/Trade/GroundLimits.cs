namespace RigLang.Trade;

/// <summary>What makes a ground loop heard, and how much trouble each way to break one is. Source: common practice.</summary>
public static class GroundLimits
{
    /// <summary>A balanced run above this is taken to pick up enough for an imperfect input to be heard.</summary>
    public static readonly Metre LongRun = new(10);
}

/// <summary>
/// Weights of the ways to isolate a link, to compare them with one another: dearer is more to buy, to set up, or to lose.
/// Common practice; a protective earth has none, because it is never isolated (IEC 61140).
/// </summary>
public static class IsolationCosts
{
    /// <summary>A supply output of its own: an isolated one, an adapter, a battery.</summary>
    public const int OwnSupply = 2;

    /// <summary>A line isolator or a DI box in an audio cable.</summary>
    public const int LineIsolator = 3;

    /// <summary>A MIDI input that is opto-isolated, as the standard asks.</summary>
    public const int OptoIsolator = 4;

    /// <summary>A USB isolator: dear, and most are full speed only (12 Mbit/s).</summary>
    public const int UsbIsolator = 5;

    /// <summary>Pulses and control voltages do not pass a transformer; it takes a converter.</summary>
    public const int Converter = 8;
}
