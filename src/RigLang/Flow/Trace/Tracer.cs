using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>Answers questions about messages: where they go, what arrives, and why not.</summary>
public sealed class Tracer
{
    private readonly Rig _rig;
    private readonly MidiGraph _graph;
    private readonly TraceHearing _hearing;
    private readonly Courier _courier;

    private Tracer(Rig rig)
    {
        _rig = rig;
        _graph = rig.Midi.Graph;
        _hearing = new TraceHearing(rig);
        _courier = new Courier(rig);
    }

    /// <summary>The answer, or what in the question is not understood: one of the two.</summary>
    public static (Trace? Trace, TraceMistake? Mistake) Answer(Rig rig, string question)
    {
        var (query, mistake) = TraceQuery.Read(rig.Names, question);
        if (query is null)
        {
            return (null, mistake);
        }
        if (query.Signal != ExpectedSignal.Messages)
        {
            return (new SignalTrace(rig).Answer(query), null);
        }
        var tracer = new Tracer(rig);
        return (query.Question switch
        {
            TraceQuestion.From => tracer.Follow(query),
            TraceQuestion.WhatReaches or TraceQuestion.To => tracer.WhatReaches(query),
            _ => tracer.WhyNot(query),
        }, null);
    }

    private Trace Follow(TraceQuery query)
    {
        var ways = new List<TraceWay>();
        foreach (var sender in WalksFrom(query))
        {
            // Kinds that go the same ways, past the same filters, are told together.
            foreach (var alike in sender.GroupBy(sent => Shape(sent.Walk)))
            {
                var kinds = alike.Aggregate(MessageKinds.None, (all, sent) => all | sent.Walk.Kind);
                var first = alike.First();
                ways.Add(new TraceWay(sender.Key, kinds, first.Walk.Steps.Count > 0 ? first.Walk.Steps[0].Channel : 0, TreeOf(first, kinds)));
            }
        }
        var heard = Distinct(ways.SelectMany(w => w.Steps).SelectMany(s => s.Heard).Concat(PlayedInside(query)));
        return new Trace(query.Text, query.Question, ways, [], null, heard, SummaryOf(query, ways, heard));
    }

    private Trace WhatReaches(TraceQuery query)
    {
        var to = query.To!;
        var ports = new List<TracePort>();
        foreach (var port in to.Device.Gear!.Ports)
        {
            if ((to.Port is not null && !ReferenceEquals(to.Port, port)) || (to.Part is not null && !to.Part.Receives.Contains(port)) || !CanTakeIn(to.Device, port))
            {
                continue;
            }
            var node = MidiGraph.In(to.Device, port);
            var here = _rig.Midi.Flow.AtomsAt(node, query.Kinds)
                .OrderBy(a => a.Atom.Source).ThenBy(a => a.Atom.Channel)
                .Select(a => new TraceArrival(_rig.Midi.Sources[a.Atom.Source].Text, a.Kinds, a.Atom.Channel,
                    [.. _hearing.At(node, a.Kinds, a.Atom.Channel).Where(h => IsMeant(to, h))]))
                .ToList();
            ports.Add(new TracePort(new PortRef(to.Device, port), here));
        }
        var heard = Distinct(ports.SelectMany(p => p.Arrivals).SelectMany(a => a.Heard));
        var arrivals = ports.SelectMany(p => p.Arrivals).ToLookup(a => a.Heard.Count > 0, a => a.Source);
        var heardFrom = arrivals[true].Distinct().ToList();
        var unheard = arrivals[false].Distinct().Except(heardFrom).ToList();
        var summary = ports.Count == 0 ? $"{to.Text} has nowhere for messages to come in."
            : heardFrom.Count + unheard.Count == 0 ? query.What.Length > 0 ? $"No {query.What} {(Hearing.IsMany(query.What) ? "reach" : "reaches")} {to.Text}." : $"Nothing reaches {to.Text}."
            : (heardFrom.Count > 0 ? $"{to.Text} hears {Prose.And(heardFrom)}" : $"{to.Text} hears nobody")
                + (unheard.Count > 0 ? $"; not heard, though it arrives: {Prose.And(unheard)}." : ".");
        return new Trace(query.Text, query.Question, [], ports, null, heard, summary);
    }

