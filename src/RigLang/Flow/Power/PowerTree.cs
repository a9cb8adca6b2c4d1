using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// The power from the wall to the loads, read off the supply links: who hangs on whom, and what each takes. Every device stands in it
/// once for each port that it is fed by; what a device feeds hangs under the first of them. Built in one pass over the links,
/// and summed in one from the loads back.
/// </summary>
public sealed class PowerTree
{
    private readonly Rig _rig;
    private readonly PowerNode?[] _byInput;
    private readonly PowerNode?[] _byDevice;
    private readonly List<PowerNode> _all = [];
    private ILookup<int, PowerNode>? _ofDevice;

    private PowerTree(Rig rig)
    {
        _rig = rig;
        _byInput = new PowerNode?[rig.Nets.SeatCount];
        _byDevice = new PowerNode?[rig.Names.Devices.Count];
    }

    /// <summary>Where the power comes from: wall sockets, batteries and what is plugged in nowhere.</summary>
    public IReadOnlyList<PowerNode> Roots { get; private set; } = [];

    /// <summary>Every node behind the one that feeds it.</summary>
    public IReadOnlyList<PowerNode> Nodes { get; private set; } = [];

    /// <summary>The node that what a device feeds hangs on; null for one that neither takes nor gives power.</summary>
    public PowerNode? NodeOf(DeviceSymbol device) => _byDevice[device.Index];

    /// <summary>Where a device stands in the tree: once for each port that feeds it, once where the tree begins; nowhere when it has no part in it.</summary>
    public IEnumerable<PowerNode> NodesOf(DeviceSymbol device) => (_ofDevice ??= Nodes.ToLookup(n => n.Device.Index))[device.Index];

    public static PowerTree Of(Rig rig)
    {
        var tree = new PowerTree(rig);
        var supplied = tree.Loads();
        tree.PlaceDevices(supplied);
        foreach (var (input, link) in supplied)
        {
            tree.Hang(input, link);
        }
        tree.Order();
        tree.Sum();
        tree.MeasureDrops();
        return tree;
    }

    /// <summary>The supply links of the rig, one for each port that takes power.</summary>
    private List<(PowerNode Node, Link Link)> Loads()
    {
        var loads = new List<(PowerNode, Link)>();
        foreach (var link in _rig.Links.Links)
        {
            var seat = LinkTable.NumberOf(link.To.Device, link.To.Port);
            if (link.Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains && link.To.Port.Signal is { IsPower: true } && _byInput[seat] is null)
            {
                var node = new PowerNode(link.To.Device) { In = link.To.Port };
                _byInput[seat] = node;
                loads.Add((node, link));
            }
        }
        return loads;
    }

    /// <summary>What a device feeds hangs under its own supply before the bus that it also has.</summary>
    private void PlaceDevices(List<(PowerNode Node, Link Link)> loads)
    {
        foreach (var (node, _) in loads)
        {
            ref var place = ref _byDevice[node.Device.Index];
            if (place is null || (place.In!.Signal!.Kind == SignalKind.Usb && node.In!.Signal!.Kind != SignalKind.Usb))
            {
                place = node;
            }
        }
    }

    private void Hang(PowerNode node, Link link)
    {
        var source = LinkTable.NumberOf(link.From.Device, link.From.Port);
        var volts = VoltsOf(link.From.Port.Signal);
        while (true)
        {
            _all.Add(node);
            node.Source = link.From;
            node.SourceVolts = volts;
            var seat = LinkTable.NumberOf(node.Device, node.In!);
            node.Hookup = _rig.Wiring.Plugged[seat];
            var outlet = OutletBefore(seat, node.Hookup, source);
            node.Outlet = outlet.Jack.Port;
            if (!outlet.Jack.Port.IsPassive)
            {
                node.HangOn(_byDevice[outlet.Device.Index] ??= Root(outlet.Device));
                return;
            }
            var plug = _rig.Wiring.PlugOf(outlet)!.Value;
            ref var strip = ref _byInput[plug.Id];
            if (strip is not null)
            {
                node.HangOn(strip);
                return;
            }
            strip = new PowerNode(outlet.Device) { In = plug.Jack.Port };
            node.HangOn(strip);
            node = strip;
        }
    }

    /// <summary>The jack at the other end of the connection that the power comes from: the source, or the outlet of a passive box on the way there.</summary>
    private JackRef OutletBefore(int seat, Hookup? hookup, int source)
    {
        var nets = _rig.Nets;
        foreach (var jack in hookup?.Jacks ?? [])
        {
            if (jack.Id == source || (jack.Id != seat && jack.Jack.Port is { IsPassive: true, IsOutput: true } && _rig.Wiring.PlugOf(jack) is not null && AreJoined(jack.Id, seat)))
            {
                return jack;
            }
        }
        return nets.Jack(source);
    }

    private bool AreJoined(int a, int b)
    {
        var (first, second) = (_rig.Nets.Jack(a).Jack, _rig.Nets.Jack(b).Jack);
        for (var i = 0; i < first.Form.Contacts.Count; i++)
        {
            for (var j = 0; j < second.Form.Contacts.Count; j++)
            {
                if (IsLive(second.Roles[j].Role) && _rig.Nets.AreJoined(_rig.Nets.Contact(a, i), _rig.Nets.Contact(b, j)))
                {
                    return true;
                }
            }
        }
        return false;
    }

