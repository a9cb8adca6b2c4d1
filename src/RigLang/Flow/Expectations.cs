using System.Collections;
using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>
/// Judges every `must` and `never` of a rig by following what it speaks of. What leaves a source is followed once, however
/// many expectations speak of it; a source that is done is forgotten, so that a big rig does not keep the reach of each.
/// </summary>
internal sealed class Expectations
{
    /// <summary>A trail is as long as the rig has jacks; a source with more senders and kinds than this has some followed twice.</summary>
    private const int MostTrails = 64;

    private static readonly object EveryOutput = new();
    private static readonly MessageKinds[] SingleKinds =
        [.. MessageKindNames.Table.Values.Where(k => k is not (MessageKinds.Transport or MessageKinds.All)).Order()];

    private readonly RigWiring _wiring;
    private readonly LinkTable _links;
    private readonly Dictionary<(object Sender, MessageKinds Kind), MessageReach> _messages = [];
    private readonly Dictionary<object, AudioReach> _audio = [];
    private readonly List<Trail> _usedTrails = [];
    private readonly Stack<Trail> _spareTrails = [];

    private Expectations(RigWiring wiring, LinkTable links)
    {
        _wiring = wiring;
        _links = links;
    }

    public static IReadOnlyList<Outcome> Judge(RigNames names, RigWiring wiring, LinkTable links)
    {
        var judge = new Expectations(wiring, links);
        var outcomes = new Outcome[names.Expectations.Count][];
        foreach (var source in Enumerable.Range(0, outcomes.Length).GroupBy(i => names.Expectations[i].From.Device))
        {
            judge.ForgetReaches();
            foreach (var i in source)
            {
                outcomes[i] = judge.Judge(names.Expectations[i]);
            }
        }
        return [.. outcomes.SelectMany(o => o)];
    }

    private Trail NewTrail()
    {
        if (_usedTrails.Count == MostTrails)
        {
            ForgetReaches();
        }
        var trail = _spareTrails.TryPop(out var spare) ? spare : new Trail(_links);
        _usedTrails.Add(trail);
        return trail;
    }

    private void ForgetReaches()
    {
        _messages.Clear();
        _audio.Clear();
        foreach (var trail in _usedTrails)
        {
            trail.Clear();
            _spareTrails.Push(trail);
        }
        _usedTrails.Clear();
    }

    private ByPort<Heard> Heard => field ??= AudioReach.HeardOf(_links);

    private Outcome[] Judge(ExpectationSymbol expectation)
    {
        var outcomes = new Outcome[expectation.To.Count];
        for (var i = 0; i < outcomes.Length; i++)
        {
            var target = expectation.To[i];
            var way = WayOf(expectation, target);
            outcomes[i] = way.Arrives == expectation.Must
                ? new Outcome(expectation, true, target, new HopsOnDemand(_wiring, _links, expectation, target), way.Stopped, [])
                : new Outcome(expectation, false, target, way.Hops(), way.Stopped, way.Reached);
        }
        return outcomes;
    }

    /// <summary>A way that is found again when somebody asks for it: of thousands that hold, a player looks at one.</summary>
    private sealed class HopsOnDemand(RigWiring wiring, LinkTable links, ExpectationSymbol expectation, Target target) : IReadOnlyList<Hop>
    {
        private IReadOnlyList<Hop> Found => field ??= new Expectations(wiring, links).WayOf(expectation, target).Hops();

        public int Count => Found.Count;

        public Hop this[int index] => Found[index];

        public IEnumerator<Hop> GetEnumerator() => Found.GetEnumerator();

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    }

    private Way WayOf(ExpectationSymbol expectation, Target target) => expectation.Signal switch
    {
        ExpectedSignal.Audio => OfAudio(expectation, target),
        ExpectedSignal.Power => OfPower(_links, expectation, target),
        _ => OfMessages(expectation, target),
    };

    /// <summary>Whether it arrives; the way it takes; and, if it does not arrive, what stops it.</summary>
    private readonly record struct Way(bool Arrives, Func<IReadOnlyList<Hop>> Hops, string Stopped)
    {
        /// <summary>When nothing arrives at the device: how far it gets.</summary>
        public IReadOnlyCollection<DeviceSymbol> Reached { get; init; } = [];
    }

    private static readonly Func<IReadOnlyList<Hop>> NoHops = () => [];

