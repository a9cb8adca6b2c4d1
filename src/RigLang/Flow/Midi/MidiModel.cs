using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Everything about messages in one rig: where they can go, what starts them, what reaches what, who hears, who leads.</summary>
public sealed class MidiModel
{
    private MidiModel(MidiGraph graph, ChannelTable channels, MidiFlow flow, IReadOnlyList<Listener> listeners, ClockFlow clock)
    {
        Graph = graph;
        Channels = channels;
        Flow = flow;
        Listeners = listeners;
        Clock = clock;
    }

    public MidiGraph Graph { get; }
    public ChannelTable Channels { get; }
    public MidiFlow Flow { get; }
    public IReadOnlyList<MidiSource> Sources => Flow.Sources;

    private ILookup<DeviceSymbol, MidiSource> SourcesByDevice => field ??= Sources.ToLookup(source => source.Device);

    /// <summary>The tracks of a device and its clock section.</summary>
    public IEnumerable<MidiSource> SourcesOf(DeviceSymbol device) => SourcesByDevice[device];

    public IReadOnlyList<Listener> Listeners { get; }
    public ClockFlow Clock { get; }
    internal Hearing Hearing => field ??= new Hearing(Graph, Channels, Listeners);

    /// <summary>Parts and tracks on `auto` for which there is no channel.</summary>
    public IReadOnlyList<AutoConflict> AutoConflicts { get; private init; } = [];

    public static MidiModel Of(RigNames names, RigWiring wiring, LinkTable links)
    {
        var graph = MidiGraph.Of(names, links);
        var channels = new ChannelTable();
        List<AutoConflict> conflicts = [];
        if (AutoChannels.IsWanted(names))
        {
            // Who could hear whom does not depend on the channels that are still open: follow without them, choose, follow again.
            var open = MidiFlow.Of(graph, MidiSource.Of(names, channels));
            conflicts = AutoChannels.Choose(names, channels, open, Listener.Of(names, channels, wiring));
        }
        var flow = MidiFlow.Of(graph, MidiSource.Of(names, channels));
        return new MidiModel(graph, channels, flow, Listener.Of(names, channels, wiring), ClockFlow.Of(names, flow)) { AutoConflicts = conflicts };
    }
}
