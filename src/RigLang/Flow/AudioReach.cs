using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Which of a source's channels are in a stereo port's left and right; a mono port has the same in both.</summary>
internal readonly record struct Content(AudioContent Left, AudioContent Right)
{
    public bool IsNone => Left == AudioContent.None && Right == AudioContent.None;
    public bool IsStereo => Left == AudioContent.Left && Right == AudioContent.Right;
    public Content With(Content other) => new(Left | other.Left, Right | other.Right);
    public Content Summed => new(Left | Right, Left | Right);
}

[Flags]
internal enum AudioContent
{
    None = 0,
    Left = 1,
    Right = 2,
    Mono = 4,
}

/// <summary>Follows a source's audio along the arrivals and through the routes of each device, keeping left and right apart.</summary>
internal sealed class AudioReach
{
    private readonly RigWiring _wiring;
    private readonly LinkTable _links;
    private readonly ILookup<PortRef, (Arrival Arrival, Term Term)> _arrivals;
    private readonly Dictionary<PortRef, Content> _at = [];
    private readonly Trail _trail = new();
    private readonly Queue<PortRef> _open = new();

    private AudioReach(RigWiring wiring, LinkTable links, ILookup<PortRef, (Arrival, Term)> arrivals)
    {
        _wiring = wiring;
        _links = links;
        _arrivals = arrivals;
    }

    /// <summary>The arrivals by the output port they come from; worked out once for all expectations.</summary>
    public static ILookup<PortRef, (Arrival, Term)> BySource(RigWiring wiring, LinkTable links) => links.Arrivals
        .SelectMany(a => a.Terms, (a, t) => (a, t))
        .ToLookup(at => PortAt(wiring.Nets, at.t.Seat));

    public static AudioReach From(
        RigWiring wiring, LinkTable links, ILookup<PortRef, (Arrival, Term)> arrivals, DeviceSymbol device, IEnumerable<PortSymbol> ports)
    {
        var reach = new AudioReach(wiring, links, arrivals);
        foreach (var port in ports)
        {
            var start = port.Signal is { IsStereo: true }
                ? new Content(AudioContent.Left, AudioContent.Right)
                : new Content(AudioContent.Mono, AudioContent.Mono);
            var from = new PortRef(device, port);
            reach.Grow(from, start, null, device.At, StepKind.Out);
        }
        while (reach._open.TryDequeue(out var port))
        {
            reach.Follow(port);
        }
        return reach;
    }

    public Content At(PortRef port) => _at.GetValueOrDefault(port);

    /// <inheritdoc cref="Trail.Farthest"/>
    public PortRef? Farthest => _trail.Farthest;

    /// <inheritdoc cref="Trail.WayTo"/>
    public List<Hop> PathTo(PortRef port) => _trail.WayTo(port);

    private void Follow(PortRef port)
    {
        var content = _at[port];
        foreach (var (arrival, term) in _arrivals[port])
        {
            var from = term.Channel switch
            {
                AudioChannel.Right => content.Right,
                // The left jack of a normalled pair, alone, carries the sum.
                AudioChannel.Left when LeftAlone(port) => content.Summed.Left,
                _ => content.Left,
            };
            var to = PortAt(_wiring.Nets, arrival.Seat);
            var arrived = arrival.Channel switch
            {
                AudioChannel.Left when LeftAlone(to) => new Content(from, from),
                AudioChannel.Left => new Content(from, AudioContent.None),
                AudioChannel.Right => new Content(AudioContent.None, from),
                _ => new Content(from, from),
            };
            if (Grow(to, arrived, port, _wiring.Plugged[arrival.Seat]!.Connection.At, StepKind.Cable))
            {
                Through(to);
            }
        }
        foreach (var link in _links.LeavingFrom(port))
        {
            CrossUsb(link, port, link.To);
        }
        foreach (var link in _links.ArrivingAt(port))
        {
            CrossUsb(link, port, link.From);
        }
    }

    /// <summary>USB carries audio both ways, whoever is the host.</summary>
    private void CrossUsb(Link link, PortRef from, PortRef to)
    {
        if (link.Kind == SignalKind.Usb && Grow(to, _at[from], from, link.Hookup.Connection.At, StepKind.Cable))
        {
            Through(to);
        }
    }

    private void Through(PortRef port)
    {
        foreach (var (from, to) in port.Device.Gear!.Routes)
        {
            if (ReferenceEquals(from, port.Port))
            {
                var content = to.Signal is { IsStereo: true } or { Kind: SignalKind.Usb } ? _at[port] : _at[port].Summed;
                var next = new PortRef(port.Device, to);
                Grow(next, content, port, port.Device.At, StepKind.Through);
            }
        }
    }

    private bool Grow(PortRef port, Content content, PortRef? from, Location at, StepKind kind)
    {
        var before = _at.GetValueOrDefault(port);
        var after = before.With(content);
        if (after == before)
        {
            return false;
        }
        _at[port] = after;
        _trail.Note(port, from, at, kind);
        _open.Enqueue(port);
        return true;
    }

    private bool LeftAlone(PortRef port) =>
        port.Port is { Signal.Normalled: true, Jacks.Count: 2 }
        && _wiring.Plugged[port.Device.FirstJack + port.Port.Jacks[1].Index] is null;

    private static PortRef PortAt(Nets nets, int seat) => new(nets.Jack(seat).Device, nets.Jack(seat).Jack.Port);
}
