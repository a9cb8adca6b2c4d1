using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow.Ground;

/// <summary>
/// What is at one potential, and what joins it, read off the nets: audio screens, supply returns, USB grounds, protective earths.
/// Opto-isolated MIDI, transformers and isolated outputs join nothing, because their contacts do not.
/// Source: AES48 and common practice on ground loops; MIDI 1.0 for the open contact of an input; IEC 61140 for classes I and II.
/// </summary>
public sealed class GroundGraph
{
    /// <summary>The part of a device that is no isolated jack: its own ground.</summary>
    private const int Whole = -1;

    private readonly Rig _rig;
    private readonly List<GroundDomain> _domains = [];
    private readonly List<GroundLink> _links = [];
    private readonly Dictionary<(DeviceSymbol Device, int Part), int> _numbers = [];
    private readonly Dictionary<int, bool> _isGroundNet = [];
    private int _earth = -1;

    private GroundGraph(Rig rig)
    {
        _rig = rig;
        foreach (var hookup in rig.Wiring.Hookups)
        {
            if (hookup is { IsSound: true, Harness: not null })
            {
                AddLinksOf(hookup);
            }
        }
        AddEarths();
        Graph = new Multigraph(_domains.Count, _links.ConvertAll(l => (l.A, l.B)));
        Bundles = Bundled();
    }

    public static GroundGraph Of(Rig rig) => new(rig);

    public IReadOnlyList<GroundDomain> Domains => _domains;
    public IReadOnlyList<GroundLink> Links => _links;
    public IReadOnlyList<GroundBundle> Bundles { get; }

    /// <summary>Domains and links as points and edges of the same numbers.</summary>
    public Multigraph Graph { get; }

    /// <summary>The bundle that each link belongs to.</summary>
    public IReadOnlyList<int> BundleOf { get; private set; } = [];

    /// <summary>
    /// Contacts that the leads join are one piece of metal: each of its jacks is linked to one of them, the one plug of a lead with
    /// two tails where there is one.
    /// </summary>
    private void AddLinksOf(Hookup hookup)
    {
        var all = hookup.Connection.Jacks;
        var joined = hookup.Harness!.Joined;
        var known = new HashSet<(int, int)>();
        var group = new List<(int Seat, int Contact)>();
        for (var i = 0; i < joined.Count; i++)
        {
            if (!IsFirstOfGroup(i))
            {
                continue;
            }
            group.Clear();
            Take(joined[i].SeatA, joined[i].ContactA);
            foreach (var pair in joined)
            {
                if (pair.SeatA == joined[i].SeatA && pair.ContactA == joined[i].ContactA)
                {
                    Take(pair.SeatB, pair.ContactB);
                }
            }
            var centre = Centre();
            for (var at = 0; at < group.Count; at++)
            {
                var (near, far) = at < centre ? (group[at], group[centre]) : (group[centre], group[at]);
                if (near.Seat != far.Seat && known.Add((near.Seat, far.Seat)))
                {
                    AddLink(hookup, near.Seat, near.Contact, far.Seat, far.Contact);
                }
            }
        }

        bool IsFirstOfGroup(int at)
        {
            for (var i = 0; i < at; i++)
            {
                if (joined[i].SeatA == joined[at].SeatA && joined[i].ContactA == joined[at].ContactA)
                {
                    return false;
                }
            }
            return true;
        }

        void Take(int seat, int contact)
        {
            if (IsGroundAt(all[seat], contact))
            {
                group.Add((seat, contact));
            }
        }

        int Centre()
        {
            var from = hookup.Connection.From.Sum(e => e.Jacks.Count);
            return group.Count(g => g.Seat >= from) == 1 ? group.FindIndex(g => g.Seat >= from) : 0;
        }
    }

    private void AddLink(Hookup hookup, int seatA, int contactA, int seatB, int contactB)
    {
        var (jackA, jackB) = (hookup.Connection.Jacks[seatA], hookup.Connection.Jacks[seatB]);
        if (KindOf(jackA.Jack.Port.Signal, jackB.Jack.Port.Signal) is { } kind)
        {
            var length = LengthOf(hookup);
            var noise = kind == GroundLinkKind.Audio && !IsLoudspeaker(jackA) && !IsLoudspeaker(jackB) && !IsBalanced(hookup, seatA, seatB)
                ? NoiseOf(hookup, jackA, jackB)
                : (LoopNoise?)null;
            var isLong = kind == GroundLinkKind.Audio && length is { } run && run.Value > GroundLimits.LongRun.Value;
            _links.Add(new GroundLink(
                _links.Count, DomainAt(jackA, contactA), DomainAt(jackB, contactB), kind, hookup, jackA, jackB, length,
                kind == GroundLinkKind.Usb || noise is not null || (isLong && !IsLoudspeaker(jackA) && !IsLoudspeaker(jackB)),
                noise, kind == GroundLinkKind.Supply ? BatteryOf(Load(jackA, jackB)) : null));
        }
    }

