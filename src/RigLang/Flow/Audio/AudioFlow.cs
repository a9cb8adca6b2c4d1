using RigLang.Connectors;
using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>Something that sounds: an output that nothing inside its device feeds, or what a device plays by itself.</summary>
/// <param name="Port">Null for a sound that is named by itself.</param>
public sealed record AudioSource(int Index, DeviceSymbol Device, PortSymbol? Port, SoundSymbol? Sound)
{
    public string Text { get; } = $"{Device.Name}.{Port?.Name ?? Sound!.Name}";

    /// <summary>As a promise would name it.</summary>
    public Target Target { get; } = new(Device, Port, null, null, Device.At) { Sound = Sound };

    internal IReadOnlyList<(int Lane, int Channel)> Starts { get; init; } = [];

    /// <summary>True where left and right are two.</summary>
    public bool IsStereo => Starts.Any(s => s.Channel == AudioImage.Right);

    /// <summary>True when a plug is in a jack from which it leaves.</summary>
    public bool IsPlugged { get; init; }
}

/// <summary>What becomes of audio at a place where it ends.</summary>
public enum AudioEnd
{
    /// <summary>It comes in and goes no further: a loudspeaker, headphones, a box whose outputs are free.</summary>
    Heard,

    /// <summary>It is recorded there.</summary>
    Recorded,
}

/// <summary>A port where audio ends.</summary>
/// <param name="FirstTrack">Of a recorder, the number of the port's first track; 0 elsewhere.</param>
public sealed record AudioDestination(int Index, DeviceSymbol Device, PortSymbol Port, AudioEnd End, int FirstTrack)
{
    public string Text { get; } = $"{Device.Name}.{Port.Name}";

    internal Lanes Lanes { get; init; }

    /// <summary>How many channels it has.</summary>
    public int Channels => Lanes.Count;

    /// <summary>"left" and "right" of a stereo port, the number of a USB channel, or nothing.</summary>
    public string NameOf(int channel) => Port.Signal switch
    {
        { Kind: SignalKind.Usb } => $"channel {channel + 1}",
        { IsStereo: true } => channel == 0 ? "left" : "right",
        _ => "",
    };
}

/// <summary>What has become of left and right on the way.</summary>
public enum AudioShape
{
    /// <summary>A mono source, in the middle or on the only channel.</summary>
    Mono,

    /// <summary>A mono source on the left alone.</summary>
    MonoLeft,

    /// <summary>A mono source on the right alone.</summary>
    MonoRight,

    /// <summary>A mono source that is inverted on one of two sides: in the middle it cancels.</summary>
    OutOfPhase,

    Stereo,

    /// <summary>Left on the right, and right on the left.</summary>
    Swapped,

    /// <summary>Left and right in one.</summary>
    Folded,

    /// <summary>Only the left of a stereo source.</summary>
    LeftOnly,

    /// <summary>Only the right of a stereo source.</summary>
    RightOnly,

    /// <summary>Left less right, or the other way round: what both have in common is gone.</summary>
    Difference,

    /// <summary>Stereo, with one side inverted.</summary>
    OneSideInverted,
}

/// <summary>What of a source comes to a destination.</summary>
public sealed record AudioShare(AudioSource Source, AudioDestination To, AudioShape Shape)
{
    internal IReadOnlyList<LaneShare> Lanes { get; init; } = [];

    /// <summary>The channels of the destination that it is on, from 0.</summary>
    public IEnumerable<int> Channels => Lanes.Select(lane => lane.Channel);

    /// <summary>How much of the source's left, right or mono (0, 1, 2) is on a channel of the destination, as a factor of amplitude.</summary>
    public double Amount(int of, int channel) => Lanes.FirstOrDefault(lane => lane.Channel == channel).Of(of);
}

/// <summary>Every source of a rig with all that it reaches: what is heard where, on which side, and how loud against the source.</summary>
public sealed class AudioFlow
{
    private readonly AudioModel _audio;

    private AudioFlow(AudioModel audio, List<AudioSource> sources, List<AudioDestination> destinations, List<AudioShare> shares)
    {
        _audio = audio;
        Sources = sources;
        Destinations = destinations;
        Shares = shares;
    }

    /// <summary>Devices in order, each one's outputs before what it plays.</summary>
    public IReadOnlyList<AudioSource> Sources { get; }

    public IReadOnlyList<AudioDestination> Destinations { get; }

    /// <summary>By source, then destination.</summary>
    public IReadOnlyList<AudioShare> Shares { get; }

    private ILookup<AudioSource, AudioShare> BySource => field ??= Shares.ToLookup(share => share.Source);

    private ILookup<AudioDestination, AudioShare> ByDestination => field ??= Shares.ToLookup(share => share.To);

    public IEnumerable<AudioShare> From(AudioSource source) => BySource[source];

    public IEnumerable<AudioShare> To(AudioDestination destination) => ByDestination[destination];

