using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>
/// Follows MIDI messages from where they start: along links, through the routes of each device, past its filters. Each
/// port is visited again only when a new kind of message reaches it, so loops come to an end.
/// </summary>
internal sealed class MessageReach
{
    private readonly LinkTable _links;
    private readonly Dictionary<PortRef, MessageKinds> _at = [];
    private readonly Dictionary<PortRef, (PortRef? From, Hop Hop)> _cameFrom = [];
    private readonly Queue<PortRef> _open = new();

    private MessageReach(LinkTable links) => _links = links;

    /// <summary>Filters that dropped something wanted, in the order met.</summary>
    public List<Hop> Dropped { get; } = [];

    /// <summary>Ports where messages come in, and which kinds.</summary>
    public IEnumerable<(PortRef Port, MessageKinds Kinds)> Arrived => _at.Where(e => !e.Key.Port.IsOutput || IsUsb(e.Key)).Select(e => (e.Key, e.Value));

    public static MessageReach From(LinkTable links, DeviceSymbol device, IEnumerable<PortSymbol> ports, MessageKinds kinds)
    {
        var reach = new MessageReach(links);
        foreach (var port in ports)
        {
            reach.Leave(new PortRef(device, port), kinds, null);
        }
        while (reach._open.TryDequeue(out var port))
        {
            reach.Follow(port);
        }
        return reach;
    }

    public MessageKinds KindsAt(PortRef port) => _at.GetValueOrDefault(port);

    /// <summary>The way to a port that was reached, its start first.</summary>
    public List<Hop> PathTo(PortRef port)
    {
        var hops = new List<Hop>();
        for (PortRef? at = port; at is { } here && _cameFrom.TryGetValue(here, out var came); at = came.From)
        {
            hops.Add(came.Hop);
        }
        hops.Reverse();
        return hops;
    }

    /// <summary>The last port that anything reached: the end of the way when nothing arrives.</summary>
    public PortRef? Farthest => _at.Count == 0 ? null : _at.Keys.Last();

    private void Leave(PortRef port, MessageKinds kinds, PortRef? from)
    {
        kinds = PastFilters(port, kinds);
        if (Grow(port, kinds))
        {
            _cameFrom.TryAdd(port, (from, new Hop(port.Device.At, $"{port}")));
        }
    }

    private void Follow(PortRef port)
    {
        var kinds = _at[port];
        foreach (var link in _links.LeavingFrom(port).Concat(IsUsb(port) ? _links.ArrivingAt(port) : []))
        {
            if (link.Kind is SignalKind.Midi or SignalKind.Usb)
            {
                var to = link.From == port ? link.To : link.From;
                if (Grow(to, PastFilters(to, kinds)))
                {
                    _cameFrom.TryAdd(to, (port, new Hop(link.Hookup.Connection.At, $"{port} to {to}")));
                    Through(to);
                }
            }
        }
    }

    private void Through(PortRef port)
    {
        foreach (var (from, to) in port.Device.Gear!.Routes)
        {
            if (ReferenceEquals(from, port.Port))
            {
                Leave(new PortRef(port.Device, to), _at[port], port);
            }
        }
    }

    private bool Grow(PortRef port, MessageKinds kinds)
    {
        var before = _at.GetValueOrDefault(port);
        if ((before | kinds) == before)
        {
            return false;
        }
        _at[port] = before | kinds;
        _open.Enqueue(port);
        return true;
    }

    private MessageKinds PastFilters(PortRef port, MessageKinds kinds)
    {
        foreach (var filter in port.Device.Filters)
        {
            if (ReferenceEquals(filter.Port, port.Port))
            {
                if ((kinds & filter.Drops) != MessageKinds.None)
                {
                    Dropped.Add(new Hop(filter.At, $"{port} drops {MessageKindNames.Describe(kinds & filter.Drops)}"));
                }
                kinds &= ~filter.Drops;
            }
        }
        return kinds;
    }

    private static bool IsUsb(PortRef port) => port.Port.Signal is { Kind: SignalKind.Usb };
}
