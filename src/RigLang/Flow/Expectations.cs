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
    private readonly Rig _rig;
    private readonly Dictionary<(int, int, MessageKinds, int), MessageWalk> _walks = [];
    private readonly Dictionary<object, AudioReach> _audio = [];
    private readonly List<Trail> _usedTrails = [];
    private readonly Stack<Trail> _spareTrails = [];

    private Expectations(Rig rig)
    {
        _rig = rig;
        _wiring = rig.Wiring;
        _links = rig.Links;
    }

    public static IReadOnlyList<Outcome> Judge(Rig rig)
    {
        var names = rig.Names;
        var judge = new Expectations(rig);
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
        _walks.Clear();
        _audio.Clear();
        foreach (var trail in _usedTrails)
        {
            trail.Clear();
            _spareTrails.Push(trail);
        }
        _usedTrails.Clear();
    }

    private ILookup<DeviceSymbol, MidiSource> SourcesByDevice => field ??= _rig.Midi.Sources.ToLookup(source => source.Device);

    private ByPort<Heard> Heard => field ??= AudioReach.HeardOf(_links);

    private Outcome[] Judge(ExpectationSymbol expectation)
    {
        var outcomes = new Outcome[expectation.To.Count];
        for (var i = 0; i < outcomes.Length; i++)
        {
            var target = expectation.To[i];
            var way = WayOf(expectation, target);
            var verdict = way.Arrives == Arrival.Possible ? Verdict.Unproven
                : way.Arrives == Arrival.Sure == expectation.Must ? Verdict.Holds
                : Verdict.Fails;
            outcomes[i] = verdict == Verdict.Holds
                ? new Outcome(expectation, verdict, target, new HopsOnDemand(_rig, expectation, target), "", [])
                : Told(expectation, verdict, target, way.InFull);
        }
        return outcomes;
    }

    private static Outcome Told(ExpectationSymbol expectation, Verdict verdict, Target target, Way way) =>
        new(expectation, verdict, target, way.Hops(), way.Stopped, way.Reached);

    /// <summary>A way that is found again when somebody asks for it: of thousands that hold, a player looks at one.</summary>
    private sealed class HopsOnDemand(Rig rig, ExpectationSymbol expectation, Target target) : IReadOnlyList<Hop>
    {
        private IReadOnlyList<Hop> Found => field ??= new Expectations(rig).WayOf(expectation, target).InFull.Hops();

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

    private enum Arrival
    {
        None,
        /// <summary>It comes by, but whether it is heard cannot be told.</summary>
        Possible,
        Sure,
    }

    /// <summary>Whether it arrives; the way it takes; and, if it does not arrive, what stops it.</summary>
    private readonly record struct Way(Arrival Arrives, Func<IReadOnlyList<Hop>> Hops, string Stopped)
    {
        /// <summary>When nothing arrives at the device: how far it gets.</summary>
        public IReadOnlyCollection<DeviceSymbol> Reached { get; init; } = [];

        /// <summary>How near it comes, when it does not arrive: looked for only where that is a mistake.</summary>
        public Func<Way>? Nearest { get; init; }

        public Way InFull => Nearest is { } find ? find() : this;
    }

    private static readonly Func<IReadOnlyList<Hop>> NoHops = () => [];

    /// <summary>`must` is as good as the kind that fares worst, `never` as the one that gets furthest.</summary>
    private Way OfMessages(ExpectationSymbol expectation, Target target)
    {
        var ways = Each(expectation.Messages).Select(kind => OfKind(expectation, target, kind)).ToList();
        return expectation.Must ? ways.MinBy(w => w.Arrives) : ways.MaxBy(w => w.Arrives);
    }

    private Way OfKind(ExpectationSymbol expectation, Target target, MessageKinds kind)
    {
        Way? possible = null;
        MessageWalk? last = null;
        foreach (var (starts, channel) in Senders(expectation, kind))
        {
            var walk = WalkOf(starts, kind, channel);
            foreach (var step in walk.ReachedOf(target.Device))
            {
                if (!MidiGraph.IsIn(step.Node) || (expectation.OnChannel is { } wanted && step.Channel > 0 && step.Channel != wanted))
                {
                    continue;
                }
                switch (Hears(target, step.Node, kind, step.Channel))
                {
                    case true:
                        return new Way(Arrival.Sure, () => walk.HopsTo(step), "");
                    case null:
                        possible ??= new Way(Arrival.Possible, () => walk.HopsTo(step), WhyUnknown(expectation, target, step));
                        break;
                }
            }
            last = last is null || walk.Steps.Count > last.Steps.Count ? walk : last;
        }
        return possible ?? (last is null
            ? new Way(Arrival.None, NoHops, $"nothing in {expectation.From.Text} sends {MessageKindNames.Describe(kind)}")
            : new Way(Arrival.None, NoHops, "") { Nearest = () => Nearest(last, target) });
    }

    private MessageWalk WalkOf(IReadOnlyList<int> starts, MessageKinds kind, int channel)
    {
        var key = (starts.Count == 0 ? -1 : starts[0], starts.Count, kind, channel);
        if (!_walks.TryGetValue(key, out var walk))
        {
            _walks[key] = walk = MessageWalk.From(_rig.Midi.Graph, starts, kind, channel);
        }
        return walk;
    }

    private static string WhyUnknown(ExpectationSymbol expectation, Target target, WalkStep step) => step.Channel == 0
        ? $"nobody says which channel {expectation.From.Text} is on"
        : $"they arrive on channel {step.Channel}, and nobody says which channel {target.Text} is on";

    /// <summary>Where the walk comes nearest to the target: at its door, at the filter that stops it, or where its way ends.</summary>
    private Way Nearest(MessageWalk walk, Target target)
    {
        var name = MessageKindNames.Describe(walk.Kind);
        var at = walk.ReachedOf(target.Device).FirstOrDefault(s => MidiGraph.IsIn(s.Node));
        if (at is not null)
        {
            var port = _rig.Midi.Graph.PortOf(at.Node);
            var reason = (MessageKinds.Channel & walk.Kind) != 0 && at.Channel > 0
                ? $"{name} on channel {at.Channel} arrive at {port}, but {target.Text} does not listen there on that channel"
                : $"{name} arrives at {port}, but {target.Text} does not listen to it there";
            return new Way(Arrival.None, () => walk.HopsTo(at), reason);
        }
        // The filter that stands between: the one from which, without it, the target would be reached.
        var stopped = walk.Stopped.FirstOrDefault(s => LeadsTo(s.Node, target.Device, walk.Kind)) ?? walk.Stopped.FirstOrDefault();
        if (stopped is not null)
        {
            return new Way(Arrival.None, () => walk.HopsTo(stopped), walk.HopOf(stopped).Text) { Reached = walk.Devices };
        }
        return walk.Reached.MaxBy(s => walk.WayTo(s).Count) is { } last
            ? new Way(Arrival.None, () => walk.HopsTo(last), $"the way ends at {_rig.Midi.Graph.PortOf(last.Node)}") { Reached = walk.Devices }
            : new Way(Arrival.None, NoHops, $"{name} does not leave the device");
    }

    private bool LeadsTo(int node, DeviceSymbol device, MessageKinds kind) =>
        _rig.Midi.Graph.CouldLead(node, kind, at => ReferenceEquals(_rig.Midi.Graph.PortOf(at).Device, device));

    /// <summary>What sends this kind of message: its output nodes, and the channel it is on (0: none, or not said).</summary>
    private IEnumerable<(IReadOnlyList<int> Starts, int Channel)> Senders(ExpectationSymbol expectation, MessageKinds kind)
    {
        var from = expectation.From;
        if (from.Port is { } port && from.Track is null)
        {
            yield return ([MidiGraph.Out(from.Device, port)], expectation.OnChannel ?? 0);
            yield break;
        }
        foreach (var source in SourcesByDevice[from.Device])
        {
            if ((from.Track is null || ReferenceEquals(source.Track, from.Track))
                && source.Starts.Where(s => (s.Kinds & kind) != 0).Select(s => s.Node).ToList() is { Count: > 0 } starts)
            {
                yield return (starts, source.Channel);
            }
        }
    }

    /// <summary>Whether a message that comes in is listened to; null when that cannot be told.</summary>
    private bool? Hears(Target target, int node, MessageKinds kind, int channel)
    {
        var port = _rig.Midi.Graph.PortOf(node).Port;
        if (target.Port is not null && target.Part is null)
        {
            return ReferenceEquals(target.Port, port);
        }
        var device = target.Device;
        var gear = device.Gear!;
        if ((kind & MessageKinds.Clock) != 0)
        {
            return device.Clock is { } clock ? ReferenceEquals(clock.Port, port)
                : gear.ClockFollows.Count == 0 || gear.ClockFollows.Exists(s => ReferenceEquals(s.Port, port));
        }
        if ((kind & MessageKinds.Transport) != 0)
        {
            // Without a setting of its own, transport is taken from wherever the clock is taken.
            return (device.Transport ?? device.Clock) is { } source
                ? ReferenceEquals(source.Port, port)
                : (gear.TransportFollows.Count > 0 ? gear.TransportFollows : gear.ClockFollows) is not { Count: > 0 } can
                    || can.Exists(s => ReferenceEquals(s.Port, port));
        }
        if ((kind & MessageKinds.Channel) == 0 || gear.Parts.Count == 0)
        {
            return true;
        }
        bool? heard = false;
        foreach (var part in gear.Parts.Values)
        {
            if ((target.Part is null || ReferenceEquals(target.Part, part)) && part.Receives.Contains(port))
            {
                var answer = _rig.Midi.Channels.Of(device, part).Hears(channel);
                heard = answer == true || heard == true ? true : answer is null ? null : heard;
            }
        }
        return heard;
    }

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
                return new Way(Arrival.Sure, () => reach.WayTo(here), "");
            }
            nearest = new Way(Arrival.None, () => reach.WayTo(here), stereo
                ? $"it arrives at {here}, but not left on the left and right on the right"
                : $"it arrives at {here} in stereo");
        }
        return nearest ?? (reach.Farthest is { } last
            ? new Way(Arrival.None, NoHops, "") { Nearest = () => new Way(Arrival.None, () => reach.WayTo(last), $"the way ends at {last}") { Reached = reach.Devices } }
            : new Way(Arrival.None, NoHops, $"{from.Text} has no audio output"));
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
                        return new Way(Arrival.Sure, () => hops, "");
                    }
                    if (seen.Add(link.From.Device))
                    {
                        open.Enqueue(link.From.Device);
                    }
                }
            }
        }
        var stopped = hops.Count == 0 ? $"nothing feeds {target.Device.Name}" : $"what feeds {target.Device.Name} does not come from {expectation.From.Text}";
        return new Way(Arrival.None, () => hops, stopped) { Reached = seen };
    }

    private static IEnumerable<MessageKinds> Each(MessageKinds kinds) => SingleKinds.Where(kind => (kinds & kind) != 0);
}
