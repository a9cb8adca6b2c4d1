using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>
/// Something that starts messages: a track with its notes, or the clock section of a device. <see cref="Starts"/> are the output
/// nodes it sends from, with the kinds that leave there.
/// </summary>
/// <param name="Track">Null for a clock section.</param>
/// <param name="Channel">0 when it is not known, or when its messages have none.</param>
public sealed record MidiSource(int Index, DeviceSymbol Device, TrackSymbol? Track, int Channel, IReadOnlyList<(int Node, MessageKinds Kinds)> Starts)
{
    public string Text { get; } = Track is null ? Device.Name : $"{Device.Name}.{Track.Name}";

    public MessageKinds Kinds => Starts.Aggregate(MessageKinds.None, (all, s) => all | s.Kinds);

    /// <summary>Every source of a rig, devices in order, each one's tracks before its clock section.</summary>
    public static List<MidiSource> Of(RigNames names, ChannelTable channels)
    {
        var sources = new List<MidiSource>();
        foreach (var device in names.Devices)
        {
            if (device.Gear is not { } gear)
            {
                continue;
            }
            (TrackSymbol Track, List<(int, MessageKinds)> Starts)? last = null;
            foreach (var track in gear.Tracks.Values)
            {
                var channel = channels.Of(device, track);
                if (!channel.IsOff)
                {
                    // Tracks of one line send at the same ports.
                    var starts = last is { } other && other.Track.Kinds == track.Kinds && other.Track.Sends.SequenceEqual(track.Sends) ? other.Starts
                        : OnNodes(track.Sends.Select(p => (MidiGraph.Out(device, p), MessageKinds.Channel & track.Kinds)));
                    last = (track, starts);
                    sources.Add(new MidiSource(sources.Count, device, track, channel.Number ?? 0, starts));
                }
            }
            if (SectionStarts(device, gear) is { Count: > 0 } section)
            {
                sources.Add(new MidiSource(sources.Count, device, null, 0, OnNodes(section)));
            }
        }
        return sources;

        static List<(int, MessageKinds)> OnNodes(IEnumerable<(int Node, MessageKinds Kinds)> starts) => [.. starts.Where(s => s.Node >= 0)];
    }

    private static List<(int, MessageKinds)> SectionStarts(DeviceSymbol device, GearSymbol gear)
    {
        const MessageKinds Transport = MessageKinds.Transport | MessageKinds.SongPosition;
        const MessageKinds System = MessageKinds.SystemExclusive | MessageKinds.ActiveSensing;
        var starts = new Dictionary<PortSymbol, MessageKinds>();
        Put(gear.ClockSends, MessageKinds.Clock);
        Put(gear.TransportSends.Count > 0 ? gear.TransportSends : gear.ClockSends, Transport);
        foreach (var track in gear.Tracks.Values)
        {
            Put(track.Sends, System & track.Kinds);
        }
        return [.. starts.Select(s => (MidiGraph.Out(device, s.Key), s.Value))];

        void Put(IEnumerable<PortSymbol> ports, MessageKinds kinds)
        {
            foreach (var port in ports)
            {
                if (kinds != MessageKinds.None)
                {
                    starts[port] = starts.GetValueOrDefault(port) | kinds;
                }
            }
        }
    }
}
