using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

internal enum Delivered
{
    None,
    /// <summary>It comes by, but whether it is heard cannot be told.</summary>
    Possible,
    Sure,
}

/// <summary>Whether one kind of message gets to a target, by which step of which walk, and, if it does not, what stops it there.</summary>
/// <param name="Sent">Null when nothing sends it, or when it is played inside its own device.</param>
/// <param name="Step">Where it arrives, or the nearest point that it reaches; null when it does not leave its device.</param>
/// <param name="Reason">Nothing when it surely arrives.</param>
internal sealed record Delivery(MessageKinds Kind, Delivered Arrives, SentWalk? Sent, WalkStep? Step, string Reason)
{
    public MessageWalk? Walk => Sent?.Walk;

    /// <summary>When it does not arrive: what is missing, from the source to the target.</summary>
    public IReadOnlyList<Broken> Gaps { get; init; } = [];

    /// <summary>When it does not arrive: the way as far as it goes.</summary>
    public IReadOnlyList<WayStep> Gone { get; init; } = [];
}

/// <summary>The way of one kind of message from one sender.</summary>
/// <param name="Source">Null when it is not known what sends it, only by which port it leaves.</param>
internal sealed record SentWalk(string Sender, MidiSource? Source, MessageWalk Walk);

/// <summary>
/// Follows messages from a device, track or port to another: the one judge of `must`, `never` and `why not`. What leaves a source
/// is followed once, however often it is asked for.
/// </summary>
/// <param name="cut">What is to be thought away.</param>
internal sealed class Courier(Rig rig, Cut? cut = null)
{
    private readonly Dictionary<(int From, MessageKinds, int), MessageWalk> _walks = [];

    private MidiGraph Graph => rig.Midi.Graph;

    public void Forget() => _walks.Clear();

    /// <summary>Whether it arrives. When it does not, neither step nor reason is looked for: see <see cref="Nearest"/>.</summary>
    /// <param name="kind">One kind (one bit).</param>
    public Delivery Send(Target from, Target to, MessageKinds kind, int? onChannel = null)
    {
        if ((kind & MessageKinds.Channel) != 0 && PlaysInside(from, to))
        {
            return new Delivery(kind, Delivered.Sure, null, null, "");
        }
        Delivery? possible = null;
        foreach (var sent in WalksFrom(from, kind, onChannel))
        {
            foreach (var step in sent.Walk.ReachedOf(to.Device))
            {
                if (!MidiGraph.IsIn(step.Node) || (onChannel is { } wanted && step.Channel > 0 && step.Channel != wanted))
                {
                    continue;
                }
                switch (Hears(to, step.Node, kind, step.Channel))
                {
                    case true:
                        return new Delivery(kind, Delivered.Sure, sent, step, "");
                    case null:
                        possible ??= new Delivery(kind, Delivered.Possible, sent, step, WhyUnknown(from, to, kind, step));
                        break;
                }
            }
        }
        return possible ?? new Delivery(kind, Delivered.None, null, null, "");
    }

    /// <summary>Of what does not arrive, the way on which the least is missing, and how far it is gone.</summary>
    public Delivery Nearest(Target from, Target to, MessageKinds kind, int? onChannel = null)
    {
        var all = WalksFrom(from, kind, onChannel).ToList();
        var way = rig.Gaps.OfMessages(from, to, kind, onChannel, all);
        SentWalk? sent = null;
        WalkStep? step = null;
        if (way.Last is var (node, channel))
        {
            foreach (var walk in all)
            {
                step ??= walk.Walk.Steps.FirstOrDefault(s => s.Node == node && (s.Channel == channel || s.StoppedBy is not null));
                sent ??= step is null ? null : walk;
            }
        }
        return new Delivery(kind, Delivered.None, sent, step, BrokenWords.Reason(Broken.Told(way.Gaps)!, to.At.Source)) { Gaps = way.Gaps, Gone = way.Steps };
    }

    /// <summary>
    /// Each track or clock section that is meant, with the way of one kind of message from it. A port stands for all that leaves
    /// there; nothing known leaving, for whatever may.
    /// </summary>
    public IEnumerable<SentWalk> WalksFrom(Target from, MessageKinds kind, int? onChannel = null)
    {
        if (from is { Port: { } port, Track: null })
        {
            return WalksFrom(from, port, kind, onChannel);
        }
        return WalksFromSources(from, kind);
    }

    private IEnumerable<SentWalk> WalksFromSources(Target from, MessageKinds kind)
    {
        foreach (var source in rig.Midi.SourcesOf(from.Device))
        {
            if (from.Track is not null && !ReferenceEquals(source.Track, from.Track))
            {
                continue;
            }
            var starts = new List<int>();
            foreach (var start in source.Starts)
            {
                if ((start.Kinds & kind) != 0)
                {
                    starts.Add(start.Node);
                }
            }
            if (starts.Count > 0)
            {
                yield return new SentWalk(source.Text, source, WalkOf(source.Index, starts, kind, source.Channel));
            }
        }
    }

    private IEnumerable<SentWalk> WalksFrom(Target from, PortSymbol port, MessageKinds kind, int? onChannel)
    {
        var node = MidiGraph.Out(from.Device, port);
        if (node < 0)
        {
            yield break;
        }
        var isKnown = false;
        foreach (var (atom, _) in rig.Midi.Flow.AtomsAt(node, kind))
        {
            if (onChannel is null || atom.Channel == 0 || atom.Channel == onChannel)
            {
                isKnown = true;
                yield return new SentWalk(rig.Midi.Sources[atom.Source].Text, rig.Midi.Sources[atom.Source], WalkOf(~node, [node], kind, atom.Channel));
            }
        }
        if (!isKnown)
        {
            yield return new SentWalk(from.Text, null, WalkOf(~node, [node], kind, onChannel ?? 0));
        }
    }

    /// <param name="from">The number of the source, or the complement of the node of an output: two tracks can share some outputs and not others.</param>
    private MessageWalk WalkOf(int from, IReadOnlyList<int> starts, MessageKinds kind, int channel)
    {
        var key = (from, kind, channel);
        if (!_walks.TryGetValue(key, out var walk))
        {
            _walks[key] = walk = MessageWalk.From(Graph, starts, kind, channel, cut);
        }
        return walk;
    }

    /// <summary>Whether a track plays a part of its own device, with no cable in between.</summary>
    private static bool PlaysInside(Target from, Target to) => ReferenceEquals(from.Device, to.Device) && from.Port is null && to.Port is null
        && from.Device.Gear!.Tracks.Values.Any(track => (from.Track is null || ReferenceEquals(from.Track, track))
            && !from.Device.LocalOff.Contains(track.Name)
            && track.Plays.Any(part => to.Part is null || to.Part.Name == part));

    /// <summary>A port that is asked for hears whatever comes in there.</summary>
    private bool? Hears(Target to, int node, MessageKinds kind, int channel) => to is { Port: { } wanted, Part: null }
        ? ReferenceEquals(wanted, Graph.PortOf(node).Port)
        : rig.Midi.Hearing.Of(to.Device, to.Part, node, kind, channel);

    private static string WhyUnknown(Target from, Target to, MessageKinds kind, WalkStep step) =>
        (kind & MessageKinds.Channel) == 0 ? $"nobody says what {to.Device.Name} takes its {((kind & MessageKinds.Clock) != 0 ? "clock" : "transport")} from"
            : step.Channel == 0 ? $"nobody says which channel {from.Text} is on"
            : $"they arrive on channel {step.Channel}, and nobody says which channel {to.Text} is on";
}
