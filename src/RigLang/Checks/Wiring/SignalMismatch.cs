using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Wiring;

public sealed class SignalMismatch : Check
{
    public override string Name => "signal-mismatch";
    public override Severity Severity => Severity.Error;
    public override string Title => "Look-alike jacks that carry different signals";
    public override string Why => "The plug goes in, but the signal means nothing there: clicks in the mix, no sync, or worse.";
    public override string Advice => "Find the jack with the same signal; the same plug on a panel says nothing about what is on it.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out sync : pulse 2 ppqn 5 V on ts 3.5 mm
        }
        gear Desk {
          in aux : audio mono line on ts 3.5 mm
        }
        device seq  : Rook
        device desk : Desk
        connect seq.sync to desk.aux
        """;
    public override string GoodExample => """
        gear Rook {
          out sync : pulse 2 ppqn 5 V on ts 3.5 mm
        }
        gear Tern {
          in sync : pulse 2 ppqn 5 V on ts 3.5 mm
        }
        device seq  : Rook
        device bass : Tern
        connect seq.sync to bass.sync
        """;

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups)
        {
            if (hookup.Mismatch is not var (from, to))
            {
                continue;
            }
            report.Add(this, hookup.Connection.At,
                $"{from.Text} carries {from.Port.Signal!.Describe()}, but {to.Text} is for {to.Port.Signal!.Describe()}.",
                why: (from.Port.Signal.Kind, to.Port.Signal.Kind) switch
                {
                    (SignalKind.Pulse, SignalKind.Audio) => "Every pulse is a loud click in the mix, and nothing is synchronised.",
                    (SignalKind.Audio, SignalKind.Pulse) => "Audio makes a sync input step at random, if at all.",
                    (SignalKind.DinSync, SignalKind.Midi) or (SignalKind.Midi, SignalKind.DinSync) =>
                        "MIDI and DIN sync share the socket, but not the pins: nothing arrives.",
                    (SignalKind.Midi, SignalKind.Audio) => "MIDI on an audio input is a loud buzz, and no note is played.",
                    (SignalKind.Control or SignalKind.Pulse, SignalKind.Control or SignalKind.Pulse) =>
                        ControlMeeting.WhyNot(from.Port.Signal, to.Port.Signal),
                    (SignalKind.Audio, SignalKind.Midi) => "No note is played, and a loud output can stress the MIDI input.",
                    _ => null,
                },
                related: [Wording.Also(from.Port.At, $"{from.Text} is declared here"), Wording.Also(to.Port.At, $"{to.Text} is declared here")]);
        }
        TellOfControls(rig, report);
    }

    /// <summary>Controls of kinds that can meet, and still do not work as they are meant.</summary>
    private void TellOfControls(Rig rig, Report report)
    {
        foreach (var link in rig.Links.Links)
        {
            if (link.From.Port.Signal is { Kind: SignalKind.Control or SignalKind.Pulse } from
                && link.To.Port.Signal is { Kind: SignalKind.Control or SignalKind.Pulse } to
                && ControlMeeting.Reservation(from, to) is { } reservation)
            {
                report.Add(this, link.Hookup.Connection.At, $"{link.From} to {link.To}: {reservation}.",
                    why: "It works the wrong way round, or now and then, or not at all.",
                    advice: "Set the box for what is plugged in, if it has such a setting, and declare it so; or take another output or pedal.",
                    related:
                    [
                        Wording.Also(link.From.Port.At, $"{link.From} is declared here"),
                        Wording.Also(link.To.Port.At, $"{link.To} is declared here"),
                    ],
                    severity: Severity.Warning);
            }
        }
    }
}
