using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// What audio does inside devices: the routes of their gear, with what is dialled in. Mono into stereo goes to both sides, or to the one it is panned
/// to; stereo into mono is summed; an insert with a plug in it breaks the way past it.
/// </summary>
internal sealed class AudioInside(RigWiring wiring, int[] firstLane)
{
    /// <summary>Of left and right that are summed, so that what both have stays as loud as it is. Source: common practice.</summary>
    private const float Half = 0.5f;

    /// <summary>With fewer ports than this on a side a knot saves nothing.</summary>
    private const int Few = 3;

    private readonly List<AudioEdge> _edges = [];

    public IReadOnlyList<AudioEdge> Edges => _edges;

    /// <summary>Above every lane, those of the knots among them.</summary>
    public int LaneCount { get; private set; } = firstLane[^1];

    public void Add(DeviceSymbol device)
    {
        if (device.Gear is not { } gear || !HasAudio(device, gear))
        {
            return;
        }
        var panel = Panel.Of(device, wiring);
        foreach (var group in gear.Routes.Groups)
        {
            AddGroup(device, panel, group);
        }
        foreach (var bus in gear.Busses)
        {
            AddBus(device, panel, bus);
        }
    }

    private bool HasAudio(DeviceSymbol device, GearSymbol gear)
    {
        foreach (var group in gear.Routes.Groups)
        {
            foreach (var port in group.From)
            {
                if (LanesOf(device, port).Count > 0)
                {
                    return true;
                }
            }
        }
        return gear.Busses.Count > 0;
    }

    private void AddGroup(DeviceSymbol device, Panel panel, PortGroup group)
    {
        var outputs = group.To.Where(port => LanesOf(device, port).Count > 0).ToList();
        if (outputs.Count == 0)
        {
            return;
        }
        // Those whose routes are all fixed, and those of which all are one at a time or the player's choice.
        var alike = new Dictionary<bool, List<PortSymbol>> { [false] = [], [true] = [] };
        foreach (var input in group.From)
        {
            if (LanesOf(device, input).Count == 0)
            {
                continue;
            }
            if (panel.ChoiceOf(input, group) is { } isChoice && input.Signal is not { Kind: SignalKind.Usb })
            {
                alike[isChoice].Add(input);
                continue;
            }
            AddEach(input);
        }
        var plain = outputs.Where(panel.IsPlainOutput).ToList();
        foreach (var (isChoice, inputs) in alike)
        {
            if (inputs.Count < Few || plain.Count < Few)
            {
                inputs.ForEach(AddEach);
                continue;
            }
            AddKnot(device, panel, inputs, plain, isChoice);
            foreach (var output in outputs.Where(output => !panel.IsPlainOutput(output)))
            {
                foreach (var input in inputs)
                {
                    AddRoute(device, panel, input, output);
                }
            }
        }

        void AddEach(PortSymbol input)
        {
            foreach (var output in outputs)
            {
                AddRoute(device, panel, input, output);
            }
        }
    }

    /// <summary>Two lanes between inputs and outputs that all go to one another, left and right.</summary>
    private void AddKnot(DeviceSymbol device, Panel panel, List<PortSymbol> inputs, List<PortSymbol> outputs, bool isChoice)
    {
        var knot = new Lanes(LaneCount, 2);
        LaneCount += 2;
        foreach (var input in inputs)
        {
            if (!panel.IsMuted(input))
            {
                Join(Behind(device, input), knot, panel.PanOf(input), panel.IsMono(input), panel.GainOf(input), isChoice ? AudioOpen.ByChoice : AudioOpen.Always);
            }
        }
        foreach (var output in outputs)
        {
            Join(knot, Before(device, output), Side.Only, panel.IsMono(output), 1, AudioOpen.Always);
        }
    }

    private void AddRoute(DeviceSymbol device, Panel panel, PortSymbol input, PortSymbol output)
    {
        var gain = panel.GainOf(input, output);
        if (gain == 0)
        {
            return;
        }
        var (from, to) = (Behind(device, input), Before(device, output));
        var (pan, mono, open) = (panel.PanOf(input), panel.IsMono(input) || panel.IsMono(output), panel.OpenOf(input, output));
        if (panel.ChannelsOf(input, output) is not { } channel)
        {
            Join(from, to, pan, mono, gain, open);
            return;
        }
        // Of a stream only the channels that the gear numbers.
        if (input.Signal is { Kind: SignalKind.Usb })
        {
            from = new Lanes(from[channel - 1], Math.Min(to.Count, from.Count - channel + 1));
        }
        else
        {
            to = new Lanes(to[channel - 1], Math.Min(from.Count, to.Count - channel + 1));
        }
        Join(from, to, pan, mono, gain, open);
    }

