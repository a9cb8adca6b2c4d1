using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Findings;

/// <summary>
/// Which devices and cables a mistake may keep from passing on what they should. Only claims that stand by themselves get in here, so
/// that what is found does not depend on which check spoke first.
/// </summary>
internal sealed class Trouble
{
    private readonly Rig _rig;
    private readonly Dictionary<DeviceSymbol, List<(SignalKind? Kind, Claim Claim)>> _byDevice = [];
    private readonly List<TroubledCable> _cables = [];
    private readonly HashSet<Claim> _atCables = new(ReferenceEqualityComparer.Instance);
    private readonly List<Claim> _everywhere = [];
    private readonly Dictionary<ExpectedSignal, DeviceWays> _ways = [];

    public Trouble(Rig rig, IEnumerable<Claim> claims)
    {
        _rig = rig;
        var places = new StatementPlaces(rig);
        foreach (var claim in claims)
        {
            if (claim.Severity == Severity.Error || claim.Check.ExplainsAbsence)
            {
                Add(claim, places);
            }
        }
        AddUnsoundCables(places);
        SpreadThroughPassive();
    }

    public bool IsNone => _byDevice.Count == 0 && _cables.Count == 0 && _everywhere.Count == 0;

    /// <summary>The mistakes at a device that touch a signal of one of these kinds.</summary>
    public IEnumerable<Claim> At(DeviceSymbol device, ExpectedSignal flow)
    {
        foreach (var (kind, claim) in _byDevice.GetValueOrDefault(device) ?? [])
        {
            if (Touches(kind, flow) && Explains(claim.Check.Topic, flow))
            {
                yield return claim;
            }
        }
        foreach (var claim in _everywhere)
        {
            yield return claim;
        }
    }

    /// <summary>The mistakes on the line of a cable.</summary>
    public IEnumerable<Claim> On(Hookup hookup) => _cables.Where(c => ReferenceEquals(c.Hookup, hookup)).Select(c => c.Claim);

    /// <summary>The mistakes that a jack is empty, and those of a device as a whole that nothing gets to.</summary>
    public IEnumerable<Claim> AtGap(PortRef port, ExpectedSignal flow) => (_byDevice.GetValueOrDefault(port.Device) ?? [])
        .Where(c => c.Kind is null && (c.Claim.About.Any(a => a.Port == port.Port) || (c.Claim.About.Count == 0 && Explains(c.Claim.Check.Topic, flow))))
        .Select(c => c.Claim);

    /// <summary>
    /// The mistakes on a way that could be: cables that would lead on from where it starts to where it should end, and devices on the way.
    /// </summary>
    public IEnumerable<Claim> Between(DeviceSymbol from, DeviceSymbol to, ExpectedSignal flow)
    {
        var ways = WaysOf(flow);
        var (before, behind) = (ways.From(from), ways.To(to));
        foreach (var cable in _cables)
        {
            if (Touches(cable.Kind, flow) && Explains(cable.Claim.Check.Topic, flow) && cable.LeadsOn(before, behind))
            {
                yield return cable.Claim;
            }
        }
        // A device that gets nothing has nothing to give to whatever hangs behind it.
        foreach (var starved in behind.SelectMany(d => At(d, flow)).Where(c => c.About.Count > 0))
        {
            yield return starved;
        }
        foreach (var device in before.Intersect(behind).Append(from).Append(to).Distinct())
        {
            foreach (var claim in At(device, flow))
            {
                // A cable of this device that goes somewhere else has been judged above.
                if (!_atCables.Contains(claim))
                {
                    yield return claim;
                }
            }
        }
    }

    /// <summary>The mistakes on any way that could lead to a device.</summary>
    public IEnumerable<Claim> Before(DeviceSymbol to, ExpectedSignal flow)
    {
        var behind = WaysOf(flow).To(to);
        foreach (var cable in _cables)
        {
            if (Touches(cable.Kind, flow) && Explains(cable.Claim.Check.Topic, flow) && (cable.IsHalfKnown || (cable.Near.Overlaps(behind) && cable.Far.Overlaps(behind))))
            {
                yield return cable.Claim;
            }
        }
        foreach (var claim in behind.SelectMany(device => At(device, flow)))
        {
            yield return claim;
        }
    }

