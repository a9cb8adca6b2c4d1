using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Editing;

/// <summary>A kind of gear: what it is, its jacks, parts and tracks, and which boxes of the rig are of it.</summary>
internal static class GearHover
{
    public static string Of(RigView view, GearSymbol gear, EditorStyle style)
    {
        var page = new HoverPage(style);
        page.Title($"{page.Name(gear.Name)}, a kind of gear");
        Documentation.Add(page, Documentation.Of(view.Rig, gear));
        page.Fact("Like", gear.Like is { } like ? page.Name(like.Name) : null);
        AddPorts(page, "In", gear.Ports.Where(p => !p.IsOutput));
        AddPorts(page, "Out", gear.Ports.Where(p => p.IsOutput));
        page.Fact("Parts", gear.Parts.Count == 0 ? null : string.Join(", ", gear.Parts.Values.Select(p => $"{page.Name(p.Name)} {Choice(p.Channels)}")));
        page.Fact("Tracks", gear.Tracks.Count == 0 ? null : string.Join(", ", gear.Tracks.Values.Select(t => $"{page.Name(t.Name)} {Choice(t.Channels)}")));
        page.Fact("Takes its clock from", gear.ClockFollows.Count == 0 ? null : string.Join(", ", gear.ClockFollows.Select(c => page.Name(c.Name))));
        page.Fact("Sends clock at", gear.ClockSends.Count == 0 ? null : page.Names(gear.ClockSends.Select(p => p.Name)));
        page.Fact("Battery", gear.HasBattery ? "yes" : null);
        var devices = view.Rig.Names.Devices.FindAll(d => ReferenceEquals(d.Gear, gear));
        page.Fact("In this rig", devices.Count == 0 ? "none" : $"{devices.Count} ({page.Names(devices.Select(d => d.Name))})");
        return page.ToString();
    }

    /// <summary>Ports of the same signal and connector in one line.</summary>
    private static void AddPorts(HoverPage page, string direction, IEnumerable<PortSymbol> ports)
    {
        foreach (var alike in ports.GroupBy(p => (PortWords.Signal(p), PortWords.Jacks(p))))
        {
            page.Fact(direction, $"{page.Names(alike.Select(p => p.Name), most: 12)} ({alike.Key.Item1}; {alike.Key.Item2})");
        }
    }

    private static string Choice(ChannelChoice channels) =>
        channels == ChannelChoice.Any ? "(any channel)" : channels.IsFixed ? $"(always {channels})" : $"({channels})";
}
