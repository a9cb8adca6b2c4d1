using RigLang.Findings;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class AcDcMismatch : Check
{
    public override string Name => "ac-dc-mismatch";
    public override Severity Severity => Severity.Error;
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
        foreach (var (load, contact, hookup) in PowerWalk.Loads(rig, Role.Plus))
        {
            Tell(load, hookup, OnEither(rig, load, contact, Role.Minus, Role.Ac), "AC", "DC", report, rig);
        }
        foreach (var (load, contact, hookup) in PowerWalk.Loads(rig, Role.Ac))
        {
            var source = rig.Nets.Find(contact, Role.Plus, Drive.Out);
            Tell(load, hookup, source >= 0 ? source : rig.Nets.Find(contact, Role.Minus, Drive.Out), "DC", "AC", report, rig);
        }
    }

    private static int OnEither(Rig rig, Symbols.JackRef load, int contact, Role sibling, Role wanted)
    {
        var found = rig.Nets.Find(contact, wanted, Drive.Out);
        var other = PowerWalk.Sibling(rig, load, sibling);
        return found >= 0 || other < 0 ? found : rig.Nets.Find(other, wanted, Drive.Out);
    }

    private void Tell(Symbols.JackRef load, Hookup hookup, int source, string given, string wanted, Report report, Rig rig)
    {
        if (source >= 0)
        {
            report.Add(this, hookup.Connection.At, $"{rig.Nets.Jack(rig.Nets.SeatOf(source))} gives {given}, but {load} wants {wanted}.");
        }
    }
}