    private DeviceWays WaysOf(ExpectedSignal flow)
    {
        if (!_ways.TryGetValue(flow, out var ways))
        {
            _ways[flow] = ways = new DeviceWays(_rig, flow, _cables.Where(c => Touches(c.Kind, flow)).Select(c => (c.Near, c.Far)));
        }
        return ways;
    }

    private void Add(Claim claim, StatementPlaces places)
    {
        Add(claim, claim.At, places);
        foreach (var other in claim.AlsoAt)
        {
            Add(claim, other, places);
        }
    }

    private void Add(Claim claim, Location at, StatementPlaces places)
    {
        switch (places.At(at))
        {
            case ConnectStatement connect when places.Hookup(connect) is { } hookup:
                AddCable(hookup, claim);
                foreach (var (_, first, second) in _rig.Wiring.Contested.Where(c => c.First == hookup || c.Second == hookup))
                {
                    AddCable(first == hookup ? second : first, claim);
                }
                break;
            case DeviceStatement statement:
                foreach (var device in places.DevicesOf(statement))
                {
                    Add(device, null, claim);
                }
                break;
            case GearStatement gear:
                foreach (var device in _rig.Names.Devices.Where(d => ReferenceEquals(d.Gear?.Statement, gear) || d.Statement.Gear.Text == gear.Name.Text))
                {
                    Add(device, null, claim);
                }
                break;
            case LeadStatement lead:
                foreach (var hookup in _rig.Wiring.Hookups.Where(h => h.Connection.Statement.Leads.Any(l => l.Lead?.Text == lead.Name.Text)))
                {
                    AddCable(hookup, claim);
                }
                break;
            case ImportStatement:
                _everywhere.Add(claim);
                break;
            case null when claim.Check.Topic == Topic.Text:
                AddBrokenLine(claim, at);
                break;
        }
    }

    /// <summary>A line that cannot be read was about the devices that it names; with two of them most likely a cable between them.</summary>
    private void AddBrokenLine(Claim claim, Location at)
    {
        var source = at.Source;
        var line = source.Slice(source.LineSpan(source.PositionOf(at.Span.Start).Line));
        var named = _rig.Names.Devices.Where(d => _rig.Names.NamesInBrokenLines.Contains(d.Name) && line.Contains(d.Name, StringComparison.Ordinal)).ToHashSet();
        foreach (var device in named)
        {
            Add(device, null, claim);
        }
        if (named.Count > 1)
        {
            Add(new TroubledCable(named, named, null, claim));
        }
    }

    private void AddCable(Hookup hookup, Claim claim)
    {
        var connection = hookup.Connection;
        foreach (var end in connection.From.Concat(connection.To))
        {
            Add(end.Device, end.Port.Signal?.Kind, claim);
        }
        var (near, far) = (DevicesOf(connection, connection.Statement.From, connection.From), DevicesOf(connection, connection.Statement.To, connection.To));
        foreach (var device in connection.IsIncomplete ? near.Concat(far) : [])
        {
            Add(device, null, claim);
        }
        var kind = connection.From.Concat(connection.To).Select(e => e.Port.Signal?.Kind).Distinct().ToList() is [var only] ? only : null;
        Add(new TroubledCable(near, far, kind, claim) { IsHalfKnown = near.Count == 0 || far.Count == 0, Hookup = hookup });
    }

    /// <summary>The devices at one side of a cable; for a name that nothing has, the device that was most likely meant.</summary>
    private HashSet<DeviceSymbol> DevicesOf(ConnectionSymbol connection, IReadOnlyList<PathNode> written, GatheredList<Endpoint> ends)
    {
        var devices = ends.Select(e => e.Device).ToHashSet();
        var names = _rig.Names.DevicesByName;
        var file = _rig.Names.FileAt(connection.At);
        foreach (var path in ends.Count == 0 ? written : [])
        {
            var name = path.Parts[0].Text;
            if ((_rig.Names.FindDevice(file, name) ?? (Spelling.Nearest(name, names.Keys) is { } near ? names[near] : null)) is { } device)
            {
                devices.Add(device);
            }
        }
        return devices;
    }

