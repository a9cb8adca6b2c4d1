using System.Runtime.CompilerServices;
using QuikGraph;
using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Tests.Flow;

/// <summary>One side of a device's port: what comes in there, or what goes out.</summary>
internal sealed record Place(DeviceSymbol Device, PortSymbol Port, bool IsInward)
{
    public bool Equals(Place? other) => other is not null && ReferenceEquals(Device, other.Device) && ReferenceEquals(Port, other.Port) && IsInward == other.IsInward;

    public override int GetHashCode() => HashCode.Combine(RuntimeHelpers.GetHashCode(Device), RuntimeHelpers.GetHashCode(Port), IsInward);

    public override string ToString() => $"{(IsInward ? "into" : "out of")} {Device.Name}.{Port.Name}";
}

/// <summary>A message of a source that came to a place.</summary>
internal sealed record Arrived(string From, Place At, MessageKinds Kind, int Channel);

/// <summary>How every switch of a rig stands: for each output behind one, the input that it takes.</summary>
internal sealed class SwitchPosition
{
    private readonly Dictionary<Place, Place> _taken = [];

    /// <summary>Every way in which the switches can stand; one, with nothing in it, when there are none.</summary>
    public static List<SwitchPosition> AllOf(Rig rig)
    {
        List<SwitchPosition> all = [new()];
        foreach (var device in rig.Names.Devices)
        {
            foreach (var choice in device.Gear!.Switches.GroupBy(s => new Place(device, s.To, false), s => new Place(device, s.From, true)))
            {
                all = [.. all.SelectMany(_ => choice, (position, from) => position.With(choice.Key, from))];
            }
        }
        return all;
    }

    /// <summary>False for the way through a switch that stands elsewhere.</summary>
    public bool Passes(Place from, Place to) => !_taken.TryGetValue(to, out var taken) || taken == from;

    private SwitchPosition With(Place to, Place from)
    {
        var more = new SwitchPosition();
        foreach (var (key, value) in _taken)
        {
            more._taken.Add(key, value);
        }
        more._taken.Add(to, from);
        return more;
    }
}

/// <summary>
/// Pushes single messages through a rig, one hop at a time, reading the links, the gear's routes and the devices' settings itself:
/// slow, plain, and independent of the graph and the flow under test. Where there are switches, it pushes once for every way in
/// which they can stand.
/// </summary>
internal sealed class HopByHop
{
    public static readonly MessageKinds[] SingleKinds = [.. Enum.GetValues<MessageKinds>().Where(k => int.PopCount((int)k) == 1)];

    private static readonly MessageKinds[] WithChannel =
        [MessageKinds.Notes, MessageKinds.Velocity, MessageKinds.Aftertouch, MessageKinds.Controllers, MessageKinds.ProgramChange, MessageKinds.PitchBend];

    private readonly Rig _rig;
    private readonly List<SwitchPosition> _positions;
    private readonly Dictionary<MessageKinds, ILookup<Place, Place>> _hops = [];

    public HopByHop(Rig rig)
    {
        _rig = rig;
        _positions = SwitchPosition.AllOf(rig);
    }

    /// <summary>Every message of every track and every clock section, wherever it comes.</summary>
    public List<Arrived> Everything() =>
    [
        .. from device in _rig.Names.Devices
           from track in device.Gear!.Tracks.Values.Cast<TrackSymbol?>().Append(null)
           from kind in SingleKinds
           from arrived in Push(device, track, kind).Arrived
           select arrived,
    ];

    /// <summary>One kind of message of a track (null: the clock section): where it arrives, and where a filter stops it.</summary>
    public (HashSet<Arrived> Arrived, HashSet<Place> StoppedAt) Push(DeviceSymbol device, TrackSymbol? track, MessageKinds kind)
    {
        var arrived = new HashSet<Arrived>();
        var stopped = new HashSet<Place>();
        var from = track is null ? device.Name : $"{device.Name}.{track.Name}";
        var channel = track is null ? 0 : ChannelOf(_rig, device, track.Name, track.Channels) ?? 0;
        if (!_hops.TryGetValue(kind, out var hops))
        {
            _hops[kind] = hops = Hops(_rig, kind).ToLookup(h => h.Source, h => h.Target);
        }
        foreach (var position in _positions)
        {
            var visited = new HashSet<(Place, int)>();
            foreach (var start in Starts(device, track, kind))
            {
                Come(start, channel, position, visited);
            }
        }
        return (arrived, stopped);

        void Come(Place place, int on, SwitchPosition position, HashSet<(Place, int)> visited)
        {
            if (IsDropped(place, kind))
            {
                stopped.Add(place);
            }
            else if (visited.Add((place, on)))
            {
                arrived.Add(new Arrived(from, place, kind, on));
                foreach (var target in hops[place].Where(target => position.Passes(place, target)))
                {
                    foreach (var next in Moved(target, kind, on))
                    {
                        Come(target, next, position, visited);
                    }
                }
            }
        }
    }

