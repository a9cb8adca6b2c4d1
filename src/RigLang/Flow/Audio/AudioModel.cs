using RigLang.Connectors;
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
        Order = AudioOrder.Of(map, withPrograms: false);
    }

    internal RigNames Names { get; }
    internal AudioMap Map { get; }
    /// <summary>Without what computers pass on.</summary>
    internal AudioOrder Order { get; }

    /// <summary>With it: what a promise may rely on.</summary>
    internal AudioOrder OrderOfAll => field ??= Map.HasPrograms ? AudioOrder.Of(Map, withPrograms: true) : Order;

    /// <summary>Where everything that sounds ends up; worked out when it is asked for.</summary>
    public AudioFlow Flow => field ??= AudioFlow.Of(this);

    private AudioSpread? _spare;

    /// <summary>Follows the audio of one place and asks what comes of it. What is written on is used again: it is as long as the rig has jacks.</summary>
    /// <param name="without">What is thought away; what computers pass on by themselves always is.</param>
    internal TAnswer Follow<TAnswer>(Target from, Func<AudioReach, TAnswer> ask, AudioWithout without = default)
    {
        var spread = Interlocked.Exchange(ref _spare, null) ?? new AudioSpread(Map, Order, AudioImage.Channels);
        try
        {
            return ask(AudioReach.From(this, spread, from, without with { Programs = true }));
        }
        finally
        {
            spread.Clear();
            _spare = spread;
        }
    }

    /// <summary>
    /// What comes in at a port from outside: each source, nearest first, with the boxes between that pass it on. Behind a mixer all that it mixes is named as one: the
    /// output that it comes from.
    /// </summary>
    public IReadOnlyList<(PortRef From, IReadOnlyList<DeviceSymbol> Through)> FeedersOf(PortRef port)
    {
        var lanes = Map.In(port.Device, port.Port);
        var behind = new Dictionary<int, int>();
        var open = new Queue<int>();
        for (var channel = 0; channel < lanes.Count; channel++)
        {
            behind[lanes[channel]] = -1;
            open.Enqueue(lanes[channel]);
        }
        var sources = Flow.Sources.SelectMany(source => source.Starts).Select(start => start.Lane).ToHashSet();
        var feeders = new List<(PortRef, IReadOnlyList<DeviceSymbol>)>();
        var told = new HashSet<PortRef>();
        while (open.TryDequeue(out var lane))
        {
            var here = Map.PortOf(lane);
            var edges = Map.To(lane);
            // A source, or the output of a mixer: there the way back ends.
            if (here is { } output && !Map.IsIn(lane) && (sources.Contains(lane) || Map.InputsOf(output.Device) >= AudioMap.Mixer))
            {
                if (told.Add(output))
                {
                    feeders.Add((output, ThroughOf(lane)));
                }
                continue;
            }
            foreach (ref readonly var edge in edges)
            {
                if (edge.Open != AudioOpen.ByProgram && (edge.Cable is not null || here is null || !ReferenceEquals(here.Value.Device, port.Device)) && behind.TryAdd(edge.From, lane))
                {
                    open.Enqueue(edge.From);
                }
            }
        }
        return feeders;

        List<DeviceSymbol> ThroughOf(int lane)
        {
            var through = new List<DeviceSymbol>();
            for (var at = behind[lane]; at >= 0; at = behind[at])
            {
                if (Map.PortOf(at) is { } step && !ReferenceEquals(step.Device, port.Device) && !through.Contains(step.Device))
                {
                    through.Add(step.Device);
                }
            }
            return through;
        }
    }

    /// <summary>The mixers of the rig: devices of which three inputs and more go on, to more than headphones.</summary>
    public IEnumerable<DeviceSymbol> Mixers => Names.Devices.Where(device => device.Gear is { } gear && Map.InputsOf(device) >= AudioMap.Mixer
        && gear.Ports.Exists(port => port is { IsOutput: true, Signal: { Kind: SignalKind.Audio, Level: not AudioLevel.Headphone } }));

    /// <summary>What stands before a destination: the devices, and the inputs at which something would have to come in.</summary>
    public (IReadOnlyCollection<DeviceSymbol> Devices, IReadOnlyCollection<PortRef> Free) EndsBefore(AudioDestination destination)
    {
        var (devices, free) = (new HashSet<DeviceSymbol>(ReferenceEqualityComparer.Instance), new HashSet<PortRef>());
        foreach (var lane in Spreading.From(Enumerable.Range(destination.Lanes.First, destination.Lanes.Count), (lane, into) =>
        {
            foreach (ref readonly var edge in Map.To(lane))
            {
                if (edge.Open != AudioOpen.ByProgram)
                {
                    into.Add(edge.From);
                }
            }
        }))
        {
            if (Map.PortOf(lane) is not { } here)
            {
                continue;
            }
            devices.Add(here.Device);
            if (Map.To(lane).IsEmpty && !here.Port.IsBus && Map.IsIn(lane))
            {
                free.Add(here);
            }
        }
        return (devices, free);
    }

    public static AudioModel Of(RigNames names, RigWiring wiring, LinkTable links) => new(names, AudioMap.Of(names, wiring, links));
}
