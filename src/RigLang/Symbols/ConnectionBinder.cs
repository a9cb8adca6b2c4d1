using RigLang.Connectors;
using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>Looks up the ends and the leads of a connection.</summary>
internal sealed class ConnectionBinder(FileScope scope)
{
    private readonly RigNames _names = scope.Names;
    private readonly Reading _reading = scope.Reading;

    public void Bind(ConnectStatement statement)
    {
        var connection = new ConnectionSymbol(statement, _reading.At(statement.Span));
        BindEnds(statement.From, connection.From, connection, fromOutput: true);
        BindEnds(statement.To, connection.To, connection, fromOutput: false);
        foreach (var use in statement.Leads)
        {
            LeadSymbol? lead = null;
            if (use.Lead is { } name && (lead = scope.Lead(name)) is null)
            {
                connection.IsIncomplete = true;
            }
            connection.IsIncomplete |= lead is { IsIncomplete: true };
            connection.Leads.Add(new LeadUse(lead, _reading.Length(use.Length), _reading.At(use.Span)));
        }
        scope.NoteColours(statement.Colours);
        _names.Connections.Add(connection);
    }

    private void BindEnds(IReadOnlyList<PathNode> paths, GatheredList<Endpoint> ends, ConnectionSymbol connection, bool fromOutput)
    {
        foreach (var path in paths)
        {
            if (scope.Device(path.Parts[0]) is not { Gear: { } gear } device)
            {
                connection.IsIncomplete = true;
                scope.NameAsMentioned(path);
                continue;
            }
            if (path.Parts.Count == 1)
            {
                _reading.Note(new IncompleteDeclaration(_reading.At(path.Span), $"`{device.Name}`", $"which jack, such as {device.Name}.{(gear.Ports.Find(p => p.IsOutput == fromOutput) ?? (gear.Ports.Count > 0 ? gear.Ports[0] : null))?.Name ?? "line"}"));
                connection.IsIncomplete = true;
                scope.NameAsMentioned(path);
                continue;
            }
            var last = path.Parts[^1];
            var names = path.Last is { } upTo ? _reading.ExpandRange(last, upTo) : [path.Parts[1]];
            foreach (var name in names)
            {
                var port = scope.Port(name, gear);
                if (port is { IsBus: true })
                {
                    var ways = gear.Routes.To(port).Concat(gear.Routes.From(port)).Where(p => !p.IsBus).Select(p => $"`{device.Name}.{p.Name}`").Distinct().Order(StringComparer.Ordinal).Take(4).ToList();
                    _reading.Note(new WrongForm(_reading.At(name.Span), $"`{name}` is a bus inside {gear.Name}: no cable goes in there.",
                        ways.Count == 0 ? "Connect a jack of the box, and route it to the bus in the gear." : $"Connect a jack that it is routed to: {string.Join(" or ", ways)}.", []));
                }
                if (port is not { Jacks.Count: > 0, IsBus: false } || Jacks(path, port) is not { } jacks)
                {
                    connection.IsIncomplete = true;
                    scope.NameAsMentioned(path);
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
}
