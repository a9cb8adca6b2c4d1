using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>Finds every name of a file and what it stands for. A name that means nothing known is passed over, and so is a broken line.</summary>
internal sealed class OccurrenceFinder
{
    private readonly RigNames _names;
    private readonly FileSymbols _file;
    private readonly List<Occurrence> _found = [];

    private OccurrenceFinder(RigNames names, FileSymbols file)
    {
        _names = names;
        _file = file;
    }

    public static IReadOnlyList<Occurrence> In(RigNames names, FileSymbols file) => In(names, file, file.Tree.Statements);

    /// <summary>Those of one statement and its block.</summary>
    public static IReadOnlyList<Occurrence> In(RigNames names, FileSymbols file, Statement statement) => In(names, file, [statement]);

    private static IReadOnlyList<Occurrence> In(RigNames names, FileSymbols file, IReadOnlyList<Statement> statements)
    {
        var finder = new OccurrenceFinder(names, file);
        foreach (var statement in statements)
        {
            finder.Look(statement);
        }
        // Stable, so that of two at one place the first stays first.
        return [.. finder._found.OrderBy(o => o.Span.Start)];
    }

    /// <summary>Of devices that share a name only the first goes by it.</summary>
    private DeviceSymbol? DeviceOf(DeviceStatement statement, string name) =>
        _names.FindDevice(_file, name) is { } first && ReferenceEquals(first.Statement, statement)
            ? first
            : _names.Devices.Find(d => ReferenceEquals(d.Statement, statement));

    /// <summary>Gear that is like other gear is known in full only to the rig.</summary>
    private GearSymbol? GearOf(GearStatement statement) =>
        _file.Gear.FirstOrDefault(g => g.At.Span == statement.Name.Span) is { } declared ? _names.InFull(declared) : null;

    private void Look(Statement statement)
    {
        switch (statement)
        {
            case ImportStatement import:
                LookAtImport(import);
                break;
            case GearStatement gear:
                LookAtGear(gear);
                break;
            case LeadStatement lead:
                if (_file.Leads.FirstOrDefault(l => l.At.Span == lead.Name.Span) is { } symbol)
                {
                    Add(Of(symbol), lead.Name.Span, true);
                }
                break;
            case DeviceStatement device:
                LookAtDevice(device);
                break;
            case ConnectStatement connect:
                foreach (var path in connect.From.Concat(connect.To))
                {
                    LookAtPath(path);
                }
                foreach (var use in connect.Leads)
                {
                    Lead(use.Lead);
                }
                break;
            case StockStatement:
                foreach (var line in statement.Body.OfType<StockLine>())
                {
                    Lead(line.Lead);
                }
                break;
            case AcceptStatement accept:
                foreach (var path in accept.On)
                {
                    LookAtPath(path);
                }
                break;
            case ExpectStatement expect:
                foreach (var path in expect.From.Concat(expect.To))
                {
                    LookAtPath(path);
                }
                break;
        }
    }

    private void LookAtImport(ImportStatement import)
    {
        var path = Imports.Resolve(_file.Source.Path, import.Path.Text);
        if ((_names.FileOf(_file, import) ?? _names.Files.FirstOrDefault(f => f.Source.Path == path)) is { } target)
        {
            Add(new Named(NameKind.File, import.Path.Text, new Location(target.Source, default), target), import.Path.Span, false);
        }
        if (import.As is { } name)
        {
            Add(Of(_file, import), name.Span, true);
        }
    }

