namespace RigLang.Flow;

internal static class Listing
{
    /// <summary>"a", "a and b", "a, b and c".</summary>
    public static string And(IReadOnlyList<string> names) =>
        names.Count == 1 ? names[0] : $"{string.Join(", ", names.Take(names.Count - 1))} and {names[^1]}";
}
