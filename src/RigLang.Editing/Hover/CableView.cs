using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>A contact of a jack at one end of a cable.</summary>
internal readonly record struct EndContact(JackRef Jack, int Contact)
{
    public ContactRole Role => Jack.Jack.Roles[Contact];

    public string Name => Jack.Jack.Form.Contacts[Contact];
}

/// <summary>Contacts that a cable joins; one side is empty where it joins nothing across.</summary>
internal sealed record PinNet(IReadOnlyList<EndContact> From, IReadOnlyList<EndContact> To)
{
    public bool Joins(Role role) => From.Any(c => c.Role.Role == role) && To.Any(c => c.Role.Role == role);
}

/// <summary>What can be told of one connection by looking at the cable: its plugs, wires, channels, length.</summary>
internal sealed class CableView(Flow.Rig rig, Hookup hookup)
{
    public Hookup Hookup => hookup;

    public ConnectionSymbol Connection => hookup.Connection;

    /// <summary>The end that the signal comes from, as far as the ports say.</summary>
    public Endpoint Source => Ends.FirstOrDefault(e => e.Port is { IsOutput: true, Signal: not null }) ?? Ends.FirstOrDefault(e => e.Port.Signal is not null) ?? Ends.First();

    public IEnumerable<Endpoint> Ends => Connection.From.Concat(Connection.To);

    public static CableView? Of(Flow.Rig rig, Syntax.ConnectStatement statement) =>
        rig.Wiring.Hookups.Find(h => ReferenceEquals(h.Connection.Statement, statement)) is { } hookup ? new CableView(rig, hookup) : null;

    /// <summary>How many audio channels arrive; of a cable where none does, how many it is given. 0 when it carries no audio.</summary>
    public int AudioChannels
    {
        get
        {
            var arriving = Arrivals.SelectMany(a => a.Terms).Select(t => (t.Seat, t.Channel)).Distinct().Count();
            return arriving > 0 ? arriving : hookup.Jacks.Sum(j => j.Jack.Roles.Count(r => r is { Role: Role.Hot, Drive: Drive.Out }));
        }
    }

    /// <summary>What its audio inputs hear.</summary>
    public IReadOnlyList<Arrival> Arrivals => field ??= !hookup.IsSound ? [] :
        [.. hookup.Jacks.Where(j => j.Jack.Port.Signal is not null).SelectMany(j => RigLang.Wiring.Arrivals.At(rig.Nets, j.Id))];

    /// <summary>The length of the whole chain; null when a lead of it does not say.</summary>
    public Metre? Length => Connection.Leads.Count > 0 && Connection.Leads.TrueForAll(l => l.Length is not null)
        ? new Metre(Connection.Leads.Sum(l => l.Length!.Value.Value))
        : null;

    /// <summary>The voltage of the supply that feeds through it; where nothing is fed, what the ports are made for.</summary>
    public VoltRange? Volts =>
        rig.Links.Links.FirstOrDefault(l => ReferenceEquals(l.Hookup, hookup) && l.Kind is (SignalKind.Dc or SignalKind.Ac))?.From.Port.Signal?.Volts
            ?? Ends.OrderByDescending(e => e.Port.IsOutput).Select(e => e.Port.Signal?.Volts).FirstOrDefault(v => v is not null);

    /// <summary>How far apart the boxes stand, in a straight line; null when one has no place.</summary>
    public Metre? Apart => Connection.From is [{ Device.Place: { } a }] && Connection.To is [{ Device.Place: { } b }]
        ? new Metre(double.Hypot(a.X.Value - b.X.Value, a.Y.Value - b.Y.Value))
        : null;

    /// <summary>The contacts by what joins them, in the order of the jacks.</summary>
    public IReadOnlyList<PinNet> PinMap => field ??= FindPinMap();

    private List<PinNet> FindPinMap()
    {
        if (hookup is not { IsSound: true, Harness: { } harness })
        {
            return [];
        }
        var all = Connection.Jacks;
        var fromCount = Connection.FromJacks.Count();
        var groups = new List<(List<EndContact> From, List<EndContact> To)>();
        var groupOf = new Dictionary<(int Seat, int Contact), int>();
        foreach (var seat in harness.UsedSeats)
        {
            for (var contact = 0; contact < all[seat].Jack.Form.Contacts.Count; contact++)
            {
                var first = harness.Joined.Where(j => j.SeatB == seat && j.ContactB == contact).Select(j => ((int, int)?)(j.SeatA, j.ContactA)).FirstOrDefault();
                if (first is not { } key || !groupOf.TryGetValue(key, out var group))
                {
                    group = groups.Count;
                    groups.Add(([], []));
                }
                groupOf[(seat, contact)] = group;
                (seat < fromCount ? groups[group].From : groups[group].To).Add(new EndContact(all[seat], contact));
            }
        }
        return [.. groups.Select(g => new PinNet(g.From, g.To))];
    }

    /// <summary>The plug at each end of the chain, the one before `to` first; null where a plug of the gear itself is in the jack.</summary>
    public (LeadEndSymbol? Near, LeadEndSymbol? Far) Plugs
    {
        get
        {
            var leads = hookup.Leads;
            if (!hookup.IsSound || leads.Count == 0)
            {
                return (null, null);
            }
            // The way round each lead is tried in the order in which the harness does, so that the same one is found.
            for (var way = 0; way < 1 << Math.Min(leads.Count, Harness.LongestChain); way++)
            {
                var ends = leads.Select((lead, i) => (way & (1 << i)) == 0 ? (In: First(lead), Out: Last(lead)) : (In: Last(lead), Out: First(lead))).ToList();
                if (Fits(Connection.FromJacks.First().Jack, ends[0].In) && Fits(Connection.ToJacks.First().Jack, ends[^1].Out)
                    && Enumerable.Range(1, ends.Count - 1).All(i => Mate(ends[i - 1].Out, ends[i].In)))
                {
                    return (ends[0].In, ends[^1].Out);
                }
            }
            return (null, null);
        }
    }

    private static LeadEndSymbol First(LeadSymbol lead) => lead.Ends[0];

    private static LeadEndSymbol Last(LeadSymbol lead) => lead.Ends[lead.NearCount];

    private static bool Fits(JackSymbol jack, LeadEndSymbol end) => jack.IsCaptive
        ? end.IsSocket && end.Form.Takes(jack.Form)
        : !end.IsSocket && jack.Form.Takes(end.Form);

    private static bool Mate(LeadEndSymbol a, LeadEndSymbol b) =>
        a.IsSocket != b.IsSocket && (a.IsSocket ? a.Form.Takes(b.Form) : b.Form.Takes(a.Form));
}
