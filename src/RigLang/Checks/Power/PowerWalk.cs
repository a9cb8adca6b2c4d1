using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

/// <summary>What the power checks ask of the nets.</summary>
internal static class PowerWalk
{
    /// <summary>Every jack with a plug in it that takes power through contacts of the given role, and the contact.</summary>
    public static IEnumerable<(JackRef Jack, int Contact, Hookup Hookup)> Loads(Rig rig, Role role)
    {
        for (var seat = 0; seat < rig.Nets.SeatCount; seat++)
        {
            if (rig.Wiring.Plugged[seat] is not { IsSound: true } hookup)
            {
                continue;
            }
            var jack = rig.Nets.Jack(seat);
            for (var i = 0; i < jack.Jack.Roles.Count; i++)
            {
                if (jack.Jack.Roles[i].Role == role && jack.Jack.Roles[i].Drive == Drive.In)
                {
                    yield return (jack, rig.Nets.Contact(seat, i), hookup);
                    break;
                }
            }
        }
    }

    /// <summary>The contact of this role of the same jack, or -1.</summary>
    public static int Sibling(Rig rig, JackRef jack, Role role)
    {
        for (var i = 0; i < jack.Jack.Roles.Count; i++)
        {
            if (jack.Jack.Roles[i].Role == role)
            {
                return rig.Nets.Contact(jack.Id, i);
            }
        }
        return -1;
    }

    /// <summary>True when the supply's minus is on the load's plus, or its plus on the load's minus.</summary>
    public static JackRef? ReversedSupply(Rig rig, JackRef load, int plus)
    {
        var minus = Sibling(rig, load, Role.Minus);
        var source = rig.Nets.Find(plus, Role.Minus, Drive.Out);
        source = source >= 0 || minus < 0 ? source : rig.Nets.Find(minus, Role.Plus, Drive.Out);
        return source < 0 ? null : rig.Nets.Jack(rig.Nets.SeatOf(source));
    }

    /// <summary>
    /// One wrong supply behind a splitter, a daisy chain or a strip is one mistake: where every load that it feeds is wrong,
    /// they come together, at the connection that plugs the supply in; otherwise each comes by itself, at its own.
    /// </summary>
    public static IEnumerable<(IReadOnlyList<JackRef> Loads, JackRef Supply, Hookup At)> ByCause(
        Rig rig, IEnumerable<(JackRef Load, JackRef Supply, Hookup Hookup)> wrong)
    {
        // Most rigs end here, and are spared the grouping.
        if (wrong.ToList() is not { Count: > 0 } all)
        {
            yield break;
        }
        foreach (var group in all.GroupBy(w => w.Supply))
        {
            if (rig.Wiring.Plugged[group.Key.Id] is { } plugged && group.Count() is > 1 and var count && count == LoadCount(rig, group.Key))
            {
                yield return ([.. group.Select(w => w.Load)], group.Key, plugged);
                continue;
            }
            foreach (var (load, supply, hookup) in group)
            {
                yield return ([load], supply, hookup);
            }
        }
    }

    /// <summary>
    /// Where one load alone has the wrong supply: another adapter in place of its own, or a free output or one more adapter that suits it.
    /// Empty where there is none.
    /// </summary>
    public static IReadOnlyList<Fix> RightSupply(FixPlan plan, IReadOnlyList<JackRef> loads, JackRef supply, Hookup hookup)
    {
        var fixes = new SupplyFix(plan);
        return loads.Count == 1 && plan.Mend(loads[0].Id) && (fixes.OtherAdapter(supply.Device, hookup) ?? fixes.Own(hookup)) is { } fix ? [fix] : [];
    }

    private static int LoadCount(Rig rig, JackRef supply)
    {
        var loads = new HashSet<int>();
        for (var i = 0; i < supply.Jack.Roles.Count; i++)
        {
            foreach (var member in rig.Nets.Members(rig.Nets.Contact(supply.Id, i)))
            {
                if (rig.Nets.RoleOf(member) is { Drive: Drive.In, Role: Role.Plus or Role.Minus or Role.Ac or Role.Line or Role.Neutral })
                {
                    loads.Add(rig.Nets.SeatOf(member));
                }
            }
        }
        return loads.Count;
    }
}
