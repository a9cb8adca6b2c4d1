namespace RigLang.Flow;

/// <summary>The shortest ways of audio over a map, as steps from port to port.</summary>
internal static class AudioWays
{
    /// <summary>From one of some lanes to one of others; empty where there is none.</summary>
    /// <param name="carries">Whether something of what is followed is at a lane; null where that does not matter.</param>
    public static List<WayStep> Shortest(AudioMap map, IEnumerable<int> starts, Func<int, bool> isEnd, AudioWithout without = default, Func<int, bool>? carries = null)
    {
        var cameBy = new Dictionary<int, AudioEdge?>();
        return EndOf(map, starts, isEnd, without, carries, cameBy) is >= 0 and var end ? StepsTo(map, end, cameBy) : [];
    }

    /// <summary>The gain along the same way, as a factor of amplitude without its sign; 0 where there is none.</summary>
    public static double GainOf(AudioMap map, IEnumerable<int> starts, Func<int, bool> isEnd, AudioWithout without)
    {
        var cameBy = new Dictionary<int, AudioEdge?>();
        var lane = EndOf(map, starts, isEnd, without, null, cameBy);
        var gain = lane >= 0 ? 1.0 : 0;
        while (lane >= 0 && cameBy[lane] is { } edge)
        {
            if (map.PortOf(edge.From) is null && cameBy[edge.From] is { } into)
            {
                // Through a knot it goes on both of its lanes.
                gain *= Math.Abs(Through(map, into.From, edge.To));
                lane = into.From;
                continue;
            }
            gain *= Math.Abs(edge.Gain);
            lane = edge.From;
        }
        return gain;
    }

    private static double Through(AudioMap map, int from, int to)
    {
        var sum = 0.0;
        foreach (ref readonly var into in map.From(from))
        {
            if (map.PortOf(into.To) is not null)
            {
                continue;
            }
            foreach (ref readonly var on in map.From(into.To))
            {
                sum += on.To == to ? into.Gain * on.Gain : 0;
            }
        }
        return sum;
    }

    private static int EndOf(AudioMap map, IEnumerable<int> starts, Func<int, bool> isEnd, AudioWithout without, Func<int, bool>? carries, Dictionary<int, AudioEdge?> cameBy)
    {
        var open = new Queue<int>();
        foreach (var start in starts)
        {
            if (cameBy.TryAdd(start, null))
            {
                open.Enqueue(start);
            }
        }
        while (open.TryDequeue(out var lane))
        {
            if (isEnd(lane))
            {
                return lane;
            }
            foreach (ref readonly var edge in map.From(lane))
            {
                if (!without.Stops(map, edge) && carries?.Invoke(edge.To) != false && cameBy.TryAdd(edge.To, edge))
                {
                    open.Enqueue(edge.To);
                }
            }
        }
        return -1;
    }

    /// <summary>The shortest way from a lane back to itself over edges that are open; empty where there is none.</summary>
    public static List<WayStep> Round(AudioMap map, int start, Func<AudioEdge, bool> isOpen)
    {
        var cameBy = new Dictionary<int, AudioEdge>();
        var open = new Queue<int>([start]);
        while (open.TryDequeue(out var lane))
        {
            foreach (ref readonly var edge in map.From(lane))
            {
                if (!isOpen(edge) || !cameBy.TryAdd(edge.To, edge))
                {
                    continue;
                }
                if (edge.To == start)
                {
                    var edges = new List<AudioEdge>();
                    var at = start;
                    do
                    {
                        edges.Add(cameBy[at]);
                        at = cameBy[at].From;
                    }
                    while (at != start);
                    edges.Reverse();
                    return StepsOf(map, start, edges);
                }
                open.Enqueue(edge.To);
            }
        }
        return [];
    }

    private static List<WayStep> StepsTo(AudioMap map, int end, Dictionary<int, AudioEdge?> cameBy)
    {
        var edges = new List<AudioEdge>();
        var lane = end;
        while (cameBy[lane] is { } edge)
        {
            edges.Add(edge);
            lane = edge.From;
        }
        edges.Reverse();
        return StepsOf(map, lane, edges);
    }

    /// <summary>Steps from port to port: what a device does inside is one step, by way of whichever knot.</summary>
    private static List<WayStep> StepsOf(AudioMap map, int start, List<AudioEdge> edges)
    {
        var at = map.PortOf(start)!.Value;
        var steps = new List<WayStep> { new WayStep.Start(at) };
        foreach (var edge in edges)
        {
            if (map.PortOf(edge.To) is not { } to)
            {
                continue;
            }
            if (edge.Cable is { } cable)
            {
                steps.Add(new WayStep.Cable(at, to, cable));
            }
            else if (at != to)
            {
                steps.Add(new WayStep.Through(at, to));
            }
            at = to;
        }
        return steps;
    }
}
