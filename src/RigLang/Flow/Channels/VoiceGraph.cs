namespace RigLang.Flow;

/// <summary>The voices of a puzzle as a graph. Voices are numbered in the order of names, so that lower means earlier by name.</summary>
internal sealed class VoiceGraph
{
    private readonly bool[] _isIn;
    private readonly int[] _place;

    public VoiceGraph(
        IReadOnlyList<ChannelVoice> voices, int[] byName, IReadOnlyList<(int, int)> same, IReadOnlyList<(int, int)> apart)
    {
        var count = byName.Length;
        var number = new int[count];
        for (var voice = 0; voice < count; voice++)
        {
            number[byName[voice]] = voice;
        }
        _isIn = new bool[count];
        _place = new int[count];
        Array.Fill(_place, -1);
        Allowed = [.. byName.Select(index => voices[index].Allowed)];
        Gear = [.. byName.Select(index => voices[index].Gear)];
        foreach (var (a, b) in apart)
        {
            if (a == b && a >= 0 && a < count)
            {
                Allowed[number[a]] = 0;
                Gear[number[a]] = 0;
            }
        }
        Same = Neighbours(number, same);
        Apart = Neighbours(number, apart);
    }

    public ushort[] Allowed { get; }

    public ushort[] Gear { get; }

    public int[][] Same { get; }

    public int[][] Apart { get; }

    /// <summary>Until they are forgotten, <see cref="PlaceOf"/> tells the places of these voices in the list.</summary>
    public void Number(int[] voices)
    {
        for (var i = 0; i < voices.Length; i++)
        {
            _place[voices[i]] = i;
        }
    }

    public void Forget(int[] voices) => Array.ForEach(voices, voice => _place[voice] = -1);

    /// <summary>-1 for a voice that is not in the list.</summary>
    public int PlaceOf(int voice) => _place[voice];

    /// <summary>The connected parts of the graph that only these voices make, each in the order of names.</summary>
    public List<int[]> Parts(int[] voices)
    {
        foreach (var voice in voices)
        {
            _isIn[voice] = true;
        }
        var parts = new List<int[]>();
        foreach (var voice in voices)
        {
            if (_isIn[voice])
            {
                parts.Add(TakePart(voice));
            }
        }
        return parts;
    }

    /// <summary>All voices that pairs connect to this one.</summary>
    public int[] PartOf(int voice)
    {
        Array.Fill(_isIn, true);
        var part = TakePart(voice);
        Array.Fill(_isIn, false);
        return part;
    }

    private int[] TakePart(int first)
    {
        var part = new List<int> { first };
        _isIn[first] = false;
        for (var i = 0; i < part.Count; i++)
        {
            foreach (var neighbours in (int[][])[Same[part[i]], Apart[part[i]]])
            {
                foreach (var other in neighbours)
                {
                    if (_isIn[other])
                    {
                        _isIn[other] = false;
                        part.Add(other);
                    }
                }
            }
        }
        part.Sort();
        return [.. part];
    }

    private static int[][] Neighbours(int[] number, IReadOnlyList<(int, int)> pairs)
    {
        var neighbours = new List<int>?[number.Length];
        foreach (var (a, b) in pairs)
        {
            if (a >= 0 && b >= 0 && a < number.Length && b < number.Length && a != b)
            {
                (neighbours[number[a]] ??= []).Add(number[b]);
                (neighbours[number[b]] ??= []).Add(number[a]);
            }
        }
        return [.. neighbours.Select(list => list is null ? [] : list.Distinct().Order().ToArray())];
    }
}
