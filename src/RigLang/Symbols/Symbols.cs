using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>A kind of gear: its ports, what joins or routes them, and what it can be set to.</summary>
public sealed class GearSymbol(string name, Location at, GearStatement statement)
{
    public string Name { get; } = name;
    public Location At { get; } = at;
    public GearStatement Statement { get; } = statement;

    /// <summary>The gear that it is like; null for one that stands by itself.</summary>
    public GearSymbol? Like { get; init; }

    /// <summary>How many gears it is like, one by way of the other.</summary>
    internal int Depth => Like is { } like ? like.Depth + 1 : 0;

    /// <summary>All lines that make it: those of the gear that it is like, as far as they hold, and its own.</summary>
    internal IReadOnlyList<GearLine> Lines { get; init; } = [];
    public GatheredList<PortSymbol> Ports { get; } = [];
    public GatheredDictionary<string, PortSymbol> PortsByName { get; } = new(StringComparer.Ordinal);

    /// <summary>Active paths: what goes in at the first comes out of the second.</summary>
    public GatheredPairs Routes { get; } = new();

    /// <summary>How late what takes a route comes out of it, where the gear says so.</summary>
    public GatheredLatencies Latencies { get; } = new();

    /// <summary>Those of the routes that work one at a time.</summary>
    public GatheredPairs Switches { get; } = new();

    /// <summary>Those of the routes that a player chooses among, channel by channel: the buttons that send a channel to a group or to the main mix.</summary>
    public GatheredPairs Assigns { get; } = new();

    /// <summary>How much louder what takes a route comes out of it, in dB, where the gear says so; the last line that speaks of a route counts.</summary>
    public GatheredGains Gains { get; } = new();

    /// <summary>Which channels of a USB stream its routes are, where the gear numbers them.</summary>
    public GatheredList<StreamRoute> Streams { get; } = [];

    /// <summary>What it plays by itself: the songs of a computer, a click.</summary>
    public GatheredDictionary<string, SoundSymbol> Sounds { get; } = new(StringComparer.Ordinal);

    /// <summary>What it records, in the order of its tracks; a stereo port takes two. Inputs, outputs, busses or USB.</summary>
    public GatheredList<PortSymbol> Records { get; } = [];

    /// <summary>Sums inside, without a jack. They are found by their names as ports are, and are not among <see cref="Ports"/>.</summary>
    public GatheredList<PortSymbol> Busses { get; } = [];

    /// <summary>True when it can move messages to other channels.</summary>
    public bool MapsChannels { get; internal set; }

    /// <summary>Metal to metal: contacts of the same name are one.</summary>
    public GatheredPairs Joins { get; } = new();

    public GatheredDictionary<string, PartSymbol> Parts { get; } = new(StringComparer.Ordinal);
    public GatheredDictionary<string, TrackSymbol> Tracks { get; } = new(StringComparer.Ordinal);
    public GatheredList<ClockSource> ClockFollows { get; } = [];
    public GatheredList<PortSymbol> ClockSends { get; } = [];
    public GatheredList<ClockSource> TransportFollows { get; } = [];
    public GatheredList<PortSymbol> TransportSends { get; } = [];
    public MessageKinds Filters { get; internal set; }
    public bool HasBattery { get; internal set; }

    /// <summary>What the battery holds; null when the gear does not say.</summary>
    public Battery? Battery { get; internal set; }
    public int JackCount { get; internal set; }
    public int ContactCount { get; internal set; }

    /// <summary>True when a line of the gear could not be read, so that what is missing may be there.</summary>
    public bool IsIncomplete { get; internal set; }

    /// <summary>Its block has been read.</summary>
    internal void Close()
    {
        Ports.Close();
        PortsByName.Close();
        Routes.Close();
        Latencies.Close();
        Switches.Close();
        Assigns.Close();
        Gains.Close();
        Streams.Close();
        Sounds.Close();
        Records.Close();
        Busses.Close();
        Joins.Close();
        Parts.Close();
        Tracks.Close();
        ClockFollows.Close();
        ClockSends.Close();
        TransportFollows.Close();
        TransportSends.Close();
        foreach (var port in Ports.Concat(Busses))
        {
            port.Jacks.Close();
        }
    }
}

