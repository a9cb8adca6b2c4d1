using System.Globalization;

namespace RigLang.Trade;

/// <summary>What a quantity measures. Only quantities of one dimension can stand for one another.</summary>
public enum Dimension
{
    Voltage,
    Current,
    Power,
    ApparentPower,
    Length,
    Time,
    Frequency,
    Tempo,
    PulseRate,
    SignalLevel,
    Gain,
    Resistance,
    Energy,
    Charge,
    WordLength,
    WireGauge,
}

/// <summary>One unit word: its dimension, and how many of the base unit it is.</summary>
public sealed record Unit(string Symbol, Dimension Dimension, double InBaseUnits);

/// <summary>
/// The unit words of the language. Base units: V, A, W, VA, m, s, Hz, bpm, ppqn, dBu, dB, ohm, Wh, Ah, bit, awg.
/// Prefixes after the SI Brochure (BIPM); foot and inch after the international yard of 1959 (0.3048 m, 0.0254 m);
/// dBV to dBu is an offset and is added by <see cref="SignalLevels"/>, not a factor.
/// </summary>
public static class Units
{
    public static IReadOnlyDictionary<string, Unit> Table { get; } = new Unit[]
    {
        new("V", Dimension.Voltage, 1),
        new("mV", Dimension.Voltage, 1e-3),
        new("kV", Dimension.Voltage, 1e3),
        new("A", Dimension.Current, 1),
        new("mA", Dimension.Current, 1e-3),
        new("W", Dimension.Power, 1),
        new("mW", Dimension.Power, 1e-3),
        new("kW", Dimension.Power, 1e3),
        new("VA", Dimension.ApparentPower, 1),
        new("kVA", Dimension.ApparentPower, 1e3),
        new("m", Dimension.Length, 1),
        new("cm", Dimension.Length, 1e-2),
        new("mm", Dimension.Length, 1e-3),
        new("ft", Dimension.Length, 0.3048),
        new("inch", Dimension.Length, 0.0254),
        new("s", Dimension.Time, 1),
        new("ms", Dimension.Time, 1e-3),
        new("min", Dimension.Time, 60),
        new("h", Dimension.Time, 3600),
        new("Hz", Dimension.Frequency, 1),
        new("kHz", Dimension.Frequency, 1e3),
        new("bpm", Dimension.Tempo, 1),
        new("ppqn", Dimension.PulseRate, 1),
        new("dBu", Dimension.SignalLevel, 1),
        new("dBV", Dimension.SignalLevel, 1),
        new("dB", Dimension.Gain, 1),
        new("ohm", Dimension.Resistance, 1),
        new("kohm", Dimension.Resistance, 1e3),
        new("Wh", Dimension.Energy, 1),
        new("Ah", Dimension.Charge, 1),
        new("mAh", Dimension.Charge, 1e-3),
        new("bit", Dimension.WordLength, 1),
        new("awg", Dimension.WireGauge, 1),
    }.ToDictionary(unit => unit.Symbol, StringComparer.Ordinal);

    /// <summary>The dimension in a player's words: "a voltage".</summary>
    public static string Describe(Dimension dimension) => dimension switch
    {
        Dimension.Voltage => "a voltage",
        Dimension.Current => "a current",
        Dimension.Power => "a power",
        Dimension.ApparentPower => "an apparent power",
        Dimension.Length => "a length",
        Dimension.Time => "a time",
        Dimension.Frequency => "a frequency",
        Dimension.Tempo => "a tempo",
        Dimension.PulseRate => "a clock rate",
        Dimension.SignalLevel => "a signal level",
        Dimension.Gain => "a gain",
        Dimension.Resistance => "a resistance",
        Dimension.Energy => "an energy",
        Dimension.Charge => "a battery charge",
        Dimension.WordLength => "a word length",
        Dimension.WireGauge => "a wire gauge",
        _ => throw new ArgumentOutOfRangeException(nameof(dimension)),
    };

    /// <summary>The unit words of a dimension, the usual one first.</summary>
    public static IEnumerable<string> Of(Dimension dimension) => Table.Values
        .Where(unit => unit.Dimension == dimension)
        .OrderBy(unit => unit.InBaseUnits == 1 ? 0 : 1)
        .ThenBy(unit => unit.InBaseUnits)
        .Select(unit => unit.Symbol);

    /// <summary>A figure as a player writes it: up to three decimals, no exponent, a point for the decimals.</summary>
    public static string Figure(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
