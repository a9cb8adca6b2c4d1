using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

/// <summary>
/// Where the clock or the notes at a place come from, looked for backwards: however many sources there are, no more is walked than leads to the nearest.
/// </summary>
internal sealed class NearestSources
{
    private readonly Rig _rig;
    private readonly MessageKinds _kinds;
    private readonly Dictionary<int, DeviceSymbol> _starts = [];

    /// <param name="kinds">Clock, which clock sections send, or notes, which tracks do.</param>
    public NearestSources(Rig rig, MessageKinds kinds)
    {
        _rig = rig;
        _kinds = kinds;
        foreach (var source in rig.Midi.Sources)
        {
            foreach (var (node, sent) in source.Starts)
            {
                if (source.Track is null == (_kinds == MessageKinds.Clock) && (sent & _kinds) != 0 && Passes(node))
                {
                    _starts[node] = source.Device;
                }
            }
        }
    }

    /// <summary>The shortest ways to a node from <see cref="Prose.MostWays"/> devices, the nearest first; of equally near ones the first by name.</summary>
    public List<IReadOnlyList<WayStep>> Nearest(int node)
    {
        var ways = new List<IReadOnlyList<WayStep>>();
        var found = new HashSet<DeviceSymbol>();
        // The edge by which each node goes on towards the end of the way.
        var onward = new Dictionary<int, MidiEdge?> { [node] = null };
        List<int> level = [node];
        while (level.Count > 0 && ways.Count < Prose.MostWays)
        {
            foreach (var start in level.Where(_starts.ContainsKey).OrderBy(Name, StringComparer.Ordinal))
            {
                if (ways.Count < Prose.MostWays && found.Add(_starts[start]))
                {
                    ways.Add(WayFrom(start, onward));
                }
            }
            level = Before(level, onward);
        }
        return ways;
    }

    private List<int> Before(List<int> level, Dictionary<int, MidiEdge?> onward)
    {
        var before = new List<int>();
        // Of several ways on that are equally long, the one whose ports come first by name.
        foreach (var at in level.Count > 1 ? level.OrderBy(Name, StringComparer.Ordinal) : level.AsEnumerable())
        {
            foreach (var edge in _rig.Midi.Graph.To(at))
            {
                if ((edge.Carries & _kinds) != 0 && Passes(edge.From) && onward.TryAdd(edge.From, edge))
                {
                    before.Add(edge.From);
                }
            }
        }
        return before;
    }

    private List<WayStep> WayFrom(int start, Dictionary<int, MidiEdge?> onward)
    {
        var graph = _rig.Midi.Graph;
        var way = new List<WayStep> { new WayStep.Start(graph.PortOf(start)) };
        for (var at = onward[start]; at is { } edge; at = onward[edge.To])
        {
            var (from, to) = (graph.PortOf(edge.From), graph.PortOf(edge.To));
            way.Add(edge.Cable is { } cable ? new WayStep.Cable(from, to, cable) : new WayStep.Through(from, to));
        }
        return way;
    }

    private bool Passes(int node) => (_rig.Midi.Graph.DropsAt(node) & _kinds) == 0;

    private string Name(int node) => _rig.Midi.Graph.PortOf(node).ToString();
}
