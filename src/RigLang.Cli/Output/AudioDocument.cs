using RigLang.Flow;

namespace RigLang.Cli.Output;

/// <summary>The shape of <c>rig audio --format json</c>, described in grammar/audio-output.schema.json: change both or neither.</summary>
internal sealed record AudioDocument(int Version, List<AudioPlaceEntry> Arrivals, List<MixerEntry> Mixers, List<string> Unheard, List<string> Silent)
{
    public const int CurrentVersion = 1;

    public static AudioDocument Of(AudioAnswer answer) => new(
        CurrentVersion,
        [.. answer.Arrivals.Select(arriving => new AudioPlaceEntry(
            arriving.To.Text,
            arriving.To.End == AudioEnd.Recorded,
            arriving.To.End == AudioEnd.Recorded ? arriving.To.FirstTrack : null,
            [.. arriving.Shares.Select(ShareOf)]))],
        [.. answer.Mixers.Select(mixer => new MixerEntry(mixer.Mixer.Name, [.. mixer.Inputs.Select(input => new MixerInputEntry(
            input.Port.Name, input.Kind, input.IsPlugged, [.. input.Feeders], [.. input.Settings]))]))],
        [.. answer.Unheard.Select(source => source.Text)],
        [.. answer.Silent.Select(destination => destination.Text)]);

    private static AudioShareEntry ShareOf(AudioArrival arrival)
    {
        var share = arrival.Share;
        return new(
            share.Source.Text,
            AudioShapes.Word(share.Shape),
            Math.Round(arrival.Decibels, 2),
            [.. share.Channels.Select(channel => new AudioLaneEntry(
                channel + 1, Math.Round(share.Amount(0, channel), 6), Math.Round(share.Amount(1, channel), 6), Math.Round(share.Amount(2, channel), 6)))],
            arrival.Change?.Port.ToString());
    }
}

/// <param name="FirstTrack">Of a recorder; null elsewhere.</param>
internal sealed record AudioPlaceEntry(string Place, bool Recorded, int? FirstTrack, List<AudioShareEntry> Shares);

/// <param name="Decibels">Against the source, by the shortest way and as far as gains are said.</param>
/// <param name="ChangedAt">The port from which on it has this shape; null where it has it from its source.</param>
internal sealed record AudioShareEntry(string Source, string Shape, double Decibels, List<AudioLaneEntry> Channels, string? ChangedAt);

/// <summary>How much of the source's left, right and mono is on a channel, as factors of amplitude; negative where it is inverted.</summary>
internal sealed record AudioLaneEntry(int Channel, double Left, double Right, double Mono);

internal sealed record MixerEntry(string Device, List<MixerInputEntry> Inputs);

internal sealed record MixerInputEntry(string Port, string Kind, bool Plugged, List<string> From, List<string> Settings);