    /// <summary>Where a message of this kind leaves: a track sends what is on a channel, a clock section the rest.</summary>
    public static IEnumerable<Place> Starts(DeviceSymbol device, TrackSymbol? track, MessageKinds kind)
    {
        var gear = device.Gear!;
        IEnumerable<PortSymbol> ports = track is not null
            ? WithChannel.Contains(kind) && !IsOff(device, track) ? track.Sends : []
            : kind switch
            {
                MessageKinds.Clock => gear.ClockSends,
                MessageKinds.Start or MessageKinds.Stop or MessageKinds.Continue or MessageKinds.SongPosition =>
                    gear.TransportSends.Count == 0 ? gear.ClockSends : gear.TransportSends,
                MessageKinds.SystemExclusive or MessageKinds.ActiveSensing => gear.Tracks.Values.SelectMany(t => t.Sends),
                _ => [],
            };
        return ports.Select(p => new Place(device, p, false)).Distinct();
    }

    /// <summary>Every hop that a kind of message can make, filters and switches left aside: along a cable, or through a device.</summary>
    public static IEnumerable<Edge<Place>> Hops(Rig rig, MessageKinds kind)
    {
        foreach (var link in rig.Links.Links)
        {
            var carries = link.Kind switch
            {
                SignalKind.Midi or SignalKind.Usb => true,
                SignalKind.Pulse => kind == MessageKinds.Clock,
                // One wire pulses, one says run: there is none for where to go on from, or for a note.
                SignalKind.DinSync => kind is MessageKinds.Clock or MessageKinds.Start or MessageKinds.Stop,
                _ => false,
            };
            if (carries)
            {
                yield return new Edge<Place>(new Place(link.From.Device, link.From.Port, false), new Place(link.To.Device, link.To.Port, true));
            }
            if (carries && link.Kind == SignalKind.Usb)
            {
                yield return new Edge<Place>(new Place(link.To.Device, link.To.Port, false), new Place(link.From.Device, link.From.Port, true));
            }
        }
        foreach (var device in rig.Names.Devices)
        {
            foreach (var (from, to) in device.Gear!.Routes.Where(r => !device.ThruOff.Contains(r.To)))
            {
                yield return new Edge<Place>(new Place(device, from, true), new Place(device, to, false));
            }
        }
    }

    public static bool IsDropped(Place place, MessageKinds kind) =>
        place.Device.Filters.Any(f => ReferenceEquals(f.Port, place.Port) && (f.Drops & kind) != 0);

    /// <summary>The notes of each track that come to a part's own ports, whatever channel the part is on.</summary>
    public IEnumerable<(DeviceSymbol From, TrackSymbol Track, DeviceSymbol To, PartSymbol Part, int Channel)> NotesAtParts() =>
        from device in _rig.Names.Devices
        from track in device.Gear!.Tracks.Values
        from arrived in Push(device, track, MessageKinds.Notes).Arrived
        where arrived.At.IsInward
        from part in arrived.At.Device.Gear!.Parts.Values
        where part.Receives.Contains(arrived.At.Port)
        select (device, track, arrived.At.Device, part, arrived.Channel);

    /// <summary>The parts that a track plays inside its own box.</summary>
    public static IEnumerable<string> PlayedInside(DeviceSymbol device, TrackSymbol track) =>
        device.LocalOff.Contains(track.Name) ? [] : track.Plays.Select(part => $"{device.Name}.{part}");

    /// <summary>Whether a part sounds at a note on a channel (0: nobody said); null when it cannot be told.</summary>
    public static bool? Sounds(Rig rig, DeviceSymbol device, PartSymbol part, int channel)
    {
        var word = device.Channels.TryGetValue(part.Name, out var set) ? set.Word : "";
        var own = ChannelOf(rig, device, part.Name, part.Channels);
        return word switch
        {
            "off" => false,
            "any" => true,
            _ => own is null || channel == 0 ? null : own == channel,
        };
    }

    /// <summary>As set, as chosen for `auto`, or as the gear has it; null when nobody said. The choice itself has its own test.</summary>
    private static int? ChannelOf(Rig rig, DeviceSymbol device, string name, ChannelChoice choice) =>
        !device.Channels.TryGetValue(name, out var set) ? (choice.IsFixed ? choice.First : null)
            : set.Word == "auto" ? (rig.Midi.Channels.Chosen.TryGetValue((device, name), out var chosen) ? chosen : null)
            : set.Channel;

    /// <summary>A map moves what comes to its port: at an input what comes in, at an output what goes out.</summary>
    private static IEnumerable<int> Moved(Place place, MessageKinds kind, int channel)
    {
        var to = place.Device.Maps
            .Where(m => ReferenceEquals(m.Port, place.Port) && m.Port.IsOutput != place.IsInward && m.From == channel)
            .SelectMany(m => m.To).ToList();
        return to.Count == 0 || !WithChannel.Contains(kind) ? [channel] : to;
    }

    private static bool IsOff(DeviceSymbol device, TrackSymbol track) => device.Channels.TryGetValue(track.Name, out var set) && set.Word == "off";
}
