namespace RigLang.Flow;

/// <summary>
/// Things found by the number of their port. Those of one port stand together, in the order they came; two plain arrays
/// serve a rig of any size, where a table of lists would have a list for each port.
/// </summary>
internal sealed class ByPort<T>
{
    private readonly int[] _starts;
    private readonly T[] _items;

    public ByPort(int portCount, IReadOnlyList<T> items, Func<T, int> portOf)
    {
        // A counting sort: how many each port has, where its share starts, then each thing to its place.
        _starts = new int[portCount + 1];
        for (var i = 0; i < items.Count; i++)
        {
            _starts[portOf(items[i]) + 1]++;
        }
        for (var port = 0; port < portCount; port++)
        {
            _starts[port + 1] += _starts[port];
        }
        _items = new T[items.Count];
        var next = _starts.AsSpan(0, portCount).ToArray();
        for (var i = 0; i < items.Count; i++)
        {
            _items[next[portOf(items[i])]++] = items[i];
        }
    }

    /// <summary>What belongs to a port; nothing for the number -1, which is no port's.</summary>
    public ReadOnlySpan<T> this[int port] => port < 0 ? [] : _items.AsSpan(_starts[port], _starts[port + 1] - _starts[port]);

    /// <inheritdoc cref="this[int]"/>
    public IReadOnlyList<T> ListOf(int port) =>
        port < 0 ? Array.Empty<T>() : new ArraySegment<T>(_items, _starts[port], _starts[port + 1] - _starts[port]);
}
