using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

public enum SymbolKind
{
    Rig,
    Import,
    Gear,
    Lead,
    Device,
    Connection,
    Stock,
    Expectation,
    Acceptance,
    Port,
    Part,
    Track,
    Setting,
}

/// <summary>One entry of a file's outline. <see cref="Whole"/> covers its block; <see cref="Span"/> is what to jump to.</summary>
public sealed record Symbol(string Name, string Detail, SymbolKind Kind, TextSpan Whole, TextSpan Span, IReadOnlyList<Symbol> Children);

/// <summary>The outline of a file: a statement an entry, with the ports, parts and tracks of gear and the settings of devices in it.</summary>
public static class SymbolFinder
{
    public static IReadOnlyList<Symbol> In(RigView view) =>
        [.. view.Tree.Statements.Select(s => SymbolOf(view, s)).Where(s => s is not null)!];

    private static Symbol? SymbolOf(RigView view, Statement statement)
    {
        var whole = view.WholeSpan(statement);
        return statement switch
        {
            RigStatement rig => new(rig.Title?.Text ?? "rig", "", SymbolKind.Rig, whole, rig.Title?.Span ?? rig.Span, Inside(statement)),
            ImportStatement import => new(import.Path.Text, "import", SymbolKind.Import, whole, import.Path.Span, []),
            GearStatement gear => new(gear.Name.Text, "gear", SymbolKind.Gear, whole, gear.Name.Span, Inside(statement)),
            LeadStatement lead => new(lead.Name.Text, "lead", SymbolKind.Lead, whole, lead.Name.Span, []),
            DeviceStatement device => new(Names(device.Names), device.Gear.Text, SymbolKind.Device, whole, device.Name.Span, Inside(statement)),
            ConnectStatement connect => new($"{Paths(connect.From)} to {Paths(connect.To)}", connect.Label?.Text ?? "", SymbolKind.Connection, whole, connect.Span, []),
            StockStatement => new("stock", "", SymbolKind.Stock, whole, statement.Span, []),
            ExpectStatement expect => new(
                $"{(expect.Must ? "must" : "never")} {string.Join(", ", expect.What.Select(w => w.Text))} from {Paths(expect.From)} reach {Paths(expect.To)}",
                "", SymbolKind.Expectation, whole, expect.Span, []),
            AcceptStatement accept => new($"accept {accept.Check} on {Paths(accept.On)}", accept.Reason.Text, SymbolKind.Acceptance, whole, accept.Check.Span, []),
            _ => null,
        };
    }

    private static IReadOnlyList<Symbol> Inside(Statement statement)
    {
        var symbols = new List<Symbol>();
        foreach (var line in statement.Body)
        {
            switch (line)
            {
                case PortLine port:
                    Add(port.Names, port.IsOutput ? "out" : "in", SymbolKind.Port, line);
                    break;
                case PartLine part:
                    Add(part.Names, "part", SymbolKind.Part, line);
                    break;
                case TrackLine track:
                    Add(track.Names, "track", SymbolKind.Track, line);
                    break;
                case ChannelSetting channel:
                    Add(channel.Names, $"channel {channel.Channel.Value.Text}", SymbolKind.Setting, line);
                    break;
                case ClockSetting clock:
                    symbols.Add(new Symbol(clock.IsTransport ? "transport" : "clock", clock.Source.Text, SymbolKind.Setting, line.Span, line.Span, []));
                    break;
                case RigSetting setting:
                    symbols.Add(new Symbol(setting.Name.Text, "", SymbolKind.Setting, line.Span, setting.Name.Span, []));
                    break;
            }
        }
        return symbols;

        void Add(IReadOnlyList<NameRange> names, string detail, SymbolKind kind, Statement line)
        {
            foreach (var name in names)
            {
                symbols.Add(new Symbol(Names([name]), detail, kind, line.Span, name.Span, []));
            }
        }
    }

    private static string Names(IReadOnlyList<NameRange> names) =>
        string.Join(", ", names.Select(n => n.Last is { } last ? $"{n.First.Text}..{last.Text}" : n.First.Text));

    private static string Paths(IReadOnlyList<PathNode> paths) => string.Join(", ", paths.Select(p => p.Text));
}
