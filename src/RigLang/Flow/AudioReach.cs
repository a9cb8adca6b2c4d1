using System.Runtime.InteropServices;
using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Which of a source's channels are in a stereo port's left and right; a mono port has the same in both.</summary>
/// <param name="ByStereoWay">
/// True when one whole way keeps left on the left and right on the right; a mono effect that comes in beside it takes nothing away.
/// </param>
internal readonly record struct Content(AudioContent Left, AudioContent Right, bool ByStereoWay = false)
{
    private const int BitsOfOneSide = 3;
    private const int OneSide = (1 << BitsOfOneSide) - 1;
    private const int StereoWay = 1 << (2 * BitsOfOneSide);

    /// <summary>How far to shift what comes back to an insert: send and return share the jack, and are not the same signal.</summary>
    public const int ReturnShift = 8;

    public bool IsNone => Left == AudioContent.None && Right == AudioContent.None;
    public bool IsStereo => ByStereoWay || (Left == AudioContent.Left && Right == AudioContent.Right);
    public Content Summed => new(Left | Right, Left | Right);

    /// <summary>Both sides as one set.</summary>
    public int Bits => (int)Left | ((int)Right << BitsOfOneSide) | (IsStereo ? StereoWay : 0);

    public static Content Of(int bits) => new(
        (AudioContent)(bits & OneSide), (AudioContent)((bits >> BitsOfOneSide) & OneSide), (bits & StereoWay) != 0);

    /// <summary>What is at a port, whether it goes out there or has come back to an insert.</summary>
    public static Content Anywhere(int bits) => Of((bits | (bits >> ReturnShift)) & ((StereoWay << 1) - 1));
}

[Flags]
internal enum AudioContent
{
    None = 0,
    Left = 1,
    Right = 2,
    Mono = 4,
}

/// <summary>A share of an output that an input hears.</summary>
internal readonly record struct Heard(Arrival Arrival, Term Term);

/// <summary>Follows a source's audio along the arrivals and through the routes of each device, keeping left and right apart.</summary>
internal sealed class AudioReach
{
    private readonly RigWiring _wiring;
    private readonly LinkTable _links;
    private readonly ByPort<Heard> _heard;
    private readonly Trail _trail;

    private readonly Hookup? _without;

    private AudioReach(RigWiring wiring, LinkTable links, ByPort<Heard> heard, Trail trail, Hookup? without)
    {
        _without = without;
        _wiring = wiring;
        _links = links;
        _heard = heard;
        _trail = trail;
    }

    /// <summary>What is heard of each output port; worked out once for all expectations.</summary>
    public static ByPort<Heard> HeardOf(LinkTable links)
    {
        var heard = new List<Heard>(links.Arrivals.Count);
        foreach (var arrival in links.Arrivals)
        {
            foreach (var term in arrival.Terms)
            {
                heard.Add(new Heard(arrival, term));
            }
        }
        return new ByPort<Heard>(links.PortCount, heard, h => links.NumberAt(h.Term.Seat));
    }

    /// <param name="trail">An empty one, to write on.</param>
    /// <param name="side">Of stereo ports, the side that it starts at.</param>
    /// <param name="without">A cable to be thought away.</param>
    public static AudioReach From(
        RigWiring wiring, LinkTable links, ByPort<Heard> heard, Trail trail, DeviceSymbol device, IEnumerable<PortSymbol> ports, Side side = Side.Only, Hookup? without = null)
    {
        var reach = new AudioReach(wiring, links, heard, trail, without);
        foreach (var port in ports)
        {
            var start = port.Signal is { IsStereo: true }
                ? new Content(side == Side.Right ? AudioContent.None : AudioContent.Left, side == Side.Left ? AudioContent.None : AudioContent.Right)
                : new Content(AudioContent.Mono, AudioContent.Mono);
            if (LinkTable.NumberOf(device, port) is >= 0 and var number)
            {
                reach._trail.Grow(number, start.Bits, from: -1, cable: null);
            }
        }
        while (reach._trail.TryNext(out var port))
        {
            reach.Follow(port);
        }
        return reach;
    }

    public Content At(PortRef port) => Content.Anywhere(_trail.BitsAt(LinkTable.NumberOf(port.Device, port.Port)));

