using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Flow.Ground;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Ground;

/// <summary>
/// Edits that break a link: a box of the library with isolated ports put into the cable, or another supply for what is fed. What one fix
/// takes (a name, an outlet) the next does not, so that all can be applied together. Nothing is offered where no box or supply fits.
/// </summary>
internal sealed class IsolatingFix(Rig rig)
{
    private const string Library = "shared/gear.rig";
    private readonly HashSet<string> _names = new(rig.Names.DevicesByName.Keys, StringComparer.Ordinal);
    private readonly HashSet<int> _taken = [];
    private readonly HashSet<SourceText> _imported = [];

    public Fix? For(GroundBundle bundle)
    {
        var edits = new List<TextEdit>();
        var titles = new List<string>();
        foreach (var hookup in bundle.Links.Select(l => l.Hookup).Distinct())
        {
            var link = bundle.Links.First(l => l.Hookup == hookup);
            var title = link.Kind switch
            {
                _ when link.GoesByBattery => Battery(link, edits),
                GroundLinkKind.Audio or GroundLinkKind.Usb => Box(hookup, edits),
                GroundLinkKind.Supply => Supply(link, edits),
                _ => null,
            };
            if (title is null)
            {
                return null;
            }
            titles.Add(title);
        }
        return new Fix(string.Join("; ", titles), false, [.. edits]);
    }

    /// <summary>The cable goes to the box; a second one, whose lead is chosen, goes on from there.</summary>
    private string? Box(Hookup hookup, List<TextEdit> edits)
    {
        if (hookup.Connection is not { From: [var from], To: [var to] } connection)
        {
            return null;
        }
        var kind = from.Port.Signal!.Kind;
        var isTwo = from.Jacks.Count == 2 || (from.Port.Signal.IsStereo && from.Jacks[0].Side == Side.Only);
        foreach (var gear in SharedLibrary.Open(Library)!.Gear)
        {
            foreach (var (input, output) in gear.Routes)
            {
                if (input.Signal is not { Isolated: true } near || output.Signal is not { Isolated: true } far
                    || near.Kind != kind || far.Kind != kind || input.IsOutput || !output.IsOutput
                    || (kind == SignalKind.Audio && !AreLineLevel(from, to)))
                {
                    continue;
                }
                var (inJacks, outJacks) = isTwo ? (input.Jacks, output.Jacks) : (input.Jacks[..1], output.Jacks[..1]);
                var keepsLead = Fits(from.Jacks, inJacks, hookup);
                if ((!keepsLead && rig.Wiring.Choice.Simplest(from.Jacks, inJacks) is null) || rig.Wiring.Choice.Simplest(outJacks, to.Jacks) is null)
                {
                    continue;
                }
                var side = !isTwo && input.Jacks.Count == 2 ? ".left" : "";
                var name = FreeName("isolator");
                var statement = connection.Statement;
                var source = connection.At.Source;
                var toSpan = statement.To[0].Span.To(statement.To[^1].Span);
                edits.Add(new TextEdit(source, toSpan, $"{name}.{Wording.Written(input.Name)}{side}"));
                if (!keepsLead)
                {
                    DropLeads(connection, edits);
                }
                Declare(connection, $"{name} : {gear.Name}", [$"connect {name}.{Wording.Written(output.Name)}{side} to {source.Slice(toSpan)}"], edits);
                return $"Put a {gear.Name} into {Wording.Ends(connection)}";
            }
        }
        return null;
    }

    private static bool AreLineLevel(Endpoint from, Endpoint to) =>
        from.Port.Signal is { Kind: SignalKind.Audio, Level: AudioLevel.Line or AudioLevel.Headphone }
        && to.Port.Signal is { Kind: SignalKind.Audio, Level: AudioLevel.Line or AudioLevel.MicOrLine };

