using System.Collections;

namespace RigLang.Symbols;

/// <summary>How much louder what takes a route comes out of it, in dB, where the gear says so: line by line, as latencies are kept.</summary>
public sealed class GatheredGains : IEnumerable<(GatheredPairs Routes, double Decibels)>
{
    private readonly List<(GatheredPairs Routes, double Decibels)> _lines = [];
    private bool _isClosed;

    internal bool IsClosed => _isClosed;

    /// <summary>Of a route; 0 where the gear does not say. The last line that speaks of it counts.</summary>
    public double Of(PortSymbol from, PortSymbol to)
    {
        for (var i = _lines.Count - 1; i >= 0; i--)
        {
            if (_lines[i].Routes.Contains(from, to))
            {
                return _lines[i].Decibels;
            }
        }
        return 0;
    }

    internal void Add(GatheredPairs routes, double decibels)
    {
        Closed.Check(_isClosed);
        routes.Close();
        _lines.Add((routes, decibels));
    }

    internal void Close() => _isClosed = true;

    public IEnumerator<(GatheredPairs Routes, double Decibels)> GetEnumerator() => _lines.GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
