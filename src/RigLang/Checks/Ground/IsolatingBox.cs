using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Ground;

/// <summary>A box of the library whose input and output are both isolated, as it goes into one cable against a ground loop.</summary>
internal sealed class IsolatingBox
{
    /// <summary>Gear of the library that isolates, with its way through.</summary>
    private static readonly Lazy<IReadOnlyList<(GearSymbol Gear, PortSymbol In, PortSymbol Out)>> Boxes = new(() =>
    [
        .. from gear in SharedLibrary.Open(SharedEdits.GearLibrary)!.Gear
           from route in gear.Routes
           where route is { From: { IsOutput: false, Signal.Isolated: true }, To: { IsOutput: true, Signal.Isolated: true } }
           select (gear, route.From, route.To),
    ]);

    private readonly ConnectionSymbol _connection;
    private readonly string _input;
    private readonly string _output;
    private readonly bool _keepsLeads;

    private IsolatingBox(ConnectionSymbol connection, string gear, string input, string output, bool keepsLeads)
    {
        (_connection, Gear, _input, _output, _keepsLeads) = (connection, gear, input, output, keepsLeads);
    }

    /// <summary>The gear's name.</summary>
    public string Gear { get; }

    /// <summary>
    /// The boxes that fit the cable, each with the named leads before without them. None for a cable that is isolated already, or whose level
    /// is not that of a line: what a box does to a microphone or a pickup is not known.
    /// </summary>
    public static IEnumerable<IsolatingBox> For(Rig rig, Hookup hookup)
    {
        if (hookup is not { IsSound: true, Connection: { From: [var from], To: [var to] } connection }
            || from.Port.Signal is not { Isolated: false, Kind: var kind } || to.Port.Signal is not { Isolated: false } hears || hears.Kind != kind
            || (kind == SignalKind.Audio && !AreLineLevel(from, to)))
        {
            yield break;
        }
        var isTwo = from.Jacks.Count == 2 || (from.Port.Signal.IsStereo && from.Jacks[0].Side == Side.Only);
        foreach (var (gear, input, output) in Boxes.Value)
        {
            if (input.Signal!.Kind != kind || output.Signal!.Kind != kind)
            {
                continue;
            }
            var (inJacks, outJacks) = (input.Jacks.Take(isTwo ? 2 : 1).ToArray(), output.Jacks.Take(isTwo ? 2 : 1).ToArray());
            if (rig.Wiring.Choice.Simplest(outJacks, to.Jacks) is null)
            {
                continue;
            }
            var side = !isTwo && input.Jacks.Count == 2 ? ".left" : "";
            var (near, far) = (Wording.Written(input.Name) + side, Wording.Written(output.Name) + side);
            if (SharedEdits.Fits(from.Jacks, inJacks, hookup))
            {
                yield return new(connection, gear.Name, near, far, keepsLeads: true);
            }
            if (rig.Wiring.Choice.Simplest(from.Jacks, inJacks) is not null)
            {
                yield return new(connection, gear.Name, near, far, keepsLeads: false);
            }
        }
    }

    /// <summary>The cable goes to the box with its colours and label; a second one, whose lead is chosen, goes on from there.</summary>
    /// <param name="rig">That the cable is in.</param>
    /// <param name="name">Of the new device.</param>
    public IEnumerable<TextEdit> Edits(Rig rig, string name)
    {
        var source = _connection.At.Source;
        var to = _connection.Statement.To[0].Span.To(_connection.Statement.To[^1].Span);
        yield return new(source, to, $"{name}.{_input}");
        if (!_keepsLeads && SharedEdits.WithoutLeads(_connection) is { } edit)
        {
            yield return edit;
        }
        foreach (var line in SharedEdits.Device(rig, _connection, $"{name} : {Gear}", $"connect {name}.{_output} to {source.Slice(to)}"))
        {
            yield return line;
        }
    }

    private static bool AreLineLevel(Endpoint from, Endpoint to) =>
        from.Port.Signal is { Level: AudioLevel.Line or AudioLevel.Headphone } && to.Port.Signal is { Level: AudioLevel.Line or AudioLevel.MicOrLine };
}
