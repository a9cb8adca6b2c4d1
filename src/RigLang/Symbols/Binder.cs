using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>
/// Looks up every name of a rig and its imports. An unknown name is noted once, at its place; what depends on it is left
/// open and concludes nothing.
/// </summary>
public sealed class Binder
{
    private readonly RigNames _names;
    private Reading _reading = null!;
    private SyntaxTree _tree = null!;
    private HashSet<string>? _brokenDeclarations;

    private Binder(RigNames names) => _names = names;

    public static RigNames Bind(SourceText root, OpenFile open)
    {
        var (files, faults) = Imports.Follow(root, open);
        var names = new RigNames { Files = files };
        names.Faults.AddRange(faults);
        names.HasBrokenImport = faults.Exists(f => f is BadImport { Trouble: ImportTrouble.NotFound or ImportTrouble.Absolute });
        var binder = new Binder(names);
        foreach (var file in files)
        {
            names.Faults.AddRange(file.Faults);
            binder.DeclareGearAndLeads(file);
        }
        Likeness.Resolve(names, binder.FindLike);
        binder.EachStatement(binder.DeclareDevice);
        binder.EachStatement(binder.BindStatement);
        return names;
    }

    private GearSymbol? FindLike(FileSymbols file, Name name)
    {
        _reading = new Reading(file.Source, _names.Faults);
        if (_names.FindGear(name.Text) is { } gear)
        {
            return gear;
        }
        NoteUnknown(name, "gear", _names.GearNames);
        return null;
    }

    private void EachStatement(Action<Statement> action)
    {
        foreach (var file in _names.Files.Where(f => f.Library is null))
        {
            _tree = file.Tree;
            _reading = new Reading(file.Source, _names.Faults);
            foreach (var statement in file.Statements)
            {
                action(statement);
            }
        }
    }

    private void DeclareGearAndLeads(FileSymbols file)
    {
        if (file.Library is { } library)
        {
            DeclareLibrary(library);
            return;
        }
        foreach (var gear in file.Gear)
        {
            Declare(_names.Gear, gear.Name, gear, "gear", gear.At, GearAt(gear.Name));
        }
        foreach (var lead in file.Leads)
        {
            Declare(_names.Leads, lead.Name, lead, "lead", lead.At, LeadAt(lead.Name));
        }
    }

    /// <summary>Its gear and leads are looked up when they are named; here only those count whose names are taken.</summary>
    private void DeclareLibrary(LibraryFile library)
    {
        foreach (var name in library.GearNames)
        {
            NoteIfTaken("gear", name, library.GearAt(name)!.Value, GearAt(name));
        }
        foreach (var name in library.LeadNames)
        {
            NoteIfTaken("lead", name, library.LeadAt(name)!.Value, LeadAt(name));
        }
        _names.Library.Add(library);
    }

    /// <summary>Where the first gear of that name is declared so far.</summary>
    private Location? GearAt(string name)
    {
        var at = _names.Gear.GetValueOrDefault(name)?.At;
        for (var i = 0; at is null && i < _names.Library.Count; i++)
        {
            at = _names.Library[i].GearAt(name);
        }
        return at;
    }

    /// <summary>Where the first lead of that name is declared so far.</summary>
    private Location? LeadAt(string name)
    {
        var at = _names.Leads.GetValueOrDefault(name)?.At;
        for (var i = 0; at is null && i < _names.Library.Count; i++)
        {
            at = _names.Library[i].LeadAt(name);
        }
        return at;
    }

    private bool NoteIfTaken(string kind, string name, Location at, Location? first)
    {
        if (first is { } taken)
        {
            _names.Faults.Add(new DuplicateName(at, kind, name, taken));
        }
        return first is not null;
    }

    private bool Declare<T>(Dictionary<string, T> table, string name, T symbol, string kind, Location at, Location? first)
    {
        if (NoteIfTaken(kind, name, at, first))
        {
            return false;
        }
        table.Add(name, symbol);
        return true;
    }