    /// <summary>What comes in at a bus goes out of it.</summary>
    private void AddBus(DeviceSymbol device, Panel panel, PortSymbol bus)
    {
        if (!panel.IsMuted(bus) && LanesOf(device, bus).Count > 0)
        {
            Join(Before(device, bus), Behind(device, bus), Side.Only, panel.IsMono(bus), panel.OwnGainOf(bus), AudioOpen.Always);
        }
    }

    /// <summary>Takes what is on some lanes to others.</summary>
    /// <param name="pan">Of one lane into two, the side it goes to.</param>
    /// <param name="isMono">Left and right are summed on the way.</param>
    private void Join(Lanes from, Lanes to, Side pan, bool isMono, float gain, AudioOpen open)
    {
        // From stream to stream, as in a hub, all channels go on; to anything else the first two are left and right.
        if (from.Count > 2 && to.Count > 2)
        {
            for (var i = 0; i < Math.Min(from.Count, to.Count); i++)
            {
                _edges.Add(new AudioEdge(from[i], to[i], gain, null, open));
            }
            return;
        }
        var (near, far) = (Math.Min(from.Count, 2), Math.Min(to.Count, 2));
        for (var i = 0; i < near; i++)
        {
            for (var k = 0; k < far; k++)
            {
                var share = (near, far) switch
                {
                    (1, 1) => 1f,
                    (1, 2) when pan == Side.Only => 1f,
                    (1, 2) when isMono => Half,
                    (1, 2) => (pan == Side.Left) == (k == 0) ? 1f : 0f,
                    (2, 1) => Half,
                    _ when isMono => Half,
                    _ => i == k ? 1f : 0f,
                };
                if (share != 0)
                {
                    _edges.Add(new AudioEdge(from[i], to[k], share * gain, null, open));
                }
            }
        }
    }

    /// <summary>Where a route begins: at what comes in at a port, or at what leaves a bus.</summary>
    private Lanes Behind(DeviceSymbol device, PortSymbol port) => LanesOf(device, port) is var lanes && port.IsBus ? lanes with { First = lanes.First + lanes.Count } : lanes;

    /// <summary>Where a route ends: at what goes out at a port, or at what comes to a bus.</summary>
    private Lanes Before(DeviceSymbol device, PortSymbol port) => LanesOf(device, port) is var lanes && port.IsBus ? lanes : lanes with { First = lanes.First + lanes.Count };

    private Lanes LanesOf(DeviceSymbol device, PortSymbol port) =>
        LinkTable.NumberOf(device, port) is >= 0 and var number ? new Lanes(firstLane[number], (firstLane[number + 1] - firstLane[number]) / 2) : default;

    /// <summary>What is dialled in on a device, and what its gear and the plugs in it say of single routes.</summary>
    private sealed class Panel
    {
        private readonly DeviceSymbol _device;
        private readonly GearSymbol _gear;
        private readonly Dictionary<PortSymbol, Side> _pans = new(ReferenceEqualityComparer.Instance);
        private readonly Dictionary<PortSymbol, float> _gains = new(ReferenceEqualityComparer.Instance);
        private readonly HashSet<PortSymbol> _muted = new(ReferenceEqualityComparer.Instance);
        private readonly HashSet<PortSymbol> _mono = new(ReferenceEqualityComparer.Instance);
        private readonly Dictionary<(PortSymbol, PortSymbol), float> _sends = [];
        private readonly Dictionary<PortSymbol, HashSet<PortSymbol>> _assigned = new(ReferenceEqualityComparer.Instance);

        /// <summary>Ports of which single routes differ from the others.</summary>
        private readonly HashSet<PortSymbol> _uneven = new(ReferenceEqualityComparer.Instance);

        /// <summary>The inserts with a plug in them.</summary>
        private readonly List<PortSymbol> _broken = [];

        private Panel(DeviceSymbol device)
        {
            _device = device;
            _gear = device.Gear!;
        }

        public static Panel Of(DeviceSymbol device, RigWiring wiring)
        {
            var panel = new Panel(device);
            foreach (var setting in device.Mix)
            {
                panel.Read(setting);
            }
            panel._uneven.UnionWith(panel._gear.Gains.SelectMany(line => line.Routes.Groups).SelectMany(group => group.From));
            panel._uneven.UnionWith(panel._gear.Streams.SelectMany(stream => new[] { stream.From, stream.To }));
            foreach (var port in panel._gear.Ports)
            {
                if (port.Signal is { Kind: SignalKind.Insert } && wiring.IsPlugged(device, port))
                {
                    panel._broken.Add(port);
                    panel._uneven.UnionWith(panel._gear.Routes.To(port));
                }
            }
            return panel;
        }

