using System.Collections.Immutable;
using System.Runtime.InteropServices;
using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Wiring;

/// <summary>What became of one `connect` line.</summary>
public sealed class Hookup(ConnectionSymbol connection)
{
    public ConnectionSymbol Connection { get; } = connection;

    /// <summary>The leads of the chain, the chosen one included; empty for a plug that goes straight into a jack.</summary>
    public IReadOnlyList<LeadSymbol> Leads { get; internal set; } = [];

    /// <summary>Each lead of the chain with its length, as far as they are said; a chosen lead has the length that the line says.</summary>
    public IEnumerable<(LeadSymbol? Lead, Metre? Length)> LeadsUsed =>
        Connection.Leads.Select(use => (use.Lead ?? (Leads.Count == 1 ? Leads[0] : null), use.Length));

    /// <summary>True when the player named no lead and the simplest that fits was chosen.</summary>
    public bool IsLeadChosen { get; internal set; }

    /// <summary>True when the player named no lead and none fits.</summary>
    public bool IsLeadMissing { get; internal set; }

    /// <summary>True when the jacks at the two ends carry different kinds of signal, whatever the plugs say.</summary>
    public bool IsMismatched => Mismatch is not null;

    /// <summary>The first two ends whose signals do not go together.</summary>
    public (Endpoint From, Endpoint To)? Mismatch { get; internal set; }

    /// <summary>True when outputs stand at both ends: whatever the plugs, nothing takes in what they give.</summary>
    public bool AreBothOutputs { get; internal set; }

    public Harness? Harness { get; internal set; }

    /// <summary>The jacks it occupies, `from` before `to`.</summary>
    public IReadOnlyList<JackRef> Jacks { get; internal set; } = [];

    /// <summary>True when it could be put together and nothing else wants its jacks: only then does it join anything.</summary>
    public bool IsSound { get; internal set; }

    /// <summary>The first of its jacks that has a contact with this part, or null.</summary>
    public JackRef? JackWith(Role role, Drive drive)
    {
        foreach (var jack in Jacks)
        {
            if (jack.Jack.RoleIndex(role, drive) >= 0)
            {
                return jack;
            }
        }
        return null;
    }
}

/// <summary>Everything plugged together: the nets of the whole rig, and what became of each connection.</summary>
public sealed class RigWiring
{
    private readonly RigNames _names;
    private readonly CableKinds _kinds = new();
    private readonly Dictionary<int, Harness> _harnesses = [];
    private readonly HashSet<(int Jack, Hookup)> _refused = [];
    private readonly LeadChoice _choice;
    private readonly Hookup?[] _plugged;

    private RigWiring(RigNames names)
    {
        _names = names;
        _choice = new LeadChoice(names, _kinds);
        Nets = new Nets(AllJacks(names));
        _plugged = new Hookup?[names.JackCount];
    }

    public Nets Nets { get; }
    public GatheredList<Hookup> Hookups { get; } = [];

    /// <summary>Which connection is in each jack, by <see cref="JackRef.Id"/>.</summary>
    public ImmutableArray<Hookup?> Plugged => ImmutableCollectionsMarshal.AsImmutableArray(_plugged);

    /// <summary>Connections that want a jack which another has: the jack, the first by place, the later one.</summary>
    public GatheredList<(JackRef Jack, Hookup First, Hookup Second)> Contested { get; } = [];

    public LeadChoice Choice => _choice;

    public static RigWiring Of(RigNames names)
    {
        var wiring = new RigWiring(names);
        foreach (var connection in names.Connections)
        {
            wiring.Plug(connection);
        }
        if (wiring.Contested.Count > 0)
        {
            wiring.SettleContested();
        }
        wiring.KeepSeatsOfUnreadLines();
        foreach (var (_, first, second) in wiring.Contested)
        {
            first.IsSound = second.IsSound = false;
        }
        foreach (var hookup in wiring.Hookups.Where(h => h.IsSound))
        {
            wiring.JoinContacts(hookup);
        }
        foreach (var device in names.Devices)
        {
            wiring.JoinInside(device);
        }
        wiring.Hookups.Close();
        wiring.Contested.Close();
        return wiring;
    }

