namespace RigLang.Checks.Midi;

/// <summary>Lists of the same sources, or their devices, are one: they stand in the order of the sources, so that the same ones are the same list.</summary>
internal sealed class SameList<T> : IEqualityComparer<IReadOnlyList<T>>
    where T : class
{
    public static readonly SameList<T> Only = new();

    public bool Equals(IReadOnlyList<T>? x, IReadOnlyList<T>? y) => ReferenceEquals(x, y) || x!.SequenceEqual(y!);

    public int GetHashCode(IReadOnlyList<T> list) => list.Count == 0 ? 0 : HashCode.Combine(list.Count, list[0], list[^1]);
}
