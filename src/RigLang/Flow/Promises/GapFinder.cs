using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>Finds what keeps messages, audio or power from a target.</summary>
internal sealed class GapFinder(Rig rig)
{
    private MessageGaps Messages => field ??= new MessageGaps(rig);

    private AudioGaps Audio => field ??= new AudioGaps(rig);

    private PowerGaps Power => field ??= new PowerGaps(rig);

    /// <summary>The searches that began where the last one did: promises of one source come one after the other.</summary>
    private readonly Dictionary<(GapMap, MessageKinds, string), GapSearch> _searches = [];
    private DeviceSymbol? _searchedFrom;

    private GapSearch SearchFrom(DeviceSymbol device, GapMap map, MidiGraph? graph, MessageKinds kind, IReadOnlyList<(int Node, int Channel)> starts)
    {
        if (!ReferenceEquals(device, _searchedFrom))
        {
            _searches.Clear();
            _searchedFrom = device;
        }
        var key = (map, kind, string.Join(' ', starts));
        if (!_searches.TryGetValue(key, out var search))
        {
            _searches[key] = search = new GapSearch(map, graph, kind);
            foreach (var (node, channel) in starts)
            {
                search.Start(node, channel);
            }
        }
        return search;
    }

    /// <summary>All ways of audio or of power.</summary>
    public GapMap MapOf(ExpectedSignal signal) => signal == ExpectedSignal.Audio ? Audio : Power;

    /// <param name="kind">One kind (one bit).</param>
    /// <param name="sent">What of it leaves the source.</param>
    public GapWay OfMessages(Target from, Target to, MessageKinds kind, int? onChannel, IReadOnlyList<SentWalk> sent)
    {
        var local = LocalOffBetween(from, to, kind);
        if (sent.Count == 0 && local is null)
        {
            var isOff = from.Track is { } track && rig.Midi.Channels.Of(from.Device, track).IsOff;
            return Only(new Broken.NothingSends(from, MessageKindNames.Describe(kind), isOff));
        }
        var search = SearchFrom(from.Device, Messages, rig.Midi.Graph, kind,
            [.. sent.SelectMany(s => s.Walk.Starts.Select(start => (start.Node, start.Channel)))]);
        return search.Run(Arrival, local is null ? null : (GapMap.OfSetting, () => local)) ?? Only(new Broken.NoInput(to, MessageKindNames.Describe(kind)));

        (int, Func<Broken>?) Arrival(int node, int channel)
        {
            var port = rig.Midi.Graph.PortOf(node);
            if (!MidiGraph.IsIn(node) || !ReferenceEquals(port.Device, to.Device)
                || (to is { Port: { } wanted, Part: null } && !ReferenceEquals(port.Port, wanted))
                || (to.Part is { } part && !part.Receives.Contains(port.Port)))
            {
                return (-1, null);
            }
            if (onChannel is { } asked && channel > 0 && channel != asked)
            {
                return (GapMap.OfSetting, () => new Broken.AskedChannel(port, asked, channel));
            }
            var hears = to is { Port: not null, Part: null } ? true : rig.Midi.Hearing.Of(to.Device, to.Part, node, kind, channel);
            return hears switch
            {
                true => (0, null),
                null => (1, () => new Broken.Unsaid(port, (kind & MessageKinds.Channel) != 0 ? "channel" : (kind & MessageKinds.Clock) != 0 ? "clock" : "transport")),
                _ => Unheard(port, to, kind, channel, sent),
            };
        }
    }

    public GapWay OfAudio(Target from, Target to)
    {
        List<PortSymbol> starts = from.Sound is { } sound ? [.. sound.LeavesAt] : from.Port is { } only ? [only]
            : [.. AudioStarts.PortsOf(from.Device).Concat(from.Device.Gear!.Sounds.Values.SelectMany(s => s.LeavesAt)).Distinct()];
        return Run(Audio, starts, from, to, "audio", (node, port) => (to.Port is not null || MidiGraph.IsIn(node))
            && (to.Port is null ? !port.IsOutput || port.Signal is { Kind: SignalKind.Usb } : ReferenceEquals(to.Port, port)));
    }

    public GapWay OfPower(Target from, Target to)
    {
        var starts = from.Device.Gear!.Ports.Where(p => p.IsOutput && (from.Port is null || ReferenceEquals(p, from.Port))).ToList();
        return Run(Power, starts, from, to, "power", (node, port) => MidiGraph.IsIn(node) && (to.Port is null || ReferenceEquals(to.Port, port)));
    }

    private GapWay Run(GapMap map, List<PortSymbol> starts, Target from, Target to, string what, Func<int, PortSymbol, bool> isTarget)
    {
        var search = SearchFrom(from.Device, map, null, MessageKinds.All, [.. starts.Select(start => (MidiGraph.Out(from.Device, start), 0))]);
        var targets = to.Device.Gear!.Ports.SelectMany(p => new[] { (Node: MidiGraph.In(to.Device, p), Port: p), (Node: MidiGraph.Out(to.Device, p), Port: p) })
            .Where(t => t.Node >= 0 && isTarget(t.Node, t.Port)).Select(t => t.Node).ToHashSet();
        return starts.Count == 0 ? Only(new Broken.NothingSends(from, what, false))
            : search.Run((node, _) => targets.Contains(node) ? (0, null) : (-1, null)) ?? Only(new Broken.NoInput(to, what));
    }

    private static GapWay Only(Broken gap) => new([gap], null, []);

    private (int, Func<Broken>?) Unheard(PortRef port, Target to, MessageKinds kind, int channel, IReadOnlyList<SentWalk> sent)
    {
        var gear = port.Device.Gear!;
        if ((kind & MessageKinds.Channel) != 0)
        {
            var parts = gear.Parts.Values.Where(p => (to.Part is null || ReferenceEquals(p, to.Part)) && p.Receives.Contains(port.Port)).ToList();
            if ((parts.Find(p => !p.Channels.IsFixed) ?? parts.FirstOrDefault()) is { } part)
            {
                return (GapMap.OfSetting, () => new Broken.OtherChannel(port, part, rig.Midi.Channels.Of(port.Device, part), channel,
                    sent.FirstOrDefault(s => s.Source?.Channel == channel)?.Source, kind));
            }
        }
        var (setting, choices) = (kind & MessageKinds.Clock) != 0 ? (port.Device.Clock, gear.ClockFollows)
            : (kind & MessageKinds.Transport) != 0 ? (Hearing.TransportOf(port.Device), Hearing.TransportChoices(gear))
            : (null, gear.ClockFollows);
        return setting is { } own && choices.Exists(c => ReferenceEquals(c.Port, port.Port))
            ? (GapMap.OfSetting, () => new Broken.OtherSetting(port, kind, own))
            : (GapMap.OfOtherGear, () => new Broken.NotHeard(port, kind, to.Text));
    }

    private static Broken.LocalOff? LocalOffBetween(Target from, Target to, MessageKinds kind)
    {
        if ((kind & MessageKinds.Channel) == 0 || !ReferenceEquals(from.Device, to.Device) || from.Port is not null || to.Port is not null)
        {
            return null;
        }
        var track = from.Device.Gear!.Tracks.Values.FirstOrDefault(t => (from.Track is null || ReferenceEquals(from.Track, t))
            && from.Device.LocalOff.Contains(t.Name) && t.Plays.Any(part => to.Part is null || to.Part.Name == part));
        return track is null ? null : new Broken.LocalOff(from.Device, track);
    }
}