    private void DeclareDevice(Statement statement)
    {
        if (statement is not DeviceStatement device)
        {
            return;
        }
        var gear = _names.FindGear(device.Gear.Text);
        if (gear is null)
        {
            NoteUnknown(device.Gear, "gear", _names.GearNames);
        }
        foreach (var name in _reading.Expand(device.Names))
        {
            DeclareDevice(device, name, gear);
        }
    }

    private void DeclareDevice(DeviceStatement device, Name name, GearSymbol? gear)
    {
        var symbol = new DeviceSymbol(name.Text, _reading.At(name.Span), device) { Index = _names.Devices.Count };
        if (!Declare(_names.DevicesByName, symbol.Name, symbol, "device", symbol.At, _names.DevicesByName.GetValueOrDefault(symbol.Name)?.At))
        {
            return;
        }
        _names.Devices.Add(symbol);
        symbol.FirstJack = _names.JackCount;
        symbol.FirstContact = _names.ContactCount;
        if (gear is not null)
        {
            symbol.Gear = gear;
            _names.JackCount += gear.JackCount;
            _names.ContactCount += gear.ContactCount;
        }
    }

    private void BindStatement(Statement statement)
    {
        switch (statement)
        {
            case RigStatement rig:
                BindRig(rig);
                break;
            case DeviceStatement device:
                BindDevices(device);
                break;
            case ConnectStatement connect:
                BindConnection(connect);
                break;
            case StockStatement stock:
                BindStock(stock);
                break;
            case ExpectStatement expect:
                BindExpectation(expect);
                break;
            case AcceptStatement accept:
                AcceptReader.Read(accept, _names, _reading, Device);
                break;
            case BrokenLine broken:
                NoteNamesOf(broken);
                break;
        }
    }

    private void BindRig(RigStatement rig)
    {
        if (rig.Title is { } title)
        {
            _names.Title ??= title.Text;
        }
        foreach (var line in rig.Body.OfType<RigSetting>())
        {
            Dimension[]? wanted = line.Name.Text switch
            {
                "tempo" => [Dimension.Tempo],
                "mains" => [Dimension.Voltage, Dimension.Frequency, Dimension.Current],
                "set" => [Dimension.Time],
                _ => null,
            };
            if (wanted is null)
            {
                _reading.Note(new UnknownWord(_reading.At(line.Name.Span), line.Name.Text, "a rig block", ["tempo", "mains", "set"]));
                continue;
            }
            if (line.Values.Count == 0)
            {
                _reading.Note(new IncompleteDeclaration(_reading.At(line.Span), $"`{line.Name}`", "its figure, such as tempo 112 bpm, mains 230 V 50 Hz or set 75 min"));
            }
            foreach (var value in line.Values)
            {
                if (_reading.Quantity(new AttributeNode(value.Number, null, value.Unit), wanted) is { } quantity)
                {
                    SetRig(quantity.Dimension, quantity.Value);
                }
            }
        }
    }

    private void SetRig(Dimension dimension, double value)
    {
        switch (dimension)
        {
            case Dimension.Tempo:
                _names.Tempo = new Bpm(value);
                break;
            case Dimension.Voltage:
                _names.MainsVolts = new VoltRange(new Volt(value), new Volt(value));
                break;
            case Dimension.Frequency:
                _names.MainsHertz = value;
                break;
            case Dimension.Current:
                _names.MainsCurrent = new Ampere(value);
                break;
            case Dimension.Time:
                _names.SetLength = new Second(value);
                break;
        }
    }

    /// <summary>What the block says holds for each of the devices; what is wrong with it is told once.</summary>
    private void BindDevices(DeviceStatement statement)
    {
        if (!statement.IsSeveral)
        {
            BindIfFirst(statement.Name);
            return;
        }
        var reading = _reading;
        if (statement.At.Count > 0)
        {
            var place = TextSpan.Between(statement.Gear.Span.End, statement.Span.End);
            reading.Note(new WrongForm(reading.At(statement.At[0].Span.To(statement.At[^1].Span)),
                $"{reading.TextOf(statement.Names)} cannot all stand at one place.",
                $"Leave the place out here, or give each box that has one a line of its own: `device {statement.Name} : {statement.Gear} at (…)`.",
                [new Rewrite("Leave the place out", place, "")]));
        }
        foreach (var name in reading.Silent.Expand(statement.Names))
        {
            BindIfFirst(name);
            _reading = reading.Silent;
        }
        _reading = reading;

        void BindIfFirst(Name name)
        {
            if (_names.DevicesByName.TryGetValue(name.Text, out var device) && ReferenceEquals(device.Statement, statement))
            {
                BindDevice(statement, device);
            }
        }
    }