    /// <inheritdoc cref="Trail.WayTo"/>
    public IReadOnlyList<WayStep> WayTo(PortRef port) => _trail.WayTo(LinkTable.NumberOf(port.Device, port.Port));

    private void Follow(int port)
    {
        var content = Content.Of(_trail.BitsAt(port));
        foreach (var (arrival, term) in _heard[port])
        {
            var from = term.Channel switch
            {
                AudioChannel.Right => content.Right,
                // The left jack of a normalled pair, alone, carries the sum.
                AudioChannel.Left when LeftAlone(_links.PortAt(port)) => content.Summed.Left,
                _ => content.Left,
            };
            var to = _links.NumberAt(arrival.Seat);
            var arrived = arrival.Channel switch
            {
                AudioChannel.Left when LeftAlone(_links.PortAt(to)) => new Content(from, from),
                AudioChannel.Left => new Content(from, AudioContent.None, content.IsStereo && term.Channel == AudioChannel.Left && HearsRightToo(port, to)),
                AudioChannel.Right => new Content(AudioContent.None, from),
                _ => new Content(from, from),
            };
            Enter(to, arrived, port, _wiring.Plugged[arrival.Seat]!);
        }
        // USB carries audio both ways, whoever is the host.
        foreach (var link in _links.From[port])
        {
            CrossUsb(link, port, link.To);
        }
        foreach (var link in _links.To[port])
        {
            CrossUsb(link, port, link.From);
        }
    }

    /// <summary>True when the right of this output is heard on the right of that input.</summary>
    private bool HearsRightToo(int port, int to)
    {
        foreach (var (arrival, term) in _heard[port])
        {
            if (arrival.Channel == AudioChannel.Right && term.Channel == AudioChannel.Right && _links.NumberAt(arrival.Seat) == to)
            {
                return true;
            }
        }
        return false;
    }

    private void CrossUsb(Link link, int from, PortRef to)
    {
        if (link.Kind == SignalKind.Usb)
        {
            Enter(LinkTable.NumberOf(to.Device, to.Port), Content.Of(_trail.BitsAt(from)), from, link.Hookup);
        }
    }

    /// <summary>Comes in at a port, and goes on through the device.</summary>
    private void Enter(int number, Content content, int from, Hookup cable)
    {
        if (ReferenceEquals(cable, _without))
        {
            return;
        }
        var port = _links.PortAt(number);
        var shift = port.Port.Signal is { Kind: SignalKind.Insert } ? Content.ReturnShift : 0;
        if (!_trail.Grow(number, content.Bits << shift, from, cable))
        {
            return;
        }
        var here = Content.Of(_trail.BitsAt(number) >> shift);
        var outputs = port.Device.Gear!.Routes.From(port.Port);
        if (outputs.Count > Many && !IsNew(port.Device, outputs, here))
        {
            return;
        }
        foreach (var output in outputs)
        {
            if (LinkTable.NumberOf(port.Device, output) is >= 0 and var next)
            {
                var passed = output.Signal is { IsStereo: true } or { Kind: SignalKind.Usb } ? here : here.Summed;
                _trail.Grow(next, passed.Bits, number, cable: null);
            }
        }
    }

    /// <summary>Of a box with more ways than this out of an input it is kept what has gone out by them.</summary>
    private const int Many = 16;

    /// <summary>What has gone out at outputs that several inputs share: to send it again for each of them would change nothing.</summary>
    private Dictionary<(DeviceSymbol Device, IReadOnlyList<PortSymbol> Outputs), int>? _sent;

    private bool IsNew(DeviceSymbol device, IReadOnlyList<PortSymbol> outputs, Content content)
    {
        ref var sent = ref CollectionsMarshal.GetValueRefOrAddDefault(_sent ??= [], (device, outputs), out _);
        var before = sent;
        sent |= content.Bits;
        return sent != before;
    }

    private bool LeftAlone(PortRef port) =>
        port.Port is { Signal.Normalled: true, Jacks.Count: 2 }
        && _wiring.Plugged[port.Device.FirstJack + port.Port.Jacks[1].Index] is null;
}
