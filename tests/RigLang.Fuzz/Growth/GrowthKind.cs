namespace RigLang.Fuzz.Growth;

/// <summary>A way for a rig to be large.</summary>
/// <param name="Name">Where from, then what there is much of: <c>line, connect</c>.</param>
/// <param name="Rig">A rig of so many; its text grows no faster than the number.</param>
/// <param name="Least">The smallest of the three sizes that are compared.</param>
internal sealed record GrowthKind(string Name, Func<int, string> Rig, int Least = 50);