    private void BindDevice(DeviceStatement statement, DeviceSymbol device)
    {
        if (!statement.IsSeveral && statement.At.Count == 2 && _reading.Coordinate(statement.At[0]) is { } x && _reading.Coordinate(statement.At[1]) is { } y)
        {
            device.Place = (x, y);
        }
        foreach (var line in statement.Body)
        {
            if (device.Gear is { } gear)
            {
                BindSetting(line, device, gear);
            }
        }
    }

    private void BindSetting(Statement line, DeviceSymbol device, GearSymbol gear)
    {
        switch (line)
        {
            case ChannelSetting setting:
                BindChannels(setting, device, gear);
                break;
            case UnclearSetting unclear:
                UnclearSettings.Read(unclear, device, gear, _reading);
                break;
            case ClockSetting clock:
                BindClock(clock, device, gear);
                break;
            case FilterSetting filter:
                BindFilter(filter, device, gear);
                break;
            case SwitchSetting { Switch.Text: "phantom", State.Text: "on" or "off" } phantom:
                foreach (var port in SettingPorts(phantom.Ports, gear))
                {
                    if (port.Signal is { Phantom: false })
                    {
                        _reading.Note(new MissingAbility(_reading.At(phantom.Span), "phantom power", gear.Name, $"`{port.Name}` is not declared with `phantom`"));
                    }
                    else if (phantom.State.Text == "on")
                    {
                        device.PhantomOn.Add(port);
                    }
                }
                break;
            case SwitchSetting { Switch.Text: "thru", State.Text: "on" or "off" } thru:
                foreach (var port in SettingPorts(thru.Ports, gear))
                {
                    if (!gear.Routes.Exists(r => ReferenceEquals(r.To, port)))
                    {
                        _reading.Note(new MissingAbility(_reading.At(thru.Span), $"a thru at `{port.Name}`", gear.Name, "nothing is routed to it"));
                    }
                    else if (thru.State.Text == "off")
                    {
                        device.ThruOff.Add(port);
                    }
                }
                break;
            case SwitchSetting { Switch.Text: "local", State.Text: "on" or "off" } local:
                BindLocal(local, device, gear);
                break;
            case MapSetting map:
                BindMap(map, device, gear);
                break;
            case NotesSetting notes:
                if (_reading.Whole(notes.Count, "a number of notes at once", 1, 128) is { } atOnce)
                {
                    foreach (var name in TracksOf(notes.Names, gear))
                    {
                        device.NotesAtOnce[name.Text] = atOnce;
                    }
                }
                break;
            case SwitchSetting other:
                _reading.Note(new UnknownWord(_reading.At(other.Switch.Span.To(other.State.Span)), $"{other.Switch} {other.State}", "a setting of a device",
                    ["on channel 2", "drops clock", "passes only notes", "maps channel 1 to 2", "up to 8 notes at once", "phantom on", "thru off", "local off"]));
                break;
            case BatterySetting when gear.HasBattery:
                device.OnBattery = true;
                break;
            case BatterySetting battery when !gear.IsIncomplete:
                _reading.Note(new MissingAbility(_reading.At(battery.Span), "a battery", gear.Name, "it has no `battery` line"));
                break;
        }
    }

    private void BindLocal(SwitchSetting local, DeviceSymbol device, GearSymbol gear)
    {
        foreach (var name in TracksOf(local.Ports, gear))
        {
            if (gear.Tracks[name.Text].Plays.Count == 0)
            {
                _reading.Note(new MissingAbility(_reading.At(local.Span), "local control", gear.Name, $"`{name}` plays none of its parts"));
            }
            else if (local.State.Text == "off")
            {
                device.LocalOff.Add(name.Text);
            }
        }
    }