    private void LookAtGear(GearStatement statement)
    {
        if (GearOf(statement) is not { } gear)
        {
            return;
        }
        Add(Of(gear), statement.Name.Span, true);
        if (statement.Like is { } like && _names.FindGear(_file, like.Text) is { } model)
        {
            Add(Of(model), like.Span, false);
        }
        foreach (var line in statement.Body)
        {
            switch (line)
            {
                case PortLine port:
                    Inside(gear, null, port.Names, true, NameKind.Port);
                    break;
                case RouteLine route:
                    Inside(gear, null, route.From.Concat(route.To), false, NameKind.Port);
                    break;
                case BusLine bus:
                    Inside(gear, null, bus.Names, true, NameKind.Port);
                    break;
                case AssignLine assign:
                    Inside(gear, null, assign.From.Concat(assign.To), false, NameKind.Port);
                    break;
                case SoundLine sound:
                    Inside(gear, null, sound.Names, true, NameKind.Sound);
                    Inside(gear, null, sound.At, false, NameKind.Port);
                    break;
                case RecordsLine records:
                    Inside(gear, null, records.Names, false, NameKind.Port);
                    break;
                case SwitchLine choice:
                    Inside(gear, null, choice.From.Concat(choice.To), false, NameKind.Port);
                    break;
                case JoinLine join:
                    Inside(gear, null, join.From.Concat(join.To), false, NameKind.Port);
                    break;
                case PartLine part:
                    Inside(gear, null, part.Names, true, NameKind.Part);
                    Inside(gear, null, part.Receives.Concat(part.SoundsAt), false, NameKind.Port);
                    break;
                case TrackLine track:
                    Inside(gear, null, track.Names, true, NameKind.Track);
                    Inside(gear, null, track.Sends, false, NameKind.Port);
                    Inside(gear, null, track.Plays, false, NameKind.Part);
                    break;
                case ClockLine clock:
                    Inside(gear, null, clock.Names, false, NameKind.Port);
                    break;
            }
        }
    }

    private void LookAtDevice(DeviceStatement statement)
    {
        if (_names.FindGear(_file, statement.Gear.Text) is { } known)
        {
            AddWritten(statement.Gear, Of(known));
        }
        DeviceSymbol? device = null;
        foreach (var range in statement.Names)
        {
            foreach (var name in new Reading(_file.Source, []).Expand([range]))
            {
                if (DeviceOf(statement, name.Text) is { } one)
                {
                    Add(Of(one), range.Span, true, range.Last is not null);
                    device ??= one;
                }
            }
        }
        // What the block names is the same in each of them; it is shown of the first.
        if (device?.Gear is not { } gear)
        {
            return;
        }
        foreach (var line in statement.Body)
        {
            switch (line)
            {
                case ChannelSetting channel:
                    Inside(gear, device, channel.Names, false, NameKind.Part, NameKind.Track, NameKind.Port);
                    break;
                case UnclearSetting unclear:
                    Inside(gear, device, unclear.Names, false, NameKind.Part, NameKind.Track, NameKind.Port);
                    break;
                case NotesSetting notes:
                    Inside(gear, device, notes.Names, false, NameKind.Track);
                    break;
                case ClockSetting clock:
                    Inside(gear, device, clock.Source, clock.Source.Span, false, false, NameKind.Port);
                    break;
                case FilterSetting filter:
                    Inside(gear, device, filter.Ports, false, NameKind.Port);
                    break;
                case MapSetting map:
                    Inside(gear, device, map.Ports, false, NameKind.Port);
                    break;
                case SwitchSetting panel:
                    Inside(gear, device, panel.Ports, false, NameKind.Port, NameKind.Track);
                    Inside(gear, device, panel.Switch, panel.Switch.Span, false, false, NameKind.Port);
                    break;
                case LevelSetting level:
                    Inside(gear, device, level.Ports, false, NameKind.Port);
                    Inside(gear, device, level.What, level.What.Span, false, false, NameKind.Port);
                    break;
                case StateSetting state:
                    Inside(gear, device, state.Ports, false, NameKind.Port, NameKind.Part, NameKind.Track);
                    break;
                case AssignSetting assign:
                    Inside(gear, device, assign.Ports.Concat(assign.To), false, NameKind.Port);
                    break;
            }
        }
    }

    private void LookAtPath(PathNode path)
    {
        if (path.Parts.Count == 0 || _names.FindDevice(_file, path.Parts[0].Text) is not { } device)
        {
            return;
        }
        AddWritten(path.Parts[0], Of(device));
        if (device.Gear is not { } gear || path.Parts.Count < 2)
        {
            return;
        }
        if (path.Last is { } last && path.Parts.Count == 2)
        {
            Inside(gear, device, [new NameRange(path.Parts[1], last)], false, NameKind.Port);
            return;
        }
        Inside(gear, device, path.Parts[1], path.Parts[1].Span, false, false, NameKind.Port, NameKind.Part, NameKind.Track, NameKind.Sound);
    }

