using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Answers questions about audio and power: where it goes, what feeds a place, and why it does not come.</summary>
internal sealed class SignalTrace(Rig rig)
{
    public Trace Answer(TraceQuery query) => query.Question switch
    {
        TraceQuestion.WhyNot => WhyNot(query),
        TraceQuestion.From => From(query),
        TraceQuestion.To => To(query, query.Signal),
        _ => Feeding(query),
    };

    /// <summary>What is to be said of a jack at which a way ends.</summary>
    public static string PlugNote(Rig rig, PortRef port)
    {
        foreach (var jack in port.Port.Jacks)
        {
            if (rig.Wiring.Plugged[port.Device.FirstJack + jack.Index] is { } hookup)
            {
                var at = hookup.Connection.At;
                return $"what is plugged in {(hookup.IsSound ? "does not carry it on" : "joins nothing")} ({LineWords.Of(at, rig.Names.Files[0].Source)})";
            }
        }
        return "nothing is plugged in";
    }

    private Trace From(TraceQuery query)
    {
        var way = WayOf(query.Signal, query.From!, isBack: false);
        var reached = way.Steps.Where(s => s.IsIn).Select(s => s.Port.Device.Name).Where(name => name != query.From!.Device.Name).Distinct().ToList();
        var summary = way.Steps.Count == 0 ? $"{query.From!.Text} has no output for {query.What}."
            : reached.Count == 0 ? $"{Prose.Capital(query.What)} from {query.From!.Text} reaches nothing."
            : $"{Prose.Capital(query.What)} from {query.From!.Text} reaches {Prose.And(reached)}.";
        return new Trace(query.Text, query.Question, way.Steps.Count == 0 ? [] : [way], [], null, [], summary);
    }

    private Trace To(TraceQuery query, ExpectedSignal signal)
    {
        var way = WayOf(signal, query.To!, isBack: true);
        return new Trace(query.Text, query.Question, way.Steps.Count == 0 ? [] : [way], [], null, [], Comes(way, query.To!, signal));
    }

    /// <summary>Everything but messages that comes in; audio is passed over where the device has no input for it.</summary>
    private Trace Feeding(TraceQuery query)
    {
        List<TraceWay> ways = [.. new[] { ExpectedSignal.Power, ExpectedSignal.Audio }.Select(signal => WayOf(signal, query.To!, isBack: true)).Where(w => w.Steps.Count > 0)];
        var summary = ways.Count == 0 ? $"{query.To!.Text} has no input for power or audio." : string.Join(" ", ways.Select(way => Comes(way, query.To!, way.What == "audio" ? ExpectedSignal.Audio : ExpectedSignal.Power)));
        return new Trace(query.Text, query.Question, ways, [], null, [], summary);
    }

    private string Comes(TraceWay way, Target to, ExpectedSignal signal)
    {
        // By USB a way leads back to boxes that send notes and no sound.
        var sounding = signal == ExpectedSignal.Audio ? rig.Audio.Flow.Sources.SelectMany(SoundingAt).ToHashSet() : null;
        // A way back ends where it came from: at the steps that lead on to none, except where it did not leave the place itself.
        var leaves = way.Steps.Where((step, i) => step.Depth > 0 && (sounding is null ? !way.Steps.Any(s => s.Parent == i) : sounding.Contains(step.Port))).Select(s => s.Port.Device.Name).Distinct().ToList();
        return way.Steps.Count == 0 ? $"{to.Text} has no input for {way.What}."
            : leaves.Count == 0 ? $"No {way.What} comes to {to.Text}."
            : $"{Prose.Capital(way.What)} comes to {to.Text} from {Prose.And(leaves)}.";
    }

    private static IEnumerable<PortRef> SoundingAt(AudioSource source) =>
        source.Port is { } port ? [new PortRef(source.Device, port)] : source.Sound!.LeavesAt.Select(at => new PortRef(source.Device, at));

    private Trace WhyNot(TraceQuery query)
    {
        var (from, to) = (query.From!, query.To!);
        var outcome = Expectations.Ask(rig, query.Signal, from, to);
        var steps = outcome.Hops.Select((step, i) => new TraceStep(step.Port, step is WayStep.Cable, i - 1, i, 0,
            step is WayStep.Cable ? step.At : null, null, null, default, [], "")).ToList();
        var mend = outcome.Broken is { } broken ? BrokenWords.Mend(broken, to.At.Source) ?? "" : "";
        var summary = outcome.Holds ? $"It does arrive: {query.What} from {from.Text} gets to {to.Text} by this way."
            : $"{Prose.Capital(query.What)} from {from.Text} does not get to {to.Text}: {outcome.Stopped}.{(mend.Length > 0 ? " " + mend : "")}";
        var verdict = new TraceVerdict(MessageKinds.None, outcome.Holds, true, steps, outcome.Stopped, mend, null) { What = query.What };
        return new Trace(query.Text, query.Question, [], [], verdict, [], summary);
    }

