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
                    (SignalKind.Audio, SignalKind.Midi) => "No note is played, and a loud output can stress the MIDI input.",
                    _ => null,
                },
                related: [Wording.Also(from.Port.At, $"{from.Text} is declared here"), Wording.Also(to.Port.At, $"{to.Text} is declared here")]);
        }
    }
}
