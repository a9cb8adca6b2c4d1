namespace RigLang.Fuzz.Growth;

/// <summary>A way for a rig to be large.</summary>
/// <param name="Name">Where from, then what there is much of: <c>line, connect</c>.</param>
/// <param name="Rig">A rig of so many; its text grows no faster than the number.</param>
/// <param name="Least">The smallest of the three sizes that are compared.</param>
/// <param name="Most">At most so much over linear, each time that the rig doubles.</param>
internal sealed record GrowthKind(string Name, Func<int, string> Rig, int Least = 50, double Most = GrowthKind.NearlyLinear)
{
    public const double NearlyLinear = 1.3;

    /// <summary>
    /// For a rig in which n answers have up to n steps each, or n parts hear n tracks: what is asked is the product, and it is still kept
    /// well under it, which would be 2.
    /// </summary>
    public const double Product = 1.65;
}
