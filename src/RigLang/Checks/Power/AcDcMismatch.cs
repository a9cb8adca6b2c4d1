using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class AcDcMismatch : Check
{
    public override string Name => "ac-dc-mismatch";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.Gear;
    public override string Title => "An AC supply into a DC jack, or the other way round";
    public override string Why => "AC reverses the polarity many times a second and can destroy a DC device; an AC device does not start on DC.";
    public override string Advice => "Read the output line of the adapter: it says AC or DC, or shows ~ for AC and a straight line for DC.";
    public override string Source => "common practice; IEC 60417-5031 (DC) and 5032 (AC) for the symbols";
    public override string BadExample => """
        gear Brick {
          out out : ac 9 V, 1 A on captive barrel 5.5x2.1 mm
        }
        gear Tern {
          in power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
        }
        device brick : Brick
        device bass  : Tern
        connect brick.out to bass.power
        """;
    public override string GoodExample => BadExample.Replace("ac 9 V, 1 A", "dc 9 V centre-positive, 1 A", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        Tell(Fed(rig, Role.Plus, (load, contact) => OnEither(rig, load, contact, Role.Minus, Role.Ac)), "AC", "DC", rig, report);
        Tell(Fed(rig, Role.Ac, (_, contact) => DcOn(rig, contact)), "DC", "AC", rig, report);
    }

    private static IEnumerable<(JackRef Load, JackRef Supply, Hookup Hookup)> Fed(Rig rig, Role role, Func<JackRef, int, int> sourceOn)
    {
        foreach (var (load, contact, hookup) in PowerWalk.Loads(rig, role))
        {
            if (sourceOn(load, contact) is >= 0 and var source)
            {
                yield return (load, rig.Nets.Jack(rig.Nets.SeatOf(source)), hookup);
            }
        }
    }

    private static int DcOn(Rig rig, int contact)
    {
        var source = rig.Nets.Find(contact, Role.Plus, Drive.Out);
        return source >= 0 ? source : rig.Nets.Find(contact, Role.Minus, Drive.Out);
    }

    private static int OnEither(Rig rig, JackRef load, int contact, Role sibling, Role wanted)
    {
        var found = rig.Nets.Find(contact, wanted, Drive.Out);
        var other = PowerWalk.Sibling(rig, load, sibling);
        return found >= 0 || other < 0 ? found : rig.Nets.Find(other, wanted, Drive.Out);
    }

    private void Tell(IEnumerable<(JackRef Load, JackRef Supply, Hookup Hookup)> fed, string given, string wanted, Rig rig, Report report)
    {
        foreach (var (loads, supply, hookup) in PowerWalk.ByCause(rig, fed))
        {
            report.Add(this, hookup.Connection.At,
                $"{supply} gives {given}, but {Wording.And(loads.Select(l => l.ToString()))} {(loads.Count == 1 ? "wants" : "want")} {wanted}.",
                fixes: plan => PowerWalk.RightSupply(plan, loads, supply, hookup));
        }
    }
}
