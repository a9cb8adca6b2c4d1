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

    private void AddLinksOf(Hookup hookup)
    {
        var all = hookup.Connection.Jacks;
        var joined = hookup.Harness!.Joined;
        List<(int, int)>? known = null;
        for (var i = 0; i < joined.Count; i++)
        {
            var (seat, contact) = (joined[i].SeatA, joined[i].ContactA);
            if (!IsFirstOfGroup(i))
            {
                continue;
            }
            // All contacts of a group are one piece of metal; each cable from the first to another is a link.
            (int Seat, int Contact)? first = IsGroundAt(all[seat], contact) ? (seat, contact) : null;
            foreach (var pair in joined)
            {
                if (pair.SeatA != seat || pair.ContactA != contact || !IsGroundAt(all[pair.SeatB], pair.ContactB))
                {
                    continue;
                }
                if (first is not var (firstSeat, firstContact))
                {
                    first = (pair.SeatB, pair.ContactB);
                }
                else if (firstSeat != pair.SeatB && known?.Contains((firstSeat, pair.SeatB)) != true)
                {
                    (known ??= []).Add((firstSeat, pair.SeatB));
                    AddLink(hookup, firstSeat, firstContact, pair.SeatB, pair.ContactB);
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
    }

    private void AddLink(Hookup hookup, int seatA, int contactA, int seatB, int contactB)
    {
        var (jackA, jackB) = (hookup.Connection.Jacks[seatA], hookup.Connection.Jacks[seatB]);
        if (KindOf(jackA.Jack.Port.Signal, jackB.Jack.Port.Signal) is { } kind)
        {
            var length = LengthOf(hookup);
            _links.Add(new GroundLink(
                _links.Count, DomainAt(jackA, contactA), DomainAt(jackB, contactB), kind, hookup, jackA, jackB, length,
                HeardBecause(hookup, kind, seatA, seatB, length)));
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

    private static string? HeardBecause(Hookup hookup, GroundLinkKind kind, int seatA, int seatB, Metre? length)
    {
        if (kind == GroundLinkKind.Usb)
        {
            return "a current in its ground whines with what the computer does";
        }
        if (kind != GroundLinkKind.Audio || IsLoudspeaker(hookup, seatA) || IsLoudspeaker(hookup, seatB))
        {
            return null;
        }
        return !IsBalanced(hookup, seatA, seatB) ? "it is unbalanced, so a current in its screen adds to the sound"
            : length is { } run && run.Value > GroundLimits.LongRun.Value ? $"{run} is a long run, even balanced"
            : null;
    }

    /// <summary>A loudspeaker lead carries so much that what a screen adds is not heard.</summary>
    private static bool IsLoudspeaker(Hookup hookup, int seat) => hookup.Connection.Jacks[seat].Jack.Port.Signal is { Level: AudioLevel.Speaker };

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
                _links.Count, DomainOf(jack.Device, Whole, jack.Device.Name), _earth, GroundLinkKind.ProtectiveEarth, hookup, jack, jack, null, null));
        }
    }

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
