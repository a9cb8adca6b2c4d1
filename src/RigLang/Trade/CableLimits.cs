namespace RigLang.Trade;

/// <summary>How far a signal may travel on one passive run of cable.</summary>
public static class CableLimits
{
    /// <summary>50 ft, commonly rounded to 15 m. Source: MIDI 1.0 detailed specification, hardware section.</summary>
    public static readonly Metre Midi = new(15.24);

    /// <summary>5 m: cable delay of at most 26 ns. Source: USB 2.0, 7.1.16 (from memory).</summary>
    public static readonly Metre Usb = new(5);

    /// <summary>3 m (10 ft) for an unbalanced line. Source: common practice.</summary>
    public static readonly Metre UnbalancedAudio = new(3);
}

/// <summary>
/// Barrel plugs of JEITA RC-5320A: here, unlike with other barrels, the size does say the voltage. Sizes in mm,
/// outer by inner; all are rated 2 A. Source: JEITA RC-5320A as commonly tabulated.
/// </summary>
public static class UnifiedBarrels
{
    /// <summary>One class: its plug, and the voltages above <paramref name="Above"/> up to <paramref name="UpTo"/> that it may carry.</summary>
    public sealed record VoltageClass(string Name, double OuterMillimetres, double InnerMillimetres, Volt Above, Volt UpTo);

    public static IReadOnlyList<VoltageClass> Classes { get; } =
    [
        new("01", 2.35, 0.7, new(0), new(3.15)),
        new("02", 4.0, 1.7, new(3.15), new(6.3)),
        new("03", 4.75, 1.7, new(6.3), new(10.5)),
        new("03", 4.8, 1.7, new(6.3), new(10.5)),
        new("04", 5.5, 3.3, new(10.5), new(13.5)),
        new("05", 6.5, 4.4, new(13.5), new(18)),
    ];

    /// <summary>The class for a voltage, or null outside 0 to 18 V.</summary>
    public static VoltageClass? ForVoltage(Volt volts) =>
        Classes.FirstOrDefault(c => volts.Value > c.Above.Value && volts.Value <= c.UpTo.Value);

    /// <summary>The class whose plug has this size, or null when the size belongs to none.</summary>
    public static VoltageClass? OfSize(double outerMillimetres, double innerMillimetres) =>
        Classes.FirstOrDefault(c => c.OuterMillimetres == outerMillimetres && c.InnerMillimetres == innerMillimetres);
}

/// <summary>Signal levels. 0 dBu is the square root of 0.6 V, 0 dBV is 1 V. Source: ITU-R V.574.</summary>
public static class SignalLevels
{
    /// <summary>0 dBV in dBu: 20 log10(1 / sqrt 0.6), about 2.2185.</summary>
    public static readonly double DbuOfZeroDbv = -20 * Math.Log10(Math.Sqrt(0.6));

    public static double VoltsFromDbu(double dbu) => Math.Sqrt(0.6) * Math.Pow(10, dbu / 20);

    public static double VoltsFromDbv(double dbv) => Math.Pow(10, dbv / 20);

    /// <summary>A level ratio of amplitudes in dB; zero amplitude gives negative infinity.</summary>
    public static double Decibels(double amplitudeRatio) => 20 * Math.Log10(Math.Abs(amplitudeRatio));
}