    /// <summary>True when this jack, or for a stereo pair the other jack of its port, has a plug in it.</summary>
    public bool IsPlugged(DeviceSymbol device, PortSymbol port) =>
        port.Jacks.Exists(jack => Plugged[device.FirstJack + jack.Index] is not null);

    /// <summary>The plug of the strip or splitter that an outlet belongs to; null when that is plugged in nowhere, or the outlet is no such one.</summary>
    public JackRef? PlugOf(JackRef outlet)
    {
        foreach (var from in outlet.Device.Gear!.Joins.To(outlet.Jack.Port))
        {
            if (from.Jacks is [var plug, ..] && new JackRef(outlet.Device, plug) is var found && Plugged[found.Id] is { IsSound: true })
            {
                return found;
            }
        }
        return null;
    }

    private void Plug(ConnectionSymbol connection)
    {
        var hookup = new Hookup(connection) { Jacks = connection.Jacks };
        Hookups.Add(hookup);
        if (!connection.IsIncomplete && connection.From.Count > 0 && connection.To.Count > 0)
        {
            Assemble(hookup);
            Occupy(hookup);
        }
    }

    /// <summary>
    /// Of lines that want one jack, the first by its words has it: which one that is does not depend on where the lines stand.
    /// </summary>
    private void SettleContested()
    {
        var settled = Contested.Where(c => c.First == c.Second).ToList();
        foreach (var jack in Contested.Where(c => c.First != c.Second).GroupBy(c => c.Jack))
        {
            var wanting = jack.SelectMany(c => new[] { c.First, c.Second }).Distinct().OrderBy(TextOf, StringComparer.Ordinal).ToList();
            if (wanting.FindAll(h => h.IsSound) is { Count: > 0 } fitting)
            {
                // What does not go in takes no place away; it is told by itself.
                wanting = fitting;
            }
            _plugged[jack.Key.Id] = wanting[0];
            settled.AddRange(wanting.Skip(1).Select(second => (jack.Key, wanting[0], second)));
        }
        var ordered = settled.OrderBy(c => c.Jack.ToString(), StringComparer.Ordinal).ThenBy(c => TextOf(c.Second), StringComparer.Ordinal).ToList();
        Contested.Clear();
        Contested.AddRange(ordered);

        static string TextOf(Hookup hookup) => hookup.Connection.At.Source.Slice(hookup.Connection.At.Span);
    }

    /// <summary>
    /// A line with an unknown name means to use its other jacks, so they do not count as empty; but it takes none from a line
    /// that is whole.
    /// </summary>
    private void KeepSeatsOfUnreadLines()
    {
        foreach (var hookup in Hookups.Where(h => h.Connection.IsIncomplete))
        {
            foreach (var jack in hookup.Jacks)
            {
                _plugged[jack.Id] ??= hookup;
            }
        }
    }

    private void Assemble(Hookup hookup)
    {
        var connection = hookup.Connection;
        var from = JacksOf(connection.From);
        var to = JacksOf(connection.To);
        hookup.Mismatch = FirstMismatch(connection);
        if (hookup.IsMismatched)
        {
            return;
        }
        var named = NamedLeads(connection);
        hookup.AreBothOutputs = IsOutput(connection.From) && IsOutput(connection.To)
            && !connection.From.Exists(a => connection.To.Exists(b => a.Device == b.Device && a.Port == b.Port));
        if (hookup.AreBothOutputs)
        {
            hookup.Leads = named;
            return;
        }
        if (named.Count == 0 && !GoesStraightIn(from, to))
        {
            if (_choice.Simplest(from, to) is not { } chosen)
            {
                hookup.IsLeadMissing = true;
                return;
            }
            named = [chosen];
            hookup.IsLeadChosen = true;
        }
        hookup.Leads = named;
        var kind = _kinds.Of(from, to, named);
        if (!_harnesses.TryGetValue(kind, out var harness))
        {
            _harnesses[kind] = harness = Harness.Assemble(from, to, named);
        }
        hookup.Harness = harness;
        hookup.IsSound = harness.Fault == HarnessFault.None;
        if (hookup.IsSound && harness.UsedSeats.Count < hookup.Jacks.Count)
        {
            hookup.Jacks = [.. harness.UsedSeats.Select(seat => hookup.Jacks[seat])];
        }
    }

