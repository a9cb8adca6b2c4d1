using RigLang.Flow;

namespace RigLang.Cli.Output;

/// <summary>The shape of <c>rig channels --format json</c>.</summary>
internal sealed record ChannelsDocument(int Version, List<ChannelUseEntry> Uses, List<ChannelConflictEntry> Conflicts, List<int> Free)
{
    public const int CurrentVersion = 1;

    public static ChannelsDocument Of(ChannelChart chart) => new(
        CurrentVersion,
        [.. chart.Uses.Select(u => new ChannelUseEntry(
            u.Device, u.Name, u.Sends ? "sends" : "hears", u.Channel.Number, Setting(u.Channel), u.Channel.IsLayered, chart.IsConflict(u), [.. u.Partners]))],
        [.. chart.Conflicts.Select(c => new ChannelConflictEntry(c.Channel, c.Track, [.. c.Parts]))],
        [.. chart.Free]);

    private static string Setting(KnownChannel channel) =>
        channel.IsAny ? "any" : channel.IsOff ? "off" : channel.IsAuto ? "auto" : channel.IsFixed ? "fixed" : channel.Number is null ? "not set" : "set";
}

/// <param name="Role"><c>sends</c> for a track, <c>hears</c> for a part.</param>
/// <param name="Setting">How it came to its channel: <c>set</c>, <c>fixed</c> by the gear, <c>auto</c>; or <c>any</c>, <c>off</c>, <c>not set</c>.</param>
internal sealed record ChannelUseEntry(
    string Device, string Name, string Role, int? Channel, string Setting, bool Layered, bool Conflict, List<string> Partners);

internal sealed record ChannelConflictEntry(int Channel, string Track, List<string> Parts);