    /// <summary>A cable that joins nothing though no mistake stands on its line: the mistake is that of a device at its end.</summary>
    private void AddUnsoundCables(StatementPlaces places)
    {
        // As known before: what one such cable adds is not handed on by the next.
        var known = _byDevice.ToDictionary(d => d.Key, d => d.Value.Where(c => c.Kind is null).Select(c => c.Claim).ToList());
        foreach (var hookup in _rig.Wiring.Hookups)
        {
            if (hookup.IsSound || known.Count == 0)
            {
                continue;
            }
            var connection = hookup.Connection;
            var devices = connection.Statement.From.Concat(connection.Statement.To).Select(path => places.Device(connection, path.Parts[0].Text)).OfType<DeviceSymbol>().ToList();
            foreach (var claim in devices.SelectMany(d => known.GetValueOrDefault(d) ?? []).Distinct().ToList())
            {
                foreach (var device in devices)
                {
                    Add(device, null, claim);
                }
                var all = devices.ToHashSet();
                Add(new TroubledCable(all, all, null, claim));
            }
        }
    }

    private void Add(TroubledCable cable)
    {
        _cables.Add(cable);
        _atCables.Add(cable.Claim);
    }

    /// <returns>Whether that was new.</returns>
    private bool Add(DeviceSymbol device, SignalKind? kind, Claim claim)
    {
        if (!_byDevice.TryGetValue(device, out var claims))
        {
            _byDevice[device] = claims = [];
        }
        if (claims.Exists(c => c.Kind == kind && ReferenceEquals(c.Claim, claim)))
        {
            return false;
        }
        claims.Add((kind, claim));
        return true;
    }

    /// <summary>A strip or splitter that gets nothing has nothing to give: what is plugged into it is in the same trouble.</summary>
    private void SpreadThroughPassive()
    {
        var open = new Queue<DeviceSymbol>(_byDevice.Keys);
        while (open.TryDequeue(out var device))
        {
            if (device.Gear is not { Joins.Count: > 0 } gear)
            {
                continue;
            }
            for (var jack = 0; jack < gear.JackCount; jack++)
            {
                foreach (var other in _rig.Wiring.Plugged[device.FirstJack + jack]?.Jacks ?? [])
                {
                    var isNew = false;
                    foreach (var (kind, claim) in _byDevice[device].ToList())
                    {
                        isNew |= Add(other.Device, kind ?? other.Jack.Port.Signal?.Kind, claim);
                    }
                    if (isNew)
                    {
                        open.Enqueue(other.Device);
                    }
                }
            }
        }
    }

    private static bool Touches(SignalKind? kind, ExpectedSignal flow) => kind is not { } known || DeviceWays.IsOf(known, flow);

    private static bool Explains(Topic topic, ExpectedSignal flow) => topic switch
    {
        Topic.Audio => flow == ExpectedSignal.Audio,
        Topic.Midi => flow == ExpectedSignal.Messages,
        Topic.Power => flow == ExpectedSignal.Power,
        Topic.Ground => false,
        _ => true,
    };

    /// <summary>A cable with a mistake on its line, by the devices at its ends.</summary>
    private sealed record TroubledCable(IReadOnlySet<DeviceSymbol> Near, IReadOnlySet<DeviceSymbol> Far, SignalKind? Kind, Claim Claim)
    {
        /// <summary>One of its ends could not be read: it may be any device.</summary>
        public bool IsHalfKnown { get; init; }

        public Hookup? Hookup { get; init; }

        /// <summary>True when it leads, one way round or the other, from one set of devices to another.</summary>
        public bool LeadsOn(IReadOnlySet<DeviceSymbol> before, IReadOnlySet<DeviceSymbol> behind) =>
            IsHalfKnown ? Near.Overlaps(before) || Near.Overlaps(behind) || Far.Overlaps(before) || Far.Overlaps(behind)
            : (Near.Overlaps(before) && Far.Overlaps(behind)) || (Far.Overlaps(before) && Near.Overlaps(behind));
    }
}
