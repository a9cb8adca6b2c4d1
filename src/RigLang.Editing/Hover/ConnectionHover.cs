using RigLang.Connectors;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>A cable: what goes through it, from which contact to which, and what it joins besides.</summary>
internal static class ConnectionHover
{
    public static string Of(RigView view, CableView cable, EditorStyle style)
    {
        var page = new HoverPage(style);
        var rig = view.Rig;
        page.Title($"{Ends(page, cable.Connection.From)} to {Ends(page, cable.Connection.To)}");
        page.Fact("Signal", SignalOf(cable));
        page.Fact("Lead", LeadOf(page, cable.Hookup));
        page.Fact("Plugs", PlugsOf(page, cable));
        page.Fact("Length", LengthOf(page, cable));
        if (!cable.Hookup.IsSound)
        {
            return page.Line(WhyNothing(cable.Hookup)).ToString();
        }
        AddFlow(page, rig, cable);
        page.Fact("Ground link", GroundOf(page, cable));
        var (rows, open) = (RowsOf(cable), OpenContacts(cable));
        page.Table([SideName(page, cable.Connection.From), SideName(page, cable.Connection.To)], rows);
        page.Fact("Not connected", string.Join(", ", open));
        return page.ToString();
    }

    private static string Ends(HoverPage page, IEnumerable<Endpoint> ends) => page.Names(ends.Select(Written).Distinct());

    /// <summary>As in the file: with the side when one jack of a pair is meant.</summary>
    private static string Written(Endpoint end) => end.Jacks.Count == 1 ? new JackRef(end.Device, end.Jacks[0]).ToString() : end.Text;

    private static string? SignalOf(CableView cable)
    {
        if (!cable.Ends.Any() || cable.Source.Port.Signal is not { } signal)
        {
            return null;
        }
        var channels = cable.AudioChannels;
        var carried = PortWords.Carried(signal, cable.Volts);
        var text = signal.Kind == SignalKind.Audio && channels > 0 ? $"{carried}, {Checks.Wording.Count(channels, "channel")} in this cable" : carried;
        var into = cable.Connection.To.Select(e => e.Port).FirstOrDefault(p => !p.IsOutput)?.Signal;
        return signal.Kind == SignalKind.Audio && into is { Kind: SignalKind.Audio } && into.Level != signal.Level
            ? $"{text}, into an input for {into.Describe()}"
            : text;
    }

    private static string? LeadOf(HoverPage page, Hookup hookup) => hookup switch
    {
        { IsLeadMissing: true } => "none named, and no lead in the box fits both ends",
        { Leads.Count: 0, IsSound: true } => "none, the plug on the gear's own cable goes straight in",
        { Leads.Count: 0 } => null,
        _ => string.Join(" + ", hookup.Leads.Select((lead, i) => Copies(hookup, i) + page.Name(lead.Name)))
            + (hookup.IsLeadChosen ? ", the simplest that fits, as none is named" : ""),
    };

    private static string Copies(Hookup hookup, int lead) =>
        hookup.Harness is { } harness && lead < harness.Copies.Count && harness.Copies[lead] > 1 ? $"{harness.Copies[lead]} x " : "";

    private static string? PlugsOf(HoverPage page, CableView cable)
    {
        if (!cable.Hookup.IsSound)
        {
            return null;
        }
        var (near, far) = cable.Plugs;
        return $"{One(near, cable.Connection.From[0])}; {One(far, cable.Connection.To[0])}";

        string One(LeadEndSymbol? plug, Endpoint end)
        {
            var jack = end.Jacks[0];
            var at = page.Name(Written(end));
            return jack.IsCaptive ? $"{jack.Form} plug of {at} itself"
                : plug is null ? $"into the {jack.Form} jack of {at}"
                : plug.Form.Name == jack.Form.Name ? $"{plug.Form} at {at}"
                : $"{plug.Form} at {at}, in a {jack.Form} jack";
        }
    }

    private static string LengthOf(HoverPage page, CableView cable)
    {
        var length = cable.Length is { } known ? page.Length(known)
            : cable.Connection.Leads.Exists(l => l.Length is not null) ? "not said of every lead"
            : "not said";
        return cable.Apart is { Value: > 0 } apart ? $"{length}; the boxes stand {page.Length(apart)} apart" : length;
    }

    private static string WhyNothing(Hookup hookup) => hookup switch
    {
        { Connection.IsIncomplete: true } => "A name in this line is not known, so nothing is concluded from it.",
        { IsLeadMissing: true } => "Nothing gets through: no lead fits.",
        { IsMismatched: true } => "Nothing gets through: the two ends carry different signals.",
        { Harness.Fault: HarnessFault.Misfit or HarnessFault.SameGender } => "Nothing gets through: a plug does not go into its jack.",
        { Harness.Fault: HarnessFault.EndCount } => "Nothing gets through: there are more plugs than jacks, or fewer.",
        _ => "Nothing is concluded from this line: another one wants one of its jacks.",
    };

