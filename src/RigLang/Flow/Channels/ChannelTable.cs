using RigLang.Symbols;

namespace RigLang.Flow;

/// <summary>The channel of a part or track, as far as it is known.</summary>
/// <param name="Number">1 to 16; null when it is any, off, or not said.</param>
public readonly record struct KnownChannel(int? Number, bool IsAny, bool IsOff, bool IsLayered, bool IsFixed, bool IsAuto)
{
    /// <summary>True when nobody said what it is set to.</summary>
    public bool IsUnknown => Number is null && !IsAny && !IsOff;

    /// <summary>Whether a message on a channel is meant: null when that cannot be told.</summary>
    public bool? Hears(int channel) => IsOff ? false : IsAny ? true : Number is { } own && channel > 0 ? own == channel : null;

    public override string ToString() => Number is { } number ? $"channel {number}" : IsAny ? "any channel" : IsOff ? "no channel" : "a channel that is not set";
}

/// <summary>Which channel each part and track is on: as set, as the gear fixes it, or as chosen for `auto`.</summary>
public sealed class ChannelTable
{
    private readonly Dictionary<(DeviceSymbol, string), int> _chosen = [];

    /// <summary>Channels chosen for `on channel auto`.</summary>
    public IReadOnlyDictionary<(DeviceSymbol Device, string Name), int> Chosen => _chosen;

    public void Choose(DeviceSymbol device, string name, int channel) => _chosen[(device, name)] = channel;

    public KnownChannel Of(DeviceSymbol device, PartSymbol part) => Of(device, part.Name, part.Channels);

    public KnownChannel Of(DeviceSymbol device, TrackSymbol track) => Of(device, track.Name, track.Channels);

    private KnownChannel Of(DeviceSymbol device, string name, ChannelChoice choice)
    {
        if (device.Channels.TryGetValue(name, out var set))
        {
            var isAuto = set.Word == "auto";
            return new KnownChannel(
                isAuto && _chosen.TryGetValue((device, name), out var chosen) ? chosen : set.Channel,
                set.Word == "any", set.Word == "off", set.Layered, choice.IsFixed, isAuto);
        }
        return new KnownChannel(choice.IsFixed ? choice.First : null, false, false, false, choice.IsFixed, false);
    }
}
