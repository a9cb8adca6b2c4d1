using RigLang.Connectors;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>
/// What one file declares: its gear and leads. Depends on nothing but the file, so that a file that did not change is read once.
/// A player's file is read as a whole; a file of the library one declaration at a time, when a rig names it.
/// </summary>
public sealed class FileSymbols
{
    private FileSymbols(SourceText source) => Source = source;

    public SourceText Source { get; }

    /// <summary>The whole file as written; of a library file it is made when somebody asks.</summary>
    public SyntaxTree Tree => field ??= RigParser.Parse(Source);

    /// <summary>The statements to look names up in. A library file has none: it declares gear and leads, and imports nothing.</summary>
    public IReadOnlyList<Statement> Statements => Library is null ? Tree.Statements : [];

    /// <summary>All gear of the file, in its order.</summary>
    public List<GearSymbol> Gear => field ??= Library?.AllGear() ?? [];

    /// <summary>All leads of the file, in its order.</summary>
    public List<LeadSymbol> Leads => field ??= Library?.AllLeads() ?? [];

    public List<Fault> Faults { get; } = [];

    private Dictionary<string, GearSymbol> GearByName => field ??= FirstOfEach(Gear, gear => gear.Name);

    private Dictionary<string, LeadSymbol> LeadsByName => field ??= FirstOfEach(Leads, lead => lead.Name);

    /// <summary>The gear of that name that the file declares itself; of two with one name the first.</summary>
    internal GearSymbol? OwnGear(string name) => Gear.Count == 0 ? null : GearByName.GetValueOrDefault(name);

    /// <inheritdoc cref="OwnGear"/>
    internal LeadSymbol? OwnLead(string name) => Leads.Count == 0 ? null : LeadsByName.GetValueOrDefault(name);

    private static Dictionary<string, T> FirstOfEach<T>(List<T> all, Func<T, string> nameOf)
    {
        var table = new Dictionary<string, T>(StringComparer.Ordinal);
        foreach (var symbol in all)
        {
            table.TryAdd(nameOf(symbol), symbol);
        }
        return table;
    }

    /// <summary>What the file declares when it is one of the library; null for a player's file.</summary>
    public LibraryFile? Library { get; private init; }

    /// <summary>A file of the library, whose declarations are read when they are named.</summary>
    public static FileSymbols OfLibrary(SourceText source) => new(source) { Library = new LibraryFile(source) };

    public static FileSymbols Read(SourceText source)
    {
        var symbols = new FileSymbols(source);
        var reading = new Reading(source, symbols.Faults);
        foreach (var fault in symbols.Tree.Faults)
        {
            reading.Note(new BadSyntax(reading.At(fault.Span), fault));
        }
        foreach (var statement in symbols.Statements)
        {
            switch (statement)
            {
                case GearStatement gear:
                    symbols.Gear.Add(GearReader.Read(gear, reading));
                    break;
                case LeadStatement lead:
                    symbols.Leads.Add(LeadReader.Read(lead, reading));
                    break;
            }
        }
        return symbols;
    }
}

/// <summary>What a gear block says.</summary>
internal static class GearReader
{
    public static GearSymbol Read(GearStatement statement, Reading reading)
    {
        var gear = new GearSymbol(statement.Name.Text, reading.At(statement.Name.Span), statement);
        var ports = new List<(PortLine Line, PortSymbol Port)>();
        foreach (var line in statement.Body)
        {
            switch (line)
            {
                case PortLine port:
                    ReadPorts(port, gear, ports, reading);
                    break;
                case BrokenLine:
                    gear.IsIncomplete = true;
                    break;
            }
        }
        // The other lines name ports, which may stand below them: order does not matter.
        foreach (var line in statement.Body)
        {
            ReadLine(line, gear, reading);
        }
        NotePartsThatAreNone(gear, reading);
        foreach (var port in gear.Joins.SelectMany(j => new[] { j.From, j.To }))
        {
            MakePassive(port);
        }
        foreach (var (line, port) in ports)
        {
            PortReader.DemandFigures(line, port, reading);
        }
        return gear;
    }