    private Trace WhyNot(TraceQuery query)
    {
        // As good as the kind that fares worst: the first that does not arrive is the answer.
        TraceVerdict? verdict = null;
        foreach (var kind in MessageKindNames.Each(query.Kinds))
        {
            var next = VerdictOn(query, kind);
            if (verdict is null || (verdict.Arrives && !next.Arrives) || (verdict.IsSure && verdict.Arrives && !next.IsSure))
            {
                verdict = next;
            }
        }
        var name = verdict!.Arrives ? query.What : MessageKindNames.Describe(verdict.Kind);
        var summary = !verdict.Arrives ? $"{Prose.Capital(name)} from {query.From!.Text} {Does(name)} not get to {query.To!.Text}: {verdict.Reason}.{(verdict.Mend.Length > 0 ? " " + verdict.Mend : "")}"
            : verdict.IsSure && verdict.Steps.Count == 0 ? $"It does arrive: {query.From!.Text} plays {query.To!.Text} inside its own device."
            : verdict.IsSure ? $"It does arrive: {name} from {query.From!.Text} {(Hearing.IsMany(name) ? "get" : "gets")} to {query.To!.Text} by this way."
            : $"It comes by, but whether {query.To!.Text} hears it cannot be told: {verdict.Reason}.";
        return new Trace(query.Text, query.Question, [], [], verdict,
            verdict is { Arrives: true, Steps: [.., var last] } ? Distinct(last.Heard.Where(h => IsMeant(query.To!, h))) : [], summary);
    }

    private TraceVerdict VerdictOn(TraceQuery query, MessageKinds kind)
    {
        var (from, to) = (query.From!, query.To!);
        var delivery = _courier.Send(from, to, kind);
        if (delivery.Arrives == Delivered.None)
        {
            delivery = _courier.Nearest(from, to, kind);
        }
        List<TraceStep> way = delivery is { Sent: { } sent, Step: { } step } ? WayOf(sent, step) : [];
        return new TraceVerdict(kind, delivery.Arrives != Delivered.None, delivery.Arrives != Delivered.Possible, way, delivery.Reason,
            Broken.Told(delivery.Gaps) is { } broken ? BrokenWords.Mend(broken, to.At.Source) ?? "" : "",
            Broken.Told(delivery.Gaps) is Broken.Filtered filtered ? new TraceFilter(filtered.Port, filtered.Filter.Drops & kind, filtered.Filter.At) : null);
    }

    /// <summary>Each sender that is meant, with a walk for each kind that it sends.</summary>
    private IEnumerable<IGrouping<string, SentWalk>> WalksFrom(TraceQuery query) => MessageKindNames.Each(query.Kinds)
        .SelectMany(kind => _courier.WalksFrom(query.From!, kind))
        .GroupBy(sent => sent.Sender);

    private bool CanTakeIn(DeviceSymbol device, PortSymbol port) =>
        MidiGraph.In(device, port) is >= 0 and var node && (_graph.To(node).Length > 0
            || (!port.IsOutput && port.Signal is { Kind: Connectors.SignalKind.Midi or Connectors.SignalKind.Pulse or Connectors.SignalKind.DinSync or Connectors.SignalKind.Usb }));

    /// <summary>Parts that a track plays inside its own device.</summary>
    private static IEnumerable<TraceHearer> PlayedInside(TraceQuery query)
    {
        var from = query.From!;
        if ((query.Kinds & MessageKinds.Notes) == 0 || from.Port is not null)
        {
            return [];
        }
        var device = from.Device;
        return device.Gear!.Tracks.Values
            .Where(t => (from.Track is null || ReferenceEquals(from.Track, t)) && !device.LocalOff.Contains(t.Name))
            .SelectMany(t => t.Plays, (_, part) => new TraceHearer($"{device.Name}.{part}", HearingWay.Plays, 0, true));
    }

    private static string Shape(MessageWalk walk) =>
        string.Join(';', walk.Steps.Select(s => $"{s.Node},{s.Channel},{s.Parent},{s.StoppedBy?.At.Span.Start ?? -1}"));

    /// <summary>The walk as a tree, without outputs that nothing is plugged into.</summary>
    private List<TraceStep> TreeOf(SentWalk sent, MessageKinds kinds)
    {
        var walk = sent.Walk;
        var children = walk.Steps.ToLookup(s => s.Parent);
        var steps = new List<TraceStep>();
        var open = new Stack<(WalkStep Step, int Parent, int Depth)>(children[-1].Reverse().Select(s => (s, -1, 0)));
        while (open.TryPop(out var at))
        {
            if (at.Depth > 0 && !MidiGraph.IsIn(at.Step.Node) && !GoesOn(at.Step.Node, walk.Kind))
            {
                continue;
            }
            var index = steps.Count;
            var isEnd = MidiGraph.IsIn(at.Step.Node) || !GoesOn(at.Step.Node, walk.Kind);
            steps.Add(StepOf(walk, at.Step, kinds, sent.Source, at.Parent, at.Depth, isEnd));
            foreach (var next in children[at.Step.Index].Reverse())
            {
                open.Push((next, index, at.Depth + 1));
            }
        }
        return steps;
    }