/// <summary>A battery by how long it lasts in its gear, or by the watt-hours that it holds: one of the two.</summary>
public readonly record struct Battery(Second? Lasts, double? WattHours);

/// <summary><see cref="Port"/> is null for the device's own clock (`internal`).</summary>
public readonly record struct ClockSource(string Name, PortSymbol? Port);

/// <summary>A port of a gear: one jack, or two for a stereo pair.</summary>
public sealed class PortSymbol(GearSymbol gear, string name, bool isOutput, Location at)
{
    public GearSymbol Gear { get; } = gear;
    public string Name { get; } = name;
    public bool IsOutput { get; } = isOutput;
    public Location At { get; } = at;

    /// <summary>Null when the signal could not be read; checks pass over the port.</summary>
    public Signal? Signal { get; internal set; }
    public GatheredList<JackSymbol> Jacks { get; } = [];

    /// <summary>True for a sum inside a mixer: no plug goes in, and what comes in by a route goes out by the next.</summary>
    public bool IsBus { get; init; }

    /// <summary>True when the port is joined to another: it neither drives nor loads, it only carries.</summary>
    public bool IsPassive { get; internal set; }

    /// <summary>A splitter or daisy chain: its contacts have the polarity of the supply that is plugged in, whichever it is.</summary>
    public bool TakesAnyPolarity => IsPassive && Signal is { Kind: SignalKind.Dc, Polarity: Polarity.Unknown };
}

/// <summary>What a device plays by itself, and where: the songs of a computer, a click.</summary>
/// <param name="Channels">Of a USB stream, the numbers of the channels it goes out on, both ends included; null for all that are not numbered.</param>
public sealed record SoundSymbol(string Name, Location At, IReadOnlyList<PortSymbol> LeavesAt, (int First, int Last)? Channels);

/// <summary>A route into a USB stream or out of it by numbered channels: a mono port takes one, a stereo port two.</summary>
/// <param name="First">Number of the first, from 1.</param>
public readonly record struct StreamRoute(PortSymbol From, PortSymbol To, int First);

/// <summary>One hole in a panel, or one plug at the end of a cable that is part of the gear.</summary>
public sealed class JackSymbol(PortSymbol port, Side side, Form form, bool isCaptive)
{
    public PortSymbol Port { get; } = port;
    public Side Side { get; } = side;
    public Form Form { get; } = form;

    /// <summary>True for a plug on a cable that is part of the gear.</summary>
    public bool IsCaptive { get; } = isCaptive;

    /// <summary>Place among the gear's jacks.</summary>
    public int Index { get; init; }

    /// <summary>Place of the first contact among the gear's contacts.</summary>
    public int FirstContact { get; init; }

    /// <summary>What each contact of <see cref="Form"/> does.</summary>
    public IReadOnlyList<ContactRole> Roles { get; internal set; } = [];

    /// <summary>The first contact that does this, or -1.</summary>
    public int RoleIndex(Role role, Drive drive)
    {
        for (var i = 0; i < Roles.Count; i++)
        {
            if (Roles[i].Role == role && Roles[i].Drive == drive)
            {
                return i;
            }
        }
        return -1;
    }
}

/// <summary>A voice, drum or section that plays when notes arrive on its channel.</summary>
public sealed record PartSymbol(string Name, Location At, IReadOnlyList<PortSymbol> Receives, ChannelChoice Channels, IReadOnlyList<PortSymbol> SoundsAt);

