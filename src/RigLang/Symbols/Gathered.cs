using System.Collections;
using System.Diagnostics.CodeAnalysis;

namespace RigLang.Symbols;

/// <summary>
/// A list that the stage which owns it fills and then closes. Later stages and the tools look at it, from several threads too, and
/// find it always the same; adding to a closed one throws.
/// </summary>
public sealed class GatheredList<T> : IReadOnlyList<T>
{
    // Of its own and not a List inside: most hold one thing, and a rig has thousands of them.
    private T[] _items = [];
    private bool _isClosed;

    public int Count { get; private set; }

    public T this[int index]
    {
        get => Items[index];
        internal set
        {
            Closed.Check(_isClosed);
            _items.AsSpan(0, Count)[index] = value;
        }
    }

    private ReadOnlySpan<T> Items => _items.AsSpan(0, Count);

    internal bool IsClosed => _isClosed;

    internal void Add(T item)
    {
        Closed.Check(_isClosed);
        if (Count == _items.Length)
        {
            Array.Resize(ref _items, Count == 0 ? 1 : Math.Max(4, Count * 2));
        }
        _items[Count++] = item;
    }

    internal void AddRange(IEnumerable<T> items)
    {
        foreach (var item in items)
        {
            Add(item);
        }
    }

    internal void Clear()
    {
        Closed.Check(_isClosed);
        _items = [];
        Count = 0;
    }

    internal void RemoveAll(Predicate<T> match)
    {
        Closed.Check(_isClosed);
        _items = Array.FindAll(_items[..Count], item => !match(item));
        Count = _items.Length;
    }

    internal void Close() => _isClosed = true;

    public Enumerator GetEnumerator() => new(this);

    IEnumerator<T> IEnumerable<T>.GetEnumerator() => GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    public struct Enumerator(GatheredList<T> list) : IEnumerator<T>
    {
        private int _at = -1;

        public readonly T Current => list._items[_at];

        readonly object? IEnumerator.Current => Current;

        public bool MoveNext() => ++_at < list.Count;

        public void Reset() => _at = -1;

        public readonly void Dispose()
        {
        }
    }

    public bool Exists(Predicate<T> match) => FindIndex(match) >= 0;

    public bool TrueForAll(Predicate<T> match) => FindIndex(item => !match(item)) < 0;

    public T? Find(Predicate<T> match) => FindIndex(match) is >= 0 and var index ? _items[index] : default;

    public List<T> FindAll(Predicate<T> match)
    {
        var found = new List<T>();
        foreach (var item in this)
        {
            if (match(item))
            {
                found.Add(item);
            }
        }
        return found;
    }

    public int FindIndex(Predicate<T> match) => Array.FindIndex(_items, 0, Count, match);

    public int FindLastIndex(Predicate<T> match) => Count == 0 ? -1 : Array.FindLastIndex(_items, Count - 1, Count, match);

    public int IndexOf(T item) => Array.IndexOf(_items, item, 0, Count);

    public bool Contains(T item) => IndexOf(item) >= 0;

    public List<TOther> ConvertAll<TOther>(Converter<T, TOther> converter)
    {
        var converted = new List<TOther>(Count);
        foreach (var item in this)
        {
            converted.Add(converter(item));
        }
        return converted;
    }
}

/// <summary>A table that is filled and then closed, as <see cref="GatheredList{T}"/> is.</summary>
public sealed class GatheredDictionary<TKey, TValue>(IEqualityComparer<TKey>? comparer = null) : IReadOnlyDictionary<TKey, TValue>
    where TKey : notnull
{
    private static readonly Dictionary<TKey, TValue> None = [];
    private Dictionary<TKey, TValue>? _items;
    private bool _isClosed;

    public int Count => _items?.Count ?? 0;
    public Dictionary<TKey, TValue>.KeyCollection Keys => Items.Keys;
    public Dictionary<TKey, TValue>.ValueCollection Values => Items.Values;

    public TValue this[TKey key]
    {
        get => Items[key];
        internal set => Open()[key] = value;
    }

    private Dictionary<TKey, TValue> Items => _items ?? None;

    internal void Add(TKey key, TValue value) => Open().Add(key, value);

    internal bool TryAdd(TKey key, TValue value) => Open().TryAdd(key, value);

    internal bool Remove(TKey key) => Open().Remove(key);

    internal bool IsClosed => _isClosed;

    internal void Close() => _isClosed = true;

    private Dictionary<TKey, TValue> Open()
    {
        Closed.Check(_isClosed);
        return _items ??= new Dictionary<TKey, TValue>(comparer);
    }

    public bool ContainsKey(TKey key) => Items.ContainsKey(key);

    public bool ContainsValue(TValue value) => Items.ContainsValue(value);

    public bool TryGetValue(TKey key, [MaybeNullWhen(false)] out TValue value) => Items.TryGetValue(key, out value);

    public TValue? GetValueOrDefault(TKey key) => TryGetValue(key, out var value) ? value : default;

    public Dictionary<TKey, TValue>.Enumerator GetEnumerator() => Items.GetEnumerator();

    IEnumerator<KeyValuePair<TKey, TValue>> IEnumerable<KeyValuePair<TKey, TValue>>.GetEnumerator() => GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    IEnumerable<TKey> IReadOnlyDictionary<TKey, TValue>.Keys => Keys;

    IEnumerable<TValue> IReadOnlyDictionary<TKey, TValue>.Values => Values;
}

/// <summary>A set that is filled and then closed, as <see cref="GatheredList{T}"/> is.</summary>
public sealed class GatheredSet<T>(IEqualityComparer<T>? comparer = null) : IReadOnlySet<T>
{
    private static readonly HashSet<T> None = [];
    private HashSet<T>? _items;
    private bool _isClosed;

    public int Count => _items?.Count ?? 0;

    private HashSet<T> Items => _items ?? None;

    internal bool Add(T item) => Open().Add(item);

    internal void UnionWith(IEnumerable<T> items) => Open().UnionWith(items);

    internal bool IsClosed => _isClosed;

    internal void Close() => _isClosed = true;

    private HashSet<T> Open()
    {
        Closed.Check(_isClosed);
        return _items ??= new HashSet<T>(comparer);
    }

    public bool Contains(T item) => Items.Contains(item);

    public bool IsProperSubsetOf(IEnumerable<T> other) => Items.IsProperSubsetOf(other);

    public bool IsProperSupersetOf(IEnumerable<T> other) => Items.IsProperSupersetOf(other);

    public bool IsSubsetOf(IEnumerable<T> other) => Items.IsSubsetOf(other);

    public bool IsSupersetOf(IEnumerable<T> other) => Items.IsSupersetOf(other);

    public bool Overlaps(IEnumerable<T> other) => Items.Overlaps(other);

    public bool SetEquals(IEnumerable<T> other) => Items.SetEquals(other);

    public HashSet<T>.Enumerator GetEnumerator() => Items.GetEnumerator();

    IEnumerator<T> IEnumerable<T>.GetEnumerator() => GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}

internal static class Closed
{
    public static void Check(bool isClosed)
    {
        if (isClosed)
        {
            throw new InvalidOperationException("What the names of a rig mean is settled once they are bound, and cannot be changed afterwards.");
        }
    }
}
