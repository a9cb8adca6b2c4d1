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
    /// <summary>A spread is as long as the rig has jacks; a device that more places of are spoken of than this has some followed twice.</summary>
    private const int MostSpreads = 16;

    private static readonly object EveryOutput = new();

    private readonly LinkTable _links;
    private readonly Rig _rig;
    private readonly Courier _courier;
    private readonly Dictionary<(object Place, Side Side), AudioReach> _audio = [];
    private readonly List<AudioSpread> _usedSpreads = [];
    private readonly Stack<AudioSpread> _spareSpreads = [];

    private readonly Cut? _cut;

    /// <summary>A question in the form of a promise: whether audio or power gets from one place to another, and if not, what is missing.</summary>
    public static Outcome Ask(Rig rig, ExpectedSignal signal, Target from, Target to)
    {
        var what = signal == ExpectedSignal.Audio ? "audio" : "power";
        var asked = new ExpectationSymbol(true, signal, MessageKinds.None, what, from, [to], null, null, null, null, from.At);
        return new Expectations(rig).Judge(asked)[0];
    }

    private Expectations(Rig rig, Cut? cut = null)
    {
        _rig = rig;
        _cut = cut;
        _links = rig.Links;
        _courier = new Courier(rig, cut);
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

    /// <summary>Whether an outcome would be that its line holds, were something taken away.</summary>
    public static bool HoldsWithout(Rig rig, Outcome outcome, Cut cut)
    {
        var way = new Expectations(rig, cut).WayOf(outcome.Expectation, outcome.Target);
        return way.Arrives == (outcome.Expectation.Must ? Delivered.Sure : Delivered.None);
    }

    private AudioSpread NewSpread()
    {
        if (_usedSpreads.Count == MostSpreads)
        {
            ForgetReaches();
        }
        var spread = _spareSpreads.TryPop(out var spare) ? spare : new AudioSpread(_rig.Audio.Map, _rig.Audio.OrderOfAll, AudioImage.Channels);
        _usedSpreads.Add(spread);
        return spread;
    }

    private void ForgetReaches()
    {
        _courier.Forget();
        _audio.Clear();
        foreach (var spread in _usedSpreads)
        {
            spread.Clear();
            _spareSpreads.Push(spread);
        }
        _usedSpreads.Clear();
    }

    private Outcome[] Judge(ExpectationSymbol expectation)
    {
        var outcomes = new Outcome[expectation.To.Count];
        for (var i = 0; i < outcomes.Length; i++)
        {
            var target = expectation.To[i];
            var way = WayOf(expectation, target);
            var verdict = way.Arrives == Delivered.Possible ? Verdict.Unproven
                : way.Arrives == Delivered.Sure == expectation.Must ? Verdict.Holds
                : Verdict.Fails;
            outcomes[i] = verdict == Verdict.Holds
                ? new Outcome(expectation, verdict, target, new HopsOnDemand(_rig, expectation, target), "")
                : Told(expectation, verdict, target, way.InFull);
        }
        return outcomes;
    }

    private static Outcome Told(ExpectationSymbol expectation, Verdict verdict, Target target, Way way)
    {
        var outcome = new Outcome(expectation, verdict, target, way.Hops(), way.Stopped)
        {
            Gaps = way.Gaps,
            Missing = way.Missing,
            IsOnlyGap = way.IsOnlyGap,
        };
        return way.Stopped.Length == 0 && outcome.Broken is { } broken ? outcome with { Stopped = BrokenWords.Reason(broken, target.At.Source) } : outcome;
    }

    /// <summary>A way that is found again when somebody asks for it: of thousands that hold, a player looks at one.</summary>
    private sealed class HopsOnDemand(Rig rig, ExpectationSymbol expectation, Target target) : IReadOnlyList<WayStep>
    {
        private IReadOnlyList<WayStep> Found => field ??= new Expectations(rig).WayOf(expectation, target).InFull.Hops();

        public int Count => Found.Count;

        public WayStep this[int index] => Found[index];

        public IEnumerator<WayStep> GetEnumerator() => Found.GetEnumerator();

        IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
    }

    private Way WayOf(ExpectationSymbol expectation, Target target) => expectation.Signal switch
    {
        ExpectedSignal.Audio => OfAudio(expectation, target),
        ExpectedSignal.Power => OfPower(expectation, target),
        _ => OfMessages(expectation, target),
    };

    /// <summary>Whether it arrives; the way it takes; and, if it does not arrive, what stops it.</summary>
    private readonly record struct Way(Delivered Arrives, Func<IReadOnlyList<WayStep>> Hops, string Stopped)
    {
        public IReadOnlyList<Broken> Gaps { get; init; } = [];

        /// <summary>For messages: the kinds that do not arrive, of a `never` those that do.</summary>
        public MessageKinds Missing { get; init; }

        public bool IsOnlyGap { get; init; }

        /// <summary>How near it comes, when it does not arrive: looked for only where that is a mistake.</summary>
        public Func<Way>? Nearest { get; init; }

        public Way InFull => Nearest is { } find ? find() : this;
    }

    private static readonly Func<IReadOnlyList<WayStep>> NoHops = () => [];

    /// <summary>`must` is as good as the kind that fares worst, `never` as the one that gets furthest.</summary>
    private Way OfMessages(ExpectationSymbol expectation, Target target)
    {
        var ways = MessageKindNames.Each(expectation.Messages).Select(kind => (Kind: kind, Way: OfKind(expectation, target, kind))).ToList();
        if (!expectation.Must)
        {
            var arriving = ways.Where(w => w.Way.Arrives != Delivered.None).Aggregate(MessageKinds.None, (all, w) => all | w.Kind);
            return ways.MaxBy(w => w.Way.Arrives).Way with { Missing = arriving };
        }
        var worst = ways.MinBy(w => w.Way.Arrives).Way;
        return worst.Nearest is null ? worst : worst with { Nearest = () => Worst(ways.ConvertAll(w => (w.Kind, w.Way.InFull))) };
    }

    private static Way Worst(List<(MessageKinds Kind, Way Way)> ways)
    {
        var failing = ways.FindAll(w => w.Way.Arrives == Delivered.None);
        var worst = failing[0].Way;
        return worst with
        {
            Missing = failing.Aggregate(MessageKinds.None, (all, w) => all | w.Kind),
            IsOnlyGap = ways.TrueForAll(w => w.Way.Arrives == Delivered.Sure || (w.Way.Gaps is [var gap] && BrokenWords.IsSame(gap, worst.Gaps[^1]))),
        };
    }

    private Way OfKind(ExpectationSymbol expectation, Target target, MessageKinds kind)
    {
        var delivery = _courier.Send(expectation.From, target, kind, expectation.OnChannel);
        if (delivery.Arrives == Delivered.None)
        {
            return new Way(Delivered.None, NoHops, "") { Nearest = () => Nearest(expectation, target, kind) };
        }
        if (delivery is not { Walk: { } walk, Step: { } step })
        {
            return new Way(delivery.Arrives, NoHops, "");
        }
        if (expectation.Within is { } limit && delivery.Arrives == Delivered.Sure && _rig.Traffic.To(walk, step, delivery.Sent!.Source) is var delay && delay.IsOver(limit))
        {
            return new Way(Delivered.None, () => walk.StepsTo(step), "") { Gaps = [new Broken.TooLate(walk.Graph.PortOf(step.Node), delay)] };
        }
        if (expectation.Within is not null && kind == MessageKinds.SystemExclusive)
        {
            return new Way(Delivered.Possible, () => walk.StepsTo(step), "nobody says how long a system exclusive message is");
        }
        return new Way(delivery.Arrives, () => walk.StepsTo(step), delivery.Reason);
    }

    private Way Nearest(ExpectationSymbol expectation, Target target, MessageKinds kind)
    {
        var delivery = _courier.Nearest(expectation.From, target, kind, expectation.OnChannel);
        return new Way(Delivered.None, () => delivery.Gone, "") { Gaps = delivery.Gaps };
    }

    private Way OfAudio(ExpectationSymbol expectation, Target target)
    {
        var from = expectation.From;
        var reach = AudioOf(from);
        if (expectation.OnTrack is { } track)
        {
            return OnTrack(expectation, target, reach, track);
        }
        if (expectation.InStereo == true && Pair(expectation, target, reach) is { } pair)
        {
            return pair;
        }
        Way? nearest = null;
        foreach (var wanted in PlacesOf(target))
        {
            var here = new PortRef(target.Device, wanted);
            var image = reach.At(here);
            if (image.IsNone || (ReferenceEquals(target.Device, from.Device) && wanted.IsOutput))
            {
                continue;
            }
            if (!image.IsOn(target.Side))
            {
                nearest = new Way(Delivered.None, () => reach.WayTo(here), "") { Gaps = [new Broken.OtherSide(here, target.Side)], IsOnlyGap = true };
                continue;
            }
            if (expectation.InStereo is not { } stereo || stereo == image.IsStereo)
            {
                return new Way(Delivered.Sure, () => reach.WayTo(here), "");
            }
            nearest = new Way(Delivered.None, () => reach.WayTo(here), "") { Gaps = [new Broken.OtherWidth(here, stereo)], IsOnlyGap = true };
        }
        if (nearest is null && from.Side != Side.Only && OtherSideOf(from, target) is { } other)
        {
            return other;
        }
        return nearest ?? new Way(Delivered.None, NoHops, "") { Nearest = () => Gone(_rig.Gaps.OfAudio(from, target)) };
    }

    /// <summary>Whether it is on one track of a recorder; else on which it is.</summary>
    private Way OnTrack(ExpectationSymbol expectation, Target target, AudioReach reach, int track)
    {
        var tracks = RecordedTracks.Of(_rig.Audio.Map, target.Device).Where(t => target.Port is null || ReferenceEquals(target.Port, t.Port))
            .SelectMany(t => Enumerable.Range(0, t.Lanes.Count).Select(channel => (t.Port, Track: t.First + channel, Lane: new Lanes(t.Lanes[channel], 1)))).ToList();
        var on = tracks.Where(t => !reach.In(t.Lane).IsNone).ToList();
        if (on.Find(t => t.Track == track) is { Port: { } port })
        {
            return new Way(Delivered.Sure, () => reach.WayTo(new PortRef(target.Device, port)), "");
        }
        if (on.Count == 0)
        {
            return new Way(Delivered.None, NoHops, "") { Nearest = () => Gone(_rig.Gaps.OfAudio(expectation.From, target)) };
        }
        var here = new PortRef(target.Device, on[0].Port);
        return new Way(Delivered.None, () => reach.WayTo(here), "") { Gaps = [new Broken.OtherTrack(here, track, on.ConvertAll(t => t.Track))], IsOnlyGap = true };
    }

    /// <summary>The ports at which audio comes to a target; of a device its inputs and USB, and what it records of itself.</summary>
    private static IEnumerable<PortSymbol> PlacesOf(Target target) => target.Port is { } port ? [port]
        : target.Device.Gear!.Ports.Where(p => !p.IsOutput || p.Signal is { Kind: SignalKind.Usb });

    /// <summary>
    /// Two mono inputs of one device, of which one gets the left alone and the other the right alone, are a stereo pair: both channels of
    /// a desk, panned apart. The line names the device, or both inputs.
    /// </summary>
    private static Way? Pair(ExpectationSymbol expectation, Target target, AudioReach reach)
    {
        if (target is not { Part: null, Port: null or { Signal.IsStereo: false } })
        {
            return null;
        }
        var inputs = target.Device.Gear!.Ports.Where(p => p is { IsOutput: false, Signal: { Kind: SignalKind.Audio, IsStereo: false } }
            && (target.Port is null || expectation.To.Any(t => ReferenceEquals(t.Device, target.Device) && ReferenceEquals(t.Port, p)))).ToList();
        var left = inputs.Find(p => reach.At(new PortRef(target.Device, p)).IsOnly(AudioImage.Left));
        var right = inputs.Find(p => reach.At(new PortRef(target.Device, p)).IsOnly(AudioImage.Right));
        var shown = ReferenceEquals(target.Port, right) ? right : left;
        return left is null || right is null || (target.Port is not null && !ReferenceEquals(target.Port, left) && !ReferenceEquals(target.Port, right)) ? null
            : new Way(Delivered.Sure, () => reach.WayTo(new PortRef(target.Device, shown!)), "");
    }

    /// <summary>Where the other side of the source arrives, and the one that is meant does not.</summary>
    private Way? OtherSideOf(Target source, Target target)
    {
        var both = AudioOf(source with { Side = Side.Only });
        var port = target.Device.Gear!.Ports.Find(p => (target.Port is null ? !p.IsOutput : ReferenceEquals(target.Port, p)) && !both.At(new PortRef(target.Device, p)).IsNone);
        return port is null || ReferenceEquals(target.Device, source.Device) ? null
            : new Way(Delivered.None, () => both.WayTo(new PortRef(target.Device, port)), "") { Gaps = [new Broken.OtherSide(new PortRef(target.Device, port), source.Side)], IsOnlyGap = true };
    }

    private static Way Gone(GapWay way) => new(Delivered.None, () => way.Steps, "") { Gaps = way.Gaps, IsOnlyGap = way.Gaps.Count == 1 };

    private AudioReach AudioOf(Target from)
    {
        var key = (from.Sound ?? from.Port ?? EveryOutput, from.Side);
        if (!_audio.TryGetValue(key, out var reach))
        {
            var spread = NewSpread();
            _audio[key] = reach = AudioReach.From(_rig.Audio, spread, from, new AudioWithout(_cut?.Cable, Port: _cut?.Port));
        }
        return reach;
    }

    /// <summary>Power is followed from the load back, through every device that passes it on.</summary>
    private Way OfPower(ExpectationSymbol expectation, Target target)
    {
        var fed = new Dictionary<DeviceSymbol, Link?> { [target.Device] = null };
        var open = new Queue<DeviceSymbol>([target.Device]);
        while (open.TryDequeue(out var device))
        {
            foreach (var port in device.Gear?.Ports ?? [])
            {
                if (ReferenceEquals(device, target.Device) && target.Port is { } wanted && !ReferenceEquals(wanted, port))
                {
                    continue;
                }
                foreach (var link in _links.ArrivingAt(new PortRef(device, port)))
                {
                    if (link.Kind is not (SignalKind.Dc or SignalKind.Ac or SignalKind.Mains) || port.Signal is not { IsPower: true }
                        || ReferenceEquals(link.Hookup, _cut?.Cable))
                    {
                        continue;
                    }
                    if (ReferenceEquals(link.From.Device, expectation.From.Device)
                        && (expectation.From.Port is null || ReferenceEquals(expectation.From.Port, link.From.Port)))
                    {
                        return new Way(Delivered.Sure, () => PowerWay(link, fed), "");
                    }
                    if (fed.TryAdd(link.From.Device, link))
                    {
                        open.Enqueue(link.From.Device);
                    }
                }
            }
        }
        return new Way(Delivered.None, NoHops, "") { Nearest = () => Gone(_rig.Gaps.OfPower(expectation.From, target)) };
    }

    /// <summary>From a link on along those that each device feeds on the way to the load.</summary>
    private static List<WayStep> PowerWay(Link first, Dictionary<DeviceSymbol, Link?> fed)
    {
        var way = new List<WayStep> { new WayStep.Start(first.From), new WayStep.Cable(first.From, first.To, first.Hookup) };
        for (var at = first; fed[at.To.Device] is { } next; at = next)
        {
            way.Add(new WayStep.Through(at.To, next.From));
            way.Add(new WayStep.Cable(next.From, next.To, next.Hookup));
        }
        return way;
    }
}
