using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Editing;

/// <summary>A part or a track: its channel, and who plays or hears it.</summary>
internal static class VoiceHover
{
    public static string Of(RigView view, PartSymbol part, DeviceSymbol? device, EditorStyle style)
    {
        var page = new HoverPage(style);
        page.Title($"{page.Name(Path(part.Name, device))}, a part that plays when notes arrive");
        page.Fact("Channel", device is null ? part.Channels.ToString() : Channel(view.Rig.Midi.Channels.Of(device, part)));
        page.Fact("Listens at", page.Names(part.Receives.Select(p => p.Name)));
        page.Fact("Sounds at", part.SoundsAt.Count == 0 ? null : page.Names(part.SoundsAt.Select(p => p.Name)));
        if (device is not null)
        {
            page.Fact("Played by", new Voices(view.Rig).PlayersOf(device, part) is { Count: > 0 } players ? page.Names(players) : "nobody");
        }
        return page.ToString();
    }

    public static string Of(RigView view, TrackSymbol track, DeviceSymbol? device, EditorStyle style)
    {
        var page = new HoverPage(style);
        page.Title($"{page.Name(Path(track.Name, device))}, a track that plays others");
        page.Fact("Channel", device is null ? track.Channels.ToString() : Channel(view.Rig.Midi.Channels.Of(device, track)));
        page.Fact("Sends at", page.Names(track.Sends.Select(p => p.Name)));
        page.Fact("Plays in its own box", track.Plays.Count == 0 ? null
            : page.Names(track.Plays) + (device?.LocalOff.Contains(track.Name) == true ? ", but local control is off" : ""));
        if (device is not null)
        {
            page.Fact("Notes at once", device.NotesAtOnce.TryGetValue(track.Name, out var notes) ? $"up to {notes}" : null);
            page.Fact("Heard by", Heard(page, new Voices(view.Rig).HearersOf(device, track)) is { Length: > 0 } hearers ? hearers : "nobody");
        }
        return page.ToString();
    }

    public static string Of(SoundSymbol sound, DeviceSymbol? device, EditorStyle style)
    {
        var page = new HoverPage(style);
        page.Title($"{page.Name(Path(sound.Name, device))}, what the box plays by itself");
        page.Fact("Comes out at", page.Names(sound.LeavesAt.Select(p => p.Name)));
        page.Fact("Channels", sound.Channels is var (first, last) ? first == last ? $"{first}" : $"{first} to {last}" : null);
        return page.ToString();
    }

    /// <summary>Who hears a track, or where it arrives unheard; nothing when it arrives nowhere.</summary>
    public static string Heard(HoverPage page, (IReadOnlyList<string> Parts, IReadOnlyList<string> Ends) hearers) =>
        hearers.Parts.Count > 0 ? page.Names(hearers.Parts)
            : hearers.Ends.Count > 0 ? $"no part; it arrives at {page.Names(hearers.Ends)}"
            : "";

    /// <summary>"channel 2", "channel 14, chosen for `auto`".</summary>
    public static string Channel(KnownChannel channel) => channel switch
    {
        { IsAuto: true, Number: { } number } => $"channel {number}, chosen for auto",
        { IsAuto: true } => "auto, and no channel can be found for it",
        { IsLayered: true } => $"{channel}, layered",
        { IsFixed: true, IsUnknown: false } => $"always {channel}",
        { IsUnknown: true } => "channel not set",
        _ => channel.ToString(),
    };

    private static string Path(string name, DeviceSymbol? device) => device is null ? name : $"{device.Name}.{name}";
}
