using RigLang.Flow;

namespace RigLang.Cli.Output;

/// <summary>The shape of <c>rig channels --format json</c>, described in grammar/channels-output.schema.json: change both or neither.</summary>
internal sealed record ChannelsDocument(int Version, List<ChannelUseEntry> Uses, List<ChannelConflictEntry> Conflicts, List<int> Free, double Tempo, List<CableLoadEntry> Cables)
{
    public const int CurrentVersion = 1;

    public static ChannelsDocument Of(ChannelChart chart, MidiTraffic traffic) => new(
        CurrentVersion,
        [.. chart.Uses.Select(u => new ChannelUseEntry(
            u.Device, u.Name, u.Sends ? "sends" : "hears", u.Channel.Number, Setting(u.Channel), u.Channel.IsLayered, chart.IsConflict(u), [.. u.Partners]))],
        [.. chart.Conflicts.Select(c => new ChannelConflictEntry(c.Channel, c.Track, [.. c.Parts]))],
        [.. chart.Free],
        traffic.Tempo.Value,
        [.. traffic.Cables.Select(c => new CableLoadEntry(
            c.Link.From.ToString(), c.Link.To.ToString(), Math.Round(c.Share * 100, 1), [.. c.Tracks.Select(t => t.Text)], c.HasClock, Math.Round(c.ClockWait.Value * 1000, 3)))]);

    private static string Setting(KnownChannel channel) =>
        channel.IsAny ? "any" : channel.IsOff ? "off" : channel.IsAuto ? "auto" : channel.IsFixed ? "fixed" : channel.Number is null ? "not set" : "set";
}

/// <param name="Role"><c>sends</c> for a track, <c>hears</c> for a part.</param>
/// <param name="Setting">How it came to its channel: <c>set</c>, <c>fixed</c> by the gear, <c>auto</c>; or <c>any</c>, <c>off</c>, <c>not set</c>.</param>
internal sealed record ChannelUseEntry(
    string Device, string Name, string Role, int? Channel, string Setting, bool Layered, bool Conflict, List<string> Partners);

internal sealed record ChannelConflictEntry(int Channel, string Track, List<string> Parts);

/// <param name="LoadPercent">Of 31,250 baud, at worst.</param>
/// <param name="ClockWaitMs">How long a clock byte can wait where it leaves for this cable.</param>
internal sealed record CableLoadEntry(string From, string To, double LoadPercent, List<string> Tracks, bool Clock, double ClockWaitMs);
