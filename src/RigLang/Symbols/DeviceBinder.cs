using RigLang.Connectors;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Symbols;

/// <summary>What a device block says: where the device stands, and its settings.</summary>
internal sealed class DeviceBinder(FileScope scope)
{
    private Reading _reading = scope.Reading;

    /// <summary>What the block says holds for each of the devices; what is wrong with it is told once.</summary>
    public void BindAll(DeviceStatement statement)
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
            if (scope.Names.DevicesByName.TryGetValue(scope.KeyOf(name), out var device) && ReferenceEquals(device.Statement, statement))
            {
                Bind(statement, device);
            }
        }
    }

    private void Bind(DeviceStatement statement, DeviceSymbol device)
    {
        if (!statement.IsSeveral && statement.At.Count == 2 && _reading.Coordinate(statement.At[0]) is { } x && _reading.Coordinate(statement.At[1]) is { } y)
        {
            device.Place = (x, y);
        }
        var before = _reading.FaultCount;
        var isBroken = false;
        foreach (var line in statement.Body)
        {
            isBroken |= line is BrokenLine;
            if (device.Gear is { } gear)
            {
                BindSetting(line, device, gear);
            }
        }
        if (isBroken || _reading.FaultCount > before)
        {
            // What a setting that cannot be read would have set is not missed a second time.
            scope.Names.NamesInBrokenLines.Add(device.Name);
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
            case LevelSetting or StateSetting or AssignSetting or SwitchSetting { Switch.Text: "pan" } or SwitchSetting { State.Text: "off" } when MixBinder.Reads(line, gear):
                new MixBinder(device, gear, _reading).Bind(line);
                break;
            case StateSetting state:
                UnclearSettings.Read(new UnclearSetting(state.Ports, [state.State]) { Span = state.Span }, device, gear, _reading);
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
                    if (!gear.Routes.GroupsTo(port).Any())
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
                    ["on channel 2", "drops clock", "passes only notes", "maps channel 1 to 2", "up to 8 notes at once", "phantom on", "thru off", "local off", "pan left", "gain 20 dB", "muted", "mono"]));
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
    /// <summary>The parts and tracks of a line, which all devices of its statement share.</summary>
    private Name[] NamesOf(ChannelSetting setting)
    {
        if (!_namesOf.TryGetValue(setting, out var names))
        {
            var before = _reading.FaultCount;
            names = _reading.Expand(setting.Names);
            if (_reading.FaultCount == before)
            {
                _namesOf[setting] = names;
            }
        }
        return names;
    }

    private readonly Dictionary<ChannelSetting, Name[]> _namesOf = new(ReferenceEqualityComparer.Instance);

    private void BindChannels(ChannelSetting setting, DeviceSymbol device, GearSymbol gear)
    {
        var names = NamesOf(setting);
        var node = setting.Channel;
        if (node.Value.Kind == TokenKind.Word)
        {
            if (node.Value.Text is "any" or "auto" or "off")
            {
                foreach (var name in names)
                {
                    BindChannel(name, null, setting, device, gear);
                }
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
                foreach (var name in names)
                {
                    BindChannel(name, channel, setting, device, gear);
                }
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
}
