using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

/// <summary>
/// Which filter keeps a clock from its followers. The flow says which clocks come to a filter; only the one that is told of is
/// followed on its way there.
/// </summary>
internal sealed class StoppedClocks(Rig rig)
{
    private readonly MidiGraph _graph = rig.Midi.Graph;
    private (MidiSource Source, MessageWalk Walk)? _last;

    /// <summary>The filter that stands between a clock and its follower: without it, the clock would arrive.</summary>
    public (MessageWalk Walk, WalkStep Stop)? StopOf(Follower follower)
    {
        var filters = FiltersBefore(follower.Node);
        if (SourceFor(follower, filters) is not { } source)
        {
            return null;
        }
        var walk = WalkOf(source);
        return (walk, walk.Stopped.First(stop => filters.Contains(stop.Node)));
    }

    /// <summary>The first clock that comes to such a filter; null when there is none.</summary>
    public MidiSource? SourceFor(Follower follower) => SourceFor(follower, FiltersBefore(follower.Node));

    private MidiSource? SourceFor(Follower follower, HashSet<int> filters)
    {
        MidiSource? first = null;
        foreach (var filter in filters)
        {
            foreach (var edge in _graph.To(filter))
            {
                foreach (var (atom, _) in rig.Midi.Flow.AtomsAt(edge.From, edge.Carries & MessageKinds.Clock))
                {
                    Take(rig.Midi.Sources[atom.Source]);
                }
            }
            foreach (var source in SentAt[filter])
            {
                Take(source);
            }
        }
        return first;

        void Take(MidiSource source)
        {
            if (!ReferenceEquals(source.Device, follower.Device) && (first is null || source.Index < first.Index))
            {
                first = source;
            }
        }
    }

    /// <summary>The clocks that start at each output.</summary>
    private ILookup<int, MidiSource> SentAt => field ??= rig.Midi.Sources
        .SelectMany(source => source.Starts.Where(s => (s.Kinds & MessageKinds.Clock) != 0).Select(s => (s.Node, Source: source)))
        .ToLookup(s => s.Node, s => s.Source);

    /// <summary>The nodes that drop clock, and from which it would come to a node with no other filter between.</summary>
    private HashSet<int> FiltersBefore(int node)
    {
        return [.. Spreading.From([node], Before).Where(Drops)];

        void Before(int at, List<int> into)
        {
            foreach (var edge in Drops(at) ? default : _graph.To(at))
            {
                if ((edge.Carries & MessageKinds.Clock) != MessageKinds.None)
                {
                    into.Add(edge.From);
                }
            }
        }

        bool Drops(int at) => (_graph.DropsAt(at) & MessageKinds.Clock) != MessageKinds.None;
    }

    /// <summary>Many followers wait for the same clock, one after the other.</summary>
    private MessageWalk WalkOf(MidiSource source)
    {
        if (_last is not { } last || last.Source != source)
        {
            _last = last = (source, MidiPaths.WalkOf(rig, source, MessageKinds.Clock));
        }
        return last.Walk;
    }
}
