namespace RigLang.Text;

/// <summary>Small turns of English that every message needs.</summary>
public static class Prose
{
    /// <summary>"a", "a and b", "a, b and c".</summary>
    public static string And(IReadOnlyList<string> names) =>
        names.Count == 1 ? names[0] : $"{string.Join(", ", names.Take(names.Count - 1))} and {names[^1]}";

    /// <summary>The same text with a capital in front, to open a sentence.</summary>
    public static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
