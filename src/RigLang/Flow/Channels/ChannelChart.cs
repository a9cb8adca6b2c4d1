using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Flow;

/// <summary>A track or part in the chart.</summary>
/// <param name="Partners">For a track the parts that really hear it, by cable or inside its box, for a part the tracks that it hears, as <c>device.name</c>.</param>
public sealed record ChannelUse(string Device, string Name, bool Sends, KnownChannel Channel, IReadOnlyList<string> Partners)
{
    public string Text => $"{Device}.{Name}";
}

/// <summary>Parts that one track plays at once on one channel, though none of them is called layered.</summary>
public sealed record ChannelClash(int Channel, string Track, IReadOnlyList<string> Parts);

/// <summary>Who is on which channel: every track and part of a rig, conflicts, and what is free.</summary>
public sealed class ChannelChart
{
    public const int Last = 16;

    private ChannelChart(List<ChannelUse> uses, List<ChannelClash> conflicts)
    {
        Uses = uses;
        Conflicts = conflicts;
        var taken = uses.Select(u => u.Channel.Number).ToHashSet();
        Free = [.. Enumerable.Range(1, Last).Where(c => !taken.Contains(c))];
    }

    /// <summary>Devices in the order of the rig, each one's tracks before its parts.</summary>
    public IReadOnlyList<ChannelUse> Uses { get; }

    /// <summary>Devices with a track or part, in the order of the rig.</summary>
    public IEnumerable<string> Devices => Uses.Select(u => u.Device).Distinct();

    public IReadOnlyList<ChannelClash> Conflicts { get; }

    /// <summary>Channels that no track and no part is on.</summary>
    public IReadOnlyList<int> Free { get; }

    public IEnumerable<ChannelUse> At(string device, int channel) => Uses.Where(u => u.Device == device && u.Channel.Number == channel);

    public bool IsConflict(ChannelUse use) =>
        !use.Sends && Conflicts.Any(c => c.Channel == use.Channel.Number && c.Parts.Contains(use.Text));

    public static ChannelChart Of(Rig rig)
    {
        var midi = rig.Midi;
        var hears = new List<(MidiAtom Atom, Listener Listener)>();
        foreach (var listener in midi.Listeners)
        {
            hears.AddRange(listener.Nodes.SelectMany(n => midi.Flow.AtomsAt(n, MessageKinds.Notes)).Select(a => a.Atom).Distinct()
                .Where(a => listener.Channel.Hears(a.Channel) == true)
                .Select(a => (a, listener)));
        }
        var pairs = hears.Select(h => (Track: midi.Sources[h.Atom.Source].Text, Part: h.Listener.Text)).Concat(PlayedInside(rig)).ToList();
        var byTrack = pairs.ToLookup(p => p.Track, p => p.Part);
        var byPart = pairs.ToLookup(p => p.Part, p => p.Track);
        var uses = new List<ChannelUse>();
        foreach (var device in rig.Names.Devices.Where(d => d.Gear is not null))
        {
            uses.AddRange(device.Gear!.Tracks.Values.Select(t => Use(t.Name, true, midi.Channels.Of(device, t), byTrack)));
            uses.AddRange(device.Gear.Parts.Values.Select(p => Use(p.Name, false, midi.Channels.Of(device, p), byPart)));

            ChannelUse Use(string name, bool sends, KnownChannel channel, ILookup<string, string> partners) =>
                new(device.Name, name, sends, channel, [.. partners[$"{device.Name}.{name}"].Distinct()]);
        }
        return new ChannelChart(uses, ConflictsIn(midi, hears));
    }

    /// <summary>What a track plays by local control needs no channel, and is in nobody's way on one.</summary>
    private static IEnumerable<(string Track, string Part)> PlayedInside(Rig rig) =>
        from device in rig.Names.Devices
        where device.Gear is not null
        from track in device.Gear!.Tracks.Values
        where !device.LocalOff.Contains(track.Name)
        from part in track.Plays
        select ($"{device.Name}.{track.Name}", $"{device.Name}.{part}");

    private static List<ChannelClash> ConflictsIn(MidiModel midi, List<(MidiAtom Atom, Listener Listener)> hears)
    {
        var conflicts = new List<ChannelClash>();
        foreach (var together in hears.GroupBy(h => h.Atom).OrderBy(g => g.Key.Channel).ThenBy(g => g.Key.Source))
        {
            var source = midi.Sources[together.Key.Source];
            // A part on any channel hears everybody by intention.
            var parts = together.Select(h => h.Listener).Where(l => l.Channel is { Number: not null, IsLayered: false }).Select(l => l.Text).Distinct().ToList();
            if (parts.Count > 1 && source.Track is { } track && !midi.Channels.Of(source.Device, track).IsLayered)
            {
                conflicts.Add(new ChannelClash(together.Key.Channel, source.Text, parts));
            }
        }
        return conflicts;
    }
}
