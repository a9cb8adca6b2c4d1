using System.Collections;

namespace RigLang.Symbols;

/// <summary>
/// Which ports of a gear go on to which: for each port the set of those behind it. Ports that go on to the same share one set, so that a line with
/// a hundred names on either side is kept as two lists of a hundred, and not as ten thousand pairs. Closed with the gear's block.
/// </summary>
public sealed class GatheredPairs : IEnumerable<(PortSymbol From, PortSymbol To)>
{
    // Made when the first route comes: most gear has none of one kind or the other.
    private Dictionary<PortSymbol, PortSet>? _behind;
    private List<PortSymbol>? _order;
    private PortGroup[]? _groups;
    private bool _isClosed;

    /// <summary>How many pairs there are.</summary>
    public int Count { get; private set; }

    internal bool IsClosed => _isClosed;

    /// <summary>The ports behind one, in the order in which the lines name them.</summary>
    public IReadOnlyList<PortSymbol> From(PortSymbol port) => _behind?.GetValueOrDefault(port)?.Ports ?? [];

    /// <summary>The ports before one, in no particular order of the lines.</summary>
    public IEnumerable<PortSymbol> To(PortSymbol port) => GroupsTo(port).SelectMany(group => group.From);

    public bool Contains(PortSymbol from, PortSymbol to) => _behind is not null && _behind.TryGetValue(from, out var behind) && behind.Contains(to);

    /// <summary>The pairs as sets: each port before is in one of them, with all others that go on to the same ports.</summary>
    public IReadOnlyList<PortGroup> Groups => _groups ??= MakeGroups();

    /// <summary>Those of the groups that a port is behind.</summary>
    public IEnumerable<PortGroup> GroupsTo(PortSymbol port) => Groups.Where(group => group.Leads(port));

    /// <summary>Every one of these goes on to every one of those. What is said already is not said twice.</summary>
    internal void Add(IReadOnlyList<PortSymbol> from, IReadOnlyList<PortSymbol> to)
    {
        Closed.Check(_isClosed);
        if (to.Count == 0)
        {
            return;
        }
        _groups = null;
        _order ??= [];
        _behind ??= new(ReferenceEqualityComparer.Instance);
        var whole = new PortSet(to);
        // Ports with the same set before have the same set after.
        var grown = new Dictionary<PortSet, PortSet>(ReferenceEqualityComparer.Instance);
        foreach (var port in from)
        {
            if (!_behind.TryGetValue(port, out var before))
            {
                _order.Add(port);
                _behind[port] = whole;
                Count += whole.Ports.Count;
                continue;
            }
            if (!grown.TryGetValue(before, out var after))
            {
                grown[before] = after = before.With(to);
            }
            _behind[port] = after;
            Count += after.Ports.Count - before.Ports.Count;
        }
    }

    internal void Close()
    {
        _isClosed = true;
        _groups ??= MakeGroups();
    }

    public IEnumerator<(PortSymbol From, PortSymbol To)> GetEnumerator()
    {
        foreach (var from in _order ?? [])
        {
            foreach (var to in _behind![from].Ports)
            {
                yield return (from, to);
            }
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    private PortGroup[] MakeGroups()
    {
        if (_order is null || _behind is null)
        {
            return [];
        }
        var groups = new Dictionary<PortSet, List<PortSymbol>>(ReferenceEqualityComparer.Instance);
        foreach (var port in _order)
        {
            if (!groups.TryGetValue(_behind[port], out var members))
            {
                groups[_behind[port]] = members = [];
            }
            members.Add(port);
        }
        return [.. groups.Select(group => new PortGroup(group.Value, group.Key))];
    }
}

/// <summary>Ports that go on to the same ports: every one of <see cref="From"/> to every one of <see cref="To"/>.</summary>
public sealed class PortGroup
{
    private readonly PortSet _behind;

    internal PortGroup(IReadOnlyList<PortSymbol> from, PortSet behind) => (From, _behind) = (from, behind);

    public IReadOnlyList<PortSymbol> From { get; }

    public IReadOnlyList<PortSymbol> To => _behind.Ports;

    public bool Leads(PortSymbol to) => _behind.Contains(to);
}

/// <summary>Ports, each once, in order.</summary>
internal sealed class PortSet
{
    /// <summary>Fewer are found faster by looking at each.</summary>
    private const int Few = 8;

    private readonly HashSet<PortSymbol>? _known;

    public PortSet(IReadOnlyList<PortSymbol> ports)
    {
        Ports = ports.Count == 1 ? ports : [.. ports.Distinct()];
        _known = Ports.Count > Few ? new HashSet<PortSymbol>(Ports) : null;
    }

    public IReadOnlyList<PortSymbol> Ports { get; }

    public bool Contains(PortSymbol port) => _known?.Contains(port) ?? IsAmong(port);

    /// <summary>This set, or a larger one where some are new.</summary>
    public PortSet With(IReadOnlyList<PortSymbol> more) => more.All(Contains) ? this : new PortSet([.. Ports, .. more]);

    private bool IsAmong(PortSymbol port)
    {
        for (var i = 0; i < Ports.Count; i++)
        {
            if (ReferenceEquals(Ports[i], port))
            {
                return true;
            }
        }
        return false;
    }
}
