using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>A box on the table: what it is, how it is set, what feeds it, what it hears and who hears it.</summary>
internal static class DeviceHover
{
    public static string Of(RigView view, DeviceSymbol device, EditorStyle style)
    {
        var page = new HoverPage(style);
        var rig = view.Rig;
        page.Title($"{page.Name(device.Name)}: {page.Name(device.Gear?.Name ?? device.Statement.Gear.Text)}");
        Documentation.Add(page, Documentation.Of(rig, device));
        if (device.Gear is not { } gear)
        {
            return page.Line("No gear of this name is known, so nothing is known of its jacks.").ToString();
        }
        Documentation.Add(page, Documentation.Of(rig, gear));
        page.Fact("Stands at", device.Place is { } place ? $"{page.Length(place.X)} from the left, {page.Length(place.Y)} from the front" : null);
        AddChannels(page, rig, device, gear);
        AddSettings(page, rig, device, gear);
        AddPower(page, rig, device, gear);
        AddSound(page, rig, device, gear);
        var free = gear.Ports.Where(p => p.Jacks.Count > 0 && !rig.Wiring.IsPlugged(device, p)).Select(p => p.Name).ToList();
        page.Fact("Free jacks", free.Count == 0 ? null : page.Names(free));
        return page.ToString();
    }

    private static void AddChannels(HoverPage page, Flow.Rig rig, DeviceSymbol device, GearSymbol gear)
    {
        var voices = new Voices(rig);
        foreach (var track in gear.Tracks.Values)
        {
            page.Fact($"Track {page.Name(track.Name)}", VoiceHover.Channel(rig.Midi.Channels.Of(device, track))
                + (VoiceHover.Heard(page, voices.HearersOf(device, track)) is { Length: > 0 } heard ? $", heard by {heard}" : ", nobody hears it"));
        }
        foreach (var part in gear.Parts.Values)
        {
            page.Fact($"Part {page.Name(part.Name)}", VoiceHover.Channel(rig.Midi.Channels.Of(device, part))
                + (voices.PlayersOf(device, part) is { Count: > 0 } players ? $", played by {page.Names(players)}" : ", nobody plays it"));
        }
        page.Fact("Clock", ClockOf(page, rig, device));
        page.Fact("Start and stop", device.Transport is { } transport ? transport.Port is null ? "its own" : $"taken at {page.Name(transport.Name)}" : null);
        page.Fact("Leads", voices.FollowersOf(device) is { Count: > 0 } followers ? page.Names(followers) : null);
    }

    private static string? ClockOf(HoverPage page, Flow.Rig rig, DeviceSymbol device)
    {
        if (device.Clock is not { } clock)
        {
            return device.Gear!.ClockFollows.Count > 0 ? "not set" : null;
        }
        if (clock.Port is null)
        {
            return "its own";
        }
        var leaders = rig.Midi.Clock.Of(device)?.Leaders ?? [];
        return leaders.Count == 0 ? $"taken at {page.Name(clock.Name)}, where none arrives"
            : $"follows {page.Names(leaders.Select(l => l.Name))}, at {page.Name(clock.Name)}";
    }

    private static void AddSettings(HoverPage page, Flow.Rig rig, DeviceSymbol device, GearSymbol gear)
    {
        foreach (var filter in device.Filters)
        {
            page.Fact($"{page.Name(filter.Port.Name)} drops", MessageKindNames.Describe(filter.Drops) + PortWords.Way(filter.Way));
        }
        foreach (var map in device.Maps)
        {
            page.Fact($"{page.Name(map.Port.Name)} maps", $"channel {map.From} to {Checks.Wording.And(map.To.Select(c => $"{c}"))}");
        }
        page.Fact("Phantom power on", device.PhantomOn.Count == 0 ? null : page.Names(gear.Ports.Where(device.PhantomOn.Contains).Select(p => p.Name)));
        page.Fact("Local control off", device.LocalOff.Count == 0 ? null : page.Names(device.LocalOff.Order(StringComparer.Ordinal)));
        page.Fact("Thru off", device.ThruOff.Count == 0 ? null : page.Names(gear.Ports.Where(device.ThruOff.Contains).Select(p => p.Name)));
    }

    private static void AddPower(HoverPage page, Flow.Rig rig, DeviceSymbol device, GearSymbol gear)
    {
        if (device.OnBattery)
        {
            page.Fact("Power", "its battery, tonight");
        }
        foreach (var port in gear.Ports.Where(p => !p.IsOutput && p.Jacks.Count > 0 && p.Signal is { IsPower: true }))
        {
            var isPlugged = rig.Wiring.IsPlugged(device, port);
            if (isPlugged || !device.OnBattery)
            {
                page.Fact("Power", PowerAt(page, rig, device, port, isPlugged));
            }
        }
        page.Fact("Supplies", PowerSums.Describe(rig, device));
    }

    private static string PowerAt(HoverPage page, Flow.Rig rig, DeviceSymbol device, PortSymbol port, bool isPlugged)
    {
        var at = page.Name(port.Name);
        if (!isPlugged)
        {
            return $"nothing is plugged into {at} ({port.Signal!.Describe()})";
        }
        var link = rig.Links.ArrivingAt(new PortRef(device, port)).FirstOrDefault(l => l.Kind is SignalKind.Dc or SignalKind.Ac or SignalKind.Mains);
        if (link is null)
        {
            return Origins.Of(rig, device, port) is { Count: > 0 } origins ? $"passed on from {page.Names(origins)}" : $"no power arrives at {at}";
        }
        var by = link.Hookup.Connection.Jacks.Select(j => j.Device).FirstOrDefault(d => d != device && d != link.From.Device);
        var takes = port.Signal! switch
        {
            { Current: { } current } => $", takes {current}",
            { Power: { } power } => $", takes {power}",
            _ => "",
        };
        var gives = link.From.Port.Signal is { } source ? link.Kind == SignalKind.Mains ? "mains" : source.Volts is { } volts ? $"{volts} {(link.Kind == SignalKind.Ac ? "AC" : "DC")}" : source.Describe() : "power";
        return $"{gives} from {page.Name(link.From.ToString())}{(by is null ? "" : $" by way of {page.Name(by.Name)}")}{takes}";
    }

    private static void AddSound(HoverPage page, Flow.Rig rig, DeviceSymbol device, GearSymbol gear)
    {
        var links = rig.Links;
        var (from, to) = (new List<string>(), new List<string>());
        foreach (var port in gear.Ports.Where(p => p.Signal is { Kind: SignalKind.Audio or SignalKind.Insert }))
        {
            from.AddRange(links.ArrivingAt(new PortRef(device, port)).Where(l => l.Kind == SignalKind.Audio).Select(l => l.From.ToString()));
            foreach (var link in links.From[LinkTable.NumberOf(device, port)])
            {
                if (link.Kind == SignalKind.Audio)
                {
                    to.Add(link.To.ToString());
                }
            }
        }
        page.Fact("Sound comes from", from.Count == 0 ? null : page.Names(from.Distinct(), most: 12));
        page.Fact("Sound goes to", to.Count == 0 ? null : page.Names(to.Distinct(), most: 12));
    }
}
