using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Audio;

public sealed class NoWayIn : Check
{
    public override string Name => "no-way-in";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A box that passes sound on and gets none";
    public override string Why => "A cable was forgotten: what should go through this box does not, and the channel behind it stays silent.";
    public override string Advice => "Connect what should go through it; if the box makes the sound itself, say so in its gear with `part` or `sound`.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Keys {
          in  midi : midi            on din-5
          out midi-out : midi        on din-5
          out line : audio mono line on ts 6.35 mm
        }
        gear Press {
          in  in  : audio mono line on ts 6.35 mm
          out out : audio mono line on ts 6.35 mm
          route in to out
        }
        gear Amp {
          in low, high : audio mono line on ts 6.35 mm
        }
        device keys, bass : Keys
        device comp : Press
        device amp  : Amp
        connect keys.midi-out to bass.midi
        connect bass.line to amp.low  with 3 m
        connect comp.out  to amp.high with 3 m

        """;
    public override string GoodExample => BadExample + "connect keys.line to comp.in with 3 m\n";

    public override void Run(Rig rig, Report report)
    {
        IReadOnlyList<string>? mute = null;
        foreach (var device in SoundEnds.Known(rig))
        {
            var dead = SoundEnds.DeadOutputs(rig, device).ToList();
            // Somebody may come and plug in there; not so where an instrument stands beside it without a lead for its sound.
            if (dead.Count == 0)
            {
                continue;
            }
            mute ??= SoundEnds.IsAnythingHeard(rig) ? [.. SoundEnds.Mute(rig).Select(one => one.Device.Name).Order(StringComparer.Ordinal)] : [];
            if (mute.Count == 0)
            {
                return;
            }
            var inputs = dead.SelectMany(d => d.Inputs).Distinct().ToList();
            var are = inputs.Count == 1 ? "nothing is plugged into" : "nothing is plugged into any of";
            report.Add(this, device.At, $"Nothing comes out at {SoundEnds.Named(device, dead.Select(d => d.Output))}: {are} {SoundEnds.Named(device, inputs)}. {Wording.And(mute)} {(mute.Count == 1 ? "has" : "have")} no lead for {(mute.Count == 1 ? "its" : "their")} sound.",
                missing: new SoundStops(device) { Origins = [.. inputs.Select(input => new Origin.Ports(new PortRef(device, input).ToString()))] },
                about: dead.Select(d => d.Output).Concat(inputs).Distinct().Select(port => new Subject(device, port)));
        }
    }
}
