using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Power;

/// <summary>Turns of phrase of the checks that add up power.</summary>
internal static class PowerWords
{
    /// <summary>The outlet that a node hangs on; the strip or splitter itself where its own plug is the limit.</summary>
    public static string Giver(PowerNode node) => $"{node.Parent!.Device.Name}.{node.Outlet!.Name}";

    /// <summary>"bass, drums and keys together take at least 1.07 A".</summary>
    public static string Takers(PowerNode node)
    {
        var loads = node.Loads.ToList();
        return $"{Wording.And(loads.Select(l => l.Device.Name))} {(loads.Count > 1 ? "together take" : "takes")} {Least(node.Takes)}{node.Amount(node.Takes.Value)}";
    }

    public static string Least(Draw draw) => draw.IsLeast ? "at least " : "";

    /// <summary>Where the loads say what they take.</summary>
    public static IEnumerable<RelatedPlace> Places(PowerNode node) =>
        node.Loads.OrderBy(load => load.Device.Name, StringComparer.Ordinal).Take(8).Select(load => Wording.Also(load.In!.At, $"{load.Device.Name}.{load.In.Name} takes {Least(load.Takes)}{load.Amount(load.Takes.Value)}"));
}