    private void BindMap(MapSetting map, DeviceSymbol device, GearSymbol gear)
    {
        var moves = ChannelLists.Maps(map, _reading);
        foreach (var port in SettingPorts(map.Ports, gear))
        {
            if (!gear.MapsChannels)
            {
                _reading.Note(new MissingAbility(_reading.At(map.Span), "a channel map", gear.Name, "it has no `maps channels` line"));
            }
            else if (GoesThatWay(port, map.Way, map.Span))
            {
                foreach (var (from, to) in moves)
                {
                    device.Maps.Add(new ChannelMap(port, from, to, map.Way, _reading.At(map.Span)));
                }
            }
        }
    }

    /// <summary>Only USB goes both ways; at any other jack one way is the only one, and the other is a slip.</summary>
    private bool GoesThatWay(PortSymbol port, PortWay way, TextSpan line)
    {
        if (way == PortWay.Both || port.Signal is null or { Kind: SignalKind.Usb } || way == (port.IsOutput ? PortWay.GoingOut : PortWay.ComingIn))
        {
            return true;
        }
        var (written, right) = way == PortWay.ComingIn ? ("coming in", "going out") : ("going out", "coming in");
        var text = _reading.Source.Slice(line);
        var at = line.Start + text.LastIndexOf(written.Split(' ')[0], StringComparison.Ordinal);
        _reading.Note(new WrongForm(_reading.At(TextSpan.Between(at, line.End)),
            $"Nothing is {written} at `{port.Name}`: it is {(port.IsOutput ? "an output" : "an input")}.",
            $"Leave `{written}` out: only USB goes both ways.", [new Rewrite($"Leave {written} out", TextSpan.Between(at - 1, line.End), "")]));
        return false;
    }

    private IEnumerable<Name> TracksOf(IReadOnlyList<NameRange> names, GearSymbol gear)
    {
        foreach (var name in _reading.Expand(names))
        {
            if (gear.Tracks.ContainsKey(name.Text))
            {
                yield return name;
            }
            else if (!gear.IsIncomplete)
            {
                _reading.Note(new UnknownName(_reading.At(name.Span), $"track of {gear.Name}", name.Text, gear.Tracks.Keys));
            }
        }
    }

    /// <summary>One channel or word for all names, or a range of channels, one by one.</summary>
    private void BindChannels(ChannelSetting setting, DeviceSymbol device, GearSymbol gear)
    {
        var names = _reading.Expand(setting.Names);
        var node = setting.Channel;
        if (node.Value.Kind == TokenKind.Word)
        {
            if (node.Value.Text is "any" or "auto" or "off")
            {
                Array.ForEach(names, name => BindChannel(name, null, setting, device, gear));
            }
            else
            {
                _reading.Note(new UnknownWord(_reading.At(node.Span), node.Value.Text!, "a channel", ["1 to 16", "any", "auto", "off"]));
            }
        }
        else if (node.UpTo is null)
        {
            if (_reading.Whole(node.Value, "a MIDI channel", 1, 16) is { } channel)
            {
                Array.ForEach(names, name => BindChannel(name, channel, setting, device, gear));
            }
        }
        else if (ChannelLists.OneByOne(setting, names.Length, _reading) is { } channels)
        {
            for (var i = 0; i < names.Length; i++)
            {
                BindChannel(names[i], channels[i], setting, device, gear);
            }
        }
    }

    private void BindChannel(Name name, int? number, ChannelSetting setting, DeviceSymbol device, GearSymbol gear)
    {
        var choice = gear.Parts.TryGetValue(name.Text, out var part) ? part.Channels
            : gear.Tracks.TryGetValue(name.Text, out var track) ? track.Channels
            : default;
        if (choice == default)
        {
            if (!gear.IsIncomplete)
            {
                _reading.Note(new UnknownName(_reading.At(name.Span), $"part or track of {gear.Name}", name.Text, [.. gear.Parts.Keys, .. gear.Tracks.Keys]));
            }
            return;
        }
        var at = _reading.At(setting.Span);
        if (number is not { } channel)
        {
            device.Channels[name.Text] = new ChannelAssignment(null, setting.Channel.Value.Text!, setting.Layered, at);
        }
        else if (choice.Allows(channel))
        {
            device.Channels[name.Text] = new ChannelAssignment(channel, "", setting.Layered, at);
        }
        else
        {
            _reading.Note(new MissingAbility(_reading.At(setting.Channel.Span), $"channel {channel}", gear.Name, $"`{name}` is on {choice}"));
        }
    }

