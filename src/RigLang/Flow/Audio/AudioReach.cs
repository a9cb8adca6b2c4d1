using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>Where the audio of one place comes to, left and right kept apart.</summary>
internal sealed class AudioReach
{
    private readonly AudioMap _map;
    private readonly AudioSpread _spread;
    private readonly List<(int Lane, int Channel)> _starts;
    private readonly AudioWithout _without;

    private AudioReach(AudioMap map, AudioSpread spread, List<(int Lane, int Channel)> starts, AudioWithout without) =>
        (_map, _spread, _starts, _without) = (map, spread, starts, without);

    /// <param name="spread">An empty one of <see cref="AudioImage.Channels"/> channels, to write on.</param>
    /// <param name="without">What is to be thought away.</param>
    public static AudioReach From(AudioModel audio, AudioSpread spread, Target from, AudioWithout without = default)
    {
        var starts = AudioStarts.Of(audio.Map, from);
        foreach (var (lane, channel) in starts)
        {
            spread.Start(lane, channel);
        }
        spread.Run(without);
        return new AudioReach(audio.Map, spread, starts, without);
    }

    /// <summary>Nothing to start from: the place gives no audio.</summary>
    public bool HasNoStart => _starts.Count == 0;

    /// <summary>What is at a port: what comes in there, or goes out of it.</summary>
    public AudioImage At(PortRef port) => ImageIn(port) is { IsNone: false } comes ? comes : In(_map.Out(port.Device, port.Port));

    /// <summary>What comes in at a port.</summary>
    public AudioImage ImageIn(PortRef port) => In(_map.In(port.Device, port.Port));

    /// <summary>What is on lanes that belong together.</summary>
    public AudioImage In(Lanes lanes) => AudioImage.At(_spread, lanes);

    /// <summary>The shortest way to a port; empty where nothing comes.</summary>
    public IReadOnlyList<WayStep> WayTo(PortRef port)
    {
        var (comes, goes) = (_map.In(port.Device, port.Port), _map.Out(port.Device, port.Port));
        return AudioWays.Shortest(_map, _starts.Select(s => s.Lane), lane => comes.Contains(lane) || goes.Contains(lane), _without,
            lane => _spread.IsReached(lane));
    }
}
