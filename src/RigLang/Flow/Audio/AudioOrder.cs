namespace RigLang.Flow;

/// <summary>
/// The lanes of a map in an order in which nothing leads back, except among lanes that lead to one another: these stand together, and audio that comes to
/// one of them can come round.
/// </summary>
internal sealed class AudioOrder
{
    private readonly int[] _lanes;
    private readonly int[] _placeOf;

    /// <summary>At the place of a knot's first lane, how many it has; 1 for a lane by itself, 0 for the others of a knot.</summary>
    private readonly int[] _length;

    private AudioOrder(int[] lanes, int[] placeOf, int[] length) => (_lanes, _placeOf, _length) = (lanes, placeOf, length);

    /// <summary>By strongly connected components (Tarjan 1972), without recursion: a component is complete when all that it leads to is.</summary>
    /// <param name="withPrograms">False to leave out what computers pass on as their programs are told to.</param>
    public static AudioOrder Of(AudioMap map, bool withPrograms)
    {
        var count = map.Count;
        var (lanes, placeOf, length) = (new int[count], new int[count], new int[count]);
        var (index, low, onStack) = (new int[count], new int[count], new bool[count]);
        var (stack, path) = (new Stack<int>(), new Stack<(int Lane, int NextEdge)>());
        var (next, place) = (1, count);
        for (var root = 0; root < count; root++)
        {
            if (index[root] != 0)
            {
                continue;
            }
            Enter(root);
            while (path.TryPop(out var at))
            {
                var (lane, edge) = at;
                var edges = map.From(lane);
                if (edge < edges.Length)
                {
                    path.Push((lane, edge + 1));
                    var to = edges[edge].To;
                    if (!withPrograms && edges[edge].Open == AudioOpen.ByProgram)
                    {
                        continue;
                    }
                    if (index[to] == 0)
                    {
                        Enter(to);
                    }
                    else if (onStack[to])
                    {
                        low[lane] = Math.Min(low[lane], index[to]);
                    }
                    continue;
                }
                if (path.TryPeek(out var parent))
                {
                    low[parent.Lane] = Math.Min(low[parent.Lane], low[lane]);
                }
                if (low[lane] == index[lane])
                {
                    Complete(lane);
                }
            }
        }
        return new AudioOrder(lanes, placeOf, length);

        void Enter(int lane)
        {
            index[lane] = low[lane] = next++;
            stack.Push(lane);
            onStack[lane] = true;
            path.Push((lane, 0));
        }

        void Complete(int lane)
        {
            var end = place;
            int member;
            do
            {
                member = stack.Pop();
                onStack[member] = false;
                lanes[--place] = member;
            }
            while (member != lane);
            length[place] = end - place;
            for (var at = place; at < end; at++)
            {
                placeOf[lanes[at]] = place;
            }
        }
    }

    public int Count => _lanes.Length;

    /// <summary>The place of the knot that a lane is in, or of the lane.</summary>
    public int PlaceOf(int lane) => _placeOf[lane];

    /// <summary>What stands at a place: one lane, or a knot.</summary>
    public ReadOnlySpan<int> At(int place) => _lanes.AsSpan(place, _length[place]);

    /// <summary>Whether the lane is one of several that lead to one another.</summary>
    public bool IsKnotted(int lane) => _length[PlaceOf(lane)] > 1;

    /// <summary>The knots: lanes that lead to one another.</summary>
    public IEnumerable<int[]> Knots
    {
        get
        {
            for (var place = 0; place < _lanes.Length; place += _length[place])
            {
                if (_length[place] > 1)
                {
                    yield return _lanes[place..(place + _length[place])];
                }
            }
        }
    }
}
