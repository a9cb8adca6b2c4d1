using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

/// <summary>Paths for the findings about messages: each hop a place a player can go to.</summary>
internal static class MidiPaths
{
    /// <summary>The way of one kind of message from a source to a node, shortest first found; empty when there is none.</summary>
    public static IReadOnlyList<WayStep> To(Rig rig, MidiSource source, MessageKinds kind, int node)
    {
        var walk = MessageWalk.Towards(rig.Midi.Graph, StartsOf(source, kind), kind, source.Channel, node);
        return walk.FirstAt(node) is { } step ? walk.StepsTo(step) : [];
    }

    /// <param name="endsAt">Nodes that are come to but not gone on from; null for none.</param>
    public static MessageWalk WalkOf(Rig rig, MidiSource source, MessageKinds kind, Func<int, bool>? endsAt = null) =>
        MessageWalk.From(rig.Midi.Graph, StartsOf(source, kind), kind, source.Channel, endsAt: endsAt);

    public static IEnumerable<RelatedPlace> Related(IReadOnlyList<WayStep> steps) => Wording.Places(steps);

    /// <summary>
    /// Where the ways to nodes begin: ports that nothing is plugged into, or that pass nothing on. What is missing at several places for
    /// want of the same has the same origin.
    /// </summary>
    public static IReadOnlyList<Origin> OriginsBefore(Rig rig, IEnumerable<int> nodes, MessageKinds kinds)
    {
        var graph = rig.Midi.Graph;
        var starts = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var node in Spreading.From(nodes, Before))
        {
            var before = new List<int>();
            Before(node, before);
            if (before.Count == 0)
            {
                starts.Add(graph.PortOf(node).ToString());
            }
        }
        return starts.Count == 0 ? [] : [new Origin.Ports(string.Join(", ", starts))];

        void Before(int node, List<int> into)
        {
            foreach (var edge in graph.To(node))
            {
                if ((edge.Carries & kinds) != 0)
                {
                    into.Add(edge.From);
                }
            }
        }
    }

    private static IEnumerable<int> StartsOf(MidiSource source, MessageKinds kind) =>
        source.Starts.Where(s => (s.Kinds & kind) != 0).Select(s => s.Node);

    /// <summary>The clock section of a device; every device that sends clock has one.</summary>
    public static MidiSource SectionOf(Rig rig, Symbols.DeviceSymbol device) =>
        rig.Midi.Sources.First(s => s.Track is null && ReferenceEquals(s.Device, device));
}
