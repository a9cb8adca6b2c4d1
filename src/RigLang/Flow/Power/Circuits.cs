using RigLang.Trade;

namespace RigLang.Flow;

public static class CircuitsOfRig
{
    /// <summary>
    /// The circuit behind a wall device that feeds something, as the rig declares it; null when it does not say the voltage and the
    /// breaker. The sockets of one wall device are one circuit.
    /// </summary>
    public static MainsCircuit? CircuitOf(this Rig rig, PowerNode root) =>
        rig.Names is { MainsVolts: { } volts, MainsCurrent: { } breaker } && root.Children.Any(c => c.IsMains)
            ? new MainsCircuit(volts.High, breaker, rig.Names.MainsHertz)
            : null;

    /// <summary>The wall devices that feed something, with their circuits.</summary>
    public static IEnumerable<(PowerNode Root, MainsCircuit Circuit)> Circuits(this Rig rig)
    {
        foreach (var root in rig.Power.Roots)
        {
            if (rig.CircuitOf(root) is { } circuit)
            {
                yield return (root, circuit);
            }
        }
    }
}