/// <summary>A track, lane of pads or keyboard that sends notes.</summary>
/// <param name="Plays">Parts of the same device that it plays inside, unless local control is off.</param>
/// <param name="Kinds">What it sends.</param>
public sealed record TrackSymbol(
    string Name, Location At, IReadOnlyList<PortSymbol> Sends, ChannelChoice Channels, IReadOnlyList<string> Plays, MessageKinds Kinds)
{
    /// <summary>What a track can send: all that has a channel, and what a box sends beside its notes without one.</summary>
    public const MessageKinds AllKinds = MessageKinds.Channel | MessageKinds.SystemExclusive | MessageKinds.ActiveSensing;
}

/// <summary>Channels that can be chosen, 1 to 16, both ends included; a fixed channel has both ends the same.</summary>
public readonly record struct ChannelChoice(int First, int Last)
{
    public static readonly ChannelChoice Any = new(1, 16);
    public bool IsFixed => First == Last;
    public bool Allows(int channel) => channel >= First && channel <= Last;
    public override string ToString() => IsFixed ? $"channel {First}" : $"channels {First} to {Last}";
}

/// <summary>A kind of cable: its plugs, and which contacts its wires join.</summary>
public sealed class LeadSymbol(string name, Location at, bool isShared, LeadStatement statement)
{
    internal LeadStatement Statement { get; } = statement;
    public string Name { get; } = name;
    public Location At { get; } = at;

    /// <summary>True when it comes from the library that ships with the tool.</summary>
    public bool IsShared { get; } = isShared;

    /// <summary>The plugs before `to`, then those after it.</summary>
    public GatheredList<LeadEndSymbol> Ends { get; } = [];
    public int NearCount { get; internal set; }
    public int FarCount => Ends.Count - NearCount;
    public GatheredList<Wire> Wires { get; } = [];
    public Metre? Longest { get; internal set; }

    /// <summary>American wire gauge of its conductors, where it is said.</summary>
    public double? Gauge { get; internal set; }

    /// <summary>True when a line could not be read; the lead then joins nothing and is not reported on.</summary>
    public bool IsIncomplete { get; internal set; }

    internal void Close()
    {
        Ends.Close();
        Wires.Close();
    }
}

public sealed record LeadEndSymbol(string Name, Form Form, bool IsSocket);

/// <summary>One conductor: contact <see cref="FromContact"/> of end <see cref="FromEnd"/> to a contact of another end.</summary>
public readonly record struct Wire(int FromEnd, int FromContact, int ToEnd, int ToContact);

/// <summary>One device on the table, and what is set on it.</summary>
public sealed class DeviceSymbol(string name, Location at, DeviceStatement statement)
{
    public string Name { get; } = name;
    public Location At { get; } = at;
    public DeviceStatement Statement { get; } = statement;

    /// <summary>Place among the rig's devices.</summary>
    public int Index { get; init; }

    /// <summary>Null when the gear is not known; checks pass over the device.</summary>
    public GearSymbol? Gear { get; internal set; }
    public (Metre X, Metre Y)? Place { get; internal set; }

    /// <summary>In a straight line; null when one of the two has no place.</summary>
    public Metre? DistanceTo(DeviceSymbol other) =>
        Place is var (x1, y1) && other.Place is var (x2, y2) ? new Metre(double.Hypot(x1.Value - x2.Value, y1.Value - y2.Value)) : null;

    public bool OnBattery { get; internal set; }

    /// <summary>Channel by part or track name.</summary>
    public GatheredDictionary<string, ChannelAssignment> Channels { get; } = new(StringComparer.Ordinal);
    public ClockSource? Clock { get; internal set; }
    public ClockSource? Transport { get; internal set; }
    public GatheredList<PortFilter> Filters { get; } = [];
    public GatheredSet<PortSymbol> PhantomOn { get; } = [];
    public GatheredList<ChannelMap> Maps { get; } = [];

    /// <summary>Tracks that no longer play the device's own parts.</summary>
    public GatheredSet<string> LocalOff { get; } = new(StringComparer.Ordinal);

    /// <summary>Outputs that no longer pass on what comes in.</summary>
    public GatheredSet<PortSymbol> ThruOff { get; } = [];