    private static bool IsLive(Role role) => role is Role.Plus or Role.Ac or Role.Line;

    private PowerNode Root(DeviceSymbol device)
    {
        var root = new PowerNode(device);
        _all.Add(root);
        return root;
    }

    /// <summary>
    /// Parents before children. Devices that feed each other in a ring hang on nothing: the first of them is made a beginning, so
    /// that all are there.
    /// </summary>
    private void Order()
    {
        var ordered = new List<PowerNode>(_all.Count);
        var seen = new HashSet<PowerNode>(ReferenceEqualityComparer.Instance);
        var roots = _all.FindAll(n => n.Parent is null);
        roots.Sort((a, b) => a.Device.Index.CompareTo(b.Device.Index));
        roots.ForEach(Visit);
        foreach (var node in _all.Where(n => !seen.Contains(n)).OrderBy(n => n.Device.Index).ToList())
        {
            if (!seen.Contains(node))
            {
                roots.Add(node);
                Visit(node);
            }
        }
        (Roots, Nodes) = (roots, ordered);

        void Visit(PowerNode root)
        {
            var open = new Stack<PowerNode>();
            open.Push(root);
            while (open.TryPop(out var node))
            {
                if (!seen.Add(node))
                {
                    continue;
                }
                ordered.Add(node);
                node.SortChildren();
                for (var i = node.Children.Count - 1; i >= 0; i--)
                {
                    if (!seen.Contains(node.Children[i]))
                    {
                        node.Children[i].Depth = node.Depth + 1;
                        open.Push(node.Children[i]);
                    }
                }
            }
        }
    }

    private void Sum()
    {
        for (var i = Nodes.Count - 1; i >= 0; i--)
        {
            Nodes[i].Takes = DrawOf(Nodes[i]);
        }
    }

    private Draw DrawOf(PowerNode node)
    {
        if (node.In is null)
        {
            // A laptop on its battery and a wall socket both begin a tree; only of mains is the sum of interest.
            return node.Children.Where(child => child.IsMains).Aggregate(new Draw(), (sum, child) => sum + child.Takes);
        }
        if (node.IsPassive)
        {
            return node.Children.Aggregate(new Draw(), (sum, child) => sum + child.Takes);
        }
        if (!ReferenceEquals(_byDevice[node.Device.Index], node) && node.In.Signal!.Kind == SignalKind.Usb)
        {
            // It runs on its own supply; the bus only carries its data.
            return new Draw(0, false);
        }
        return node.IsMains ? MainsDraw(node) : LowVoltageDraw(node);
    }

    private static Draw MainsDraw(PowerNode node)
    {
        var signal = node.In!.Signal!;
        if (signal.Watts is { } watts)
        {
            return new Draw(signal.IsApparent ? watts : PowerFigures.VoltAmperes(watts), false);
        }
        if (signal.Current is { } current && node.SourceVolts is { } volts)
        {
            return new Draw(current.Value * volts.Value, false);
        }
        return HandedOn(node) is { } sum ? new Draw(PowerFigures.VoltAmperes(sum.Value), true) : new Draw(0, true);
    }

    private static Draw LowVoltageDraw(PowerNode node) =>
        node.In!.Signal!.Current is { } current ? new Draw(current.Value, false)
        : node.SourceVolts is { Value: > 0 } volts && HandedOn(node) is { } sum ? new Draw(sum.Value / volts.Value, true)
        : new Draw(0, true);

    /// <summary>The watts that a supply hands on; null when it feeds nothing.</summary>
    private static Draw? HandedOn(PowerNode node) =>
        node.Children.Count == 0 ? null : node.Children.Aggregate(new Draw(), (sum, child) => sum + new Draw(child.Watts ?? 0, child.Takes.IsLeast || child.Watts is null));

    /// <summary>What is lost before a splitter or a hub that lives on its computer is lost behind it too.</summary>
    private void MeasureDrops()
    {
        foreach (var node in Nodes)
        {
            if (node.Parent is { } parent && !node.IsMains)
            {
                node.Drop = new Volt((node.Depth > 0 && (parent.IsPassive || parent.IsBusPoweredHub) ? parent.Drop.Value : 0) + DropIn(node));
            }
        }
    }

    private static double DropIn(PowerNode node)
    {
        if (node.Hookup is not { } hookup)
        {
            return 0;
        }
        var drop = 0.0;
        foreach (var use in hookup.LeadsUsed)
        {
            if (use is ({ Gauge: { } gauge }, { } length))
            {
                drop += PowerFigures.Drop(gauge, length, new Ampere(node.Takes.Value)).Value;
            }
        }
        return drop;
    }

    private Volt? VoltsOf(Signal? signal) => signal switch
    {
        { Volts: { } volts } => volts.High,
        { Kind: SignalKind.Usb } => UsbPower.Nominal,
        { Kind: SignalKind.Mains } => _rig.Names.MainsVolts?.High,
        _ => null,
    };
}
