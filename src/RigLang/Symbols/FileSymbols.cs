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
    public SyntaxTree Tree { get => field ??= RigParser.Parse(Source); private init; }

    /// <summary>The statements to look names up in. A library file has none: it declares gear and leads, and imports nothing.</summary>
    public IReadOnlyList<Statement> Statements => Library is null ? Tree.Statements : [];

    /// <summary>All gear of the file, in its order.</summary>
    public GatheredList<GearSymbol> Gear => field ??= Library?.AllGear() ?? [];

    /// <summary>All leads of the file, in its order.</summary>
    public GatheredList<LeadSymbol> Leads => field ??= Library?.AllLeads() ?? [];

    public GatheredList<Fault> Faults { get; } = [];

    private Dictionary<string, GearSymbol> GearByName => field ??= OneOfEach(Gear, gear => gear.Name, gear => gear.Statement);

    private Dictionary<string, LeadSymbol> LeadsByName => field ??= OneOfEach(Leads, lead => lead.Name, lead => lead.Statement);

    /// <summary>The gear of that name that the file declares itself; of two with one name the one whose words come last, wherever they stand.</summary>
    internal GearSymbol? OwnGear(string name) => Gear.Count == 0 ? null : GearByName.GetValueOrDefault(name);

    /// <inheritdoc cref="OwnGear"/>
    internal LeadSymbol? OwnLead(string name) => Leads.Count == 0 ? null : LeadsByName.GetValueOrDefault(name);

    private Dictionary<string, T> OneOfEach<T>(GatheredList<T> all, Func<T, string> nameOf, Func<T, Statement> statementOf)
    {
        var table = new Dictionary<string, T>(StringComparer.Ordinal);
        foreach (var symbol in all)
        {
            if (!table.TryAdd(nameOf(symbol), symbol)
                && string.CompareOrdinal(TextOf(statementOf(symbol)), TextOf(statementOf(table[nameOf(symbol)]))) > 0)
            {
                table[nameOf(symbol)] = symbol;
            }
        }
        return table;

        string TextOf(Statement statement) => Source.Slice(Tree.WholeSpan(statement));
    }

    /// <summary>What the file declares when it is one of the library; null for a player's file.</summary>
    public LibraryFile? Library { get; private init; }

    /// <summary>A file of the library, whose declarations are read when they are named.</summary>
    public static FileSymbols OfLibrary(SourceText source) => new(source) { Library = new LibraryFile(source) };

    public static FileSymbols Of(SyntaxTree tree)
    {
        var symbols = new FileSymbols(tree.Source) { Tree = tree };
        var reading = new Reading(tree.Source, symbols.Faults);
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
        symbols.Gear.Close();
        symbols.Leads.Close();
        symbols.Faults.Close();
        return symbols;
    }
}

/// <summary>What a gear block says.</summary>
internal static class GearReader
{
    /// <summary>Gear that is like another is read when all gear is declared; until then it says nothing.</summary>
    public static GearSymbol Read(GearStatement statement, Reading reading) => statement.Like is null
        ? Read(statement, null, reading)
        : new GearSymbol(statement.Name.Text, reading.At(statement.Name.Span), statement) { IsIncomplete = true };

    /// <param name="like">The gear whose lines it has too, as far as it does not say otherwise; null when it stands by itself.</param>
    public static GearSymbol Read(GearStatement statement, GearSymbol? like, Reading reading)
    {
        var gear = new GearSymbol(statement.Name.Text, reading.At(statement.Name.Span), statement)
        {
            Like = like,
            Lines = GearLine.Of(statement, like, reading),
            IsIncomplete = like is { IsIncomplete: true },
        };
        var ports = new List<(GearLine Line, PortSymbol Port)>();
        foreach (var line in gear.Lines)
        {
            switch (line.Statement)
            {
                case PortLine port:
                    ReadPorts(port, line, gear, ports);
                    break;
                case BusLine bus:
                    MixerLines.ReadBusses(bus, line, gear);
                    break;
                case BrokenLine:
                    gear.IsIncomplete = true;
                    break;
            }
        }
        // The other lines name ports, which may stand below them: order does not matter.
        foreach (var line in gear.Lines)
        {
            ReadLine(line, gear);
        }
        NotePartsThatAreNone(gear);
        foreach (var group in gear.Joins.Groups)
        {
            foreach (var port in group.From.Concat(group.To))
            {
                MakePassive(port);
            }
        }
        foreach (var (line, port) in ports)
        {
            PortReader.DemandFigures((PortLine)line.Statement, port, line.Reading);
        }
        gear.Close();
        return gear;
    }