    private void BindClock(ClockSetting setting, DeviceSymbol device, GearSymbol gear)
    {
        var can = setting.IsTransport && gear.TransportFollows.Count > 0 ? gear.TransportFollows : gear.ClockFollows;
        var at = can.FindIndex(s => s.Name == setting.Source.Text);
        if (at < 0)
        {
            if (!gear.IsIncomplete)
            {
                var words = string.Join(", ", can.Select(s => s.Name));
                _reading.Note(new MissingAbility(_reading.At(setting.Source.Span), $"clock from `{setting.Source}`", gear.Name,
                    words.Length == 0 ? "it follows no clock at all" : $"it can follow {words}"));
            }
            return;
        }
        if (setting.IsTransport)
        {
            device.Transport = can[at];
        }
        else
        {
            device.Clock = can[at];
        }
    }

    private void BindFilter(FilterSetting setting, DeviceSymbol device, GearSymbol gear)
    {
        var kinds = _reading.Kinds(setting.Kinds);
        var drops = setting.PassesOnly ? MessageKinds.All & ~kinds : kinds;
        foreach (var port in SettingPorts(setting.Ports, gear))
        {
            if (setting.PassesOnly ? gear.Filters == MessageKinds.None : (kinds & ~gear.Filters) != MessageKinds.None)
            {
                var can = gear.Filters == MessageKinds.None ? "it filters nothing" : "it filters " + MessageKindNames.Describe(gear.Filters);
                _reading.Note(new MissingAbility(_reading.At(setting.Span), "a filter for " + string.Join(", ", setting.Kinds.Select(k => k.Text)), gear.Name, can));
                continue;
            }
            if (GoesThatWay(port, setting.Way, setting.Span))
            {
                device.Filters.Add(new PortFilter(port, drops, setting.Way, _reading.At(setting.Span)));
            }
        }
    }

    private IEnumerable<PortSymbol> SettingPorts(IReadOnlyList<NameRange> names, GearSymbol gear)
    {
        foreach (var name in _reading.Expand(names))
        {
            if (gear.PortsByName.TryGetValue(name.Text, out var port))
            {
                yield return port;
            }
            else if (!gear.IsIncomplete)
            {
                _reading.Note(new UnknownName(_reading.At(name.Span), $"port of {gear.Name}", name.Text, gear.PortsByName.Keys));
            }
        }
    }

    private void BindConnection(ConnectStatement statement)
    {
        var connection = new ConnectionSymbol(statement, _reading.At(statement.Span));
        BindEnds(statement.From, connection.From, connection, fromOutput: true);
        BindEnds(statement.To, connection.To, connection, fromOutput: false);
        foreach (var use in statement.Leads)
        {
            LeadSymbol? lead = null;
            if (use.Lead is { } name && (lead = _names.FindLead(name.Text)) is null)
            {
                NoteUnknown(name, "lead", _names.LeadNames);
                connection.IsIncomplete = true;
            }
            connection.IsIncomplete |= lead is { IsIncomplete: true };
            connection.Leads.Add(new LeadUse(lead, _reading.Length(use.Length), _reading.At(use.Span)));
        }
        NoteColours(statement.Colours);
        _names.Connections.Add(connection);
    }

