using RigLang.Symbols;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Flow;

/// <summary>One change that ends a way: a filter for <paramref name="Drops"/> at a port, or a cable taken out.</summary>
public sealed record Cut(PortRef? Port, MessageKinds Drops, Hookup? Cable);

/// <summary>Looks for the one change that makes a `never` hold: a filter near the target where the gear has one, else a cable.</summary>
public static class Cuts
{
    /// <summary>So many places of a way are tried, those nearest to the target first: farther away a change takes more with it.</summary>
    private const int MostTried = 32;

    /// <summary>Null when no single change will do.</summary>
    public static Cut? Of(Rig rig, Outcome outcome)
    {
        Cut? first = null;
        foreach (var cut in Filters(outcome).Take(MostTried).Concat(Cables(outcome).Take(MostTried)).Where(cut => Expectations.HoldsWithout(rig, outcome, cut)))
        {
            if (KeepsPromises(rig, cut))
            {
                return cut;
            }
            first ??= cut;
        }
        return first;
    }

    private static IEnumerable<Cut> Filters(Outcome outcome)
    {
        var kinds = outcome.Missing;
        return FromTheTarget(outcome.Hops).Select(step => step.Port).Distinct()
            .Where(port => kinds != MessageKinds.None && (port.Device.Gear!.Filters & kinds) == kinds)
            .Select(port => new Cut(port, kinds, null));
    }

    private static IEnumerable<Cut> Cables(Outcome outcome) =>
        FromTheTarget(outcome.Hops).OfType<WayStep.Cable>().Select(step => new Cut(null, MessageKinds.None, step.Hookup));

    private static IEnumerable<WayStep> FromTheTarget(IReadOnlyList<WayStep> hops)
    {
        for (var i = hops.Count - 1; i >= 0; i--)
        {
            yield return hops[i];
        }
    }

    /// <summary>Whether everything that the players rely on still arrives.</summary>
    private static bool KeepsPromises(Rig rig, Cut cut) => rig.Outcomes
        .Where(o => o.Expectation.Must && o.Holds && (cut.Port is null || (o.Expectation.Messages & cut.Drops) != MessageKinds.None))
        .All(o => Expectations.HoldsWithout(rig, o, cut));
}
