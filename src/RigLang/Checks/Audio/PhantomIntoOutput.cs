using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Audio;

public sealed class PhantomIntoOutput : Check
{
    public override string Name => "phantom-into-output";
    public override Severity Severity => Severity.Error;
    public override Harm Harm => Harm.Gear;
    public override string Title => "48 V phantom power into an output not built for it";
    public override string Why => "The output gets 48 V through 6.8 kilohms on its contacts: it can be damaged, and the plug bangs loudly.";
    public override string Advice => "Switch phantom power off on this input, use a line input, or put a transformer DI box between them.";
    public override string Source => "IEC 61938 (P48); common practice";
    public override string BadExample => """
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in mic1 : audio mono mic phantom on xlr-3
        }
        device bass : Wren
        device desk : Desk {
          mic1 phantom on
        }
        connect bass.line to desk.mic1
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

    /// <summary>
    /// True when the input has phantom switched on and the output is not built for it. A balanced microphone without the need
    /// for it does not mind, nor does a transformer (common practice).
    /// </summary>
    public static bool IsHurt(Link link) =>
        HasPhantom(link)
        && link.From.Port.Signal is { Phantom: false } from
        && from.Balance != Balance.Forgiving
        && !(from.Level == AudioLevel.Mic && from.Balance == Balance.Balanced);

    /// <summary>True when the plug gets phantom power: it is on, and on a combination jack only the XLR contacts carry it.</summary>
    internal static bool HasPhantom(Link link) =>
        link.To.Device.PhantomOn.Contains(link.To.Port)
        && !(link.To.Port.Jacks[0].Form.Name == "combo"
            && link.Hookup.Leads.Any(lead => lead.Ends.Any(end => end.Form.Name is "ts 6.35 mm" or "trs 6.35 mm"))
            && !link.Hookup.Leads.Any(lead => lead.Ends.Any(end => end.Form.Name == "xlr-3")));

    public override void Run(Rig rig, Report report)
    {
        foreach (var link in rig.Links.Links)
        {
            if (link.Kind == SignalKind.Audio && IsHurt(link))
            {
                report.Add(this, link.Hookup.Connection.At, $"{link.To} has phantom power on, and {link.From} is {link.From.Port.Signal!.Describe()}, not built for it.");
            }
        }
    }
}
