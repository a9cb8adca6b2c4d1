using System.Globalization;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>What a unit measures, and the figure before it in other units.</summary>
internal static class UnitHover
{
    public static string? Of(string word, string? number, EditorStyle style)
    {
        if (!Units.Table.TryGetValue(word, out var unit))
        {
            return null;
        }
        var page = new HoverPage(style);
        page.Title($"{page.Name(word)} measures {Units.Describe(unit.Dimension)}");
        if (double.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value))
        {
            var same = SameAs(unit, value).Where(text => text is not null).ToList();
            page.Fact($"{Units.Figure(value)} {word} is", same.Count == 0 ? null : string.Join(", ", same));
        }
        return page.Fact("Words for it", string.Join(", ", Units.Of(unit.Dimension))).ToString();
    }

    private static IEnumerable<string?> SameAs(Unit unit, double value)
    {
        foreach (var other in Units.Of(unit.Dimension).Where(symbol => symbol != unit.Symbol && unit.Dimension != Dimension.SignalLevel))
        {
            var inOther = value * unit.InBaseUnits / Units.Table[other].InBaseUnits;
            // A figure that nobody would say is left out.
            yield return Math.Abs(inOther) is >= 0.1 and < 100_000 ? $"{Units.Figure(Math.Round(inOther, 2))} {other}" : null;
        }
        yield return (unit.Symbol, value) switch
        {
            ("dBu", _) => $"{Units.Figure(Math.Round(value - SignalLevels.DbuOfZeroDbv, 1))} dBV, {Volts(SignalLevels.VoltsFromDbu(value))}",
            ("dBV", _) => $"{Units.Figure(Math.Round(value + SignalLevels.DbuOfZeroDbv, 1))} dBu, {Volts(SignalLevels.VoltsFromDbv(value))}",
            ("bpm", > 0) => $"{Units.Figure(Math.Round(60_000 / value, 1))} ms a beat",
            ("ppqn", > 0) => $"a pulse every {Units.Figure(Math.Round(1 / value, 3))} of a quarter note",
            ("dB", _) => $"{Units.Figure(Math.Pow(10, value / 20))} times the voltage",
            ("awg", >= 0 and <= 40) => $"{Units.Figure(Math.Round(CopperWire.SectionSquareMillimetres(value), 2))} mm² of copper",
            _ => null,
        };
    }

    private static string Volts(double volts) => volts < 1 ? $"{Units.Figure(Math.Round(volts * 1000, 1))} mV" : $"{Units.Figure(Math.Round(volts, 2))} V";
}