    /// <summary>The jacks of one side; most often one end, whose list is there already.</summary>
    private static IReadOnlyList<JackSymbol> JacksOf(GatheredList<Endpoint> ends) =>
        ends.Count == 1 ? ends[0].Jacks : [.. ends.SelectMany(e => e.Jacks)];

    private static IReadOnlyList<LeadSymbol> NamedLeads(ConnectionSymbol connection) => connection.Leads switch
    {
        [] => [],
        [{ Lead: { } only }] => [only],
        var leads => [.. leads.Where(l => l.Lead is not null).Select(l => l.Lead!)],
    };

    private static bool IsOutput(GatheredList<Endpoint> ends) => ends.Count > 0 && ends.TrueForAll(end =>
        end.Port is { IsOutput: true, IsPassive: false, Signal.Kind: not (SignalKind.Usb or SignalKind.Insert or SignalKind.Control) });

    private static (Endpoint, Endpoint)? FirstMismatch(ConnectionSymbol connection)
    {
        foreach (var from in connection.From)
        {
            foreach (var to in connection.To)
            {
                if (!GoTogether(from.Port, to.Port))
                {
                    return (from, to);
                }
            }
        }
        return null;
    }

    /// <summary>
    /// True when the two signals are of one kind. A low-voltage load on a USB connector is fed by a USB host or charger; AC and
    /// DC share their plugs, and are told apart from the nets.
    /// </summary>
    internal static bool GoTogether(PortSymbol a, PortSymbol b) => (a.Signal?.Kind, b.Signal?.Kind) switch
    {
        (null, _) or (_, null) => true,
        (SignalKind.Control or SignalKind.Pulse, SignalKind.Control) or (SignalKind.Control, SignalKind.Pulse) =>
            b.IsOutput && !a.IsOutput ? ControlMeeting.CanMeet(b.Signal!, a.Signal!) : ControlMeeting.CanMeet(a.Signal!, b.Signal!),
        var (x, y) when x == y => true,
        (SignalKind.Audio, SignalKind.Insert) or (SignalKind.Insert, SignalKind.Audio) => true,
        (SignalKind.Dc, SignalKind.Ac) or (SignalKind.Ac, SignalKind.Dc) => true,
        (SignalKind.Dc, SignalKind.Usb) or (SignalKind.Usb, SignalKind.Dc) => true,
        _ => false,
    };

    /// <summary>A plug on the gear's own cable needs no lead.</summary>
    private static bool GoesStraightIn(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to) =>
        from.Any(j => j.IsCaptive) || to.Any(j => j.IsCaptive);

    private void Occupy(Hookup hookup)
    {
        foreach (var jack in hookup.Jacks)
        {
            ref var seat = ref _plugged[jack.Id];
            if (seat is null)
            {
                seat = hookup;
            }
            else
            {
                // A jack that stands twice in a line is that line's own mistake, whether or not another line has it first.
                Contested.Add((jack, _refused.Add((jack.Id, hookup)) ? seat : hookup, hookup));
            }
        }
    }