    private static GroundLinkKind? KindOf(Signal? a, Signal? b) => (a ?? b)?.Kind switch
    {
        SignalKind.Audio or SignalKind.Insert => GroundLinkKind.Audio,
        SignalKind.Midi => GroundLinkKind.Midi,
        SignalKind.Pulse or SignalKind.DinSync => GroundLinkKind.Sync,
        SignalKind.Control => GroundLinkKind.Control,
        SignalKind.Dc => GroundLinkKind.Supply,
        SignalKind.Usb => CarriesData(a) && CarriesData(b) ? GroundLinkKind.Usb : GroundLinkKind.Supply,
        _ => null,
    };

    private static bool CarriesData(Signal? signal) => signal is { Kind: SignalKind.Usb, Usb: not UsbRole.Charger };

    private static Metre? LengthOf(Hookup hookup)
    {
        double? sum = null;
        foreach (var lead in hookup.Connection.Leads)
        {
            sum = lead.Length is { } length ? (sum ?? 0) + length.Value : sum;
        }
        return sum is { } metres ? new Metre(metres) : null;
    }

    /// <summary>The resistance of its screen by gauge and length, or what is common, and how loud a current in it is.</summary>
    private static LoopNoise NoiseOf(Hookup hookup, JackRef a, JackRef b)
    {
        var sum = 0.0;
        foreach (var use in hookup.LeadsUsed)
        {
            sum += use is ({ Gauge: { } gauge }, { } length) ? CopperWire.ResistanceOf(gauge, length) : double.NaN;
        }
        var ohms = sum > 0 ? sum : ScreenNoise.Ohms;
        return new LoopNoise(ohms, ScreenNoise.Decibels(ScreenNoise.Of(ScreenNoise.Current, ohms), LevelOf((a.Jack.Port.IsOutput ? a : b).Jack.Port.Signal)));
    }

    private static Volt LevelOf(Signal? signal) => signal?.Level switch
    {
        AudioLevel.Mic => NominalLevels.Microphone,
        AudioLevel.Instrument => NominalLevels.Instrument,
        _ => NominalLevels.Line,
    };

    /// <summary>The one of the two ends of a supply's wire that is fed.</summary>
    internal static DeviceSymbol Load(JackRef a, JackRef b) => a.Jack.Port.IsOutput ? b.Device : a.Device;

    /// <summary>Null when it has none, or one that does not last the set.</summary>
    private BatteryRun? BatteryOf(DeviceSymbol device) =>
        device.Gear!.HasBattery && _rig.BatteryOf(device) is var battery
            && !(battery.Lasts is { } lasts && _rig.Names.SetLength is { } set && lasts.Value < set.Value) ? battery : null;

    /// <summary>A loudspeaker lead carries so much that what a screen adds is not heard.</summary>
    private static bool IsLoudspeaker(JackRef jack) => jack.Jack.Port.Signal is { Level: AudioLevel.Speaker };

    /// <summary>True when hot meets hot and cold meets cold.</summary>
    private static bool IsBalanced(Hookup hookup, int seatA, int seatB)
    {
        return Meets(Role.Hot) && Meets(Role.Cold);

        bool Meets(Role role)
        {
            foreach (var pair in hookup.Harness!.Joined)
            {
                if (((pair.SeatA == seatA && pair.SeatB == seatB) || (pair.SeatA == seatB && pair.SeatB == seatA))
                    && RoleAt(pair.SeatA, pair.ContactA) == role && RoleAt(pair.SeatB, pair.ContactB) == role)
                {
                    return true;
                }
            }
            return false;
        }

        Role RoleAt(int seat, int contact) => hookup.Connection.Jacks[seat].Jack.Roles is var roles && contact < roles.Count ? roles[contact].Role : Role.Unused;
    }

    private void AddEarths()
    {
        for (var seat = 0; seat < _rig.Nets.SeatCount; seat++)
        {
            if (_rig.Wiring.Plugged[seat] is not { IsSound: true } hookup)
            {
                continue;
            }
            var jack = _rig.Nets.Jack(seat);
            var at = jack.Jack.RoleIndex(Role.Earth, Drive.In);
            if (at < 0 || _rig.Nets.Find(_rig.Nets.Contact(seat, at), Role.Earth, Drive.Out) < 0)
            {
                continue;
            }
            if (_earth < 0)
            {
                _earth = _domains.Count;
                _domains.Add(new GroundDomain(_earth, "protective earth", null));
            }
            _links.Add(new GroundLink(
                _links.Count, DomainOf(jack.Device, Whole, jack.Device.Name), _earth, GroundLinkKind.ProtectiveEarth, hookup, jack, jack, null, false,
                Battery: HasOnePlug(jack.Device) ? BatteryOf(jack.Device) : null));
        }
    }

