using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>How something would get from one node to another that does not get there now.</summary>
internal enum GapKind
{
    None,
    Unsound,
    Silent,
    NotCarried,
    NoRoute,
    ThruOff,
    Closed,
    ToHub,
    FromHub,
}

/// <param name="Cost">0 where it does get there; else how much would have to be changed, see <see cref="GapMap"/>.</param>
internal readonly record struct Gap(int To, int Cost, GapKind Kind, Hookup? Hookup);

/// <summary>
/// All ways that something takes in a rig, and all that it could take if a cable were plugged in, a setting changed or a route there.
/// Nodes are those of <see cref="MidiGraph"/>, two a port, for what comes in and what goes out; behind them one hub for each kind of
/// signal, over which any output could be plugged into any input of its kind.
/// </summary>
internal abstract class GapMap
{
    // What a change costs, so that the fewest and smallest are found. Source: common practice, what a player would try first.
    public const int OfSetting = 10;

    /// <summary>A part on the very channel that a map moves away is set so on purpose: the map is to blame.</summary>
    public const int OfMap = 9;
    protected const int OfCableThatIsThere = 8;
    protected const int OfFreeJack = 10;
    protected const int OfTakenJack = 40;
    protected const int OfRoute = 35;
    public const int OfOtherGear = 60;

    private readonly Rig _rig;
    private readonly ByPort<(int From, Gap Gap)> _gaps;
    private readonly int _hubs;

    protected GapMap(Rig rig)
    {
        _rig = rig;
        _hubs = 2 * rig.Links.PortCount;
        var gaps = new List<(int, Gap)>();
        AddCables(gaps);
        AddHubs(gaps);
        _gaps = new ByPort<(int, Gap)>(_hubs + HubCount, gaps, g => g.Item1);
    }

    /// <summary>Two for each kind of signal: USB from hosts to devices, and back.</summary>
    private static int HubCount => 2 * (int)(Enum.GetValues<SignalKind>().Max() + 1);

    public bool IsHub(int node) => node >= _hubs;

    public PortRef PortOf(int node) => _rig.Links.PortAt(node / 2);

    /// <summary>The cable in a port; null for a free one.</summary>
    public Hookup? PluggedAt(PortRef port)
    {
        foreach (var jack in port.Port.Jacks)
        {
            if (_rig.Wiring.Plugged[port.Device.FirstJack + jack.Index] is { } hookup)
            {
                return hookup;
            }
        }
        return null;
    }

    /// <summary>Everywhere a kind could go on to from a node.</summary>
    public void From(int node, MessageKinds kind, List<Gap> into)
    {
        foreach (var (_, gap) in _gaps[node])
        {
            into.Add(gap);
        }
        if (!IsHub(node))
        {
            AddWays(node, kind, into);
        }
    }

    /// <summary>What leads to each node, of all that is there.</summary>
    public ILookup<int, Gap> Backwards()
    {
        var back = new List<(int To, Gap Gap)>();
        var gaps = new List<Gap>();
        for (var node = 0; node < _hubs; node++)
        {
            // A port is at the number of its first jack; the second of a pair is no node.
            if (LinkTable.NumberOf(PortOf(node).Device, PortOf(node).Port) != node / 2)
            {
                continue;
            }
            gaps.Clear();
            From(node, MessageKinds.All, gaps);
            foreach (var gap in gaps)
            {
                if (gap is { Kind: GapKind.None, Cost: 0 })
                {
                    back.Add((gap.To, gap with { To = node }));
                }
            }
        }
        return back.ToLookup(b => b.To, b => b.Gap);
    }

    protected Rig Rig => _rig;

    public abstract bool CanSend(PortSymbol port);

    public abstract bool CanTake(PortSymbol port);

    /// <summary>The ways that are there, and what could be routed inside the device.</summary>
    protected abstract void AddWays(int node, MessageKinds kind, List<Gap> into);

    /// <summary>True where a cable that is put together rightly carries it from one port to the other.</summary>
    protected abstract bool IsCarried(PortRef from, PortRef to);

    /// <summary>What that is set on a device keeps apart an input and an output which its gear routes to one another.</summary>
    public Broken ClosedBetween(PortRef from, PortRef to) => AudioClosed.Of(from, to.Port, _rig.Wiring) is { } closed ? closed : new Broken.NoRoute(from, to);

    protected static int In(PortRef port) => MidiGraph.In(port.Device, port.Port);

    protected static int Out(PortRef port) => MidiGraph.Out(port.Device, port.Port);