    /// <summary>The device says that it runs on its battery, and its cable becomes a comment: it is plugged in again to charge.</summary>
    private static string? Battery(GroundLink link, List<TextEdit> edits)
    {
        var (device, connection) = (link.Battery!.Device, link.Hookup.Connection);
        var source = connection.At.Source;
        var span = connection.Statement.Span;
        if (source.PositionOf(span.Start).Line != source.PositionOf(span.End).Line)
        {
            return null;
        }
        edits.Add(new TextEdit(source, new TextSpan(span.Start, 0), "// "));
        if (!device.OnBattery)
        {
            edits.Add(RunsOnBattery(device));
        }
        return $"Run {device.Name} on its battery and unplug {Wording.Ends(connection)}";
    }

    private static TextEdit RunsOnBattery(DeviceSymbol device)
    {
        const string line = "  runs on battery";
        var source = device.At.Source;
        var lineEnd = LineEnd(source);
        var header = device.Statement.Span.End;
        var rest = source.Content[header..source.LineSpan(source.PositionOf(header).Line).End];
        var brace = rest.AsSpan().TrimStart() is ['{', ..] ? rest.IndexOf('{', StringComparison.Ordinal) + 1 : 0;
        var (at, text) = brace == 0 ? (header, $" {{{lineEnd}{line}{lineEnd}}}")
            : rest.AsSpan(brace).TrimStart() is [] or ['/', '/', ..] ? (header + rest.Length, lineEnd + line)
            : (header + brace, $"{lineEnd}{line}{lineEnd}");
        return new TextEdit(source, new TextSpan(at, 0), text);
    }

    private string? Supply(GroundLink link, List<TextEdit> edits)
    {
        if (link.Hookup.Connection is not { From: [var first], To: [var second] } connection)
        {
            return null;
        }
        var isFirst = first.Port.IsOutput;
        var (supply, load) = isFirst ? (first, second) : (second, first);
        var path = isFirst ? connection.Statement.From[0].Span : connection.Statement.To[0].Span;
        if (load.Port.Signal is not { Kind: SignalKind.Dc } wanted || load.Port.IsPassive || !supply.Port.IsOutput)
        {
            return null;
        }
        return FreeOutput(wanted, load, link.Hookup, path, edits) ?? Adapter(wanted, load, connection, path, edits);
    }

    /// <summary>An isolated output that nothing is plugged into yet.</summary>
    private string? FreeOutput(Signal wanted, Endpoint load, Hookup hookup, TextSpan path, List<TextEdit> edits)
    {
        for (var seat = 0; seat < rig.Nets.SeatCount; seat++)
        {
            var jack = rig.Nets.Jack(seat);
            if (!IsFree(seat) || jack.Jack.Port is not { IsOutput: true, IsPassive: false, Signal: { Kind: SignalKind.Dc, Isolated: true } given } || !Suits(wanted, given))
            {
                continue;
            }
            var keepsLead = Fits([jack.Jack], load.Jacks, hookup);
            if (!keepsLead && rig.Wiring.Choice.Simplest([jack.Jack], load.Jacks) is null)
            {
                continue;
            }
            _taken.Add(seat);
            edits.Add(new TextEdit(hookup.Connection.At.Source, path, Written(jack)));
            if (!keepsLead)
            {
                DropLeads(hookup.Connection, edits);
            }
            return $"Feed {load.Device.Name} from {jack}";
        }
        return null;
    }

    /// <summary>An adapter of the library, in an outlet that nothing is plugged into yet.</summary>
    private string? Adapter(Signal wanted, Endpoint load, ConnectionSymbol connection, TextSpan path, List<TextEdit> edits)
    {
        foreach (var gear in SharedLibrary.Open(Library)!.Gear)
        {
            if (gear.Ports is not [
                    { IsOutput: false, Signal: { Kind: SignalKind.Mains, Earth: EarthClass.DoubleInsulated }, Jacks: [{ IsCaptive: true }] } plug,
                    { IsOutput: true, Signal: { Kind: SignalKind.Dc } given } output]
                || !Suits(wanted, given)
                || Harness.Assemble(output.Jacks, load.Jacks, []).Fault != HarnessFault.None
                || FreeOutlet(plug) is not { } outlet)
            {
                continue;
            }
            _taken.Add(outlet.Id);
            var name = FreeName("adapter");
            edits.Add(new TextEdit(connection.At.Source, path, $"{name}.{output.Name}"));
            DropLeads(connection, edits);
            Declare(connection, $"{name} : {gear.Name}", [$"connect {Written(outlet)} to {name}.{plug.Name}"], edits);
            return $"Feed {load.Device.Name} from its own {gear.Name} in {outlet}";
        }
        return null;
    }

