using RigLang.Findings;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Power;

public sealed class EarthMissing : Check
{
    private const string Remedies =
        "Restore the earth: a three-contact lead into an earthed socket. Against hum use a line isolator, a DI box, balanced lines or one common socket strip. "
        + "Mains wiring follows local code; leave it to a licensed electrician.";

    public override string Name => "earth-missing";
    public override Severity Severity => Severity.Error;
    public override string Title => "Mains gear without its protective earth";
    public override string Why => "If its insulation fails, the case and every string, microphone and jack joined to it can be live: this kills.";
    public override string Advice => Remedies;
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
        foreach (var port in rig.Names.Gear.Values.SelectMany(g => g.Ports).Where(p => p.Signal is { Earth: EarthClass.Lifted }))
        {
            report.Add(this, port.At, $"{port.Gear.Name}.{port.Name} is described as having lost its protective earth. Do not switch it on.");
        }
        foreach (var (load, contact, hookup) in PowerWalk.Loads(rig, Role.Earth))
        {
            var line = PowerWalk.Sibling(rig, load, Role.Line);
            if (line >= 0 && rig.Nets.Find(line, Role.Line, Drive.Out) >= 0 && rig.Nets.Find(contact, Role.Earth, Drive.Out) < 0)
            {
                report.Add(this, hookup.Connection.At, $"{load} needs a protective earth, and none reaches it on this way from the wall. Do not switch it on.");
            }
        }
    }
}
