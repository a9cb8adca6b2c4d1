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
    public IReadOnlyList<Listener> Listeners { get; }
    public ClockFlow Clock { get; }

    public static MidiModel Of(RigNames names, RigWiring wiring, LinkTable links)
    {
        var graph = MidiGraph.Of(names, links);
        var channels = new ChannelTable();
        var flow = MidiFlow.Of(graph, MidiSource.Of(names, channels));
        return new MidiModel(graph, channels, flow, Listener.Of(names, channels, wiring), ClockFlow.Of(names, flow));
    }
}
