using RigLang.Connectors;
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
    private readonly Trail _trail;
    private (PortRef Port, PortFilter Filter, MessageKinds Kinds)? _dropped;

    private MessageReach(LinkTable links, Trail trail)
    {
        _links = links;
        _trail = trail;
    }

    /// <summary>The first filter met that dropped something wanted.</summary>
    public Hop? Dropped => _dropped is var (port, filter, kinds)
        ? new Hop(filter.At, $"{port} drops {MessageKindNames.Describe(kinds & filter.Drops)}")
        : null;

    /// <inheritdoc cref="Trail.Devices"/>
    public IReadOnlyCollection<DeviceSymbol> Devices => _trail.Devices;

    /// <inheritdoc cref="Trail.Farthest"/>
    public PortRef? Farthest => _trail.Farthest;

    /// <param name="trail">An empty one, to write on.</param>
    public static MessageReach From(LinkTable links, Trail trail, DeviceSymbol device, IEnumerable<PortSymbol> ports, MessageKinds kinds)
    {
        var reach = new MessageReach(links, trail);
        foreach (var port in ports)
        {
            reach.Leave(device, port, kinds, from: -1);
        }
        while (reach._trail.TryNext(out var port))
        {
            reach.Follow(port);
        }
        return reach;
    }

    /// <summary>The ports of a device where messages come in, the first reached first.</summary>
    public IEnumerable<PortRef> ArrivedAt(DeviceSymbol device)
    {
        foreach (var number in _trail.ReachedOf(device))
        {
            if (_links.PortAt(number) is var port && (!port.Port.IsOutput || IsUsb(port.Port)))
            {
                yield return port;
            }
        }
    }

    /// <inheritdoc cref="Trail.WayTo"/>
    public IReadOnlyList<Hop> WayTo(PortRef port) => _trail.WayTo(LinkTable.NumberOf(port.Device, port.Port), namesDevice: false);

    private void Leave(DeviceSymbol device, PortSymbol port, MessageKinds kinds, int from)
    {
        if (LinkTable.NumberOf(device, port) is >= 0 and var number)
        {
            _trail.Grow(number, (int)PastFilters(new PortRef(device, port), kinds), from, cable: null);
        }
    }

    private void Follow(int port)
    {
        foreach (var link in _links.From[port])
        {
            Cross(link, port, link.To);
        }
        if (IsUsb(_links.PortAt(port).Port))
        {
            foreach (var link in _links.To[port])
            {
                Cross(link, port, link.From);
            }
        }
    }

    private void Cross(Link link, int from, PortRef to)
    {
        var kinds = PastFilters(to, (MessageKinds)_trail.BitsAt(from) & CarriedBy(link.Kind));
        var number = LinkTable.NumberOf(to.Device, to.Port);
        if (_trail.Grow(number, (int)kinds, from, link.Hookup))
        {
            Through(to, number);
        }
    }

    /// <summary>A pulse is clock and nothing else; DIN sync has a wire for clock and one that says run.</summary>
    private static MessageKinds CarriedBy(SignalKind kind) => kind switch
    {
        SignalKind.Midi or SignalKind.Usb => MessageKinds.All,
        SignalKind.Pulse => MessageKinds.Clock,
        SignalKind.DinSync => MessageKinds.Clock | MessageKinds.Start | MessageKinds.Stop,
        _ => MessageKinds.None,
    };

    private void Through(PortRef port, int number)
    {
        foreach (var (from, to) in port.Device.Gear!.Routes)
        {
            if (ReferenceEquals(from, port.Port))
            {
                Leave(port.Device, to, (MessageKinds)_trail.BitsAt(number), number);
            }
        }
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