        /// <summary>Whether the routes of an input to a group are all open one at a time or by choice; null where they differ, by that or by what is set.</summary>
        public bool? ChoiceOf(PortSymbol input, PortGroup group)
        {
            if (_uneven.Contains(input))
            {
                return null;
            }
            var chosen = _gear.Switches.From(input).Count + _gear.Assigns.From(input).Count;
            return chosen == 0 ? false : chosen == group.To.Count ? true : null;
        }

        public bool IsPlainOutput(PortSymbol output) => !_uneven.Contains(output) && !_gains.ContainsKey(output) && !_muted.Contains(output);

        public bool IsMuted(PortSymbol port) => _muted.Contains(port);

        public bool IsMono(PortSymbol port) => _mono.Contains(port);

        public Side PanOf(PortSymbol input) => _pans.GetValueOrDefault(input, Side.Only);

        /// <summary>The gain of an input whose routes are all alike.</summary>
        public float GainOf(PortSymbol input) => input.IsBus ? 1 : OwnGainOf(input);

        public float OwnGainOf(PortSymbol port) => _gains.GetValueOrDefault(port, 1);

        /// <summary>0 for a route that is not open.</summary>
        public float GainOf(PortSymbol input, PortSymbol output)
        {
            if (_muted.Contains(input) || _muted.Contains(output) || !IsAssigned(input, output) || IsBroken(input, output))
            {
                return 0;
            }
            var gear = (float)Factor(_gear.Gains.Of(input, output));
            // A bus has its own gain on the way through itself.
            return gear * GainOf(input) * (output.IsBus ? 1 : OwnGainOf(output)) * _sends.GetValueOrDefault((input, output), 1);
        }

        public AudioOpen OpenOf(PortSymbol input, PortSymbol output) =>
            input.Signal is { Kind: SignalKind.Usb, Usb: UsbRole.Host } && !_gear.Routes.GroupsTo(input).Any() ? AudioOpen.ByProgram
            : _gear.Switches.Contains(input, output) || (_gear.Assigns.Contains(input, output) && !_assigned.ContainsKey(input)) ? AudioOpen.ByChoice
            : AudioOpen.Always;

        /// <summary>The first channel of a stream that a route takes, from 1; null where the gear does not number them.</summary>
        public int? ChannelsOf(PortSymbol input, PortSymbol output)
        {
            foreach (var stream in _gear.Streams)
            {
                if (ReferenceEquals(stream.From, input) && ReferenceEquals(stream.To, output))
                {
                    return stream.First;
                }
            }
            return null;
        }

        private bool IsAssigned(PortSymbol input, PortSymbol output) =>
            !_assigned.TryGetValue(input, out var chosen) || chosen.Contains(output) || !_gear.Assigns.Contains(input, output);

        /// <summary>A plug in the insert of a channel breaks its way to all that the insert's return goes to.</summary>
        private bool IsBroken(PortSymbol input, PortSymbol output) =>
            _broken.Exists(insert => !ReferenceEquals(insert, input) && !ReferenceEquals(insert, output) && _gear.Routes.Contains(input, insert) && _gear.Routes.Contains(insert, output));

        private void Read(MixSetting setting)
        {
            switch (setting)
            {
                case MixSetting.Pan pan:
                    _pans[pan.Port] = pan.To;
                    break;
                case MixSetting.Gain gain:
                    _gains[gain.Port] = (float)Factor(gain.Decibels);
                    break;
                case MixSetting.Muted muted:
                    _muted.Add(muted.Port);
                    break;
                case MixSetting.Mono mono:
                    _mono.Add(mono.Port);
                    break;
                case MixSetting.Send send:
                    _sends[(send.Port, send.To)] = send.Decibels is { } decibels ? (float)Factor(decibels) : 0;
                    _uneven.Add(send.Port);
                    break;
                case MixSetting.Assign assign:
                    if (!_assigned.TryGetValue(assign.Port, out var chosen))
                    {
                        _assigned[assign.Port] = chosen = new HashSet<PortSymbol>(ReferenceEqualityComparer.Instance);
                    }
                    chosen.UnionWith(assign.To);
                    _uneven.Add(assign.Port);
                    break;
            }
        }

        /// <summary>dB to a factor of amplitude.</summary>
        private static double Factor(double decibels) => Math.Pow(10, decibels / 20);
    }
}
