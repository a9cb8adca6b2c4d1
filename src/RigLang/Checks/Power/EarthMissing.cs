using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class EarthMissing : Check
{
    public override string Name => "earth-missing";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.People;
    public override string Title => "Mains gear without its protective earth";
    public override string Why => "If its insulation fails, the case and every string, microphone and jack joined to it can be live: this kills.";
    public override string Advice =>
        "Restore the earth: a three-contact lead into an earthed socket. Against hum use a line isolator, a DI box, balanced lines or one common socket strip.";
    public override string Source => "IEC 61140 (class I), IEC 60364-4-41; a protective earth is never lifted, whatever hums";
    public override string BadExample => """
        gear Wall {
          out socket : mains 230 V earthed on mains
        }
        gear Desk {
          in power : mains 230 V lifted, 40 W on iec-c14
        }
        device wall : Wall
        device desk : Desk
        connect wall.socket to desk.power
        """;
    public override string GoodExample => BadExample.Replace("230 V lifted", "230 V earthed", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var gear in rig.Names.AllGear)
        {
            foreach (var port in gear.Ports.FindAll(p => p.Signal is { Earth: EarthClass.Lifted }))
            {
                report.Add(this, port.At, $"{gear.Name}.{port.Name} is described as having lost its protective earth. Do not switch it on.");
            }
        }
        // Most rigs end here, and are spared the grouping.
        if (Unearthed(rig).ToList() is { Count: > 0 } unearthed)
        {
            TellUnearthed(rig, unearthed, report);
        }
    }

    private void TellUnearthed(Rig rig, List<JackRef> unearthed, Report report)
    {
        var known = new Dictionary<int, (JackRef, Hookup)>();
        foreach (var lost in unearthed.GroupBy(load => WhereLost(rig, load, known)))
        {
            var (outlet, hookup) = lost.Key;
            var loads = lost.ToList();
            var it = loads.Count == 1 ? "it" : "them";
            report.Add(this, hookup.Connection.At, $"{Wording.And(loads.Select(l => l.ToString()))} {(loads.Count == 1 ? "needs" : "need")} a protective earth, and "
                + (HasEarth(rig, outlet) ? $"{Wording.LeadOf(hookup)} does not bring it from {outlet}" : $"{outlet} has none") + $". Do not switch {it} on.");
        }
    }

    private static IEnumerable<JackRef> Unearthed(Rig rig)
    {
        foreach (var (load, contact, _) in PowerWalk.Loads(rig, Role.Earth))
        {
            var line = PowerWalk.Sibling(rig, load, Role.Line);
            if (line >= 0 && rig.Nets.Find(line, Role.Line, Drive.Out) >= 0 && rig.Nets.Find(contact, Role.Earth, Drive.Out) < 0)
            {
                yield return load;
            }
        }
    }

    /// <summary>From the load back to the wall, through strips: the last connection that the earth does not come over, and the outlet before it.</summary>
    /// <param name="known">The answer for the plugs on the way of loads before it: thousands may hang on the same strips.</param>
    private static (JackRef Outlet, Hookup Hookup) WhereLost(Rig rig, JackRef load, Dictionary<int, (JackRef Outlet, Hookup Hookup)> known)
    {
        var seen = new HashSet<int>();
        while (true)
        {
            var hookup = rig.Wiring.Plugged[load.Id]!;
            var outlet = hookup.Jacks
                .Where(j => j.Id != load.Id && AreJoined(rig, j, load, Role.Line))
                .OrderByDescending(j => j.Jack.Port.IsOutput)
                .FirstOrDefault(load);
            if (!AreJoined(rig, outlet, load, Role.Earth) || rig.Wiring.PlugOf(outlet) is not { } plug || seen.Contains(plug.Id))
            {
                return Keep((outlet, hookup));
            }
            if (known.TryGetValue(plug.Id, out var lost))
            {
                return Keep(lost);
            }
            seen.Add(plug.Id);
            load = plug;
        }

        (JackRef, Hookup) Keep((JackRef Outlet, Hookup Hookup) lost)
        {
            foreach (var plug in seen)
            {
                known[plug] = lost;
            }
            return lost;
        }
    }

    private static bool AreJoined(Rig rig, JackRef a, JackRef b, Role role) =>
        PowerWalk.Sibling(rig, a, role) is >= 0 and var onA && PowerWalk.Sibling(rig, b, role) is >= 0 and var onB && rig.Nets.AreJoined(onA, onB);

    private static bool HasEarth(Rig rig, JackRef outlet) =>
        PowerWalk.Sibling(rig, outlet, Role.Earth) is >= 0 and var earth && rig.Nets.Find(earth, Role.Earth, Drive.Out) >= 0;
}
