using RigLang.Findings;
using RigLang.Flow;
using RigLang.Flow.Ground;
using RigLang.Text;

namespace RigLang.Checks.Ground;

public sealed class GroundLoopHeard : Check
{
    public override string Name => "ground-loop";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A ground loop that is heard";
    public override string Why =>
        "Current goes round in the loop of screens, supply returns, USB grounds or earths; where it passes an unbalanced cable it adds to the sound as hum, buzz or whine.";
    public override string Advice => "Isolate one link of it: a line isolator, a DI box, an isolated supply output, a USB isolator.";
    public override string Caution => GroundAdvice.Safety;
    public override string Source => "AES48 for screens and grounds; common practice for remedies and for what is heard; IEC 61140: a protective earth is never lifted";
    public override string BadExample => """
        gear Chain {
          in  in         : dc on barrel 5.5x2.1 mm
          out out1, out2 : dc on captive barrel 5.5x2.1 mm
          join in to out1, out2
        }
        gear Brick {
          out main : dc 9 V centre-negative, 1 A          on captive barrel 5.5x2.1 mm
          out own  : dc 9 V centre-negative isolated, 1 A on captive barrel 5.5x2.1 mm
        }
        gear Pedal {
          in  power : dc 9 V centre-negative, 50 mA on barrel 5.5x2.1 mm
          in  in    : audio mono line               on ts 6.35 mm
          out out   : audio mono line               on ts 6.35 mm
          route in to out
        }
        gear Tern {
          out line : audio mono line on ts 6.35 mm
        }
        device brick : Brick
        device chain : Chain
        device tern  : Tern
        device fuzz  : Pedal
        device echo  : Pedal
        connect brick.main to chain.in
        connect chain.out1 to fuzz.power
        connect chain.out2 to echo.power
        connect tern.line  to fuzz.in with 1 m
        connect fuzz.out   to echo.in with 1 m
        """;
    public override string GoodExample => BadExample.Replace("connect chain.out2", "connect brick.own", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var cut in rig.Ground.Cure)
        {
            var ground = rig.Ground.Ground;
            report.Add(this, cut.Bundle.Links[0].Hookup.Connection.At,
                $"{Closing(cut.Bundle)} closes a ground loop that is heard.",
                why: $"{Prose.InOrder(cut.Loop.Reasons, "; ", MostReasons)}.",
                advice: $"{GroundAdvice.For(cut.Bundle)}.",
                related: cut.Loop.Links.Take(Prose.MostPlaces).Select((link, i) => Wording.Also(link.Hookup.Connection.At,
                    i == 0 ? $"the loop: {Round(ground, cut.Loop)}" : $"hop {i + 1} of the loop: {link.Text}")),
                fixes: plan => new IsolatingFix(plan).For(cut.Bundle) is { } fix ? [fix] : []);
        }
    }

    private const int MostReasons = 2;

    /// <summary>Ends as they are written; "The mains plug of laptop".</summary>
    private static string Closing(GroundBundle bundle) => bundle.Links[0] is { IsEarth: true } earth
        ? Prose.Capital(earth.Text)
        : Wording.And(bundle.Links.Select(l => Wording.Ends(l.Hookup.Connection)).Distinct());

    /// <summary>"chain → fuzz → echo → chain".</summary>
    private static string Round(GroundGraph ground, GroundLoop loop)
    {
        var at = loop.Links.Count > 1 && (loop.Links[^1].A == loop.Links[0].A || loop.Links[^1].B == loop.Links[0].A) ? loop.Links[0].A : loop.Links[0].B;
        var names = new List<string> { ground.Domains[at].Name };
        foreach (var link in loop.Links)
        {
            at = link.A == at ? link.B : link.A;
            names.Add(ground.Domains[at].Name);
        }
        return Prose.Chain(names);
    }
}
