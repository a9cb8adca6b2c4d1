using CsCheck;
using RigLang.Flow;

namespace RigLang.Tests.Flow.Channels;

/// <summary>Voices and pairs, written by name, as the tests of <see cref="ChannelPuzzle"/> speak of them.</summary>
public sealed class Puzzle
{
    public List<ChannelVoice> Voices { get; init; } = [];

    public List<(int, int)> Same { get; init; } = [];

    public List<(int, int)> Apart { get; init; } = [];

    public static Puzzle Of(params ChannelVoice[] voices) => new() { Voices = [.. voices] };

    public static ChannelVoice Auto(string name, int first = 1, int last = 16) => new(name, ChannelVoice.Range(first, last));

    public static ChannelVoice Fixed(string name, int channel, ushort gear = 0) => new(name, ChannelVoice.Only(channel), gear);

    /// <summary>Voices of these names that may have any channel.</summary>
    public static Puzzle OfAuto(IEnumerable<string> names) => Of([.. names.Select(name => Auto(name))]);

    public Puzzle Layered(string a, string b)
    {
        Same.Add((IndexOf(a), IndexOf(b)));
        return this;
    }

    public Puzzle Separate(string a, string b)
    {
        Apart.Add((IndexOf(a), IndexOf(b)));
        return this;
    }

    /// <summary>Everybody hears the same stream.</summary>
    public Puzzle AllApart() => AllApart([.. Voices.Select(voice => voice.Name)]);

    public Puzzle AllApart(params string[] names)
    {
        int[] voices = [.. names.Select(IndexOf)];
        for (var i = 0; i < voices.Length; i++)
        {
            for (var j = 0; j < i; j++)
            {
                Apart.Add((voices[j], voices[i]));
            }
        }
        return this;
    }

    public ChannelSolution Solve() => ChannelPuzzle.Solve(Voices, Same, Apart);

    /// <summary>The solution as `bass 2, drums 10`, in the order of input.</summary>
    public string Assignment() => string.Join(", ", Solve().Channels.Select((channel, i) => $"{Voices[i].Name} {channel}"));

    public List<string> NamesOf(IEnumerable<int> voices) => [.. voices.Select(voice => Voices[voice].Name)];

    /// <summary>The names of the smallest conflict, none when the puzzle is solved.</summary>
    public List<string> Conflict() => NamesOf(Solve().Conflict?.Voices ?? []);

    /// <summary>Only these voices, with the pairs among them.</summary>
    public Puzzle Only(IEnumerable<int> voices)
    {
        int[] kept = [.. voices];
        return new Puzzle { Voices = [.. kept.Select(voice => Voices[voice])], Same = Among(Same), Apart = Among(Apart) };

        List<(int, int)> Among(List<(int, int)> pairs) =>
            [.. pairs.Select(pair => (Array.IndexOf(kept, pair.Item1), Array.IndexOf(kept, pair.Item2))).Where(pair => pair is (>= 0, >= 0))];
    }

    public Puzzle With(int voice, ushort allowed)
    {
        var voices = Voices.ToList();
        voices[voice] = voices[voice] with { Allowed = allowed };
        return new Puzzle { Voices = voices, Same = Same, Apart = Apart };
    }

    /// <summary>Does everyone have an allowed channel, shared and apart as the pairs demand?</summary>
    public bool IsMetBy(IReadOnlyList<int> channels) =>
        Voices.Select((voice, i) => (voice.Allowed & ChannelVoice.Only(channels[i])) != 0).All(isAllowed => isAllowed)
        && Same.TrueForAll(pair => channels[pair.Item1] == channels[pair.Item2])
        && Apart.TrueForAll(pair => channels[pair.Item1] != channels[pair.Item2]);

    /// <summary>The lowest assignment in the order of input by plain trial, without any of the cleverness; null when there is none.</summary>
    public int[]? ByTrial()
    {
        var channels = new int[Voices.Count];
        return Try(0) ? channels : null;

        bool Try(int voice)
        {
            if (voice == Voices.Count)
            {
                return true;
            }
            for (channels[voice] = 1; channels[voice] <= 16; channels[voice]++)
            {
                if ((Voices[voice].Allowed & ChannelVoice.Only(channels[voice])) != 0
                    && Same.TrueForAll(pair => IsLater(pair) || channels[pair.Item1] == channels[pair.Item2])
                    && Apart.TrueForAll(pair => IsLater(pair) || channels[pair.Item1] != channels[pair.Item2])
                    && Try(voice + 1))
                {
                    return true;
                }
            }
            return false;

            bool IsLater((int, int) pair) => pair.Item1 > voice || pair.Item2 > voice;
        }
    }

    public override string ToString() =>
        string.Join(" ", Voices.Select((voice, i) => $"{i}:{voice.Name}:{voice.Allowed:x}/{voice.Gear:x}"))
        + $" same {string.Join(" ", Same)} apart {string.Join(" ", Apart)}";

    private int IndexOf(string name) => Voices.FindIndex(voice => voice.Name == name);

    /// <summary>
    /// Crowded little puzzles: everyone has a few of the lowest channels, a pair in three or so is apart, and names are in the
    /// order of input.
    /// </summary>
    public static Gen<Puzzle> Gen(int most, int channels = 4) =>
        from count in CsCheck.Gen.Int[1, most]
        from width in CsCheck.Gen.Int[1, channels]
        from allowed in CsCheck.Gen.Frequency(
            (4, CsCheck.Gen.Int[1, (1 << width) - 1]),
            (8, CsCheck.Gen.Select(CsCheck.Gen.Int[1, (1 << width) - 1], CsCheck.Gen.Int[1, (1 << width) - 1], (a, b) => a | b)),
            (4, CsCheck.Gen.Const((1 << width) - 1)),
            (1, CsCheck.Gen.Int[0, 0xFFFF])).Array[count]
        from gear in CsCheck.Gen.Int[0, (1 << channels) - 1].Array[count]
        from same in Pairs(count, count / 4)
        from apart in Pairs(count, count * (count + 1) / 3)
        select new Puzzle
        {
            Voices = [.. allowed.Select((set, i) => new ChannelVoice($"v{i}", (ushort)set, (ushort)gear[i]))],
            Same = same,
            Apart = apart,
        };

    private static Gen<List<(int, int)>> Pairs(int count, int most) =>
        CsCheck.Gen.Select(CsCheck.Gen.Int[0, count - 1], CsCheck.Gen.Int[0, count - 1], (a, b) => (a, b))
            .Where(pair => count == 1 || pair.a != pair.b)
            .List[0, most];
}
