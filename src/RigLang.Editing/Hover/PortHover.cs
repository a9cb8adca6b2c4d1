using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>A port: what it carries and on which connector, the cable in it and where that leads, and what arrives.</summary>
internal static class PortHover
{
    public static string Of(RigView view, PortSymbol port, DeviceSymbol? device, EditorStyle style)
    {
        var page = new HoverPage(style);
        page.Title($"{page.Name($"{device?.Name ?? port.Gear.Name}.{port.Name}")}, {(port.IsOutput ? "an output" : "an input")}"
            + (device is null ? "" : $" of {page.Name(port.Gear.Name)}"));
        page.Fact("Signal", PortWords.Signal(port));
        page.Fact("Connector", PortWords.Jacks(port));
        if (device is null)
        {
            AddInside(page, port);
            AddContacts(page, port);
            return page.ToString();
        }
        AddCables(page, view.Rig, device, port);
        AddArrivals(page, view.Rig, device, port);
        AddInside(page, port);
        return page.ToString();
    }

    private static void AddCables(HoverPage page, Flow.Rig rig, DeviceSymbol device, PortSymbol port)
    {
        var cables = port.Jacks.Select(j => (Jack: j, Hookup: rig.Wiring.Plugged[device.FirstJack + j.Index])).ToList();
        if (cables.TrueForAll(c => c.Hookup is null))
        {
            page.Fact("Cable", port.Jacks.Count == 0 ? null : "none, it is free");
            return;
        }
        foreach (var group in cables.GroupBy(c => c.Hookup))
        {
            var label = cables.Select(c => c.Hookup).Distinct().Count() == 1 ? "Cable" : $"Cable at {Checks.Wording.And(group.Select(c => c.Jack.Side == Side.Left ? "left" : "right"))}";
            page.Fact(label, group.Key is { } hookup ? CableTo(page, rig, device, port, hookup) : "none, it is free");
        }
    }

    private static string CableTo(HoverPage page, Flow.Rig rig, DeviceSymbol device, PortSymbol port, Hookup hookup)
    {
        var isFrom = hookup.Connection.From.Exists(e => e.Device == device && ReferenceEquals(e.Port, port));
        var others = (isFrom ? hookup.Connection.To : hookup.Connection.From).Select(e => e.Text).Distinct().ToList();
        var cable = new CableView(rig, hookup);
        var what = hookup.Leads.Count == 0 ? "" : string.Join(" + ", hookup.Leads.Select(l => page.Name(l.Name))) + " ";
        var length = cable.Length is { } known ? page.Length(known) + " " : "";
        var label = hookup.Connection.Statement.Label is { Text.Length: > 0 } written ? $", marked {page.Name(written.Text)}" : "";
        var leads = others.Count == 0 ? "that leads nowhere yet" : $"to {page.Names(others)}";
        return $"{what}{length}{leads}{label}{(hookup.IsSound ? "" : "; nothing gets through")}";
    }

    private static void AddArrivals(HoverPage page, Flow.Rig rig, DeviceSymbol device, PortSymbol port)
    {
        foreach (var link in rig.Links.ArrivingAt(new PortRef(device, port)).GroupBy(l => l.Kind))
        {
            switch (link.Key)
            {
                case SignalKind.Audio:
                    page.Fact("Hears", page.Names(link.Select(l => l.From.ToString()).Distinct()));
                    break;
                case SignalKind.Dc or SignalKind.Ac or SignalKind.Mains:
                    page.Fact("Fed by", page.Names(link.Select(l => l.From.ToString()).Distinct()));
                    break;
                case SignalKind.Control:
                    page.Fact("Moved by", page.Names(link.Select(l => l.From.ToString()).Distinct()));
                    break;
            }
        }
        AddSounds(page, rig, new PortRef(device, port), "Sounds");
        page.Fact("Carries what comes from", Origins.Of(rig, device, port) is { Count: > 0 } origins ? page.Names(origins) : null);
        if (port.Signal is not { Kind: SignalKind.Midi or SignalKind.Usb or SignalKind.Pulse or SignalKind.DinSync })
        {
            return;
        }
        var isOut = port.IsOutput && port.Signal.Kind != SignalKind.Usb;
        var (notes, clock, transport) = new Voices(rig).PassingAt(page, isOut ? MidiGraph.Out(device, port) : MidiGraph.In(device, port));
        var verb = isOut ? "leave" : "arrive";
        page.Fact($"Notes that {verb}", Checks.Wording.And(notes));
        page.Fact($"Clock that {verb}s", clock.Count == 0 ? null : $"from {Checks.Wording.And(clock)}");
        page.Fact($"Start and stop that {verb}", transport.Count == 0 ? null : $"from {Checks.Wording.And(transport)}");
        if (notes.Count + clock.Count + transport.Count == 0 && rig.Wiring.IsPlugged(device, port))
        {
            page.Fact("Messages", $"none {verb} that are known of");
        }
        foreach (var filter in device.Filters.Where(f => ReferenceEquals(f.Port, port)))
        {
            page.Fact("Drops", Trade.MessageKindNames.Describe(filter.Drops) + PortWords.Way(filter.Way));
        }
    }

    /// <summary>What sounds at a place, in stereo or not; nothing for a place where nothing does.</summary>
    public static void AddSounds(HoverPage page, Flow.Rig rig, PortRef port, string label)
    {
        if (port.Port.Signal is { Kind: SignalKind.Audio or SignalKind.Insert or SignalKind.Usb } && rig.Audio.Flow.PassingAt(port) is { Count: > 0 } sounds)
        {
            page.Fact(label, Checks.Wording.And(sounds.Select(sound => $"{page.Name(sound.Source.Text)} ({AudioShapes.Word(sound.Shape)})")));
        }
    }

    private static void AddInside(HoverPage page, PortSymbol port)
    {
        var gear = port.Gear;
        page.Fact("Goes on to", Listed(gear.Routes.From(port).Select(to => to.Name)));
        page.Fact("Comes from", Listed(gear.Routes.To(port).Select(from => from.Name)));
        page.Fact("Joined to", Listed(gear.Joins.From(port).Concat(gear.Joins.To(port)).Select(other => other.Name)));
        page.Fact("Parts that listen here", Listed(gear.Parts.Values.Where(p => p.Receives.Contains(port)).Select(p => p.Name)));
        page.Fact("Parts that sound here", Listed(gear.Parts.Values.Where(p => p.SoundsAt.Contains(port)).Select(p => p.Name)));
        page.Fact("Tracks that send here", Listed(gear.Tracks.Values.Where(t => t.Sends.Contains(port)).Select(t => t.Name)));

        string? Listed(IEnumerable<string> names) => names.Distinct().ToList() is { Count: > 0 } some ? page.Names(some) : null;
    }

    private static void AddContacts(HoverPage page, PortSymbol port)
    {
        if (port.Jacks.Count > 0)
        {
            page.Table(["Contact", "Does"], ConnectorHover.Rows(port.Jacks[0]));
        }
    }
}