    /// <summary>On a strip before one in the wall: strips are what is near.</summary>
    private JackRef? FreeOutlet(PortSymbol plug)
    {
        JackRef? inWall = null;
        for (var seat = 0; seat < rig.Nets.SeatCount; seat++)
        {
            var jack = rig.Nets.Jack(seat);
            if (IsFree(seat) && jack.Jack.Port is { IsOutput: true, Signal.Kind: SignalKind.Mains } && jack.Jack.Form.Takes(plug.Jacks[0].Form)
                && jack.Jack.Form.ContactIndex("line") is >= 0 and var line && rig.Nets.Find(rig.Nets.Contact(seat, line), Role.Line, Drive.Out) >= 0)
            {
                if (jack.Jack.Port.IsPassive)
                {
                    return jack;
                }
                inWall ??= jack;
            }
        }
        return inWall;
    }

    private bool IsFree(int seat) => rig.Wiring.Plugged[seat] is null && !_taken.Contains(seat);

    private static bool Suits(Signal wanted, Signal given) =>
        wanted.Volts is { } volts && given.Volts is { } offered && volts.Accepts(offered.Low) && volts.Accepts(offered.High)
        && (wanted.Polarity == Polarity.Either || wanted.Polarity == given.Polarity)
        && wanted.Current is { } draw && given.Current is { } limit && draw.Value <= limit.Value;

    private static bool Fits(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, Hookup hookup) =>
        hookup.Connection.Leads.All(l => l.Lead is not null) && hookup.Connection.Leads.Count > 0
        && Harness.Assemble(from, to, hookup.Leads).Fault == HarnessFault.None;

    /// <summary>The named leads go; the length of a single one stays.</summary>
    private static void DropLeads(ConnectionSymbol connection, List<TextEdit> edits)
    {
        var statement = connection.Statement;
        if (statement.Leads.Count > 0)
        {
            var source = connection.At.Source;
            var keeps = statement.Leads is [{ Length: { } length }] ? source.Slice(length.Span) : null;
            var from = statement.Leads[0].Span.Start;
            var span = statement.Leads[0].Span.To(statement.Leads[^1].Span);
            if (keeps is not null)
            {
                edits.Add(new TextEdit(source, span, keeps));
                return;
            }
            var with = source.Content.LastIndexOf("with", from, StringComparison.Ordinal);
            edits.Add(new TextEdit(source, TextSpan.Between(with, span.End), ""));
        }
    }

    /// <summary>A device in front of the connection and more connections behind it; the library is imported when it is not yet.</summary>
    private void Declare(ConnectionSymbol connection, string device, IReadOnlyList<string> connections, List<TextEdit> edits)
    {
        var source = connection.At.Source;
        var line = source.PositionOf(connection.Statement.Span.Start).Line;
        var end = source.LineSpan(source.PositionOf(connection.Statement.Span.End).Line).End;
        var lineEnd = LineEnd(source);
        edits.Add(new TextEdit(source, new TextSpan(source.LineStart(line), 0), $"device {device}{lineEnd}"));
        edits.Add(new TextEdit(source, new TextSpan(end, 0), string.Concat(connections.Select(c => lineEnd + c))));
        if (rig.Names.Files.All(f => f.Source.Path != Library) && _imported.Add(source))
        {
            edits.Add(new TextEdit(source, new TextSpan(source.Content.StartsWith('\uFEFF') ? 1 : 0, 0), $"import \"{Library}\"{lineEnd}"));
        }
    }

    private static string LineEnd(SourceText source) => source.Content.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";

    private string FreeName(string name)
    {
        var free = name;
        for (var i = 2; !_names.Add(free); i++)
        {
            free = $"{name}{i}";
        }
        return free;
    }

    private static string Written(JackRef jack) => $"{Wording.Written(jack.Device.Name)}.{Wording.Written(jack.Jack.Port.Name)}";
}
