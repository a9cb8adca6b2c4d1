namespace RigLang.Text;

/// <summary>A stretch of a source text: offset of its first UTF-16 unit, and how many units it covers.</summary>
public readonly record struct TextSpan(int Start, int Length)
{
    /// <summary>Offset just past the last unit.</summary>
    public int End => Start + Length;

    /// <summary>The span from <paramref name="start"/> up to, not including, <paramref name="end"/>.</summary>
    public static TextSpan Between(int start, int end) => new(start, Math.Max(0, end - start));

    /// <summary>The smallest span that covers both.</summary>
    public TextSpan To(TextSpan other) => Between(Math.Min(Start, other.Start), Math.Max(End, other.End));

    public bool Contains(int offset) => offset >= Start && offset < End;
}
