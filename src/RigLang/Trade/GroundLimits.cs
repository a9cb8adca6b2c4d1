namespace RigLang.Trade;

/// <summary>What makes a ground loop heard, and how much trouble each way to break one is. Source: common practice.</summary>
public static class GroundLimits
{
    /// <summary>A balanced run above this is taken to pick up enough for an imperfect input to be heard.</summary>
    public static readonly Metre LongRun = new(10);
}

/// <summary>
/// How much of a current in a screen is heard: the screen is part of an unbalanced signal's circuit, so the voltage that the current
/// loses along it adds to the signal. Source: common-impedance coupling (common practice), Ohm's law.
/// </summary>
public static class ScreenNoise
{
    /// <summary>A current to reckon with, of the order that leaks through a double-insulated supply (0.25 mA, IEC 62368-1, from memory). Source: common practice.</summary>
    public static readonly Ampere Current = new(300e-6);

    /// <summary>A screen with its two plugs, where the lead does not say its gauge. Source: common practice.</summary>
    public const double Ohms = 1;

    /// <summary>V = I x R.</summary>
    public static Volt Of(Ampere current, double ohms) => new(current.Value * ohms);

    /// <summary>20 log (noise / signal), in dB: -60 for a thousandth.</summary>
    public static double Decibels(Volt noise, Volt signal) => 20 * Math.Log10(noise.Value / signal.Value);
}

/// <summary>What unbalanced signals have at their nominal level. Source: common practice.</summary>
public static class NominalLevels
{
    /// <summary>-10 dBV.</summary>
    public static readonly Volt Line = new(0.316);

    /// <summary>-20 dBV.</summary>
    public static readonly Volt Instrument = new(0.1);

    /// <summary>-50 dBu.</summary>
    public static readonly Volt Microphone = new(0.00245);
}

/// <summary>
/// Weights of the ways to isolate a link, to compare them with one another: dearer is more to buy, to set up, or to lose.
/// Common practice; a protective earth has none, because it is never isolated (IEC 61140).
/// </summary>
public static class IsolationCosts
{
    /// <summary>A battery that is in the device and lasts the set: nothing to buy, but to be charged and watched.</summary>
    public const int Battery = 1;

    /// <summary>One of which nobody said how long it lasts.</summary>
    public const int DoubtfulBattery = 4;

    /// <summary>A supply output of its own: an isolated one, or an adapter.</summary>
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
