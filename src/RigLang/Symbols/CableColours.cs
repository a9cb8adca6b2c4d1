namespace RigLang.Symbols;

/// <summary>The colour words of cables: those of IEC 60757.</summary>
public static class CableColours
{
    public static IReadOnlyList<string> All { get; } =
    [
        "black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white", "pink", "gold", "turquoise", "silver",
    ];
}