    private static void ReadPorts(PortLine line, GearSymbol gear, List<(PortLine, PortSymbol)> ports, Reading reading)
    {
        var signal = default(Signal);
        var isFirst = true;
        var before = reading.FaultCount;
        foreach (var name in reading.Expand(line.Names))
        {
            var port = new PortSymbol(gear, name.Text, line.IsOutput, reading.At(name.Span));
            if (!gear.PortsByName.TryAdd(name.Text, port))
            {
                reading.Note(new DuplicateName(port.At, $"port of {gear.Name}", name.Text, gear.PortsByName[name.Text].At));
                continue;
            }
            // A line that declares five jacks is read once, so that its mistakes are told once.
            signal = isFirst ? PortReader.ReadSignal(line, reading) : signal;
            port.Signal = signal;
            PortReader.ReadJacks(line, port, isFirst ? reading : reading.Silent);
            gear.Ports.Add(port);
            if (isFirst && reading.FaultCount == before)
            {
                ports.Add((line, port));
            }
            isFirst = false;
        }
    }

    private static void ReadLine(Statement line, GearSymbol gear, Reading reading)
    {
        switch (line)
        {
            case RouteLine route:
                gear.Routes.AddRange(Pairs(route.From, route.To, gear, reading));
                ReadRouteFigures(route, reading);
                break;
            case SwitchLine choice:
                var switched = Pairs(choice.From, choice.To, gear, reading).ToList();
                gear.Switches.AddRange(switched);
                gear.Routes.AddRange(switched);
                break;
            case MapsLine:
                gear.MapsChannels = true;
                break;
            case JoinLine join:
                gear.Joins.AddRange(Pairs(join.From, join.To, gear, reading));
                break;
            case PartLine part:
                foreach (var name in reading.Expand(part.Names))
                {
                    var symbol = new PartSymbol(name.Text, reading.At(name.Span), Ports(part.Receives, gear, reading),
                        reading.ChannelChoice(part.Channel), Ports(part.SoundsAt, gear, reading));
                    if (!gear.Parts.TryAdd(name.Text, symbol))
                    {
                        reading.Note(new DuplicateName(symbol.At, $"part of {gear.Name}", name.Text, gear.Parts[name.Text].At));
                    }
                }
                break;
            case TrackLine track:
                foreach (var name in reading.Expand(track.Names))
                {
                    var symbol = new TrackSymbol(name.Text, reading.At(name.Span), Ports(track.Sends, gear, reading),
                        reading.ChannelChoice(track.Channel), [.. reading.Expand(track.Plays).Select(n => n.Text)]);
                    if (!gear.Tracks.TryAdd(name.Text, symbol))
                    {
                        reading.Note(new DuplicateName(symbol.At, $"track of {gear.Name}", name.Text, gear.Tracks[name.Text].At));
                    }
                }
                break;
            case ClockLine { Sends: true } clock:
                (clock.IsTransport ? gear.TransportSends : gear.ClockSends).AddRange(Ports(clock.Names, gear, reading));
                break;
            case ClockLine clock:
                (clock.IsTransport ? gear.TransportFollows : gear.ClockFollows).AddRange(Sources(clock.Names, gear, reading));
                break;
            case FiltersLine filters:
                gear.Filters |= reading.Kinds(filters.Kinds);
                break;
            case BatteryLine battery:
                gear.HasBattery = true;
                if (battery.Runs is { } runs)
                {
                    gear.Battery = reading.BatteryOf(runs);
                }
                break;
        }
    }

