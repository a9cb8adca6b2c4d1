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

    public static MessageWalk WalkOf(Rig rig, MidiSource source, MessageKinds kind) =>
        MessageWalk.From(rig.Midi.Graph, StartsOf(source, kind), kind, source.Channel);

    public static IEnumerable<RelatedPlace> Related(IEnumerable<WayStep> steps) => Wording.Places(steps);

    /// <summary>
    /// True when something on the way to a node is told of already, or could not be read: what does not come by may well come when
    /// that is mended.
    /// </summary>
    public static bool IsTroubledBefore(Rig rig, Report report, params IEnumerable<int> nodes)
    {
        var troubled = report.TroubledDevices(rig);
        var seen = new HashSet<int>(nodes);
        var open = new Queue<int>(seen);
        while (troubled.Count > 0 && open.TryDequeue(out var node))
        {
            if (troubled.Contains(rig.Midi.Graph.PortOf(node).Device))
            {
                return true;
            }
            foreach (var edge in rig.Midi.Graph.To(node))
            {
                if (seen.Add(edge.From))
                {
                    open.Enqueue(edge.From);
                }
            }
        }
        return false;
    }

    /// <summary>True when the walk comes to a device whose cables are told of already.</summary>
    public static bool IsTroubled(Rig rig, Report report, MessageWalk walk) =>
        report.TroubledDevices(rig) is { Count: > 0 } troubled && walk.Devices.Any(troubled.Contains);

    private static IEnumerable<int> StartsOf(MidiSource source, MessageKinds kind) =>
        source.Starts.Where(s => (s.Kinds & kind) != 0).Select(s => s.Node);

    /// <summary>The clock section of a device; every device that sends clock has one.</summary>
    public static MidiSource SectionOf(Rig rig, Symbols.DeviceSymbol device) =>
        rig.Midi.Sources.First(s => s.Track is null && ReferenceEquals(s.Device, device));
}