    /// <summary>What comes in at any port, or goes out of it where nothing comes in: each source that gets there, and as what.</summary>
    public IReadOnlyList<(AudioSource Source, AudioShape Shape)> PassingAt(PortRef port)
    {
        var (comes, goes) = (_audio.Map.In(port.Device, port.Port), _audio.Map.Out(port.Device, port.Port));
        var before = Spreading.From([.. Enumerable.Range(comes.First, comes.Count), .. Enumerable.Range(goes.First, goes.Count)], (lane, into) =>
        {
            foreach (ref readonly var edge in _audio.Map.To(lane))
            {
                if (edge.Open != AudioOpen.ByProgram)
                {
                    into.Add(edge.From);
                }
            }
        }).ToHashSet();
        var passing = new List<(AudioSource, AudioShape)>();
        foreach (var source in Sources.Where(source => source.Starts.Any(start => before.Contains(start.Lane))))
        {
            var (lanes, image) = _audio.Follow(source.Target, reach => reach.In(comes) is { IsNone: false } come ? (comes, come) : (goes, reach.In(goes)));
            if (!image.IsNone)
            {
                passing.Add((source, ShapeOf(image, lanes.Count, source.IsStereo)));
            }
        }
        return passing;
    }

    /// <summary>The shortest way of a share, from the source to the destination.</summary>
    public IReadOnlyList<WayStep> WayOf(AudioShare share) =>
        AudioWays.Shortest(_audio.Map, share.Source.Starts.Select(s => s.Lane), share.To.Lanes.Contains, Unsaid);

    /// <summary>Where on the way it became what it is at the destination: the first step at which it has that shape; null where it has it from the start.</summary>
    public WayStep? ShapedAt(AudioShare share) => _audio.Follow(share.Source.Target, reach =>
    {
        var way = WayOf(share);
        for (var i = 0; i < way.Count; i++)
        {
            var port = way[i].Port;
            var lanes = way[i] is WayStep.Cable ? _audio.Map.In(port.Device, port.Port) : _audio.Map.Out(port.Device, port.Port);
            if (reach.In(lanes) is { IsNone: false } image && ShapeOf(image, lanes.Count, share.Source.IsStereo) == share.Shape)
            {
                return i == 0 ? null : way[i];
            }
        }
        return way.Count > 0 ? way[^1] : null;
    });

    /// <summary>
    /// How loud it is against the source, in dB, by the shortest way and as far as gains are said. What comes beside it by an effect is not added: how much an
    /// effect gives nobody has said.
    /// </summary>
    public double LevelOf(AudioShare share) =>
        20 * Math.Log10(AudioWays.GainOf(_audio.Map, share.Source.Starts.Select(s => s.Lane), share.To.Lanes.Contains, Unsaid));

    /// <summary>What a computer passes on from one jack to another its programs decide, and nobody has said; here it passes on nothing.</summary>
    private static readonly AudioWithout Unsaid = new(Programs: true);

    public static AudioFlow Of(AudioModel audio) => Of(audio, default);

    /// <summary>The same with something thought away; the map stays as it is.</summary>
    internal static AudioFlow Of(AudioModel audio, AudioWithout without)
    {
        var sources = SourcesOf(audio);
        var destinations = DestinationsOf(audio);
        var shares = new List<AudioShare>();
        var spread = new AudioSpread(audio.Map, audio.Order, AudioImage.Channels);
        var destinationAt = new int[audio.Map.Count];
        foreach (var destination in destinations)
        {
            Array.Fill(destinationAt, destination.Index + 1, destination.Lanes.First, destination.Lanes.Count);
        }
        var reached = new SortedSet<int>();
        foreach (var source in sources)
        {
            foreach (var (lane, channel) in source.Starts)
            {
                spread.Start(lane, channel);
            }
            spread.Run(without with { Programs = true });
            reached.Clear();
            foreach (var lane in spread.Reached)
            {
                if (destinationAt[lane] > 0)
                {
                    reached.Add(destinationAt[lane] - 1);
                }
            }
            foreach (var index in reached)
            {
                if (ShareOf(spread, source, destinations[index]) is { } share)
                {
                    shares.Add(share);
                }
            }
            spread.Clear();
        }
        return new AudioFlow(audio, sources, destinations, shares);
    }

    private static List<AudioSource> SourcesOf(AudioModel audio)
    {
        var sources = new List<AudioSource>();
        foreach (var device in audio.Names.Devices)
        {
            if (device.Gear is not { } gear)
            {
                continue;
            }
            foreach (var port in AudioStarts.PortsOf(device).Where(port => IsSource(gear, port)))
            {
                Add(device, port, null);
            }
            foreach (var sound in gear.Sounds.Values)
            {
                Add(device, null, sound);
            }
        }
        return sources;

        void Add(DeviceSymbol device, PortSymbol? port, SoundSymbol? sound)
        {
            var source = new AudioSource(sources.Count, device, port, sound);
            var starts = AudioStarts.Of(audio.Map, source.Target);
            sources.Add(source with { Starts = starts, IsPlugged = starts.Any(s => HasCable(audio.Map, s.Lane)) });
        }
    }