    private Way OfMessages(ExpectationSymbol expectation, Target target)
    {
        // `must` wants every kind to arrive; `never` wants none: each kind is followed by itself.
        var best = new Way(expectation.Must, NoHops, "");
        foreach (var kind in Each(expectation.Messages))
        {
            var way = OfKind(expectation, target, kind);
            if (way.Arrives != expectation.Must)
            {
                return way;
            }
            best = way;
        }
        return best;
    }

    private Way OfKind(ExpectationSymbol expectation, Target target, MessageKinds kind)
    {
        MessageReach? last = null;
        int? lastChannel = null;
        foreach (var (sender, ports, channel) in Senders(expectation, kind))
        {
            var reach = ReachOf(expectation.From.Device, sender, ports, kind);
            foreach (var port in reach.ArrivedAt(target.Device))
            {
                if (Hears(target, port.Port, kind, channel))
                {
                    return new Way(true, () => reach.WayTo(port), "");
                }
            }
            (last, lastChannel) = (reach, channel);
        }
        return last is null
            ? new Way(false, NoHops, $"nothing in {expectation.From.Text} sends {MessageKindNames.Describe(kind)}")
            : Nearest(last, target, kind, lastChannel);
    }

    private MessageReach ReachOf(DeviceSymbol device, object sender, IEnumerable<PortSymbol> ports, MessageKinds kind)
    {
        if (!_messages.TryGetValue((sender, kind), out var reach))
        {
            _messages[(sender, kind)] = reach = MessageReach.From(_links, NewTrail(), device, ports, kind);
        }
        return reach;
    }

    private static Way Nearest(MessageReach reach, Target target, MessageKinds kind, int? channel)
    {
        var name = MessageKindNames.Describe(kind);
        foreach (var port in reach.ArrivedAt(target.Device))
        {
            var reason = (MessageKinds.Channel & kind) != 0 && channel is { } c
                ? $"{name} on channel {c} arrive at {port}, but {target.Text} does not listen there on that channel"
                : $"{name} arrives at {port}, but {target.Text} does not listen to it there";
            return new Way(false, () => reach.WayTo(port), reason);
        }
        if (reach.Dropped is { } dropped)
        {
            return new Way(false, () => [dropped], dropped.Text) { Reached = reach.Devices };
        }
        return reach.Farthest is { } last
            ? new Way(false, () => reach.WayTo(last), $"the way ends at {last}") { Reached = reach.Devices }
            : new Way(false, NoHops, $"{name} does not leave the device");
    }

    /// <summary>What sends this kind of message: its ports, and the channel it is on if it has one.</summary>
    private static IEnumerable<(object Sender, IEnumerable<PortSymbol> Ports, int? Channel)> Senders(ExpectationSymbol expectation, MessageKinds kind)
    {
        var from = expectation.From;
        var gear = from.Device.Gear!;
        if (from.Track is { } track)
        {
            yield return (track, track.Sends, ChannelOf(from.Device, track.Name, track.Channels));
        }
        else if (from.Port is { } port)
        {
            yield return (port, [port], expectation.OnChannel);
        }
        else if ((kind & MessageKinds.Clock) != 0)
        {
            yield return (gear.ClockSends, gear.ClockSends, null);
        }
        else if ((kind & (MessageKinds.Transport | MessageKinds.SongPosition)) != 0)
        {
            var sends = gear.TransportSends.Count > 0 ? gear.TransportSends : gear.ClockSends;
            yield return (sends, sends, null);
        }
        else
        {
            foreach (var any in gear.Tracks.Values)
            {
                yield return (any, any.Sends, ChannelOf(from.Device, any.Name, any.Channels));
            }
        }
    }

    private static bool Hears(Target target, PortSymbol port, MessageKinds kind, int? channel)
    {
        if (target.Port is { } wanted && !ReferenceEquals(wanted, port))
        {
            return false;
        }
        var device = target.Device;
        var gear = device.Gear!;
        if ((kind & MessageKinds.Clock) != 0 && target.Port is null)
        {
            return device.Clock is { } clock ? ReferenceEquals(clock.Port, port) : gear.ClockFollows.Count == 0 || gear.ClockFollows.Exists(s => ReferenceEquals(s.Port, port));
        }
        if ((kind & MessageKinds.Transport) != 0 && target.Port is null)
        {
            // Without a setting of its own, transport is taken from wherever the clock is taken.
            return (device.Transport ?? device.Clock) is { } source
                ? ReferenceEquals(source.Port, port)
                : (gear.TransportFollows.Count > 0 ? gear.TransportFollows : gear.ClockFollows) is { Count: > 0 } can
                    ? can.Exists(s => ReferenceEquals(s.Port, port))
                    : true;
        }
        if ((kind & MessageKinds.Channel) == 0 || gear.Parts.Count == 0)
        {
            return true;
        }
        return gear.Parts.Values.Any(part =>
            (target.Part is null || ReferenceEquals(target.Part, part))
            && part.Receives.Contains(port)
            && (channel is null || ChannelOf(device, part.Name, part.Channels) is not { } own || own == channel)
            && !(device.Channels.TryGetValue(part.Name, out var assigned) && assigned.Word == "off"));
    }