    private void BindEnds(IReadOnlyList<PathNode> paths, List<Endpoint> ends, ConnectionSymbol connection, bool fromOutput)
    {
        foreach (var path in paths)
        {
            if (Device(path.Parts[0]) is not { Gear: { } gear } device)
            {
                connection.IsIncomplete = true;
                NameAsMentioned(path);
                continue;
            }
            if (path.Parts.Count == 1)
            {
                _reading.Note(new IncompleteDeclaration(_reading.At(path.Span), $"`{device.Name}`", $"which jack, such as {device.Name}.{(gear.Ports.Find(p => p.IsOutput == fromOutput) ?? gear.Ports.FirstOrDefault())?.Name ?? "line"}"));
                connection.IsIncomplete = true;
                NameAsMentioned(path);
                continue;
            }
            var last = path.Parts[^1];
            var names = path.Last is { } upTo ? _reading.ExpandRange(last, upTo) : [path.Parts[1]];
            foreach (var name in names)
            {
                if (Port(name, gear) is not { Jacks.Count: > 0 } port || Jacks(path, port) is not { } jacks)
                {
                    connection.IsIncomplete = true;
                    NameAsMentioned(path);
                    continue;
                }
                ends.Add(new Endpoint(device, port, jacks, _reading.At(path.Span)));
            }
        }
    }

    private IReadOnlyList<JackSymbol>? Jacks(PathNode path, PortSymbol port)
    {
        if (path.Parts.Count == 2)
        {
            return port.Jacks;
        }
        var side = path.Parts[2].Text switch { "left" => Side.Left, "right" => Side.Right, _ => Side.Only };
        if (path.Parts.Count == 3 && port.Jacks.Find(j => j.Side == side && side != Side.Only) is { } jack)
        {
            return [jack];
        }
        _reading.Note(new UnknownName(_reading.At(path.Parts[2].Span), $"jack of {port.Gear.Name}.{port.Name}", path.Parts[2].Text,
            port.Jacks.Count == 2 ? ["left", "right"] : []));
        return null;
    }

    private void BindStock(StockStatement stock)
    {
        foreach (var line in stock.Body.OfType<StockLine>())
        {
            var count = _reading.Whole(line.Count, "a number of leads", 0, 10_000);
            var length = _reading.Length(line.Length);
            NoteColours(line.Colours);
            if (_names.FindLead(line.Lead.Text) is not { } lead)
            {
                NoteUnknown(line.Lead, "lead", _names.LeadNames);
            }
            else if (count is { } c)
            {
                _names.Stock.Add(new StockSymbol(lead, c, length, _reading.At(line.Span)));
            }
        }
    }

    private void BindExpectation(ExpectStatement statement)
    {
        var signal = ExpectedSignal.Messages;
        var messages = MessageKinds.None;
        var isClear = true;
        foreach (var what in statement.What)
        {
            switch (what.Text)
            {
                case "audio":
                    signal = ExpectedSignal.Audio;
                    break;
                case "power":
                    signal = ExpectedSignal.Power;
                    break;
                default:
                    var before = _names.Faults.Count;
                    messages |= _reading.Kinds([what]);
                    isClear &= _names.Faults.Count == before;
                    break;
            }
        }
        var from = Target(statement.From);
        var to = statement.To.Select(Target).ToList();
        bool? stereo = null;
        int? channel = null;
        Second? within = null;
        foreach (var qualifier in statement.Qualifiers)
        {
            switch (qualifier.Kind)
            {
                case Keyword.In when qualifier.Word is { Text: "stereo" or "mono" } word:
                    stereo = word.Text == "stereo";
                    break;
                case Keyword.In:
                    _reading.Note(new UnknownWord(_reading.At(qualifier.Span), qualifier.Word!.Value.Text, "an expectation", ["in stereo", "in mono"]));
                    isClear = false;
                    break;
                case Keyword.Channel:
                    channel = ChannelLists.One(qualifier.Channel!, "of them", _reading);
                    isClear &= channel is not null;
                    break;
                case Keyword.Within when !statement.Must || signal != ExpectedSignal.Messages:
                    _reading.Note(new MissingAbility(_reading.At(qualifier.Span), "a time limit", statement.Must ? $"a line about {statement.What[0].Text}" : "a `never` line",
                        "only MIDI messages that must arrive have one; write the line without it"));
                    isClear = false;
                    break;
                case Keyword.Within:
                    within = _reading.Quantity(qualifier.Limit!, Dimension.Time) is { } seconds ? new Second(seconds) : null;
                    isClear &= within is not null;
                    break;
            }
        }
        if (isClear && from is not null && to.TrueForAll(t => t is not null))
        {
            _names.Expectations.Add(new ExpectationSymbol(statement.Must, signal, messages,
                string.Join(", ", statement.What.Select(w => w.Text)), from, to!, stereo, channel, within, statement, _reading.At(statement.Span)));
        }
    }