    /// <summary>How many notes a track plays at once, by its name, where the player says so.</summary>
    public GatheredDictionary<string, int> NotesAtOnce { get; } = new(StringComparer.Ordinal);

    /// <summary>What is dialled in on a mixer, line by line.</summary>
    public GatheredList<MixSetting> Mix { get; } = [];

    /// <summary>Number of its first jack and its first contact among the rig's.</summary>
    public int FirstJack { get; internal set; }
    public int FirstContact { get; internal set; }

    /// <summary>All that is set on it has been read.</summary>
    internal void Close()
    {
        Channels.Close();
        Filters.Close();
        PhantomOn.Close();
        Maps.Close();
        LocalOff.Close();
        ThruOff.Close();
        NotesAtOnce.Close();
        Mix.Close();
    }
}

/// <summary>One thing dialled in on a mixer.</summary>
/// <param name="Port">The channel, bus or output that it is dialled in on.</param>
public abstract record MixSetting(PortSymbol Port, Location At)
{
    /// <summary><c>ch1 pan left</c>; <see cref="Side.Only"/> is the centre.</summary>
    public sealed record Pan(PortSymbol Port, Side To, Location At) : MixSetting(Port, At);

    /// <summary><c>ch1 gain 20 dB</c>.</summary>
    public sealed record Gain(PortSymbol Port, double Decibels, Location At) : MixSetting(Port, At);

    /// <summary><c>ch1 muted</c>: nothing of it goes on.</summary>
    public sealed record Muted(PortSymbol Port, Location At) : MixSetting(Port, At);

    /// <summary><c>ch1 send1 -6 dB</c>, <c>ch1 send1 off</c>.</summary>
    /// <param name="Decibels">Null for off.</param>
    public sealed record Send(PortSymbol Port, PortSymbol To, double? Decibels, Location At) : MixSetting(Port, At);

    /// <summary><c>ch1 to group1, group2</c>: of what it can be assigned to, these and no others.</summary>
    public sealed record Assign(PortSymbol Port, IReadOnlyList<PortSymbol> To, Location At) : MixSetting(Port, At);

    /// <summary><c>main mono</c>: left and right are summed, and both carry the sum.</summary>
    public sealed record Mono(PortSymbol Port, Location At) : MixSetting(Port, At);
}

/// <summary><see cref="Channel"/> is null for `off`, `any` and `auto`.</summary>
public readonly record struct ChannelAssignment(int? Channel, string Word, bool Layered, Location At);

/// <summary>What comes to the port on one channel goes on on others.</summary>
public readonly record struct ChannelMap(PortSymbol Port, int From, IReadOnlyList<int> To, PortWay Way, Location At);

public readonly record struct PortFilter(PortSymbol Port, MessageKinds Drops, PortWay Way, Location At)
{
    /// <summary>Whether it holds for what comes in, or for what goes out.</summary>
    public bool Stands(bool isComingIn) => Way == PortWay.Both || Way == (isComingIn ? PortWay.ComingIn : PortWay.GoingOut);
}

/// <summary>A jack of a device.</summary>
public readonly record struct JackRef(DeviceSymbol Device, JackSymbol Jack)
{
    public int Id => Device.FirstJack + Jack.Index;
    public int ContactId(int contact) => Device.FirstContact + Jack.FirstContact + contact;

    /// <summary>As a player writes it: <c>desk.ch34.left</c>.</summary>
    public override string ToString() => Jack.Side switch
    {
        Side.Left when Jack.Port.Jacks.Count > 1 => $"{Device.Name}.{Jack.Port.Name}.left",
        Side.Right when Jack.Port.Jacks.Count > 1 => $"{Device.Name}.{Jack.Port.Name}.right",
        _ => $"{Device.Name}.{Jack.Port.Name}",
    };
}