    private TraceWay WayOf(ExpectedSignal signal, Target place, bool isBack)
    {
        var what = signal == ExpectedSignal.Audio ? "audio" : "power";
        var map = rig.Gaps.MapOf(signal);
        var starts = place.Device.Gear!.Ports.Where(port => (place.Port is null || ReferenceEquals(place.Port, port)) && (isBack ? map.CanTake(port) : map.CanSend(port)))
            .Select(port => isBack ? MidiGraph.In(place.Device, port) : MidiGraph.Out(place.Device, port)).Where(node => node >= 0).ToList();
        return new TraceWay(place.Text, MessageKinds.None, 0, TreeFrom(map, starts, isBack, NotesOf(signal, place, isBack)))
        {
            What = what,
            Title = $"{what} {(isBack ? "to" : "from")} {place.Text}",
        };
    }

    /// <summary>Each place once, by the shortest way to it, written out top-down.</summary>
    private List<TraceStep> TreeFrom(GapMap map, List<int> starts, bool isBack, Func<PortRef, bool, string> noteOf)
    {
        var next = isBack ? map.Backwards() : null;
        var children = new Dictionary<int, List<(int Node, Hookup? Cable)>>();
        var seen = new HashSet<int>(starts);
        var open = new Queue<int>(starts);
        var gaps = new List<Gap>();
        while (open.TryDequeue(out var node))
        {
            gaps.Clear();
            if (next is null)
            {
                map.From(node, MessageKinds.All, gaps);
            }
            else
            {
                gaps.AddRange(next[node]);
            }
            var found = children[node] = [];
            foreach (var gap in gaps)
            {
                if (gap is { Kind: GapKind.None, Cost: 0 } && seen.Add(gap.To))
                {
                    found.Add((gap.To, gap.Hookup));
                    open.Enqueue(gap.To);
                }
            }
        }
        var steps = new List<TraceStep>();
        var rest = new Stack<(int Node, Hookup? Cable, int Parent, int Depth)>(Enumerable.Reverse(starts).Select(node => (node, (Hookup?)null, -1, 0)));
        while (rest.TryPop(out var at))
        {
            var isIn = MidiGraph.IsIn(at.Node);
            var isEnd = children[at.Node].Count == 0;
            // An output that feeds nothing further on is no part of the way, nor is an input that nothing feeds.
            if (isEnd && at.Depth > 0 && at.Cable is null && (isIn == isBack))
            {
                continue;
            }
            var port = map.PortOf(at.Node);
            var note = isEnd && at.Depth == 0 ? PlugNote(rig, port) : noteOf(port, isIn);
            steps.Add(new TraceStep(port, isIn, at.Parent, at.Depth, 0, at.Cable?.Connection.At, null, null, default, [], note));
            var index = steps.Count - 1;
            foreach (var (node, cable) in Enumerable.Reverse(children[at.Node]))
            {
                rest.Push((node, cable, index, at.Depth + 1));
            }
        }
        return steps;
    }

    private Func<PortRef, bool, string> NotesOf(ExpectedSignal signal, Target place, bool isBack)
    {
        if (signal == ExpectedSignal.Power)
        {
            return (port, isIn) => $"{(isIn ? "takes" : "gives")} {Figures(port.Port.Signal!)}";
        }
        if (isBack)
        {
            return (_, _) => "";
        }
        var audio = rig.Audio;
        var reach = AudioReach.From(audio, new AudioSpread(audio.Map, audio.OrderOfAll, AudioImage.Channels), place);
        return (port, isIn) => isIn ? Sides(reach.At(port)) : "";
    }

    private static string Sides(AudioImage image) => image switch
    {
        { IsStereo: true } => "in stereo",
        { IsSwapped: true } => "left and right exchanged",
        _ when image.IsOnly(AudioImage.Left) => "the left only",
        _ when image.IsOnly(AudioImage.Right) => "the right only",
        _ when image.Lanes.Any(lane => lane.LeftShare != 0 && lane.RightShare != 0) => "left and right in one",
        _ => "",
    };

    private static string Figures(Signal signal) =>
        $"{signal.Describe()}{(signal.Current is { } current ? $", {current}" : "")}{(signal.Power is { } power ? $", {power}" : "")}";
}