    /// <summary>Connections that join nothing, join without carrying, or lead to the jacks of a strip or splitter.</summary>
    private void AddCables(List<(int, Gap)> gaps)
    {
        foreach (var hookup in _rig.Wiring.Hookups)
        {
            foreach (var a in hookup.Connection.From)
            {
                foreach (var b in hookup.Connection.To)
                {
                    AddCable(gaps, hookup, new PortRef(a.Device, a.Port), new PortRef(b.Device, b.Port));
                    AddCable(gaps, hookup, new PortRef(b.Device, b.Port), new PortRef(a.Device, a.Port));
                }
            }
            if (hookup.Connection.IsIncomplete)
            {
                // The other end could not be read: it may be any.
                foreach (var end in hookup.Connection.From.Concat(hookup.Connection.To))
                {
                    var port = new PortRef(end.Device, end.Port);
                    AddHub(gaps, port, OfCableThatIsThere / 2, hookup);
                }
            }
        }
    }

    private void AddCable(List<(int, Gap)> gaps, Hookup hookup, PortRef from, PortRef to)
    {
        if (!CanSend(from.Port) || !CanTake(to.Port) || Out(from) < 0 || In(to) < 0)
        {
            return;
        }
        if (!hookup.IsSound)
        {
            gaps.Add((Out(from), new Gap(In(to), OfCableThatIsThere, GapKind.Unsound, hookup)));
        }
        else if (from.Port.IsPassive || to.Port.IsPassive)
        {
            gaps.Add((Out(from), new Gap(In(to), 0, GapKind.None, hookup)));
        }
        else if (!IsCarried(from, to))
        {
            gaps.Add((Out(from), new Gap(In(to), OfCableThatIsThere, GapKind.Silent, hookup)));
        }
    }

    private void AddHubs(List<(int, Gap)> gaps)
    {
        foreach (var device in _rig.Names.Devices)
        {
            foreach (var port in device.Gear?.Ports ?? [])
            {
                var here = new PortRef(device, port);
                AddHub(gaps, here, PluggedAt(here) is null ? OfFreeJack : OfTakenJack, null);
            }
        }
    }

    private void AddHub(List<(int, Gap)> gaps, PortRef port, int cost, Hookup? unread)
    {
        if (port.Port.Signal is not { } signal || In(port) < 0)
        {
            return;
        }
        var kind = signal.Kind == SignalKind.Insert ? SignalKind.Audio : signal.Kind;
        var hub = _hubs + (2 * (int)kind);
        if (CanSend(port.Port))
        {
            gaps.Add((Out(port), new Gap(hub + (signal is { Kind: SignalKind.Usb, Usb: UsbRole.Device } ? 1 : 0), cost, GapKind.ToHub, unread)));
        }
        if (CanTake(port.Port))
        {
            gaps.Add((hub + (signal is { Kind: SignalKind.Usb, Usb: not UsbRole.Device } ? 1 : 0), new Gap(In(port), cost, GapKind.FromHub, unread)));
        }
    }
}

internal sealed class MessageGaps(Rig rig) : GapMap(rig)
{
    public override bool CanSend(PortSymbol port) => Carries(port) && (port.IsOutput || port.Signal is { Kind: SignalKind.Usb });

    public override bool CanTake(PortSymbol port) => Carries(port) && (!port.IsOutput || port.Signal is { Kind: SignalKind.Usb });

    private static bool Carries(PortSymbol port) => MidiGraph.CarriesMessages(port) && port.Signal is not { Kind: SignalKind.Usb, Usb: UsbRole.Charger };

    protected override bool IsCarried(PortRef from, PortRef to)
    {
        foreach (var edge in Rig.Midi.Graph.From(Out(from)))
        {
            if (edge.To == In(to))
            {
                return true;
            }
        }
        return false;
    }

    protected override void AddWays(int node, MessageKinds kind, List<Gap> into)
    {
        var first = into.Count;
        foreach (var edge in Rig.Midi.Graph.From(node))
        {
            into.Add((edge.Carries & kind) != 0 ? new Gap(edge.To, 0, GapKind.None, edge.Cable) : new Gap(edge.To, OfOtherGear, GapKind.NotCarried, edge.Cable));
        }
        if (!MidiGraph.IsIn(node))
        {
            return;
        }
        var (device, input) = PortOf(node);
        foreach (var output in device.Gear!.Ports)
        {
            var to = MidiGraph.Out(device, output);
            if (to < 0 || !CanSend(output) || into.FindIndex(first, gap => gap.To == to) >= 0)
            {
                continue;
            }
            var isSwitchedOff = device.ThruOff.Contains(output) && device.Gear.Routes.Contains(input, output);
            into.Add(isSwitchedOff ? new Gap(to, OfSetting, GapKind.ThruOff, null) : new Gap(to, OfRoute, GapKind.NoRoute, null));
        }
    }
}

