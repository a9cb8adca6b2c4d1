namespace RigLang.Trade;

/// <summary>Copper conductors by American wire gauge. Source: ASTM B258 for diameters, IACS (58 MS/m at 20 °C) for copper.</summary>
public static class CopperWire
{
    /// <summary>
    /// Resistance of one conductor at 20 °C in ohms a kilometre, the gauges that leads are made of. Source: the AWG table as
    /// published in ohms per 1000 ft, divided by 0.3048.
    /// </summary>
    public static IReadOnlyDictionary<int, double> OhmsPerKilometre { get; } = new Dictionary<int, double>
    {
        [14] = 8.28,
        [16] = 13.18,
        [18] = 20.95,
        [20] = 33.30,
        [22] = 52.95,
        [24] = 84.22,
        [26] = 133.9,
        [28] = 212.9,
    };

    /// <summary>Diameter in mm: 0.127 x 92^((36 - n) / 39). Source: ASTM B258.</summary>
    public static double DiameterMillimetres(double gauge) => 0.127 * Math.Pow(92, (36 - gauge) / 39);

    /// <summary>Section of a solid round conductor in mm².</summary>
    public static double SectionSquareMillimetres(double gauge) => Math.PI / 4 * Math.Pow(DiameterMillimetres(gauge), 2);

    /// <summary>Resistance of one conductor in ohms: from the table, for other gauges from the diameter.</summary>
    public static double ResistanceOf(double gauge, Metre length) =>
        length.Value / 1000 * (gauge == Math.Floor(gauge) && OhmsPerKilometre.TryGetValue((int)gauge, out var listed) ? listed : FromDiameter(gauge));

    /// <summary>Ohms a kilometre of solid round copper of this gauge.</summary>
    internal static double FromDiameter(double gauge) => OhmSquareMillimetresPerKilometre / SectionSquareMillimetres(gauge);

    /// <summary>1/58 ohm mm² a metre at 20 °C. Source: IEC 60028 (international annealed copper standard).</summary>
    private const double OhmSquareMillimetresPerKilometre = 1000.0 / 58;
}
