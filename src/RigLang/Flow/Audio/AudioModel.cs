using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Everything about audio in one rig: where it can go, and where what each source gives ends up.</summary>
public sealed class AudioModel
{
    private AudioModel(RigNames names, AudioMap map)
    {
        Names = names;
        Map = map;
        Order = AudioOrder.Of(map);
    }

    internal RigNames Names { get; }
    internal AudioMap Map { get; }
    internal AudioOrder Order { get; }

    /// <summary>Where everything that sounds ends up; worked out when it is asked for.</summary>
    public AudioFlow Flow => field ??= AudioFlow.Of(this);

    private AudioSpread? _spare;

    /// <summary>Follows the audio of one place and asks what comes of it. What is written on is used again: it is as long as the rig has jacks.</summary>
    internal TAnswer Follow<TAnswer>(Target from, Func<AudioReach, TAnswer> ask)
    {
        var spread = Interlocked.Exchange(ref _spare, null) ?? new AudioSpread(Map, Order, AudioImage.Channels);
        try
        {
            return ask(AudioReach.From(this, spread, from));
        }
        finally
        {
            spread.Clear();
            _spare = spread;
        }
    }

    /// <summary>What stands before a destination: the devices, and the inputs at which something would have to come in.</summary>
    public (IReadOnlyCollection<DeviceSymbol> Devices, IReadOnlyCollection<PortRef> Free) EndsBefore(AudioDestination destination)
    {
        var seen = new HashSet<int>(Enumerable.Range(destination.Lanes.First, destination.Lanes.Count));
        var open = new Stack<int>(seen);
        var (devices, free) = (new HashSet<DeviceSymbol>(ReferenceEqualityComparer.Instance), new HashSet<PortRef>());
        while (open.TryPop(out var lane))
        {
            var port = Map.PortOf(lane);
            if (port is { } here)
            {
                devices.Add(here.Device);
            }
            if (Map.To(lane).IsEmpty && port is { Port.IsBus: false } end && Map.IsIn(lane))
            {
                free.Add(end);
            }
            foreach (ref readonly var edge in Map.To(lane))
            {
                if (seen.Add(edge.From))
                {
                    open.Push(edge.From);
                }
            }
        }
        return (devices, free);
    }

    public static AudioModel Of(RigNames names, RigWiring wiring, LinkTable links) => new(names, AudioMap.Of(names, wiring, links));
}