    private void JoinContacts(Hookup hookup)
    {
        var all = hookup.Connection.Jacks;
        foreach (var joined in hookup.Harness!.Joined)
        {
            Nets.Join(Nets.Contact(all[joined.SeatA].Id, joined.ContactA), Nets.Contact(all[joined.SeatB].Id, joined.ContactB));
        }
    }

    /// <summary>Metal to metal inside a device: contacts of the same name, jack by jack.</summary>
    private void JoinInside(DeviceSymbol device)
    {
        if (device.Gear is not { Joins.Count: > 0 } gear)
        {
            return;
        }
        foreach (var group in gear.Joins.Groups)
        {
            // Of jacks that are built alike, joining each to one of the other side joins it to all of them.
            var (near, far) = (OneOfEachBuild(group.From), OneOfEachBuild(group.To));
            foreach (var from in group.From)
            {
                far.ForEach(to => JoinInside(device, from, to));
            }
            foreach (var to in group.To)
            {
                near.ForEach(from => JoinInside(device, from, to));
            }
        }
    }

    /// <summary>Ports that stand for all others with the same jacks and signal.</summary>
    private static List<PortSymbol> OneOfEachBuild(IReadOnlyList<PortSymbol> ports)
    {
        if (ports is [var only])
        {
            return [only];
        }
        var builds = new List<PortSymbol>();
        foreach (var port in ports)
        {
            if (!builds.Exists(other => IsBuiltLike(port, other)))
            {
                builds.Add(port);
            }
        }
        return builds;
    }

    private static bool IsBuiltLike(PortSymbol a, PortSymbol b)
    {
        if (a.Jacks.Count != b.Jacks.Count)
        {
            return false;
        }
        for (var i = 0; i < a.Jacks.Count; i++)
        {
            if (!ReferenceEquals(a.Jacks[i].Form, b.Jacks[i].Form) || !a.Jacks[i].Roles.SequenceEqual(b.Jacks[i].Roles))
            {
                return false;
            }
        }
        return true;
    }

    private void JoinInside(DeviceSymbol device, PortSymbol from, PortSymbol to)
    {
        for (var i = 0; i < Math.Min(from.Jacks.Count, to.Jacks.Count); i++)
        {
            var (a, b) = (from.Jacks[i], to.Jacks[i]);
            for (var contact = 0; contact < a.Form.Contacts.Count; contact++)
            {
                if (MatchingContact(a, b, contact) is >= 0 and var other)
                {
                    Nets.Join(Nets.Contact(device.FirstJack + a.Index, contact), Nets.Contact(device.FirstJack + b.Index, other));
                }
            }
        }
    }

    /// <summary>The contact with the same name or, between different connectors, the same part in the signal.</summary>
    private static int MatchingContact(JackSymbol a, JackSymbol b, int contact)
    {
        if (a.Form.Family == b.Form.Family && a.Form.Contacts.Count == b.Form.Contacts.Count && a.Roles[contact] == b.Roles[contact])
        {
            return contact;
        }
        var role = a.Roles[contact];
        if (role.Role == Role.Unused)
        {
            return -1;
        }
        for (var i = 0; i < b.Roles.Count; i++)
        {
            if (b.Roles[i].Role == role.Role && b.Roles[i].Channel == role.Channel)
            {
                return i;
            }
        }
        return -1;
    }

    private static JackRef[] AllJacks(RigNames names)
    {
        var jacks = new JackRef[names.JackCount];
        foreach (var device in names.Devices)
        {
            foreach (var port in device.Gear?.Ports ?? [])
            {
                foreach (var jack in port.Jacks)
                {
                    jacks[device.FirstJack + jack.Index] = new JackRef(device, jack);
                }
            }
            // A bus has a place among them, and nothing to plug into.
            foreach (var bus in device.Gear?.Busses ?? [])
            {
                jacks[device.FirstJack + bus.Jacks[0].Index] = new JackRef(device, bus.Jacks[0]);
            }
        }
        return jacks;
    }
}
