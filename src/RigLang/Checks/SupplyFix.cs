using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks;

/// <summary>
/// Edits that give a load another supply: another adapter, a free isolated output, an adapter of its own. Names and outlets come from the
/// plan, so that all can be applied together. Nothing is offered where nothing fits.
/// </summary>
internal sealed class SupplyFix(FixPlan plan)
{
    private Rig Rig => plan.Rig;

    /// <summary>
    /// Another adapter of the library in place of the one that feeds this load and nothing else. Its ports have the same names and plugs, so that
    /// the connections stay as they are.
    /// </summary>
    public Fix? OtherAdapter(DeviceSymbol adapter, Hookup hookup) =>
        LoadAt(adapter, hookup) is { Port.Signal: { Kind: SignalKind.Dc } wanted } ? OtherAdapter(adapter, hookup, given => Suits(wanted, given)) : null;

    /// <summary>Another adapter of the library that gives all of these enough together, in place of the one that feeds them by way of a splitter or chain.</summary>
    public Fix? StrongerAdapter(DeviceSymbol adapter, Hookup hookup, IReadOnlyList<Signal> loads, double amperes) =>
        OtherAdapter(adapter, hookup, given => given.Current is { } limit && limit.Value >= amperes && loads.All(wanted => Suits(wanted, given)));

    private static Endpoint? LoadAt(DeviceSymbol adapter, Hookup hookup) =>
        hookup.Connection is { From: [var first], To: [var second] } ? first.Device == adapter ? second : first : null;

    private Fix? OtherAdapter(DeviceSymbol adapter, Hookup hookup, Func<Signal, bool> suits)
    {
        var connection = hookup.Connection;
        // Of several boxes in one line the line's gear is that of all of them.
        if (adapter.Statement.IsSeveral
            || adapter.Gear?.Ports is not [{ IsOutput: false } oldPlug, { IsOutput: true } oldOutput]
            || LoadAt(adapter, hookup) is not { } load)
        {
            return null;
        }
        foreach (var (gear, plug, output) in Adapters())
        {
            if (gear.Name != adapter.Gear.Name && suits(output.Signal!) && AreAlike(oldPlug, plug) && AreAlike(oldOutput, output)
                && Harness.Assemble(output.Jacks, load.Jacks, hookup.Leads).Fault == HarnessFault.None)
            {
                var edits = new List<TextEdit> { new(adapter.At.Source, adapter.Statement.Gear.Span, gear.Name) };
                Import(connection, edits);
                return new Fix($"Take {Article(gear.Name)} {gear.Name} for {adapter.Name}", false, [.. edits]);
            }
        }
        return null;

        static bool AreAlike(PortSymbol a, PortSymbol b) =>
            a.Name == b.Name && a.Jacks.Count == 1 && b.Jacks.Count == 1 && a.Jacks[0].IsCaptive == b.Jacks[0].IsCaptive && a.Jacks[0].Form.Name == b.Jacks[0].Form.Name;

        static string Article(string name) => name[0] is 'A' or 'E' or 'I' or 'O' or 'U' ? "an" : "a";
    }

    /// <summary>Those of the library that are double-insulated and hang in the wall by their own plug.</summary>
    private static IEnumerable<(GearSymbol Gear, PortSymbol Plug, PortSymbol Output)> Adapters()
    {
        foreach (var gear in SharedLibrary.Open(SharedEdits.GearLibrary)!.Gear)
        {
            if (gear.Ports is [
                { IsOutput: false, Signal: { Kind: SignalKind.Mains, Earth: EarthClass.DoubleInsulated }, Jacks: [{ IsCaptive: true }] } plug,
                { IsOutput: true, Signal.Kind: SignalKind.Dc } output])
            {
                yield return (gear, plug, output);
            }
        }
    }

    /// <summary>An isolated output or an adapter of its own for what this connection feeds.</summary>
    public Fix? Own(Hookup hookup)
    {
        var edits = new List<TextEdit>();
        return Own(hookup, edits) is { } title ? new Fix(title, false, [.. edits]) : null;
    }

    /// <summary>The same as edits that are part of a larger fix; gives the title, or null.</summary>
    public string? Own(Hookup hookup, List<TextEdit> edits)
    {
        if (hookup.Connection is not { From: [var first], To: [var second] } connection)
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
        return FreeOutput(wanted, load, hookup, path, edits) ?? Adapter(wanted, load, connection, path, edits);
    }

    /// <summary>An isolated output that nothing is plugged into yet.</summary>
    private string? FreeOutput(Signal wanted, Endpoint load, Hookup hookup, TextSpan path, List<TextEdit> edits)
    {
        for (var seat = 0; seat < Rig.Nets.SeatCount; seat++)
        {
            var jack = Rig.Nets.Jack(seat);
            if (!plan.IsFree(seat) || jack.Jack.Port is not { IsOutput: true, IsPassive: false, Signal: { Kind: SignalKind.Dc, Isolated: true } given } || !Suits(wanted, given))
            {
                continue;
            }
            var keepsLead = SharedEdits.Fits([jack.Jack], load.Jacks, hookup);
            if (!keepsLead && Rig.Wiring.Choice.Simplest([jack.Jack], load.Jacks) is null)
            {
                continue;
            }
            plan.Take(seat);
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
        foreach (var (gear, plug, output) in Adapters())
        {
            if (!Suits(wanted, output.Signal!)
                || Harness.Assemble(output.Jacks, load.Jacks, []).Fault != HarnessFault.None
                || FreeOutlet(plug) is not { } outlet)
            {
                continue;
            }
            plan.Take(outlet.Id);
            var name = plan.FreeName("adapter");
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
        for (var seat = 0; seat < Rig.Nets.SeatCount; seat++)
        {
            var jack = Rig.Nets.Jack(seat);
            if (plan.IsFree(seat) && jack.Jack.Port is { IsOutput: true, Signal.Kind: SignalKind.Mains } && jack.Jack.Form.Takes(plug.Jacks[0].Form)
                && jack.Jack.Form.ContactIndex("line") is >= 0 and var line && Rig.Nets.Find(Rig.Nets.Contact(seat, line), Role.Line, Drive.Out) >= 0)
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

    private static bool Suits(Signal wanted, Signal given) =>
        wanted.Volts is { } volts && given.Volts is { } offered && volts.Accepts(offered.Low) && volts.Accepts(offered.High)
        && (wanted.Polarity == Polarity.Either || wanted.Polarity == given.Polarity)
        && wanted.Current is { } draw && given.Current is { } limit && draw.Value <= limit.Value;

    private static void DropLeads(ConnectionSymbol connection, List<TextEdit> edits)
    {
        if (SharedEdits.WithoutLeads(connection) is { } edit)
        {
            edits.Add(edit);
        }
    }

    /// <summary>A device and its connections; the library is imported when it is not yet.</summary>
    private void Declare(ConnectionSymbol connection, string device, string[] connections, List<TextEdit> edits)
    {
        edits.AddRange(SharedEdits.Device(Rig, connection, device, connections));
        Import(connection, edits);
    }

    /// <summary>The library is imported when it is not yet.</summary>
    public void Import(ConnectionSymbol connection, List<TextEdit> edits)
    {
        var source = connection.At.Source;
        if (SharedEdits.Import(Rig, source, SharedEdits.GearLibrary) is { } import && !edits.Contains(import))
        {
            edits.Add(import);
        }
    }

    private static string Written(JackRef jack) => $"{Wording.Written(jack.Device.Name)}.{Wording.Written(jack.Jack.Port.Name)}";
}
