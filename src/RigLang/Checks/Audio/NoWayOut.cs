using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Audio;

public sealed class NoWayOut : Check
{
    public override string Name => "no-way-out";
    public override Severity Severity => Severity.Warning;
    public override string Title => "Sound that goes into a box and does not come out";
    public override string Why => "Everything that is plugged in before this box is heard by nobody.";
    public override string Advice => "Connect one of its outputs. If the sound goes to somebody else's gear there, add that as a device; if the box records it, say `records` in its gear.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Guitar {
          out out : audio mono instrument on ts 6.35 mm
        }
        gear Drive {
          in  in  : audio mono instrument on ts 6.35 mm
          out out : audio mono instrument on ts 6.35 mm
          route in to out
        }
        gear Amp {
          in low, high : audio mono instrument on ts 6.35 mm
        }
        gear Bass like Guitar {
        }
        device guitar : Guitar
        device bass   : Bass
        device drive  : Drive
        device amp    : Amp
        connect bass.out   to amp.low  with 3 m
        connect guitar.out to drive.in with 3 m

        """;
    public override string GoodExample => BadExample + "connect drive.out  to amp.high with 3 m\n";

    public override void Run(Rig rig, Report report)
    {
        HashSet<PortRef>? arrived = null;
        foreach (var device in SoundEnds.Known(rig))
        {
            var dead = SoundEnds.DeadInputs(rig, device).ToList();
            // Without a source before it, or a place where anything is heard, only a part of a table is written.
            if (dead.Count == 0)
            {
                continue;
            }
            arrived ??= SoundEnds.IsAnythingHeard(rig) ? [.. rig.Audio.Flow.Shares.Select(share => new PortRef(share.To.Device, share.To.Port))] : [];
            if (!dead.Exists(d => arrived.Contains(new PortRef(device, d.Input))))
            {
                continue;
            }
            var outputs = dead.SelectMany(d => d.Outputs).Distinct().ToList();
            var are = outputs.Count == 1 ? "nothing is plugged into" : "nothing is plugged into any of";
            report.Add(this, device.At, $"What comes in at {SoundEnds.Named(device, dead.Select(d => d.Input))} goes no further: {are} {SoundEnds.Named(device, outputs)}.",
                missing: new SoundStops(device),
                about: dead.Select(d => d.Input).Concat(outputs).Distinct().Select(port => new Subject(device, port)));
        }
    }
}
