using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Audio;

public sealed class VoiceUnheard : Check
{
    public override string Name => "voice-unheard";
    public override Severity Severity => Severity.Warning;
    public override string Title => "An instrument that is played and has no lead for its sound";
    public override string Why => "The notes arrive and nobody hears them: the cable that is missed first on stage.";
    public override string Advice => "Connect one of its outputs; accept it if the box is heard by its own loudspeaker.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Seq {
          out midi : midi on din-5
          track a, b sends midi
        }
        gear Tern {
          in  midi : midi            on din-5
          out thru : midi            on din-5
          out line : audio mono line on ts 6.35 mm
          route midi to thru
          part voice receives midi on channel any, sounds at line
        }
        gear Amp {
          in low, high : audio mono line on ts 6.35 mm
        }
        device seq : Seq {
          a on channel 1
          b on channel 2
        }
        device bass : Tern {
          voice on channel 1
        }
        device lead : Tern {
          voice on channel 2
        }
        device amp : Amp
        connect seq.midi  to bass.midi
        connect bass.thru to lead.midi
        connect bass.line to amp.low with 3 m

        """;
    public override string GoodExample => BadExample + "connect lead.line to amp.high with 3 m\n";

    public override void Run(Rig rig, Report report)
    {
        var mute = SoundEnds.Mute(rig).ToList();
        if (mute.Count == 0 || !SoundEnds.IsAnythingHeard(rig) || SoundEnds.Known(rig).Any(device => SoundEnds.DeadOutputs(rig, device).Any()))
        {
            // What passes nothing on although it could is told there, and names the instrument.
            return;
        }
        var devices = mute.Select(m => m.Device).ToHashSet();
        var played = rig.Midi.Listeners.Where(listener => devices.Contains(listener.Device) && IsPlayed(rig, listener)).Select(listener => listener.Device).ToHashSet();
        foreach (var (device, outputs) in mute.Where(m => played.Contains(m.Device)))
        {
            report.Add(this, device.At, $"{Wording.Written(device.Name)} is played, and nothing is plugged into {SoundEnds.Named(device, outputs, " or ")}.",
                missing: new SoundStops(device),
                about: outputs.Select(port => new Subject(device, port)));
        }
    }

    private static bool IsPlayed(Rig rig, Listener listener) => listener.Nodes.Any(node =>
        rig.Midi.Flow.AtomsAt(node, MessageKinds.Notes).Any(atom => listener.Channel.Hears(atom.Atom.Channel) == true));
}
