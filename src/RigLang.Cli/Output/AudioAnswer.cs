using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>Where the sounds of a rig end up, as someone at the desk wants to know it; the page and the JSON are two faces of it.</summary>
/// <param name="Arrivals">By destination.</param>
/// <param name="Unheard">What sounds and arrives nowhere.</param>
/// <param name="Silent">Where nothing arrives.</param>
internal sealed record AudioAnswer(
    IReadOnlyList<AudioArrivals> Arrivals, IReadOnlyList<MixerInputs> Mixers, IReadOnlyList<AudioSource> Unheard, IReadOnlyList<AudioDestination> Silent)
{
    /// <summary>With nothing worked out that is not asked for.</summary>
    /// <param name="isFrom">The sources that are asked for; null for all.</param>
    /// <param name="isTo">The destinations.</param>
    public static AudioAnswer Of(Rig rig, Func<AudioSource, bool>? isFrom = null, Func<AudioDestination, bool>? isTo = null)
    {
        var flow = rig.Audio.Flow;
        var (from, to) = (isFrom ?? (_ => true), isTo ?? (_ => true));
        var arrivals = flow.Destinations.Where(to)
            .Select(destination => new AudioArrivals(destination, [.. flow.To(destination).Where(share => from(share.Source)).Select(share => new AudioArrival(share, flow.LevelOf(share), ChangeOf(flow, share)))]))
            .Where(arriving => arriving.Shares.Count > 0).ToList();
        return new AudioAnswer(
            arrivals,
            isFrom is null && isTo is null ? [.. rig.Audio.Mixers.Select(mixer => MixerInputs.Of(rig, mixer))] : [],
            isTo is null ? [.. flow.Sources.Where(source => from(source) && IsLeftOut(rig, flow, source))] : [],
            isFrom is null ? [.. flow.Destinations.Where(destination => to(destination) && !flow.To(destination).Any() && IsPlugged(rig, destination))] : []);
    }

    /// <summary>What made it other than it was at its source; a loudspeaker that plays one side of a pair needs no reason.</summary>
    private static WayStep? ChangeOf(AudioFlow flow, AudioShare share) => share.Shape switch
    {
        AudioShape.Mono or AudioShape.Stereo => null,
        AudioShape.LeftOnly or AudioShape.RightOnly or AudioShape.MonoLeft or AudioShape.MonoRight when share.To.Channels == 1 => null,
        _ => flow.ShapedAt(share),
    };

    /// <summary>A source with a plug that arrives nowhere; without one, where the device has no other lead for its sound.</summary>
    private static bool IsLeftOut(Rig rig, AudioFlow flow, AudioSource source) => source.Port is { Signal.Kind: SignalKind.Audio }
        && (source.IsPlugged ? !flow.From(source).Any()
            : source.Port.Signal.Level != AudioLevel.Headphone && !flow.Sources.Any(other => ReferenceEquals(other.Device, source.Device) && other.IsPlugged));

    private static bool IsPlugged(Rig rig, AudioDestination destination) => destination.Port.Signal is { Kind: SignalKind.Audio } && rig.Wiring.IsPlugged(destination.Device, destination.Port);
}

/// <summary>All that arrives at one place.</summary>
internal sealed record AudioArrivals(AudioDestination To, IReadOnlyList<AudioArrival> Shares);

/// <param name="Decibels">Against the source, as far as gains are said.</param>
/// <param name="Change">The step that made it what it is; null where it is as its source gave it.</param>
internal sealed record AudioArrival(AudioShare Share, double Decibels, WayStep? Change);

/// <summary>The inputs of a mixer: what is in each, and what is dialled in.</summary>
internal sealed record MixerInputs(DeviceSymbol Mixer, IReadOnlyList<MixerInput> Inputs)
{
    public static MixerInputs Of(Rig rig, DeviceSymbol mixer) => new(mixer,
    [
        .. mixer.Gear!.Ports.Where(port => port is { IsOutput: false, Signal.Kind: SignalKind.Audio or SignalKind.Usb } or { Signal.Kind: SignalKind.Insert })
            .Where(port => port.Signal is not { Kind: SignalKind.Usb } || !rig.Wiring.IsPlugged(mixer, port) || rig.Audio.FeedersOf(new PortRef(mixer, port)).Count > 0)
            .Select(port => new MixerInput(port, rig.Wiring.IsPlugged(mixer, port), [.. rig.Audio.FeedersOf(new PortRef(mixer, port)).Select(Feeder)],
                [.. mixer.Mix.Where(setting => ReferenceEquals(setting.Port, port)).Select(Setting)])),
    ]);

    private static string Feeder((PortRef From, IReadOnlyList<DeviceSymbol> Through) feeder) =>
        feeder.Through.Count == 0 ? feeder.From.ToString() : $"{feeder.From} through {Prose.InOrder(feeder.Through.Select(d => d.Name), ", ")}";

    private static string Setting(MixSetting setting) => setting switch
    {
        MixSetting.Pan pan => "pan " + (pan.To switch { Side.Left => "left", Side.Right => "right", _ => "centre" }),
        MixSetting.Gain gain => $"gain {Trade.Units.Figure(gain.Decibels)} dB",
        MixSetting.Muted => "muted",
        MixSetting.Mono => "mono",
        MixSetting.Send { Decibels: { } decibels } send => $"{send.To.Name} {Trade.Units.Figure(decibels)} dB",
        MixSetting.Send send => $"{send.To.Name} off",
        MixSetting.Assign assign => "to " + string.Join(", ", assign.To.Select(to => to.Name)),
        _ => "",
    };
}

/// <param name="Feeders">What comes in, the nearest first, each with what is between.</param>
internal sealed record MixerInput(PortSymbol Port, bool IsPlugged, IReadOnlyList<string> Feeders, IReadOnlyList<string> Settings)
{
    /// <summary>"microphone", "line", "stereo": what a free input could take.</summary>
    public string Kind => Port.Signal switch
    {
        { Kind: SignalKind.Insert } => "insert",
        { Kind: SignalKind.Usb } => "USB",
        { IsStereo: true } => "stereo",
        { Level: AudioLevel.Mic } => "microphone",
        { Level: AudioLevel.MicOrLine } => "microphone or line",
        { Level: AudioLevel.Instrument } => "instrument",
        _ => "line",
    };
}
