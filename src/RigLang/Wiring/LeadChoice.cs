using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Wiring;

/// <summary>
/// Chooses a lead as a player would from the box: one that fits, carries everything that should arrive and shorts nothing;
/// of those, the one with the fewest plugs and wires.
/// </summary>
public sealed class LeadChoice
{
    private readonly RigNames _names;
    private readonly CableKinds _kinds;
    private readonly Dictionary<int, LeadSymbol?> _known = [];
    private List<LeadSymbol>? _candidates;

    internal LeadChoice(RigNames names, CableKinds kinds)
    {
        _names = names;
        _kinds = kinds;
    }

    /// <summary>The simplest lead between these jacks, or null when none fits.</summary>
    public LeadSymbol? Simplest(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to) => Known(from, to, []);

    /// <summary>The simplest lead between these jacks that carries everything and shorts nothing, as a trial shows; null when none does.</summary>
    public LeadSymbol? Clean(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to) =>
        Simplest(from, to) is { } lead && TroublesOf(from, to, Harness.Assemble(from, to, [lead])) == 0 ? lead : null;

    /// <summary>The names of those leads that fit these jacks, the ones that carry best first.</summary>
    public IReadOnlyList<string> Fitting(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to)
    {
        var fitting = new List<(int Troubles, int Ends, int Wires, int Mixed, string Name)>();
        if (from.Count > 0 && to.Count > 0)
        {
            foreach (var candidate in CandidatesBetween(from[0], to[0]).Where(c => CouldFit(c, from, to)))
            {
                if (Harness.Assemble(from, to, [candidate]) is { Fault: HarnessFault.None } harness)
                {
                    fitting.Add((TroublesOf(from, to, harness), candidate.Ends.Count, candidate.Wires.Count, 0, candidate.Name));
                }
            }
        }
        fitting.Sort(Compare);
        return fitting.ConvertAll(f => f.Name);
    }

    /// <summary>The lead or adapter that, put behind the given chain, makes it fit; null when none does.</summary>
    public LeadSymbol? AdapterFor(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, IReadOnlyList<LeadSymbol> chain) =>
        chain.Count < Harness.LongestChain ? Known(from, to, chain) : null;

    private LeadSymbol? Known(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, IReadOnlyList<LeadSymbol> chain)
    {
        var kind = _kinds.Of(from, to, chain);
        if (!_known.TryGetValue(kind, out var lead))
        {
            _known[kind] = lead = Search(from, to, chain);
        }
        return lead;
    }

    private LeadSymbol? Search(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, IReadOnlyList<LeadSymbol> chain)
    {
        LeadSymbol? best = null;
        var bestCost = (Troubles: int.MaxValue, Ends: 0, Wires: 0, Mixed: 0, Name: "");
        foreach (var candidate in chain.Count == 0 ? CandidatesBetween(from[0], to[0]) : Candidates)
        {
            if (chain.Count == 0 && !CouldFit(candidate, from, to))
            {
                continue;
            }
            var harness = Harness.Assemble(from, to, [.. chain, candidate]);
            if (harness.Fault != HarnessFault.None)
            {
                continue;
            }
            var mixed = candidate.Ends[0].Form.Family == candidate.Ends[^1].Form.Family ? 0 : 1;
            var cost = (TroublesOf(from, to, harness), candidate.Ends.Count, candidate.Wires.Count, mixed, candidate.Name);
            if (Compare(cost, bestCost) < 0)
            {
                (best, bestCost) = (candidate, cost);
            }
        }
        return best;
    }

    /// <summary>A look at the plugs, which rules out most of the box before anything is assembled.</summary>
    private static bool CouldFit(LeadSymbol lead, IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to)
    {
        var near = lead.Ends[0];
        var far = lead.Ends[lead.NearCount];
        return (Fits(near, from[0]) && Fits(far, to[0])) || (Fits(far, from[0]) && Fits(near, to[0]));

        static bool Fits(LeadEndSymbol end, JackSymbol jack) => jack.IsCaptive
            ? end.IsSocket && end.Form.Takes(jack.Form)
            : !end.IsSocket && jack.Form.Takes(end.Form);
    }

    private static int Compare((int Troubles, int Ends, int Wires, int Mixed, string Name) a, (int Troubles, int Ends, int Wires, int Mixed, string Name) b) =>
        (a.Troubles, a.Ends, a.Wires, a.Mixed).CompareTo((b.Troubles, b.Ends, b.Wires, b.Mixed)) is not 0 and var order
            ? order
            : string.CompareOrdinal(a.Name, b.Name);

    /// <summary>The rig's own leads, then the library's that it does not have under the same name.</summary>
    private List<LeadSymbol> Candidates => _candidates ??= [.. WithOwn(SharedLibrary.Leads)];

    /// <summary>The candidates less most of those that cannot fit: a lead of the library that names no such plug is not even read.</summary>
    private IEnumerable<LeadSymbol> CandidatesBetween(JackSymbol from, JackSymbol to) =>
        WithOwn(SharedLibrary.LeadsBetween(PlugsFor(from), PlugsFor(to)));