    /// <summary>A part may be declared below the track that plays it.</summary>
    private static void NotePartsThatAreNone(GearSymbol gear, Reading reading)
    {
        foreach (var line in gear.Statement.Body.OfType<TrackLine>())
        {
            foreach (var name in reading.Expand(line.Plays).Where(n => !gear.Parts.ContainsKey(n.Text) && !gear.IsIncomplete))
            {
                reading.Note(new UnknownName(reading.At(name.Span), $"part of {gear.Name}", name.Text, gear.Parts.Keys));
            }
        }
    }

    private static void ReadRouteFigures(RouteLine route, Reading reading)
    {
        for (var i = 0; i < route.Extras.Count; i++)
        {
            var node = route.Extras[i];
            var dimension = node.IsWord ? node.Value.Text switch { "latency" => Dimension.Time, "gain" => Dimension.Gain, _ => (Dimension?)null } : null;
            if (dimension is not { } wanted || i + 1 == route.Extras.Count)
            {
                reading.Note(new UnknownWord(reading.At(node.Span), reading.Source.Slice(node.Span), "the end of a route", ["latency 3 ms", "gain 6 dB"]));
                continue;
            }
            reading.Quantity(route.Extras[++i], wanted);
        }
    }

    private static IEnumerable<(PortSymbol, PortSymbol)> Pairs(
        IReadOnlyList<NameRange> from, IReadOnlyList<NameRange> to, GearSymbol gear, Reading reading)
    {
        var targets = Ports(to, gear, reading);
        return Ports(from, gear, reading).SelectMany(_ => targets, (f, t) => (f, t));
    }

    private static List<PortSymbol> Ports(IReadOnlyList<NameRange> names, GearSymbol gear, Reading reading)
    {
        var ports = new List<PortSymbol>();
        foreach (var name in reading.Expand(names))
        {
            if (gear.PortsByName.TryGetValue(name.Text, out var port))
            {
                ports.Add(port);
            }
            else if (!gear.IsIncomplete)
            {
                reading.Note(new UnknownName(reading.At(name.Span), $"port of {gear.Name}", name.Text, [.. gear.PortsByName.Keys]));
            }
        }
        return ports;
    }

    private static IEnumerable<ClockSource> Sources(IReadOnlyList<NameRange> names, GearSymbol gear, Reading reading)
    {
        foreach (var name in reading.Expand(names))
        {
            if (name.Text == "internal" && !gear.PortsByName.ContainsKey("internal"))
            {
                yield return new ClockSource("internal", null);
            }
            else if (gear.PortsByName.TryGetValue(name.Text, out var port))
            {
                yield return new ClockSource(name.Text, port);
            }
            else if (!gear.IsIncomplete)
            {
                reading.Note(new UnknownName(reading.At(name.Span), $"port of {gear.Name}", name.Text, ["internal", .. gear.PortsByName.Keys]));
            }
        }
    }

    private static void MakePassive(PortSymbol port)
    {
        if (port.IsPassive || port.Signal is not { } signal)
        {
            return;
        }
        port.IsPassive = true;
        foreach (var jack in port.Jacks)
        {
            jack.Roles = ContactRoles.Of(signal, jack.Form, jack.Side, port.IsOutput, isPassive: true) ?? jack.Roles;
        }
    }
}

/// <summary>What a lead statement says.</summary>
internal static class LeadReader
{
    public static LeadSymbol Read(LeadStatement statement, Reading reading)
    {
        var lead = new LeadSymbol(statement.Name.Text, reading.At(statement.Name.Span), SharedLibrary.IsShared(reading.Source.Path), statement);
        foreach (var end in statement.Near.Concat(statement.Far))
        {
            ReadEnd(end, lead, reading);
        }
        lead.NearCount = statement.Near.Count;
        var hasWires = false;
        foreach (var line in statement.Body)
        {
            switch (line)
            {
                case WireLine wire:
                    hasWires = true;
                    ReadWire(wire, lead, reading);
                    break;
                case LeadProperty { Name.Text: "longest" } longest:
                    lead.Longest = reading.Length(longest.Value);
                    break;
                case LeadProperty { Name.Text: "gauge" } gauge:
                    lead.Gauge = reading.Quantity(gauge.Value, Dimension.WireGauge);
                    break;
                case LeadProperty property:
                    reading.Note(new UnknownWord(reading.At(property.Name.Span), property.Name.Text, "a fact about a lead", ["longest 2 m", "gauge 24 awg"]));
                    break;
                case BrokenLine:
                    lead.IsIncomplete = true;
                    break;
            }
        }
        if (!hasWires && !lead.IsIncomplete)
        {
            WireStraight(statement, lead, reading);
        }
        return lead;
    }

