using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Wiring;

/// <summary>The jack that a plug was most likely meant for, where it cannot be or stay in the one that the line names.</summary>
internal static class FreeInputs
{
    /// <summary>
    /// An input of the box at the far end that nothing is plugged into and that takes the signal of the near end, the most alike first:
    /// as many sides, the same level, the lead in hand. Null where the line names more than one jack at an end, or none is free.
    /// </summary>
    public static PortSymbol? For(Rig rig, Hookup hookup)
    {
        if (hookup.Connection is not { From: [{ Port.Signal: { } signal } from], To: [{ Device: { Gear: { } gear } device } to] })
        {
            return null;
        }
        return gear.Ports
            .Where(port => port != to.Port && !port.IsOutput && !port.IsPassive && port.Jacks.Count > 0 && port.Signal?.Kind == signal.Kind
                && !rig.Wiring.IsPlugged(device, port))
            .Select(port => (Port: port, IsAlike: port.Signal!.IsStereo == signal.IsStereo, IsLevel: port.Signal.Level == signal.Level, Fits: Fits(port)))
            .Where(free => free.Fits || rig.Wiring.Choice.Simplest(from.Jacks, free.Port.Jacks) is not null)
            .OrderByDescending(free => free.IsAlike).ThenByDescending(free => free.IsLevel).ThenByDescending(free => free.Fits)
            .FirstOrDefault().Port;

        bool Fits(PortSymbol port) => SharedEdits.Fits(from.Jacks, port.Jacks, hookup);
    }

    /// <summary>"desk.line4 is free and takes the same signal."; null where nothing is.</summary>
    public static string? Advice(Rig rig, Hookup hookup) =>
        For(rig, hookup) is { } port ? $"{hookup.Connection.To[0].Device.Name}.{port.Name} is free and takes the same signal." : null;

    /// <summary>Moves the far end to the free jack; a lead that does not go in there is left out, so that one that does is chosen.</summary>
    public static IEnumerable<Fix> Fixes(FixPlan plan, Hookup hookup)
    {
        if (For(plan.Rig, hookup) is not { } port)
        {
            return [];
        }
        var (from, to) = (hookup.Connection.From[0], hookup.Connection.To[0]);
        var seats = port.Jacks.Select(jack => to.Device.FirstJack + jack.Index).ToList();
        if (!seats.TrueForAll(plan.IsFree))
        {
            return [];
        }
        seats.ForEach(plan.Take);
        var source = hookup.Connection.At.Source;
        var text = $"{Wording.Written(to.Device.Name)}.{Wording.Written(port.Name)}";
        var edits = new List<TextEdit> { new(source, hookup.Connection.Statement.To[0].Span, text) };
        if (!SharedEdits.Fits(from.Jacks, port.Jacks, hookup) && SharedEdits.WithoutLeads(hookup.Connection) is { } without)
        {
            edits.Add(without);
        }
        return [new Fix($"Use {to.Device.Name}.{port.Name}", false, [.. edits])];
    }
}
