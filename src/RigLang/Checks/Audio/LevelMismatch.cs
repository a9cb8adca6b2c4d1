using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class LevelMismatch : Check
{
    public override string Name => "level-mismatch";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A level the input is not made for";
    public override string Why => "Too loud an input distorts and cannot be turned down; too quiet a one drowns in hiss.";
    public override string Advice => "Use the input made for this level, a DI box, or a pad.";
    public override string Source => "common practice: microphone -60 to -30 dBu, line -10 dBV or +4 dBu, loudspeaker many volts";
    public override string BadExample => """
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in mic1 : audio mono mic on xlr-3
        }
        device bass : Wren
        device desk : Desk
        connect bass.line to desk.mic1
        """;
    public override string GoodExample => """
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in line1 : audio mono line on xlr-3
        }
        device bass : Wren
        device desk : Desk
        connect bass.line to desk.line1
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var link in rig.Links.Links)
        {
            if (link.Kind != SignalKind.Audio || link.From.Port.Signal is not { } from || link.To.Port.Signal is not { Kind: SignalKind.Audio } to
                || PhantomIntoOutput.IsHurt(link))
            {
                continue;
            }
            var fromSpeaker = from.Level == AudioLevel.Speaker;
            var toSpeaker = to.Level == AudioLevel.Speaker;
            if (fromSpeaker != toSpeaker)
            {
                report.Add(this, link.Hookup.Connection.At, fromSpeaker
                        ? $"{link.From} drives a loudspeaker, and {link.To} is for {to.Describe()}."
                        : $"{link.To} is a loudspeaker, and {link.From} is {from.Describe()}.",
                    why: fromSpeaker
                        ? "A power amplifier's many volts destroy an input, and its output may not share a ground."
                        : "A line output cannot drive a loudspeaker; a loudspeaker needs an amplifier.",
                    advice: fromSpeaker ? "Take the signal before the power amplifier, or use a DI box made for loudspeaker level." : "Put a power amplifier between them.",
                    severity: Severity.Error);
            }
            else if (to.Level == AudioLevel.Mic && from.Level is AudioLevel.Line or AudioLevel.Headphone)
            {
                report.Add(this, link.Hookup.Connection.At, $"{link.From} is {from.Describe()}, but {link.To} is a microphone input: 30 to 60 dB too loud.");
            }
            else if (from.Level == AudioLevel.Mic && to.Level is AudioLevel.Line or AudioLevel.Headphone)
            {
                report.Add(this, link.Hookup.Connection.At, $"{link.From} is a microphone, but {link.To} is for {to.Describe()}: 30 to 60 dB too quiet.",
                    advice: "Use a microphone input or a microphone preamplifier.");
            }
        }
    }
}