    /// <summary>With two supplies in it, a pulled plug would not take it off the mains.</summary>
    private static bool HasOnePlug(DeviceSymbol device) => device.Gear!.Ports.Count(p => p is { IsOutput: false, Signal.Kind: SignalKind.Mains }) == 1;

    /// <summary>True for a contact that is a ground. Of the wires of a splitter, what is plugged in decides which is one.</summary>
    private bool IsGroundAt(JackRef jack, int contact) => jack.Jack.Port.IsPassive ? IsGroundNet(jack, contact) : IsGround(jack.Jack, contact);

    /// <summary>The domain that a ground contact belongs to: a splitter's wire by itself, an isolated jack by itself, else the device.</summary>
    private int DomainAt(JackRef jack, int contact) =>
        jack.Jack.Port.IsPassive ? DomainOf(jack.Device, int.MinValue + _rig.Nets.NetOf(jack.ContactId(contact)), jack.Device.Name)
        : DomainOf(jack.Device, PartOf(jack), PartOf(jack) == Whole ? jack.Device.Name : jack.ToString());

    private bool IsGroundNet(JackRef jack, int contact)
    {
        var net = _rig.Nets.NetOf(jack.ContactId(contact));
        if (!_isGroundNet.TryGetValue(net, out var isGround))
        {
            foreach (var member in _rig.Nets.Members(jack.ContactId(contact)))
            {
                var seat = _rig.Nets.SeatOf(member);
                var other = _rig.Nets.Jack(seat).Jack;
                if (!other.Port.IsPassive && IsGround(other, member - _rig.Nets.Contact(seat, 0)))
                {
                    isGround = true;
                    break;
                }
            }
            _isGroundNet[net] = isGround;
        }
        return isGround;
    }

    /// <summary>
    /// Signal ground and the minus of a supply, or its plus where the gear says so; and the sleeve of a two-pole MIDI jack, which its
    /// panel grounds against the standard (common practice).
    /// </summary>
    private static bool IsGround(JackSymbol jack, int contact) =>
        jack.Port.Signal is not null && contact < jack.Roles.Count
        && (jack.Roles[contact].Role is Role.Ground || jack.Roles[contact].Role == GroundOf(jack.Port.Signal)
            || (jack.Roles[contact].Role == Role.MidiSink && jack.Port.Signal is { Kind: SignalKind.Midi } && jack.Form.Contacts.Count == 2));

    /// <summary>The side of a supply that is ground.</summary>
    public static Role GroundOf(Signal signal) => signal.PositiveGround ? Role.Plus : Role.Minus;

    /// <summary>The domain that a jack's ground belongs to; -1 where nothing conducts to it.</summary>
    public int DomainOf(JackRef jack) => _numbers.GetValueOrDefault((jack.Device, PartOf(jack)), -1);

    private static int PartOf(JackRef jack) => jack.Jack.Port.Signal is { Isolated: true } ? jack.Jack.Index : Whole;

    private int DomainOf(DeviceSymbol device, int part, string name)
    {
        if (!_numbers.TryGetValue((device, part), out var number))
        {
            _numbers[(device, part)] = number = _domains.Count;
            _domains.Add(new GroundDomain(number, name, device));
        }
        return number;
    }

    private List<GroundBundle> Bundled()
    {
        var bundles = new List<List<GroundLink>>();
        var sideBySide = new Dictionary<(int, int), List<GroundLink>>();
        var bundleOf = new int[_links.Count];
        var numbers = new Dictionary<List<GroundLink>, int>(ReferenceEqualityComparer.Instance);
        foreach (var link in _links)
        {
            var ends = (Math.Min(link.A, link.B), Math.Max(link.A, link.B));
            if (!link.IsSignal || !sideBySide.TryGetValue(ends, out var bundle))
            {
                bundle = [];
                numbers[bundle] = bundles.Count;
                bundles.Add(bundle);
                if (link.IsSignal)
                {
                    sideBySide[ends] = bundle;
                }
            }
            bundle.Add(link);
            bundleOf[link.Index] = numbers[bundle];
        }
        BundleOf = bundleOf;
        return [.. bundles.Select((links, i) => new GroundBundle(i, links))];
    }
}