    private static int? ChannelOf(DeviceSymbol device, string name, ChannelChoice choice) =>
        device.Channels.TryGetValue(name, out var assigned) ? assigned.Channel : choice.IsFixed ? choice.First : null;

    private Way OfAudio(ExpectationSymbol expectation, Target target)
    {
        var from = expectation.From;
        var reach = AudioOf(from.Device, from.Port);
        Way? nearest = null;
        foreach (var wanted in target.Device.Gear!.Ports)
        {
            if ((target.Port is not null && !ReferenceEquals(target.Port, wanted)) || (wanted.IsOutput && target.Port is null && wanted.Signal is not { Kind: SignalKind.Usb }))
            {
                continue;
            }
            var here = new PortRef(target.Device, wanted);
            var content = reach.At(here);
            if (content.IsNone || (ReferenceEquals(target.Device, from.Device) && wanted.IsOutput))
            {
                continue;
            }
            if (expectation.InStereo is not { } stereo || stereo == content.IsStereo)
            {
                return new Way(true, () => reach.WayTo(here), "");
            }
            nearest = new Way(false, () => reach.WayTo(here), stereo
                ? $"it arrives at {here}, but not left on the left and right on the right"
                : $"it arrives at {here} in stereo");
        }
        return nearest ?? (reach.Farthest is { } last
            ? new Way(false, () => reach.WayTo(last), $"the way ends at {last}") { Reached = reach.Devices }
            : new Way(false, NoHops, $"{from.Text} has no audio output"));
    }

    private AudioReach AudioOf(DeviceSymbol device, PortSymbol? port)
    {
        if (!_audio.TryGetValue(port ?? EveryOutput, out var reach))
        {
            var starts = port is not null ? [port] : device.Gear!.Ports.Where(p => p.IsOutput && p.Signal is { Kind: SignalKind.Audio or SignalKind.Insert });
            _audio[port ?? EveryOutput] = reach = AudioReach.From(_wiring, _links, Heard, NewTrail(), device, starts);
        }
        return reach;
    }

    private static Way OfPower(LinkTable links, ExpectationSymbol expectation, Target target)
    {
        // Power is followed from the load back, through every device that passes it on.
        var hops = new List<Hop>();
        var seen = new HashSet<DeviceSymbol> { target.Device };
        var open = new Queue<DeviceSymbol>([target.Device]);
        while (open.TryDequeue(out var device))
        {
            foreach (var port in device.Gear?.Ports ?? [])
            {
                foreach (var link in links.ArrivingAt(new PortRef(device, port)))
                {
                    if (link.Kind is not (SignalKind.Dc or SignalKind.Ac or SignalKind.Mains) || port.Signal is not { IsPower: true })
                    {
                        continue;
                    }
                    hops.Add(new Hop(link.Hookup.Connection.At, $"{link.From} to {link.To}"));
                    if (ReferenceEquals(link.From.Device, expectation.From.Device)
                        && (expectation.From.Port is null || ReferenceEquals(expectation.From.Port, link.From.Port)))
                    {
                        hops.Reverse();
                        return new Way(true, () => hops, "");
                    }
                    if (seen.Add(link.From.Device))
                    {
                        open.Enqueue(link.From.Device);
                    }
                }
            }
        }
        var stopped = hops.Count == 0 ? $"nothing feeds {target.Device.Name}" : $"what feeds {target.Device.Name} does not come from {expectation.From.Text}";
        return new Way(false, () => hops, stopped) { Reached = seen };
    }

    private static IEnumerable<MessageKinds> Each(MessageKinds kinds) => SingleKinds.Where(kind => (kinds & kind) != 0);
}
