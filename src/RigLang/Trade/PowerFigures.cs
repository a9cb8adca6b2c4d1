namespace RigLang.Trade;

/// <summary>What supplies, leads and batteries can do, in figures.</summary>
public static class PowerFigures
{
    /// <summary>Share of a rating that is better left spare. Source: common practice, 20 to 30 %.</summary>
    public const double Spare = 0.2;

    /// <summary>Watts to volt-amperes for gear that declares only watts; small supplies have 0.5 to 0.6. Source: common practice.</summary>
    public const double PowerFactor = 0.6;

    /// <summary>A load that gets less than this share of its nominal voltage is told. Source: common practice, as adapters are sold within 5 %.</summary>
    public const double LeastShareOfNominal = 1 - VoltRange.NominalTolerance;

    public static double VoltAmperes(double watts) => watts / PowerFactor;

    /// <summary>Lost along a lead, out and back: 2 x L x R' x I. Source: Ohm's law.</summary>
    public static Volt Drop(double gauge, Metre length, Ampere current) => new(2 * CopperWire.ResistanceOf(gauge, length) * current.Value);
}

/// <summary>Power over USB. Source: USB 2.0, 7.2.1; USB 3.2, 11.4 for its unit load (from memory).</summary>
public static class UsbPower
{
    public static readonly Volt Nominal = new(5);

    /// <summary>What a device on the bus works from at the least. Source: USB 2.0, 7.2.2.</summary>
    public static readonly Volt Least = new(4.4);

    public static readonly Ampere UnitLoad = new(0.1);
    public static readonly Ampere UnitLoad3 = new(0.15);

    /// <summary>Five unit loads of USB 2.0.</summary>
    public static readonly Ampere HighPowerPort = new(0.5);

    /// <summary>Six unit loads of USB 3.</summary>
    public static readonly Ampere HighPowerPort3 = new(0.9);

    /// <summary>What a hub that is fed by the bus takes for itself: one unit load.</summary>
    public static readonly Ampere HubItself = UnitLoad;

    /// <summary>What such a hub has left for its ports: 400 mA of 500, one unit load for each of four.</summary>
    public static Ampere LeftBehindHub(Ampere upstream) => new(Math.Max(0, upstream.Value - HubItself.Value));
}

/// <summary>How long a battery lasts.</summary>
public static class BatteryLife
{
    /// <summary>Nominal voltage of one lithium-ion cell, by which its ampere-hours are printed. Source: common practice.</summary>
    public static readonly Volt LithiumCell = new(3.7);

    /// <summary>What is left after the converter, 0.8 to 0.9. Source: common practice.</summary>
    public const double Efficiency = 0.85;

    /// <summary>Watt-hours of a charge: Ah x 3.7 V, not x 5 V, whatever comes out of the socket.</summary>
    public static double WattHours(double ampereHours) => ampereHours * LithiumCell.Value;

    /// <summary>Wh x 0.85 / W; without end when nothing is drawn.</summary>
    public static Second RunTime(double wattHours, double watts) =>
        new(watts > 0 ? wattHours * Efficiency / watts * 3600 : double.PositiveInfinity);
}

/// <summary>
/// What one mains circuit may carry, as a caution and not as a design: local code and licensed practice decide. Where the
/// three-hour rule applies, a load of three hours or more counts at 125 %, so 80 % of the breaker is its limit (NEC 210.19(A)(1),
/// 210.20(A)). Elsewhere, and for shorter sets, 80 % is only prudence (common practice).
/// </summary>
public readonly record struct MainsCircuit(Volt Volts, Ampere Breaker, double? Hertz)
{
    public const double ContinuousShare = 0.8;

    /// <summary>Three hours. Source: NEC article 100, continuous load.</summary>
    public static readonly Second Continuous = new(3 * 3600);

    /// <summary>What the breaker carries in volt-amperes.</summary>
    public double Most => Volts.Value * Breaker.Value;

    /// <summary>80 % of it.</summary>
    public double Prudent => ContinuousShare * Most;

    /// <summary>True for 110 to 127 V at 60 Hz, where codes after the NEC are in force (common practice).</summary>
    public bool HasThreeHourRule => Volts.Value is >= 110 and <= 127 && Hertz is null or 60;

    public CircuitLoad Judge(double voltAmperes, Second? setLength) =>
        voltAmperes > Most ? CircuitLoad.OverBreaker
        : voltAmperes <= Prudent ? CircuitLoad.Fits
        : HasThreeHourRule && setLength is { } length && length.Value >= Continuous.Value ? CircuitLoad.OverContinuous
        : CircuitLoad.OverPrudent;
}

public enum CircuitLoad
{
    Fits,
    /// <summary>Over 80 %, where that is only prudence.</summary>
    OverPrudent,
    /// <summary>Over 80 % for three hours or more, where that counts as continuous.</summary>
    OverContinuous,
    OverBreaker,
}