    private static void AddFlow(HoverPage page, Flow.Rig rig, CableView cable)
    {
        foreach (var arrival in cable.Arrivals)
        {
            var to = rig.Nets.Jack(arrival.Seat);
            page.Fact($"{page.Name(to.ToString())}{Side(arrival.Channel, to)} hears", arrival.IsSilent
                ? "nothing"
                : Checks.Wording.And(arrival.Terms.Select(t => page.Name(rig.Nets.Jack(t.Seat).ToString()) + Side(t.Channel, rig.Nets.Jack(t.Seat)) + Share(t.Amount))));
        }
        foreach (var port in cable.Arrivals.Select(arrival => rig.Nets.Jack(arrival.Seat)).Select(jack => new PortRef(jack.Device, jack.Jack.Port)).Distinct())
        {
            PortHover.AddSounds(page, rig, port, $"Sounds at {page.Name(port.ToString())}");
        }
        var isTold = false;
        foreach (var link in rig.Links.Links.Where(l => ReferenceEquals(l.Hookup, cable.Hookup)))
        {
            switch (link.Kind)
            {
                case SignalKind.Midi:
                    AddMessages(page, rig, MidiGraph.Out(link.From.Device, link.From.Port), "");
                    break;
                case SignalKind.Pulse or SignalKind.DinSync:
                    AddMessages(page, rig, MidiGraph.Out(link.From.Device, link.From.Port), "");
                    break;
                case SignalKind.Usb:
                    page.Fact("Data", $"both ways; {page.Name(link.From.Device.Name)} is the host");
                    AddMessages(page, rig, MidiGraph.Out(link.From.Device, link.From.Port), $" to {page.Name(link.To.Device.Name)}");
                    AddMessages(page, rig, MidiGraph.Out(link.To.Device, link.To.Port), $" to {page.Name(link.From.Device.Name)}");
                    break;
                case SignalKind.Dc or SignalKind.Ac or SignalKind.Mains when link.To.Port.Signal is { IsPower: true }:
                    page.Fact("Power", $"{page.Name(link.From.ToString())} feeds {page.Name(link.To.ToString())}{Takes(link)}");
                    break;
            }
            isTold = true;
        }
        if (!isTold && cable.Arrivals.Count == 0)
        {
            var origins = cable.Ends.SelectMany(e => Origins.Of(rig, e.Device, e.Port)).Distinct().ToList();
            page.Fact("Carries what comes from", origins.Count > 0 ? page.Names(origins) : "nothing that is known");
        }
    }

    private static void AddMessages(HoverPage page, Flow.Rig rig, int node, string to)
    {
        var (notes, clock, transport) = new Voices(rig).PassingAt(page, node);
        page.Fact($"Notes{to}", Checks.Wording.And(notes));
        page.Fact($"Clock{to}", clock.Count == 0 ? null : $"of {Checks.Wording.And(clock)}");
        page.Fact($"Start and stop{to}", transport.Count == 0 ? null : $"of {Checks.Wording.And(transport)}");
    }

    private static string Takes(Link link) => link.To.Port.Signal is { Current: { } takes }
        ? $", which takes {takes}{(link.From.Port.Signal?.Current is { } gives ? $" of {gives}" : "")}"
        : link.To.Port.Signal?.Power is { } power ? $", which takes {power}" : "";

    private static string Side(AudioChannel channel, JackRef jack) => jack.Jack.Port.Jacks.Count > 1 ? "" : channel switch
    {
        AudioChannel.Left => " left",
        AudioChannel.Right => " right",
        _ => "",
    };

    /// <summary>How much of the full level; nothing is said of all of it.</summary>
    private static string Share(double amount) => Math.Abs(Math.Abs(amount) - 1) < 1e-9
        ? amount < 0 ? " (inverted)" : ""
        : $" ({Units.Figure(Math.Round(SignalLevels.Decibels(amount)))} dB{(amount < 0 ? ", inverted" : "")})";

    private static string? GroundOf(HoverPage page, CableView cable)
    {
        if (cable.PinMap.Any(net => net.Joins(Role.Earth)))
        {
            return "yes, the protective earth goes through";
        }
        var joined = cable.PinMap.Any(net => net.Joins(Role.Ground)) ? "the screens are joined"
            : cable.PinMap.Any(net => net.Joins(Role.Minus)) ? "minus is joined to minus"
            : null;
        var isolated = cable.Ends.Where(e => e.Port.Signal is { Isolated: true }).Select(e => e.Text).Distinct().ToList();
        return joined is null
            ? cable.Source.Port.Signal is { Kind: SignalKind.Midi } ? "no, a MIDI input is isolated and leaves the screen open" : "no"
            : isolated.Count == 0 ? $"yes, {joined} metal to metal"
            : $"{joined}, but {page.Names(isolated)} {(isolated.Count == 1 ? "is" : "are")} isolated from the rest of {(isolated.Count == 1 ? "its box" : "their boxes")}";
    }

    private static string SideName(HoverPage page, GatheredList<Endpoint> ends) => ends.Count == 1 ? page.Name(Written(ends[0])) : page.Name(ends[0].Device.Name);

    private static List<IReadOnlyList<string>> RowsOf(CableView cable) =>
        [.. cable.PinMap.Where(n => n.From.Count + n.To.Count > 1).Select(n => (IReadOnlyList<string>)[Contacts(n.From, cable.Connection.From), Contacts(n.To, cable.Connection.To)])];

    private static IEnumerable<string> OpenContacts(CableView cable) =>
        from net in cable.PinMap
        where net.From.Count + net.To.Count == 1
        let only = net.From.Count == 1 ? net.From[0] : net.To[0]
        let role = PortWords.Role(only.Jack.Jack, only.Contact)
        where role is not null
        select $"{only.Name} ({role}) of {only.Jack}";

    private static string Contacts(IReadOnlyList<EndContact> contacts, GatheredList<Endpoint> side) => contacts.Count == 0
        ? "nothing"
        : string.Join(" + ", contacts.Select(c => Jack(c.Jack, side) + c.Name + (PortWords.Role(c.Jack.Jack, c.Contact) is { } role ? $" ({role})" : "")));

    /// <summary>Which jack, where the side has several.</summary>
    private static string Jack(JackRef jack, GatheredList<Endpoint> side)
    {
        var name = jack.ToString();
        return side.Count == 1 && side[0].Jacks.Count == 1 ? "" : name[(name.IndexOf('.', StringComparison.Ordinal) + 1)..] + " ";
    }
}