    /// <summary>An output that sounds by itself: nothing is routed to it, or a part of the device plays there.</summary>
    private static bool IsSource(GearSymbol gear, PortSymbol port) => port is { IsPassive: false, Signal.Kind: not SignalKind.Insert }
        && !gear.Sounds.Values.Any(sound => sound.LeavesAt.Contains(port))
        && (!gear.Routes.GroupsTo(port).Any(group => group.From.Any(IsAudio)) || gear.Parts.Values.Any(part => part.SoundsAt.Contains(port)));

    private static bool IsAudio(PortSymbol port) => port.IsBus || port.Signal is { Kind: SignalKind.Audio or SignalKind.Insert or SignalKind.Usb };

    private static List<AudioDestination> DestinationsOf(AudioModel audio)
    {
        var destinations = new List<AudioDestination>();
        var goesOn = GoesOn(audio.Map);
        foreach (var device in audio.Names.Devices)
        {
            if (device.Gear is not { } gear)
            {
                continue;
            }
            foreach (var (port, lanes, first) in RecordedTracks.Of(audio.Map, device))
            {
                Add(device, port, lanes, AudioEnd.Recorded, first);
            }
            foreach (var port in gear.Ports)
            {
                var lanes = audio.Map.In(device, port);
                if (!gear.Records.Contains(port) && IsEnd(gear, port, lanes))
                {
                    Add(device, port, lanes, port.Signal is { Kind: SignalKind.Usb } ? AudioEnd.Recorded : AudioEnd.Heard, port.Signal is { Kind: SignalKind.Usb } ? 1 : 0);
                }
            }
        }
        return destinations;

        void Add(DeviceSymbol device, PortSymbol port, Lanes lanes, AudioEnd end, int track)
        {
            if (lanes.Count > 0)
            {
                destinations.Add(new AudioDestination(destinations.Count, device, port, end, track) { Lanes = lanes });
            }
        }

        bool IsEnd(GearSymbol gear, PortSymbol port, Lanes lanes)
        {
            if (port.IsPassive || lanes.Count == 0 || (port.IsOutput && port.Signal is not { Kind: SignalKind.Usb }))
            {
                return false;
            }
            // A computer takes what comes by USB; what else has a USB jack may be there for notes alone.
            if (port.Signal is { Kind: SignalKind.Usb } usb)
            {
                return usb.Usb == UsbRole.Host && gear.Records.Count == 0 && !gear.Routes.GroupsTo(port).Any();
            }
            return Enumerable.Range(lanes.First, lanes.Count).All(lane => !goesOn[lane]);
        }
    }

    /// <summary>The lanes from which something goes on inside their device and out by a cable.</summary>
    private static bool[] GoesOn(AudioMap map)
    {
        var goesOn = new bool[map.Count];
        foreach (var lane in Spreading.From(Enumerable.Range(0, map.Count).Where(lane => HasCable(map, lane)), (lane, into) =>
        {
            foreach (ref readonly var edge in map.To(lane))
            {
                if (edge.Cable is null && edge.Open != AudioOpen.ByProgram)
                {
                    into.Add(edge.From);
                }
            }
        }))
        {
            goesOn[lane] = true;
        }
        return goesOn;
    }

    private static bool HasCable(AudioMap map, int lane)
    {
        foreach (ref readonly var edge in map.From(lane))
        {
            if (edge.Cable is not null)
            {
                return true;
            }
        }
        return false;
    }

    private static AudioShare? ShareOf(AudioSpread spread, AudioSource source, AudioDestination destination)
    {
        var lanes = destination.Lanes;
        return AudioImage.At(spread, lanes) is { IsNone: false } image
            ? new AudioShare(source, destination, ShapeOf(image, lanes.Count, source.IsStereo)) { Lanes = image.Lanes }
            : null;
    }

    /// <summary>What the amounts on the channels of a destination say, in a player's words.</summary>
    private static AudioShape ShapeOf(AudioImage image, int width, bool isStereo)
    {
        var lanes = image.Lanes;
        if (!isStereo)
        {
            return lanes.Count > 1 && lanes.Any(lane => lane.MonoShare > 0) && lanes.Any(lane => lane.MonoShare < 0) ? AudioShape.OutOfPhase
                : lanes.Count > 1 || width != 2 ? AudioShape.Mono
                : lanes[0].Channel == 0 ? AudioShape.MonoLeft : AudioShape.MonoRight;
        }
        if (lanes.Any(lane => lane.LeftShare * lane.RightShare < 0 && Math.Abs(Math.Abs(lane.LeftShare) - Math.Abs(lane.RightShare)) < Math.Abs(lane.LeftShare) / 2))
        {
            return AudioShape.Difference;
        }
        if (image.IsStereo || image.IsSwapped)
        {
            var left = lanes.First(lane => Math.Abs(lane.LeftShare) > Math.Abs(lane.RightShare)).LeftShare;
            var right = lanes.First(lane => Math.Abs(lane.RightShare) > Math.Abs(lane.LeftShare)).RightShare;
            return left * right < 0 ? AudioShape.OneSideInverted : image.IsSwapped ? AudioShape.Swapped : AudioShape.Stereo;
        }
        return image.IsOnly(AudioImage.Left) ? AudioShape.LeftOnly : image.IsOnly(AudioImage.Right) ? AudioShape.RightOnly : AudioShape.Folded;
    }
}
