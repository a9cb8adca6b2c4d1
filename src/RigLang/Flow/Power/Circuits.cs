using RigLang.Trade;

namespace RigLang.Flow;

public static class CircuitsOfRig
{
    /// <summary>
    /// The wall devices that feed something, with the circuit that the rig declares; none when it does not say the voltage and
    /// the breaker. The sockets of one wall device are one circuit.
    /// </summary>
    public static IEnumerable<(PowerNode Root, MainsCircuit Circuit)> Circuits(this Rig rig)
    {
        if (rig.Names is { MainsVolts: { } volts, MainsCurrent: { } breaker })
        {
            foreach (var root in rig.Power.Roots)
            {
                if (root.Children.Any(c => c.IsMains))
                {
                    yield return (root, new MainsCircuit(volts.High, breaker, rig.Names.MainsHertz));
                }
            }
        }
    }
}