    private Target? Target(PathNode path)
    {
        if (Device(path.Parts[0]) is not { Gear: { } gear } device)
        {
            return null;
        }
        var at = _reading.At(path.Span);
        if (path.Parts.Count == 1)
        {
            return new Target(device, null, null, null, at);
        }
        var name = path.Parts[1].Text;
        var track = gear.Tracks.GetValueOrDefault(name);
        var part = gear.Parts.GetValueOrDefault(name);
        var port = gear.PortsByName.GetValueOrDefault(name);
        if (track is null && part is null && port is null)
        {
            if (!gear.IsIncomplete)
            {
                _reading.Note(new UnknownName(_reading.At(path.Parts[1].Span), $"port, part or track of {gear.Name}", name,
                    [.. gear.PortsByName.Keys, .. gear.Parts.Keys, .. gear.Tracks.Keys]));
            }
            return null;
        }
        return new Target(device, port, part, track, at);
    }

    private DeviceSymbol? Device(Name name)
    {
        if (_names.DevicesByName.TryGetValue(name.Text, out var device))
        {
            return device;
        }
        NoteUnknown(name, "device", _names.DevicesByName.Keys);
        return null;
    }

    private PortSymbol? Port(Name name, GearSymbol gear)
    {
        if (gear.PortsByName.TryGetValue(name.Text, out var port))
        {
            return port;
        }
        if (!gear.IsIncomplete)
        {
            _reading.Note(new UnknownName(_reading.At(name.Span), $"port of {gear.Name}", name.Text, gear.PortsByName.Keys));
        }
        return null;
    }

    private void NoteUnknown(Name name, string kind, IReadOnlyCollection<string> known)
    {
        // What a broken import would have declared, or a broken line, is not told a second time.
        if (!_names.HasBrokenImport && !IsDeclaredInBrokenLine(name.Text))
        {
            _reading.Note(new UnknownName(_reading.At(name.Span), kind, name.Text, known));
        }
    }

    private bool IsDeclaredInBrokenLine(string name) => (_brokenDeclarations ??= FindBrokenDeclarations()).Contains(name);

    private HashSet<string> FindBrokenDeclarations()
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (var file in _names.Files)
        {
            foreach (var broken in file.Statements.OfType<BrokenLine>())
            {
                var words = file.Tree.TokensIn(broken.Span);
                if (words.Length > 1 && words[0].Keyword is Keyword.Gear or Keyword.Lead or Keyword.Device && words[1].IsName)
                {
                    names.Add(words[1].Text!);
                }
            }
        }
        return names;
    }

    private void NoteNamesOf(BrokenLine broken)
    {
        foreach (var token in _tree.TokensIn(broken.Span))
        {
            if (token.IsName)
            {
                _names.NamesInBrokenLines.Add(token.Text!);
            }
        }
    }

    /// <summary>A search for the name that was meant costs time that grows with the rig; after so many slips the first ones matter.</summary>
    private const int MostSlips = 100;

    /// <summary>Notes the device of a path that leads nowhere, and the device it was most likely meant for.</summary>
    private void NameAsMentioned(PathNode path)
    {
        var name = path.Parts[0].Text;
        _names.NamesInBrokenLines.Add(name);
        if (!_names.DevicesByName.ContainsKey(name) && _names.NamesInBrokenLines.Count < MostSlips
            && Spelling.Nearest(name, _names.DevicesByName.Keys) is { } meant)
        {
            _names.NamesInBrokenLines.Add(meant);
        }
    }

    private void NoteColours(IReadOnlyList<Name> colours)
    {
        foreach (var colour in colours)
        {
            if (!Vocabulary.Colours.Contains(colour.Text))
            {
                _reading.Note(new UnknownWord(_reading.At(colour.Span), colour.Text, "a cable's colour", Vocabulary.Colours));
            }
        }
    }
}