    private IEnumerable<LeadSymbol> WithOwn(IEnumerable<LeadSymbol> library) =>
        _names.Leads.Values.Concat(library.Where(l => !_names.Leads.ContainsKey(l.Name))).Where(l => !l.IsIncomplete);

    private static List<Form> PlugsFor(JackSymbol jack) => jack.Form.IsBarrel
        ? [jack.Form]
        : [.. Forms.All.Where(form => jack.IsCaptive ? form.Takes(jack.Form) : jack.Form.Takes(form))];

    /// <summary>How many contacts do not get, or give, what they should.</summary>
    private static int TroublesOf(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, Harness harness)
    {
        var seats = from.Concat(to).Select(jack => new JackRef(null!, jack)).ToArray();
        var nets = new Nets(seats);
        foreach (var joined in harness.Joined)
        {
            nets.Join(nets.Contact(joined.SeatA, joined.ContactA), nets.Contact(joined.SeatB, joined.ContactB));
        }
        var troubles = 0;
        foreach (var seat in harness.UsedSeats)
        {
            for (var i = 0; i < nets.Jack(seat).Jack.Roles.Count; i++)
            {
                troubles += IsTroubled(nets, nets.Contact(seat, i)) ? 1 : 0;
            }
        }
        return troubles;
    }

    private static bool IsTroubled(Nets nets, int contact)
    {
        var role = nets.RoleOf(contact);
        return role switch
        {
            // Passive sockets pass a contact on; so does the ground of a signal: it should meet its like.
            { Drive: Drive.None, Role: Role.Unused or Role.HeadsetMic } => false,
            { Drive: Drive.None, Role: Role.Plus or Role.Minus } when IsWire(nets, contact) => !GoesStraight(nets, contact),
            { Drive: Drive.None } => OthersOf(nets, contact, role.Role) == 0,
            { Drive: Drive.In, Role: Role.Cold } => !nets.IsGrounded(contact) && nets.Find(contact, Role.Cold, Drive.Out) < 0,
            { Drive: Drive.In, Role: Role.Earth } => nets.Find(contact, Role.Earth, Drive.Out) < 0 && !Passes(nets, contact, Role.Earth),
            { Drive: Drive.In, Role: Role.MidiSource or Role.MidiSink } when nets.IsGrounded(contact) => true,
            { Drive: Drive.In } => Drivers(nets, contact, role.Role) != 1 && !Passes(nets, contact, role.Role),
            { Drive: Drive.Out, Role: Role.Hot } => nets.IsGrounded(contact) || !IsHeard(nets, contact),
            // A cold contact may stay open, unless something at the other end would take the difference.
            { Drive: Drive.Out, Role: Role.Cold } => nets.IsGrounded(contact) || (TakesDifference(nets) && nets.Find(contact, Role.Cold, Drive.In) < 0),
            _ => false,
        };
    }

    private static bool TakesDifference(Nets nets)
    {
        for (var seat = 0; seat < nets.SeatCount; seat++)
        {
            if (nets.Jack(seat).Jack.Roles.Any(r => r is { Role: Role.Cold, Drive: Drive.In }))
            {
                return true;
            }
        }
        return false;
    }

    private static int Drivers(Nets nets, int contact, Role role)
    {
        var right = 0;
        foreach (var member in nets.Members(contact))
        {
            var other = nets.RoleOf(member);
            right += other.Drive == Drive.Out ? other.Role == role ? 1 : 10 : 0;
        }
        return right;
    }

    private static int OthersOf(Nets nets, int contact, Role role)
    {
        var count = -1;
        foreach (var member in nets.Members(contact))
        {
            count += nets.RoleOf(member).Role == role ? 1 : 0;
        }
        return count;
    }

    private static bool Passes(Nets nets, int contact, Role role)
    {
        foreach (var member in nets.Members(contact))
        {
            var other = nets.RoleOf(member);
            if (other.Drive == Drive.None && (other.Role == role || (role is Role.Plus or Role.Minus && other.Role is Role.Plus or Role.Minus && IsWire(nets, member))))
            {
                return true;
            }
        }
        return false;
    }

    private static bool IsWire(Nets nets, int contact) => nets.Jack(nets.SeatOf(contact)).Jack.Port.TakesAnyPolarity;

    /// <summary>Centre meets centre; with a plug of another family any contact will do.</summary>
    private static bool GoesStraight(Nets nets, int contact)
    {
        var (form, name) = FormAndContact(nets, contact);
        foreach (var member in nets.Members(contact))
        {
            if (member != contact && FormAndContact(nets, member) is var (other, otherName) && (otherName == name || other.Family != form.Family))
            {
                return true;
            }
        }
        return false;
    }

    private static (Form Form, string Contact) FormAndContact(Nets nets, int contact)
    {
        var seat = nets.SeatOf(contact);
        var form = nets.Jack(seat).Jack.Form;
        return (form, form.Contacts[contact - nets.Contact(seat, 0)]);
    }

    private static bool IsHeard(Nets nets, int contact)
    {
        foreach (var member in nets.Members(contact))
        {
            if (member != contact && nets.RoleOf(member) is { Role: Role.Hot, Drive: not Drive.Out })
            {
                return true;
            }
        }
        return false;
    }
}
