namespace RigLang.Trade;

/// <summary>Electric potential difference in volts.</summary>
public readonly record struct Volt(double Value)
{
    public override string ToString() => Units.Figure(Value) + " V";
}

/// <summary>A voltage or a span of voltages that a device works from: both ends included.</summary>
public readonly record struct VoltRange(Volt Low, Volt High)
{
    /// <summary>
    /// True when a supply's nominal voltage serves. A nominal figure is met within 5 %, as adapters are sold (common practice);
    /// the ends of a printed range are kept as printed.
    /// </summary>
    public bool Accepts(Volt supply) => Low == High
        ? Math.Abs(supply.Value - Low.Value) <= NominalTolerance * Math.Abs(Low.Value)
        : supply.Value >= Low.Value && supply.Value <= High.Value;

    /// <summary>Share of the nominal voltage; common practice.</summary>
    public const double NominalTolerance = 0.05;

    public override string ToString() => Low == High ? Low.ToString() : $"{Units.Figure(Low.Value)} to {High}";
}

/// <summary>Electric current in amperes; shown in mA below 1 A.</summary>
public readonly record struct Ampere(double Value)
{
    public override string ToString() => Math.Abs(Value) < 1 ? Units.Figure(Value * 1000) + " mA" : Units.Figure(Value) + " A";
}

/// <summary>Length in metres.</summary>
public readonly record struct Metre(double Value)
{
    public override string ToString() => Units.Figure(Value) + " m";
}

/// <summary>Time in seconds; shown in the unit that a player would use.</summary>
public readonly record struct Second(double Value)
{
    public override string ToString() => Value switch
    {
        >= 60 => Units.Figure(Value / 60) + " min",
        >= 1 => Units.Figure(Value) + " s",
        _ => Units.Figure(Value * 1000) + " ms",
    };
}

/// <summary>Pulses a quarter note.</summary>
public readonly record struct Ppqn(double Value)
{
    public override string ToString() => Units.Figure(Value) + " ppqn";
}

/// <summary>Quarter notes a minute.</summary>
public readonly record struct Bpm(double Value)
{
    public override string ToString() => Units.Figure(Value) + " bpm";
}