    private bool GoesOn(int node, MessageKinds kind)
    {
        foreach (var edge in _graph.From(node))
        {
            if ((edge.Carries & kind) != 0)
            {
                return true;
            }
        }
        return false;
    }

    private List<TraceStep> WayOf(SentWalk sent, WalkStep step)
    {
        var way = sent.Walk.WayTo(step);
        return [.. way.Select((s, i) => StepOf(sent.Walk, s, sent.Walk.Kind, sent.Source, i - 1, i, i == way.Count - 1))];
    }

    private TraceStep StepOf(MessageWalk walk, WalkStep step, MessageKinds kinds, MidiSource? source, int parent, int depth, bool saysMore)
    {
        var port = _graph.PortOf(step.Node);
        var isIn = MidiGraph.IsIn(step.Node);
        var filter = step.StoppedBy is null ? null : FilterOf(step, kinds);
        List<TraceHearer> heard = filter is null ? _hearing.At(step.Node, kinds, step.Channel) : [];
        var note = filter is not null || heard.Count > 0 || !saysMore ? ""
            : isIn ? _hearing.Silence(step.Node, kinds, step.Channel)
            : GoesOn(step.Node, kinds) ? "" : SignalTrace.PlugNote(_rig, port);
        TraceMove? move = null;
        if (walk.MapOf(step) is { } map)
        {
            move = new TraceMove(step.MappedFrom, step.Channel, map.At);
        }
        var wait = filter is null && !saysMore ? _rig.Traffic.WaitAt(step.Node, kinds, source) : default;
        return new TraceStep(port, isIn, parent, depth, step.Channel, step.Cable?.Connection.At, move, filter, wait, heard, note);
    }

    private TraceFilter FilterOf(WalkStep step, MessageKinds kinds) =>
        new(_graph.PortOf(step.Node), step.StoppedBy!.Value.Drops & kinds, step.StoppedBy.Value.At);

    private static bool IsMeant(Target to, TraceHearer hearer) =>
        to.Part is null || hearer.Who == $"{to.Device.Name}.{to.Part.Name}";

    private static List<TraceHearer> Distinct(IEnumerable<TraceHearer> heard) => [.. heard.Distinct()];

    private static string SummaryOf(TraceQuery query, List<TraceWay> ways, List<TraceHearer> heard)
    {
        if (ways.Count == 0 && heard.Count == 0)
        {
            return $"Nothing in {query.From!.Text} sends {query.What}.";
        }
        if (heard.Count == 0)
        {
            return $"Nobody hears {query.What} from {query.From!.Text}.";
        }
        return string.Join("; ", heard.GroupBy(h => (h.How, h.IsSure)).OrderBy(g => g.Key.How).Select((group, i) =>
        {
            var who = group.Select(h => h.Who).Distinct().ToList();
            var words = TraceWords.Of(group.Key.How, group.Key.IsSure, who.Count > 1);
            return i == 0 ? $"{words.Front}: {Prose.And(who)}" : $"{char.ToLowerInvariant(words.Front[0])}{words.Front[1..]}: {Prose.And(who)}";
        })) + ".";
    }

    private static string Does(string kinds) => Hearing.IsMany(kinds) ? "do" : "does";
}

/// <summary>How hearing is put into words.</summary>
public static class TraceWords
{
    /// <summary><c>Front</c> stands before a list of names, <c>After</c> behind one name.</summary>
    public static (string Front, string After) Of(HearingWay how, bool isSure, bool many = false) => (how, isSure) switch
    {
        (HearingWay.Plays, true) => (many ? "Play" : "Plays", "plays"),
        (HearingWay.Plays, false) => ("May play, a channel is not set", "may play: a channel is not set"),
        (HearingWay.Hears, true) => (many ? "Hear" : "Hears", "hears it"),
        (HearingWay.Hears, false) => ("May hear, a channel is not set", "may hear it: a channel is not set"),
        (HearingWay.FollowsClock, true) => (many ? "Follow this clock" : "Follows this clock", "follows this clock"),
        (HearingWay.FollowsClock, false) => ("Could follow this clock, not set to any", "could follow this clock: not set to any"),
        (HearingWay.StartsAndStops, true) => (many ? "Start and stop" : "Starts and stops", "starts and stops"),
        (HearingWay.StartsAndStops, false) => ("Could start and stop, not set to any", "could start and stop: not set to any"),
        _ => (many ? "Get it" : "Gets it", "gets it"),
    };
}