    private static void ReadPorts(PortLine line, GearLine place, GearSymbol gear, List<(GearLine, PortSymbol)> ports)
    {
        var reading = place.Reading;
        var before = reading.FaultCount;
        line = PortReader.Sorted(line, reading);
        var signal = default(Signal);
        var isFirst = true;
        foreach (var name in place.Names(line.Names, "port"))
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
                ports.Add((place, port));
            }
            isFirst = false;
        }
    }

    private static void ReadLine(GearLine place, GearSymbol gear)
    {
        var reading = place.Reading;
        switch (place.Statement)
        {
            case RouteLine route:
                var routed = new RouteEnds(route.From, route.To, route.InPairs, gear, reading);
                routed.AddTo(gear.Routes);
                ReadRouteFigures(route, routed, gear, reading);
                break;
            case SwitchLine choice:
                var switched = new RouteEnds(choice.From, choice.To, choice.InPairs, gear, reading);
                switched.AddTo(gear.Switches);
                switched.AddTo(gear.Routes);
                break;
            case AssignLine assign:
                var assigned = new RouteEnds(assign.From, assign.To, assign.InPairs, gear, reading);
                assigned.AddTo(gear.Assigns);
                assigned.AddTo(gear.Routes);
                break;
            case SoundLine sound:
                MixerLines.ReadSounds(sound, place, Ports(sound.At, gear, reading), gear);
                break;
            case RecordsLine records:
                MixerLines.ReadRecords(records, Ports(records.Names, gear, reading), gear, reading);
                break;
            case MapsLine:
                gear.MapsChannels = true;
                break;
            case JoinLine join:
                new RouteEnds(join.From, join.To, join.InPairs, gear, reading).AddTo(gear.Joins);
                AskIfAllAreOne(join, reading);
                break;
            case PartLine part:
                // What all names of a line share is read once, and told once.
                var (receives, hears, soundsAt) = (Ports(part.Receives, gear, reading), reading.ChannelChoice(part.Channel), Ports(part.SoundsAt, gear, reading));
                foreach (var name in place.Names(part.Names, "part"))
                {
                    var symbol = new PartSymbol(name.Text, reading.At(name.Span), receives, hears, soundsAt);
                    if (!gear.Parts.TryAdd(name.Text, symbol))
                    {
                        reading.Note(new DuplicateName(symbol.At, $"part of {gear.Name}", name.Text, gear.Parts[name.Text].At));
                    }
                }
                break;
            case TrackLine track:
                var kinds = TrackKinds(track, reading);
                var (sends, channels) = (Ports(track.Sends, gear, reading), reading.ChannelChoice(track.Channel));
                string[] plays = [.. reading.Expand(track.Plays).Select(n => n.Text)];
                foreach (var name in place.Names(track.Names, "track"))
                {
                    var symbol = new TrackSymbol(name.Text, reading.At(name.Span), sends, channels, plays, kinds);
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

    /// <summary>What a track sends: what has a channel, and what a box sends beside its notes, unless it says `only`.</summary>
    private static MessageKinds TrackKinds(TrackLine track, Reading reading)
    {
        if (track.Only.Count == 0)
        {
            return TrackSymbol.AllKinds;
        }
        var kinds = MessageKinds.None;
        foreach (var node in track.Only)
        {
            var kind = reading.Kinds([node]);
            if (kind != MessageKinds.All && (kind & ~TrackSymbol.AllKinds) != MessageKinds.None)
            {
                reading.Note(new UnknownWord(reading.At(node.Span), node.Text, "what a track sends",
                    [.. MessageKindNames.Table.Where(k => k.Value != MessageKinds.All && (k.Value & ~TrackSymbol.AllKinds) == 0).Select(k => k.Key)]));
            }
            kinds |= kind & TrackSymbol.AllKinds;
        }
        return kinds;
    }

    /// <summary>A part may be declared below the track that plays it.</summary>
    private static void NotePartsThatAreNone(GearSymbol gear)
    {
        foreach (var place in gear.Lines)
        {
            foreach (var name in place.Statement is TrackLine { Plays.Count: > 0 } line ? place.Reading.Expand(line.Plays) : [])
            {
                if (!gear.Parts.ContainsKey(name.Text) && !gear.IsIncomplete)
                {
                    place.Reading.Note(new UnknownName(place.Reading.At(name.Span), $"part of {gear.Name}", name.Text, gear.Parts.Keys));
                }
            }
        }
    }

    /// <summary>
    /// One jack to several is a splitter. Several to several, written as two rows, nearly always means that the first goes to the first and
    /// so on, and would join all of them.
    /// </summary>
    private static void AskIfAllAreOne(JoinLine join, Reading reading)
    {
        if (join.InPairs || join.From is not [{ Last: not null } from] || join.To is not [{ Last: not null } to])
        {
            return;
        }
        var (near, far) = (reading.Silent.Expand(join.From), reading.Silent.Expand(join.To));
        if (near.Length < 2 || far.Length < 2)
        {
            return;
        }
        var here = reading.At(from.Span.To(to.Span));
        var all = near.Length + far.Length;
        var one = new Rewrite($"Make one of all {all}", TextSpan.Between(from.Span.Start, to.Span.End),
            $"{near[0]} to {(near.Length > 2 ? $"{near[1]}..{near[^1]}" : near[1].Text)}, {reading.Source.Slice(to.Span)}");
        reading.Note(new WrongForm(here, $"This line would join all {all} jacks to one another.",
            near.Length == far.Length
                ? "Write `in pairs` behind it if the first is to be joined to the first, the second to the second, and so on."
                : $"Write one line for each set of jacks that are one: there are {near.Length} on one side and {far.Length} on the other.",
            near.Length == far.Length ? [new Rewrite("Join them in pairs", new TextSpan(to.Span.End, 0), " in pairs"), one] : [one]));
    }

    private static void ReadRouteFigures(RouteLine route, RouteEnds routed, GearSymbol gear, Reading reading)
    {
        for (var i = 0; i < route.Extras.Count; i++)
        {
            var node = route.Extras[i];
            var word = node.IsWord ? node.Value.Text : null;
            if (word == "channels" && i + 1 < route.Extras.Count)
            {
                node = route.Extras[++i];
                MixerLines.ReadStream(route, node, Ports(route.From, gear, reading.Silent), Ports(route.To, gear, reading.Silent), gear, reading);
                // `channels 1..2 gain -3 dB` reads as a range with the unit word `gain`.
                if (node.Unit is not { } next)
                {
                    continue;
                }
                word = next.Text;
            }
            var dimension = word switch { "latency" => Dimension.Time, "gain" => Dimension.Gain, _ => (Dimension?)null };
            if (dimension is not { } wanted || i + 1 == route.Extras.Count)
            {
                var at = node.IsWord || node.Unit is null ? node.Span : node.Unit.Value.Span;
                reading.Note(new UnknownWord(reading.At(at), reading.Source.Slice(at), "the end of a route", ["latency 3 ms", "gain 6 dB", "channels 1..8"]));
                continue;
            }
            if (reading.Quantity(route.Extras[++i], wanted) is not { } figure)
            {
                continue;
            }
            var routes = new GatheredPairs();
            routed.AddTo(routes);
            if (wanted == Dimension.Time)
            {
                gear.Latencies.Add(routes, new Second(figure.Value));
            }
            else
            {
                gear.Gains.Add(routes, figure.Value);
            }
        }
    }

    /// <summary>The ports on either side of a line: every one of the first to every one of the second, or one by one.</summary>
    private sealed class RouteEnds
    {
        private readonly List<PortSymbol> _from;
        private readonly List<PortSymbol> _to;
        private readonly bool _isInPairs;

        public RouteEnds(IReadOnlyList<NameRange> from, IReadOnlyList<NameRange> to, bool inPairs, GearSymbol gear, Reading reading)
        {
            var before = reading.FaultCount;
            (_from, _to, _isInPairs) = (Ports(from, gear, reading), Ports(to, gear, reading), inPairs);
            if (!inPairs || _from.Count == _to.Count)
            {
                return;
            }
            if (reading.FaultCount == before && !gear.IsIncomplete)
            {
                reading.Note(new UnequalLists(reading.At(from[0].Span.To(to[^1].Span)), "in pairs",
                    reading.TextOf(from), _from.Count, reading.TextOf(to), _to.Count));
            }
            _from.Clear();
        }

        public void AddTo(GatheredPairs pairs)
        {
            if (!_isInPairs)
            {
                pairs.Add(_from, _to);
                return;
            }
            for (var i = 0; i < _from.Count; i++)
            {
                pairs.Add([_from[i]], [_to[i]]);
            }
        }
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
        lead.Close();
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