    private void Lead(Name? name)
    {
        if (name is { } written && _names.FindLead(_file, written.Text) is { } lead)
        {
            AddWritten(written, Of(lead));
        }
    }

    /// <summary>Of <c>tide.bass</c> the <c>bass</c> is the device, and each name before it that of an import.</summary>
    private void AddWritten(Name written, Named named)
    {
        if (written.Text == named.Name)
        {
            Add(named, written.Span, false);
            return;
        }
        var tokens = _file.Tree.TokensIn(written.Span);
        if (tokens.Length == 0 || !written.Text.EndsWith("." + named.Name, StringComparison.Ordinal))
        {
            Add(named, written.Span, false);
            return;
        }
        var prefix = written.Text[..^named.Name.Length];
        if (tokens.Length == 1)
        {
            // All of it in one pair of quotes.
            _found.Add(new Occurrence(named, new TextSpan(written.Span.End - 1 - named.Name.Length, named.Name.Length), false, false, prefix, true));
            return;
        }
        FileSymbols? file = _file;
        for (var i = 0; i + 1 < tokens.Length && file is not null; i += 2)
        {
            if (tokens[i].Text is not { } name || ImportCalled(file, name) is not { } import)
            {
                break;
            }
            Add(Of(file, import), tokens[i].Span, false);
            file = _names.FileOf(file, import);
        }
        _found.Add(new Occurrence(named, tokens[^1].Span, false, false, prefix));
    }

    private static ImportStatement? ImportCalled(FileSymbols file, string name) =>
        file.Statements.OfType<ImportStatement>().FirstOrDefault(i => i.As is { } called && called.Text == name);

    private void Inside(GearSymbol gear, DeviceSymbol? device, IEnumerable<NameRange> names, bool declares, params ReadOnlySpan<NameKind> kinds)
    {
        foreach (var range in names)
        {
            if (range.Last is null)
            {
                Inside(gear, device, range.First, range.Span, declares, false, kinds);
                continue;
            }
            foreach (var name in new Reading(_file.Source, []).Expand([range]))
            {
                Inside(gear, device, name, range.Span, declares, true, kinds);
            }
        }
    }

    private void Inside(GearSymbol gear, DeviceSymbol? device, Name name, TextSpan span, bool declares, bool isInRange, params ReadOnlySpan<NameKind> kinds)
    {
        foreach (var kind in kinds)
        {
            Named? named = kind switch
            {
                NameKind.Port when gear.PortsByName.TryGetValue(name.Text, out var port) => Of(port, device),
                NameKind.Part when gear.Parts.TryGetValue(name.Text, out var part) => new(NameKind.Part, part.Name, part.At, part, device),
                NameKind.Sound when gear.Sounds.TryGetValue(name.Text, out var sound) => new(NameKind.Sound, sound.Name, sound.At, sound, device),
                NameKind.Track when gear.Tracks.TryGetValue(name.Text, out var track) => new(NameKind.Track, track.Name, track.At, track, device),
                _ => null,
            };
            if (named is not null)
            {
                Add(named, span, declares, isInRange);
                return;
            }
        }
    }

    private void Add(Named named, TextSpan span, bool isDeclaration, bool isInRange = false) =>
        _found.Add(new Occurrence(named, span, isDeclaration, isInRange));

    private static Named Of(GearSymbol gear) => new(NameKind.Gear, gear.Name, gear.At, gear);

    private static Named Of(LeadSymbol lead) => new(NameKind.Lead, lead.Name, lead.At, lead);

    private Named Of(DeviceSymbol device) => new(NameKind.Device, _names.OwnNameOf(device), device.At, device);

    private static Named Of(FileSymbols file, ImportStatement import) =>
        new(NameKind.Import, import.As!.Value.Text, new Location(file.Source, import.As.Value.Span), import);

    private static Named Of(PortSymbol port, DeviceSymbol? device) => new(NameKind.Port, port.Name, port.At, port, device);
}
