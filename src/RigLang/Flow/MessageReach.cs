using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>
/// Follows MIDI messages from where they start: along links, through the routes of each device, past its filters. Each
/// port is visited again only when a new kind of message reaches it, so loops come to an end.
/// </summary>
internal sealed class MessageReach
{
    private readonly LinkTable _links;
    private readonly Dictionary<PortRef, (MessageKinds Kinds, int Rank)> _at = [];
    private readonly Trail _trail = new();
    private readonly Queue<PortRef> _open = new();
    private (PortRef Port, PortFilter Filter, MessageKinds Kinds)? _dropped;

    private MessageReach(LinkTable links) => _links = links;

    /// <summary>The first filter met that dropped something wanted.</summary>
    public Hop? Dropped => _dropped is var (port, filter, kinds)
        ? new Hop(filter.At, $"{port} drops {MessageKindNames.Describe(kinds & filter.Drops)}")
        : null;

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

    /// <summary>The ports of a device where messages come in, the first reached first.</summary>
    public IEnumerable<PortRef> ArrivedAt(DeviceSymbol device) => (device.Gear?.Ports ?? [])
        .Where(port => !port.IsOutput || IsUsb(port))
        .Select(port => new PortRef(device, port))
        .Where(_at.ContainsKey)
        .OrderBy(port => _at[port].Rank);

    /// <inheritdoc cref="Trail.WayTo"/>
    public List<Hop> PathTo(PortRef port) => _trail.WayTo(port);

    /// <inheritdoc cref="Trail.Farthest"/>
    public PortRef? Farthest => _trail.Farthest;

    private void Leave(PortRef port, MessageKinds kinds, PortRef? from)
    {
        kinds = PastFilters(port, kinds);
        if (Grow(port, kinds))
        {
            _trail.Note(port, from, port.Device.At, StepKind.Out);
        }
    }

    private void Follow(PortRef port)
    {
        foreach (var link in _links.LeavingFrom(port))
        {
            Cross(link, port, link.To);
        }
        if (IsUsb(port.Port))
        {
            foreach (var link in _links.ArrivingAt(port))
            {
                Cross(link, port, link.From);
            }
        }
    }

    private void Cross(Link link, PortRef from, PortRef to)
    {
        if (link.Kind is SignalKind.Midi or SignalKind.Usb && Grow(to, PastFilters(to, _at[from].Kinds)))
        {
            _trail.Note(to, from, link.Hookup.Connection.At, StepKind.Cable);
            Through(to);
        }
    }

    private void Through(PortRef port)
    {
        foreach (var (from, to) in port.Device.Gear!.Routes)
        {
            if (ReferenceEquals(from, port.Port))
            {
                Leave(new PortRef(port.Device, to), _at[port].Kinds, port);
            }
        }
    }

    private bool Grow(PortRef port, MessageKinds kinds)
    {
        var (before, rank) = _at.GetValueOrDefault(port, (MessageKinds.None, _at.Count));
        if ((before | kinds) == before)
        {
            return false;
        }
        _at[port] = (before | kinds, rank);
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
                    _dropped ??= (port, filter, kinds);
                }
                kinds &= ~filter.Drops;
            }
        }
        return kinds;
    }

    private static bool IsUsb(PortSymbol port) => port.Signal is { Kind: SignalKind.Usb };
}
