using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>A port of a device on the table.</summary>
public readonly record struct PortRef(DeviceSymbol Device, PortSymbol Port)
{
    public override string ToString() => $"{Device.Name}.{Port.Name}";
}

/// <summary>A signal that really gets from one port to another, as the nets show it.</summary>
/// <param name="Kind">What the receiving port takes it for.</param>
public sealed record Link(PortRef From, PortRef To, SignalKind Kind, Hookup Hookup);

/// <summary>
/// Every working port-to-port link, read off the nets: a MIDI loop that closes, a clock that meets its input, supply
/// contacts that meet a load the right way round, an output that an audio input hears.
/// </summary>
public sealed class LinkTable
{
    private readonly Nets _nets;

    private LinkTable(Nets nets, List<Link> links, List<Arrival> arrivals)
    {
        _nets = nets;
        Links = links;
        Arrivals = arrivals;
    }

    public IReadOnlyList<Link> Links { get; }

    /// <summary>What every plugged audio input hears.</summary>
    public IReadOnlyList<Arrival> Arrivals { get; }

    public IReadOnlyList<Link> ArrivingAt(PortRef port) => To.ListOf(NumberOf(port.Device, port.Port));

    /// <summary>The links by the port they leave.</summary>
    internal ByPort<Link> From => field ??= new ByPort<Link>(PortCount, Links, link => NumberOf(link.From.Device, link.From.Port));

    /// <summary>The links by the port they arrive at.</summary>
    internal ByPort<Link> To => field ??= new ByPort<Link>(PortCount, Links, link => NumberOf(link.To.Device, link.To.Port));

    /// <summary>Above every port's number.</summary>
    internal int PortCount => _nets.SeatCount;

    /// <summary>A port's number among the rig's: that of its first jack. -1 for a port without a jack, which nothing can reach.</summary>
    internal static int NumberOf(DeviceSymbol device, PortSymbol port) => port.Jacks.Count == 0 ? -1 : device.FirstJack + port.Jacks[0].Index;

    /// <summary>The number of the port that a jack belongs to.</summary>
    internal int NumberAt(int seat) => NumberOf(_nets.Jack(seat).Device, _nets.Jack(seat).Jack.Port);

    internal PortRef PortAt(int number) => new(_nets.Jack(number).Device, _nets.Jack(number).Jack.Port);

    public int Count(SignalKind kind) => Links.Count(l => l.Kind == kind);

    public static LinkTable Of(RigWiring wiring)
    {
        var links = new List<Link>();
        var arrivals = new List<Arrival>();
        for (var seat = 0; seat < wiring.Nets.SeatCount; seat++)
        {
            if (wiring.Plugged[seat] is { } hookup)
            {
                FindLinks(wiring, seat, hookup, links, arrivals);
            }
        }
        return new LinkTable(wiring.Nets, links, arrivals);
    }

    private static void FindLinks(RigWiring wiring, int seat, Hookup hookup, List<Link> links, List<Arrival> arrivals)
    {
        var nets = wiring.Nets;
        var jack = nets.Jack(seat);
        if (jack.Jack.Port.Signal is not { } signal || jack.Jack.Port.IsPassive)
        {
            return;
        }
        switch (signal.Kind)
        {
            case SignalKind.Audio or SignalKind.Insert:
                foreach (var arrival in Wiring.Arrivals.At(nets, seat))
                {
                    arrivals.Add(arrival);
                    foreach (var term in arrival.Terms)
                    {
                        AddOnce(term.Seat, SignalKind.Audio);
                    }
                }
                break;
            case SignalKind.Midi:
                if (!IsGrounded(Role.MidiSource) && !IsGrounded(Role.MidiSink))
                {
                    AddIfBothMeet(Role.MidiSource, Role.MidiSink, SignalKind.Midi);
                }
                break;
            case SignalKind.Pulse:
                AddIfMet(Role.Pulse, SignalKind.Pulse);
                AddIfDriven(Role.Pulse, Role.Control, SignalKind.Control);
                break;
            case SignalKind.Control:
                AddIfMet(Role.Control, SignalKind.Control);
                // Clock pulses trigger.
                AddIfDriven(Role.Control, Role.Pulse, SignalKind.Control);
                break;
            case SignalKind.DinSync:
                AddIfBothMeet(Role.SyncRun, Role.SyncClock, SignalKind.DinSync);
                break;
            case SignalKind.Dc:
                AddIfBothMeet(Role.Plus, Role.Minus, SignalKind.Dc);
                if (signal.Polarity == Polarity.Either)
                {
                    AddIfBothMeet(Role.Plus, Role.Minus, SignalKind.Dc, swapped: true);
                }
                break;
            case SignalKind.Ac:
                AddIfMet(Role.Ac, SignalKind.Ac);
                break;
            case SignalKind.Mains:
                AddIfBothMeet(Role.Line, Role.Neutral, SignalKind.Mains);
                break;
            case SignalKind.Usb:
                AddIfBothMeet(Role.DataPlus, Role.DataMinus, SignalKind.Usb);
                AddIfBothMeet(Role.Plus, Role.Minus, SignalKind.Dc);
                break;
        }

        void AddIfMet(Role role, SignalKind kind) => AddIfDriven(role, role, kind);

        void AddIfDriven(Role role, Role driving, SignalKind kind)
        {
            if (DriverOf(role, driving) is >= 0 and var driver)
            {
                AddOnce(nets.SeatOf(driver), kind);
            }
        }

        void AddIfBothMeet(Role first, Role second, SignalKind kind, bool swapped = false)
        {
            if (DriverOf(first, swapped ? second : first) is >= 0 and var a
                && DriverOf(second, swapped ? first : second) is >= 0 and var b && nets.SeatOf(a) == nets.SeatOf(b))
            {
                AddOnce(nets.SeatOf(a), kind);
            }
        }

        bool IsGrounded(Role role)
        {
            for (var i = 0; i < jack.Jack.Roles.Count; i++)
            {
                if (jack.Jack.Roles[i].Role == role)
                {
                    return nets.IsGrounded(nets.Contact(seat, i));
                }
            }
            return false;
        }

        int DriverOf(Role role, Role driving)
        {
            for (var i = 0; i < jack.Jack.Roles.Count; i++)
            {
                if (jack.Jack.Roles[i].Role == role && jack.Jack.Roles[i].Drive == Drive.In)
                {
                    return nets.Find(nets.Contact(seat, i), driving, Drive.Out);
                }
            }
            return -1;
        }

        void AddOnce(int fromSeat, SignalKind kind)
        {
            var from = nets.Jack(fromSeat);
            var link = new Link(new PortRef(from.Device, from.Jack.Port), new PortRef(jack.Device, jack.Jack.Port), kind, hookup);
            // A stereo pair is one link: the jacks of a port stand beside one another.
            for (var i = links.Count - 1; i >= 0 && links[i].To == link.To; i--)
            {
                if (links[i].From == link.From && links[i].Kind == kind)
                {
                    return;
                }
            }
            links.Add(link);
        }
    }
}
