using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>A step of one channel of audio: along a cable, or inside a device.</summary>
/// <param name="Gain">As a factor of amplitude; negative where the polarity turns.</param>
/// <param name="Cable">Null inside a device.</param>
internal readonly record struct AudioEdge(int From, int To, float Gain, Hookup? Cable, AudioOpen Open);

/// <summary>How sure it is that a way is open.</summary>
internal enum AudioOpen : byte
{
    Always,

    /// <summary>One of several that are open one at a time, or as the player chooses and has not said.</summary>
    ByChoice,

    /// <summary>From the USB of a computer to its other jacks: as its programs are told to.</summary>
    ByProgram,
}

/// <summary>
/// Where audio can go, channel by channel. Each port that carries audio has lanes: one where it is mono, two where it is stereo, and for USB as many
/// as any gear of the rig numbers, the first two being the pair that a computer plays on. A port has its lanes twice, for what comes in and for what
/// goes out: an insert gives and takes at one jack, and USB goes both ways. What inputs and outputs of a device have in common goes through a
/// knot of two lanes between them, so that a hundred inputs to a hundred outputs are two hundred steps and not ten thousand.
/// </summary>
internal sealed class AudioMap
{
    private readonly LinkTable _links;

    /// <summary>For each port number, its first lane; the end of the last behind them.</summary>
    private readonly int[] _firstLane;
    private readonly int[] _portOfLane;
    private readonly ByPort<AudioEdge> _from;
    private readonly ByPort<AudioEdge> _to;

    private AudioMap(LinkTable links, int[] firstLane, int laneCount, List<AudioEdge> edges)
    {
        _links = links;
        _firstLane = firstLane;
        PortLanes = firstLane[^1];
        Count = laneCount;
        _portOfLane = new int[PortLanes];
        for (var port = 0; port + 1 < firstLane.Length; port++)
        {
            Array.Fill(_portOfLane, port, firstLane[port], firstLane[port + 1] - firstLane[port]);
        }
        HasPrograms = edges.Exists(e => e.Open == AudioOpen.ByProgram);
        _from = new ByPort<AudioEdge>(Count, edges, e => e.From);
        _to = new ByPort<AudioEdge>(Count, edges, e => e.To);
    }

    /// <summary>True when a computer passes anything on from one jack to another.</summary>
    public bool HasPrograms { get; }

    /// <summary>How many lanes there are, those of knots among them.</summary>
    public int Count { get; }

    /// <summary>Lanes from this number on belong to no port.</summary>
    public int PortLanes { get; }

    public ReadOnlySpan<AudioEdge> From(int lane) => _from[lane];

    public ReadOnlySpan<AudioEdge> To(int lane) => _to[lane];

    /// <summary>The port of a lane; null in a knot.</summary>
    public PortRef? PortOf(int lane) => lane < PortLanes ? _links.PortAt(_portOfLane[lane]) : null;

    /// <summary>True for a lane of what comes in at its port.</summary>
    public bool IsIn(int lane) => lane < PortLanes && lane - _firstLane[_portOfLane[lane]] < Width(_portOfLane[lane]);

    /// <summary>The lanes of what comes in at a port, left before right; none for a port without audio.</summary>
    public Lanes In(DeviceSymbol device, PortSymbol port) => LinkTable.NumberOf(device, port) is >= 0 and var number ? new(_firstLane[number], Width(number)) : default;

    /// <summary>The lanes of what goes out at a port.</summary>
    public Lanes Out(DeviceSymbol device, PortSymbol port) =>
        LinkTable.NumberOf(device, port) is >= 0 and var number ? new(_firstLane[number] + Width(number), Width(number)) : default;

    /// <summary>So many inputs for sound that go on make a mixer. Source: common practice.</summary>
    public const int Mixer = 3;

    /// <summary>How many ports of a device take sound that goes on inside it.</summary>
    public int InputsOf(DeviceSymbol device)
    {
        var count = 0;
        foreach (var port in device.Gear?.Ports ?? [])
        {
            count += port is { IsOutput: false, Signal.Kind: SignalKind.Audio } && In(device, port) is { Count: > 0 } lanes && !From(lanes.First).IsEmpty ? 1 : 0;
        }
        return count;
    }

    /// <summary>The outputs that what comes in at a port goes on to inside its device, by way of busses too.</summary>
    public HashSet<PortSymbol> OutputsBehind(PortRef port)
    {
        var lanes = In(port.Device, port.Port);
        var inside = Spreading.From(Enumerable.Range(lanes.First, lanes.Count), (lane, into) =>
        {
            foreach (ref readonly var edge in From(lane))
            {
                if (edge.Cable is null)
                {
                    into.Add(edge.To);
                }
            }
        });
        return [.. inside.Where(lane => !lanes.Contains(lane)).Select(PortOf).OfType<PortRef>().Where(to => !to.Port.IsBus).Select(to => to.Port)];
    }

    private int Width(int number) => (_firstLane[number + 1] - _firstLane[number]) / 2;

    public static AudioMap Of(RigNames names, RigWiring wiring, LinkTable links)
    {
        var firstLane = LanesOf(names, links);
        var cables = new AudioCables(wiring, links, firstLane);
        var edges = cables.Edges();
        var inside = new AudioInside(wiring, firstLane);
        foreach (var device in names.Devices)
        {
            inside.Add(device);
        }
        edges.AddRange(inside.Edges);
        return new AudioMap(links, firstLane, inside.LaneCount, edges);
    }

