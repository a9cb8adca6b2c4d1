using RigLang.Connectors;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Editing;

/// <summary>Who uses a jack, as somebody asks who is about to write a line: what that line itself says does not count.</summary>
internal sealed class PortUse(RigView view, int offset)
{
    public Hookup? Of(DeviceSymbol device, JackSymbol jack)
    {
        var id = device.FirstJack + jack.Index;
        if (view.Rig.Wiring.Plugged[id] is not { } hookup)
        {
            return null;
        }
        if (!IsOwn(hookup))
        {
            return hookup;
        }
        foreach (var (contested, first, second) in view.Rig.Wiring.Contested)
        {
            if (contested.Id == id && first == hookup && second != hookup)
            {
                return second;
            }
        }
        return null;
    }

    public bool IsFree(DeviceSymbol device, PortSymbol port) => TakenJacks(device, port) == 0;

    /// <summary>How far behind a free port one stands that is in use: a little where a jack is left, below all others where none is.</summary>
    public int Rank(DeviceSymbol device, PortSymbol port) => TakenJacks(device, port) is var taken && taken == 0 ? 0 : taken < port.Jacks.Count ? 5 : Full;

    public const int Full = 500;

    private int TakenJacks(DeviceSymbol device, PortSymbol port)
    {
        var taken = 0;
        foreach (var jack in port.Jacks)
        {
            taken += Of(device, jack) is null ? 0 : 1;
        }
        return taken;
    }

    /// <summary>"in use by desk.ch1", "left in use by desk.ch1"; empty when it is free.</summary>
    public string Describe(DeviceSymbol device, PortSymbol port)
    {
        var taken = port.Jacks.Select(jack => (Jack: jack, By: Of(device, jack))).Where(j => j.By is not null).ToList();
        if (taken.Count == 0)
        {
            return "";
        }
        var others = string.Join(", ", taken.Select(j => PortText.OtherEnd(j.By!, new JackRef(device, j.Jack))).Distinct());
        var side = taken.Count == port.Jacks.Count ? "" : taken[0].Jack.Side == Side.Left ? "left " : "right ";
        return $"{side}in use by {others}";
    }

    /// <summary>True for the connection of the line that is being written.</summary>
    public bool IsOwn(Hookup hookup) =>
        hookup.Connection.At is var at && at.Source == view.Source && at.Span.Start <= offset && offset <= at.Span.End;

    /// <summary>True when a signal can leave by the port.</summary>
    public static bool CanFeed(PortSymbol port) => port.IsOutput || port.IsPassive || port.Signal?.Kind == SignalKind.Insert;

    /// <summary>True when a signal can come in by the port.</summary>
    public static bool CanTake(PortSymbol port) => !port.IsOutput || port.IsPassive || port.Signal?.Kind == SignalKind.Insert;
}
