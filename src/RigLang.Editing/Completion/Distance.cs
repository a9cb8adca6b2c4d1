using RigLang.Symbols;

namespace RigLang.Editing;

internal static class Distance
{
    /// <summary>Straight line in metres; null when one of them has no place.</summary>
    public static double? Between(DeviceSymbol a, DeviceSymbol b) =>
        a.Place is var (x1, y1) && b.Place is var (x2, y2) ? double.Hypot(x1.Value - x2.Value, y1.Value - y2.Value) : null;
}
