using System.Collections;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>How late what takes a route comes out of it, where the gear says so: line by line, since a line can be a thousand routes.</summary>
public sealed class GatheredLatencies : IEnumerable<(GatheredPairs Routes, Second Latency)>
{
    private readonly List<(GatheredPairs Routes, Second Latency)> _lines = [];
    private bool _isClosed;

    internal bool IsClosed => _isClosed;

    /// <summary>Of a route; nothing where the gear does not say. The last line that speaks of it counts.</summary>
    public Second Of(PortSymbol from, PortSymbol to)
    {
        for (var i = _lines.Count - 1; i >= 0; i--)
        {
            if (_lines[i].Routes.Contains(from, to))
            {
                return _lines[i].Latency;
            }
        }
        return default;
    }

    internal void Add(GatheredPairs routes, Second latency)
    {
        Closed.Check(_isClosed);
        routes.Close();
        _lines.Add((routes, latency));
    }

    internal void Close() => _isClosed = true;

    public IEnumerator<(GatheredPairs Routes, Second Latency)> GetEnumerator() => _lines.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
