using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Audio;

public sealed class PhantomMissing : Check
{
    public override string Name => "phantom-missing";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A microphone that needs phantom power on an input without it";
    public override string Why => "A condenser microphone or active DI box without its supply gives no sound at all.";
    public override string Advice => "Switch phantom power on at this input, or use one that has it.";
    public override string Source => "IEC 61938 (P48)";
    public override string BadExample => """
        gear Reed {
          out out : audio mono mic phantom on xlr-3
        }
        gear Desk {
          in mic1 : audio mono mic phantom on xlr-3
        }
        device voice : Reed
        device desk  : Desk
        connect voice.out to desk.mic1
        """;
    public override string GoodExample => """
        gear Reed {
          out out : audio mono mic phantom on xlr-3
        }
        gear Desk {
          in mic1 : audio mono mic phantom on xlr-3
        }
        device voice : Reed
        device desk  : Desk {
          mic1 phantom on
        }
        connect voice.out to desk.mic1
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var link in rig.Links.Links)
        {
            if (link.Kind == SignalKind.Audio && link.From.Port.Signal is { Phantom: true } && !PhantomIntoOutput.HasPhantom(link) && !HasOtherSupply(rig, link.From.Device))
            {
                report.Add(this, link.Hookup.Connection.At, $"{link.From} needs phantom power, and {link.To} does not give it.",
                    advice: link.To.Port.Signal is { Phantom: true } ? $"Write `{link.To.Port.Name} phantom on` in the block of {link.To.Device.Name}." : null);
            }
        }
    }

    private static bool HasOtherSupply(Rig rig, DeviceSymbol device) =>
        device.OnBattery || device.Gear!.Ports.Exists(p => !p.IsOutput && p.Signal is { IsPower: true } && rig.Wiring.IsPlugged(device, p));
}
