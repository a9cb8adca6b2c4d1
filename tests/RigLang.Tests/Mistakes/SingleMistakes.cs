using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Tests.Examples;
using RigLang.Text;

namespace RigLang.Tests.Mistakes;

/// <summary>One thing that a tired player does wrong in a rig that was right: what, and the text it gives.</summary>
public sealed record Mistake(string Kind, string What, SourceText Rig)
{
    public override string ToString() => $"{Kind}: {What}";
}

/// <summary>Every single mistake of a few physical kinds in a rig: a cable left out or in the wrong jack, a channel, a clock, a filter, an adapter.</summary>
public static class SingleMistakes
{
    public static IEnumerable<Mistake> In(string path)
    {
        var compilation = Shipped.Compile(path);
        var source = compilation.Files[0];
        var names = compilation.Rig.Names;
        foreach (var connection in names.Connections.Where(c => c.At.Source == source))
        {
            yield return Changed("cable left out", connection.At.Span, "");
            foreach (var (end, node) in Written(connection))
            {
                foreach (var other in OtherJacks(end, compilation.Rig).Take(2))
                {
                    yield return Changed("wrong jack", node.Span, $"{end.Device.Name}.{other.Name}");
                }
            }
        }
        foreach (var (a, b) in Neighbours(names, source))
        {
            yield return new Mistake("plugs swapped", $"{a.Text} and {b.Text}", With(source, (a.Span, b.Text), (b.Span, a.Text)));
        }
        foreach (var device in names.Devices.Where(d => d.At.Source == source))
        {
            foreach (var line in device.Statement.Body)
            {
                switch (line)
                {
                    case ChannelSetting when source.Slice(line.Span) is var text && text.LastIndexOf("channel ", StringComparison.Ordinal) is > 0 and var at:
                        var number = string.Concat(text[(at + 8)..].TakeWhile(char.IsDigit));
                        if (number.Length > 0)
                        {
                            var span = new TextSpan(line.Span.Start + at + 8, number.Length);
                            yield return Changed("wrong channel", span, $"{int.Parse(number) % 16 + 1}", line);
                        }
                        break;
                    case ClockSetting { IsTransport: false } clock:
                        yield return Changed("wrong clock", line.Span, source.Slice(line.Span).Contains("internal", StringComparison.Ordinal) && device.Gear!.ClockFollows.Find(c => c.Port is not null) is { Port: { } port } ? $"clock {port.Name}" : "clock internal", line);
                        break;
                    case FilterSetting:
                        yield return Changed("filter forgotten", line.Span, "", line);
                        break;
                    default:
                        yield return Changed("setting forgotten", line.Span, "", line);
                        break;
                }
            }
            foreach (var port in device.Gear!.Ports.Where(p => device.Gear.Filters != 0 && p.Signal is { Kind: Connectors.SignalKind.Midi } && compilation.Rig.Wiring.IsPlugged(device, p)))
            {
                foreach (var kind in (string[])["clock", "notes"])
                {
                    yield return Added(device, $"{port.Name} drops {kind}");
                }
            }
            foreach (var other in Adapters(device))
            {
                yield return Changed("wrong adapter", device.Statement.Gear.Span, other);
            }
        }

        Mistake Changed(string kind, TextSpan span, string text, Statement? line = null) =>
            new(kind, $"{source.Slice(line?.Span ?? span)} -> {text} (line {source.PositionOf(span.Start).Line + 1})", With(source, (span, text)));

        Mistake Added(DeviceSymbol device, string line)
        {
            var tree = names.Files[0].Tree;
            var whole = tree.WholeSpan(device.Statement);
            return new("filter too many", $"{device.Name}: {line}", device.Statement.Body.Count > 0
                ? With(source, (new TextSpan(device.Statement.Body[0].Span.Start, 0), line + "\n  "))
                : With(source, (new TextSpan(whole.End, 0), $" {{\n  {line}\n}}")));
        }
    }

    private static IEnumerable<(Endpoint, PathNode)> Written(ConnectionSymbol connection) =>
        connection is { From: [var from], To: [var to], Statement: { From: [var written], To: [var target] } } ? [(from, written), (to, target)] : [];

    /// <summary>Free jacks of the same device that the plug goes into and that go the same way.</summary>
    private static IEnumerable<PortSymbol> OtherJacks(Endpoint end, RigLang.Flow.Rig rig) => end.Device.Gear!.Ports.Where(p =>
        p != end.Port && p.IsOutput == end.Port.IsOutput && p.Jacks.Count == end.Port.Jacks.Count && p.Jacks.Count > 0
        && p.Jacks[0].Form.Name == end.Port.Jacks[0].Form.Name && !rig.Wiring.IsPlugged(end.Device, p) && end.Jacks.Count == end.Port.Jacks.Count);

    /// <summary>Cables beside one another from one device to ports of the same kind: the plugs that are mixed up in the dark.</summary>
    private static IEnumerable<((TextSpan Span, string Text) A, (TextSpan Span, string Text) B)> Neighbours(RigNames names, SourceText source)
    {
        var single = names.Connections.Where(c => c.At.Source == source && Written(c).Any()).ToList();
        for (var i = 0; i + 1 < single.Count; i++)
        {
            var (a, b) = (single[i], single[i + 1]);
            if (a.From[0].Port.Signal?.Kind == b.From[0].Port.Signal?.Kind && a.To[0].Jacks.Count == b.To[0].Jacks.Count && a.To[0].Jacks[0].Form.Name == b.To[0].Jacks[0].Form.Name)
            {
                yield return (Of(a), Of(b));
            }
        }

        (TextSpan, string) Of(ConnectionSymbol c) => (c.Statement.To[0].Span, source.Slice(c.Statement.To[0].Span));
    }

    private static IEnumerable<string> Adapters(DeviceSymbol device) => device.Gear!.Name.StartsWith("Adapter", StringComparison.Ordinal)
        ? SharedLibrary.Open("shared/gear.rig")!.Gear.Select(g => g.Name).Where(n => n.StartsWith("Adapter", StringComparison.Ordinal) && n != device.Gear.Name)
        : [];

    private static SourceText With(SourceText source, params (TextSpan Span, string Text)[] edits)
    {
        var text = source.Content;
        foreach (var (span, inserted) in edits.OrderByDescending(e => e.Span.Start))
        {
            text = text[..span.Start] + inserted + text[span.End..];
        }
        return new SourceText(source.Path, text);
    }
}