    private static int[] LanesOf(RigNames names, LinkTable links)
    {
        var first = new int[links.PortCount + 1];
        var usb = StreamWidth(names);
        foreach (var device in names.Devices)
        {
            if (device.Gear is not { } gear)
            {
                continue;
            }
            foreach (var port in gear.Ports)
            {
                Put(device, port, usb);
            }
            foreach (var bus in gear.Busses)
            {
                Put(device, bus, usb);
            }
        }
        for (var port = 0; port + 1 < first.Length; port++)
        {
            first[port + 1] += first[port];
        }
        return first;

        void Put(DeviceSymbol device, PortSymbol port, int usb)
        {
            if (LinkTable.NumberOf(device, port) is >= 0 and var number)
            {
                first[number + 1] = 2 * WidthOf(port.Signal, usb);
            }
        }
    }

    private static int WidthOf(Signal? signal, int usb) => signal switch
    {
        { Kind: SignalKind.Audio, IsStereo: true } => 2,
        { Kind: SignalKind.Audio or SignalKind.Insert } => 1,
        { Kind: SignalKind.Usb, Usb: not UsbRole.Charger } => usb,
        _ => 0,
    };

    /// <summary>How many channels a USB stream has here: all that any gear numbers, and two at least.</summary>
    private static int StreamWidth(RigNames names)
    {
        var width = 2;
        foreach (var gear in names.Devices.Select(d => d.Gear).OfType<GearSymbol>().Distinct())
        {
            foreach (var (from, to, first) in gear.Streams)
            {
                width = Math.Max(width, first + (IsStereo(from) || IsStereo(to) ? 1 : 0));
            }
            foreach (var sound in gear.Sounds.Values)
            {
                width = Math.Max(width, sound.Channels is var (_, last) ? last : 0);
            }
        }
        return width;

        static bool IsStereo(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio, IsStereo: true };
    }
}

/// <summary>Lanes that stand side by side: those of one port, one way.</summary>
internal readonly record struct Lanes(int First, int Count)
{
    public int this[int channel] => First + channel;

    public bool Contains(int lane) => lane >= First && lane < First + Count;
}

/// <summary>What audio does along cables: what every plugged input hears of which output, and USB both ways.</summary>
internal sealed class AudioCables(RigWiring wiring, LinkTable links, int[] firstLane)
{
    /// <summary>
    /// Of left and right that go out at one jack together, so that what both have stays as loud as it is. Source: common practice; how much a gear gives at
    /// its left jack alone is not said by its panel.
    /// </summary>
    private const float Half = 0.5f;

    private readonly List<AudioEdge> _edges = [];

    public List<AudioEdge> Edges()
    {
        foreach (var arrival in links.Arrivals)
        {
            var cable = wiring.Plugged[arrival.Seat]!;
            var to = links.NumberAt(arrival.Seat);
            foreach (var term in arrival.Terms)
            {
                Add(term, arrival.Channel, to, cable);
            }
        }
        foreach (var link in links.Links)
        {
            if (link.Kind == SignalKind.Usb)
            {
                AddStream(link.From, link.To, link.Hookup);
                AddStream(link.To, link.From, link.Hookup);
            }
        }
        return _edges;
    }

    private void Add(Term term, AudioChannel channel, int to, Hookup cable)
    {
        var from = links.NumberAt(term.Seat);
        var (width, far) = (Width(from), Width(to));
        if (width == 0 || far == 0)
        {
            return;
        }
        var gain = (float)term.Amount;
        // The left jack of a normalled pair, alone, carries the sum, or feeds both sides.
        int[] starts = width == 2 && term.Channel == AudioChannel.Left && IsLeftAlone(from) ? [0, 1] : [width == 2 && term.Channel == AudioChannel.Right ? 1 : 0];
        int[] ends = far == 2 && channel == AudioChannel.Left && IsLeftAlone(to) ? [0, 1] : [far == 2 && channel == AudioChannel.Right ? 1 : 0];
        foreach (var start in starts)
        {
            foreach (var end in ends)
            {
                _edges.Add(new AudioEdge(firstLane[from] + width + start, firstLane[to] + end, starts.Length == 2 ? gain * Half : gain, cable, AudioOpen.Always));
            }
        }
    }

    private void AddStream(PortRef from, PortRef to, Hookup cable)
    {
        var (out_, in_) = (LinkTable.NumberOf(from.Device, from.Port), LinkTable.NumberOf(to.Device, to.Port));
        var width = Width(out_);
        for (var channel = 0; channel < Math.Min(width, Width(in_)); channel++)
        {
            _edges.Add(new AudioEdge(firstLane[out_] + width + channel, firstLane[in_] + channel, 1, cable, AudioOpen.Always));
        }
    }

    private int Width(int port) => (firstLane[port + 1] - firstLane[port]) / 2;

    private bool IsLeftAlone(int number) =>
        links.PortAt(number) is { Port: { Signal.Normalled: true, Jacks.Count: 2 } port, Device: { } device } && wiring.Plugged[device.FirstJack + port.Jacks[1].Index] is null;
}