internal sealed class AudioGaps(Rig rig) : GapMap(rig)
{
    private readonly AudioMap _map = rig.Audio.Map;

    public override bool CanSend(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio or SignalKind.Insert or SignalKind.Usb } signal
        && (port.IsOutput || signal.Kind != SignalKind.Audio);

    public override bool CanTake(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio or SignalKind.Insert or SignalKind.Usb } signal
        && (!port.IsOutput || signal.Kind != SignalKind.Audio);

    protected override bool IsCarried(PortRef from, PortRef to)
    {
        foreach (var (port, _) in CablesFrom(from))
        {
            if (port == to)
            {
                return true;
            }
        }
        return false;
    }

    protected override void AddWays(int node, MessageKinds kind, List<Gap> into)
    {
        var here = PortOf(node);
        if (!MidiGraph.IsIn(node))
        {
            foreach (var (port, cable) in CablesFrom(here))
            {
                into.Add(new Gap(In(port), 0, GapKind.None, cable));
            }
            return;
        }
        var open = _map.OutputsBehind(here);
        var gear = here.Device.Gear!;
        foreach (var output in gear.Ports)
        {
            if (CanSend(output) && MidiGraph.Out(here.Device, output) is >= 0 and var to)
            {
                into.Add(open.Contains(output) || gear.Joins.Contains(here.Port, output) ? new Gap(to, 0, GapKind.None, null)
                    : AudioClosed.Of(here, output, Rig.Wiring) is not null ? new Gap(to, OfSetting, GapKind.Closed, null)
                    : new Gap(to, OfRoute, GapKind.NoRoute, null));
            }
        }
    }

    /// <summary>What hears an output, and by which cable.</summary>
    private HashSet<(PortRef Port, Hookup Cable)> CablesFrom(PortRef from)
    {
        var heard = new HashSet<(PortRef, Hookup)>();
        var lanes = _map.Out(from.Device, from.Port);
        for (var channel = 0; channel < lanes.Count; channel++)
        {
            foreach (ref readonly var edge in _map.From(lanes[channel]))
            {
                if (edge.Cable is { } cable && _map.PortOf(edge.To) is { } to)
                {
                    heard.Add((to, cable));
                }
            }
        }
        return heard;
    }
}

internal sealed class PowerGaps(Rig rig) : GapMap(rig)
{
    public override bool CanSend(PortSymbol port) => port is { IsOutput: true, Signal: { } signal } && IsPower(signal);

    public override bool CanTake(PortSymbol port) => port is { IsOutput: false, Signal: { } signal } && IsPower(signal);

    protected override bool IsCarried(PortRef from, PortRef to) => CarriedBy(from, to) is not null;

    private static bool IsPower(Signal signal) => signal.Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains || signal.IsPower;

    private Link? CarriedBy(PortRef from, PortRef to)
    {
        foreach (var link in Rig.Links.From[LinkTable.NumberOf(from.Device, from.Port)])
        {
            if (link.To == to && link.Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains)
            {
                return link;
            }
        }
        return null;
    }

    protected override void AddWays(int node, MessageKinds kind, List<Gap> into)
    {
        var (device, _) = PortOf(node);
        if (MidiGraph.IsIn(node))
        {
            // What takes power at one jack gives it on at any other: an adapter, a hub, a strip.
            foreach (var output in device.Gear!.Ports)
            {
                if (CanSend(output) && MidiGraph.Out(device, output) is >= 0 and var to)
                {
                    into.Add(new Gap(to, 0, GapKind.None, null));
                }
            }
            return;
        }
        foreach (var link in Rig.Links.From[node / 2])
        {
            // Through a strip or splitter it goes by the strip's own jacks.
            if (link.Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains && In(link.To) >= 0 && CanTake(link.To.Port)
                && link.Hookup.Connection.From.Concat(link.Hookup.Connection.To).Any(e => e.Device == link.From.Device))
            {
                into.Add(new Gap(In(link.To), 0, GapKind.None, link.Hookup));
            }
        }
    }
}