/// <summary>One end of a connection: a port, or one jack of it, as written.</summary>
public sealed record Endpoint(DeviceSymbol Device, PortSymbol Port, IReadOnlyList<JackSymbol> Jacks, Location At)
{
    public string Text => $"{Device.Name}.{Port.Name}";
}

/// <summary>A lead in use; <see cref="Lead"/> is null when only a length was given.</summary>
public sealed record LeadUse(LeadSymbol? Lead, Metre? Length, Location At);

/// <summary>One `connect` line with its names looked up.</summary>
public sealed class ConnectionSymbol(ConnectStatement statement, Location at)
{
    public ConnectStatement Statement { get; } = statement;
    public Location At { get; } = at;
    public GatheredList<Endpoint> From { get; } = [];
    public GatheredList<Endpoint> To { get; } = [];
    public GatheredList<LeadUse> Leads { get; } = [];

    /// <summary>True when a name was unknown: nothing is concluded from the line.</summary>
    public bool IsIncomplete { get; internal set; }

    internal void Close()
    {
        From.Close();
        To.Close();
        Leads.Close();
    }

    public IEnumerable<JackRef> FromJacks => From.SelectMany(e => e.Jacks.Select(j => new JackRef(e.Device, j)));
    public IEnumerable<JackRef> ToJacks => To.SelectMany(e => e.Jacks.Select(j => new JackRef(e.Device, j)));

    /// <summary>Every jack it names, `from` before `to`; asked for once the ends are bound.</summary>
    public IReadOnlyList<JackRef> Jacks => field ??= AllJacks();

    private JackRef[] AllJacks()
    {
        var jacks = new JackRef[From.Sum(e => e.Jacks.Count) + To.Sum(e => e.Jacks.Count)];
        var at = 0;
        foreach (var ends in (ReadOnlySpan<GatheredList<Endpoint>>)[From, To])
        {
            foreach (var end in ends)
            {
                foreach (var jack in end.Jacks)
                {
                    jacks[at++] = new JackRef(end.Device, jack);
                }
            }
        }
        return jacks;
    }
}

public sealed record StockSymbol(LeadSymbol Lead, int Count, Metre? Length, Location At);

/// <summary>What an expectation speaks of.</summary>
public enum ExpectedSignal
{
    Messages,
    Audio,
    Power,
}

/// <summary>A device, or one of its ports, parts or tracks.</summary>
public sealed record Target(DeviceSymbol Device, PortSymbol? Port, PartSymbol? Part, TrackSymbol? Track, Location At)
{
    /// <summary>Of a stereo port, the side that is meant; both are <see cref="Side.Only"/>.</summary>
    public Side Side { get; init; }

    /// <summary>What the device plays by itself, where the line names it.</summary>
    public SoundSymbol? Sound { get; init; }

    public string Text => (Port?.Name ?? Part?.Name ?? Track?.Name ?? Sound?.Name) is { } inside
        ? $"{Device.Name}.{inside}{Side switch { Side.Left => ".left", Side.Right => ".right", _ => "" }}"
        : Device.Name;
}

/// <summary>A `must` or `never` line with its names looked up; without a statement, the same as a question.</summary>
public sealed record ExpectationSymbol(
    bool Must,
    ExpectedSignal Signal,
    MessageKinds Messages,
    string What,
    Target From,
    IReadOnlyList<Target> To,
    bool? InStereo,
    int? OnChannel,
    Second? Within,
    ExpectStatement? Statement,
    Location At)
{
    /// <summary>The track of a recorder that it is to be on, from 1.</summary>
    public int? OnTrack { get; init; }
}

/// <summary>An `accept` line with its names looked up: findings of this check at these places are known, and left as they are.</summary>
/// <param name="CheckName">As written; whether there is such a check is not known here.</param>
/// <param name="Targets">A device, or one of its ports, parts or tracks; ranges written out.</param>
public sealed record AcceptSymbol(
    string CheckName, Location CheckAt, IReadOnlyList<Target> Targets, string Reason, AcceptStatement Statement, Location At);