    private static void ReadEnd(LeadEndNode end, LeadSymbol lead, Reading reading)
    {
        if (reading.Connector(end.Words, out var rest) is not { } form)
        {
            lead.IsIncomplete = true;
            return;
        }
        var isSocket = false;
        var name = "";
        foreach (var node in rest)
        {
            if (node is { IsWord: true, Value.Kind: TokenKind.Word, Value.Text: "socket" })
            {
                isSocket = true;
            }
            else if (node.IsWord && name.Length == 0)
            {
                name = node.Value.Text!;
            }
            else
            {
                reading.Note(new UnknownWord(reading.At(node.Span), reading.Source.Slice(node.Span), "the end of a lead", ["socket", "a name such as left"]));
            }
        }
        lead.Ends.Add(new LeadEndSymbol(name, form, isSocket));
    }

    private static void ReadWire(WireLine wire, LeadSymbol lead, Reading reading)
    {
        if (lead.IsIncomplete || Contact(wire.From, lead, isFar: false, reading) is not { } from)
        {
            return;
        }
        foreach (var path in wire.To)
        {
            if (Contact(path, lead, isFar: true, reading) is { } to)
            {
                lead.Wires.Add(new Wire(from.End, from.Contact, to.End, to.Contact));
            }
        }
    }

    /// <summary><c>left.tip</c>, or just <c>tip</c> for the only plug on that side of `to`.</summary>
    private static (int End, int Contact)? Contact(PathNode path, LeadSymbol lead, bool isFar, Reading reading)
    {
        var sideStart = isFar ? lead.NearCount : 0;
        var sideCount = isFar ? lead.FarCount : lead.NearCount;
        var end = path.Parts.Count switch
        {
            1 when sideCount == 1 => sideStart,
            2 => lead.Ends.FindIndex(e => e.Name == path.Parts[0].Text),
            _ => -1,
        };
        if (end < 0)
        {
            reading.Note(new UnknownName(reading.At(path.Span), $"plug of {lead.Name}", path.Parts[0].Text, [.. lead.Ends.Select(e => e.Name).Where(n => n.Length > 0)]));
            return null;
        }
        var contact = path.Parts[^1];
        var index = lead.Ends[end].Form.ContactIndex(contact.Text);
        if (index < 0)
        {
            reading.Note(new UnknownName(reading.At(contact.Span), $"contact of {lead.Ends[end].Form}", contact.Text, lead.Ends[end].Form.Contacts));
            return null;
        }
        return (end, index);
    }

    private static void WireStraight(LeadStatement statement, LeadSymbol lead, Reading reading)
    {
        var (near, far) = (lead.Ends[0], lead.Ends[^1]);
        if (lead.Ends.Count != 2 || !near.Form.Contacts.Any(c => far.Form.ContactIndex(c) >= 0))
        {
            reading.Note(new IncompleteDeclaration(reading.At(statement.Name.Span), $"the lead `{lead.Name}`",
                "which contact goes to which, such as `{ tip to left.tip }`: only a lead with the same contacts at both ends is straight by itself"));
            lead.IsIncomplete = true;
            return;
        }
        for (var i = 0; i < near.Form.Contacts.Count; i++)
        {
            if (far.Form.ContactIndex(near.Form.Contacts[i]) is >= 0 and var to)
            {
                lead.Wires.Add(new Wire(0, i, 1, to));
            }
        }
    }
}
