using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Audio;

public sealed class AudioLoop : Check
{
    public override string Name => "audio-loop";
    public override Severity Severity => Severity.Warning;
    public override string Title => "Audio that comes back to where it was";
    public override string Why => "With every level up on the way it feeds itself: a howl that grows as loud as the amplifiers can, within a second. It hurts ears and loudspeakers.";
    public override string Advice => "Leave one of these cables out, or close the way inside a box: mute the channel, or turn its send off.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Guitar {
          out out : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in  ch1      : audio mono line     on ts 6.35 mm
          in  ch34     : audio stereo line   on 2 ts 6.35 mm
          out main     : audio stereo line   on 2 ts 6.35 mm
          out record   : audio stereo line   on 2 ts 6.35 mm
          route ch1, ch34 to main, record
        }
        gear Recorder {
          in  line : audio stereo line on 2 ts 6.35 mm
          out line-out : audio stereo line on 2 ts 6.35 mm
          route line to line-out
        }
        device guitar : Guitar
        device desk   : Desk
        device tape   : Recorder
        connect guitar.out    to desk.ch1  with 2 m
        connect desk.record   to tape.line with 2 m
        connect tape.line-out to desk.ch34 with 2 m
        """;
    public override string GoodExample => BadExample.Replace("connect tape.line-out to desk.ch34 with 2 m", "connect desk.main to phones.line with 2 m\ndevice phones : Recorder", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var loop in SoundLoops.Of(rig))
        {
            var first = loop.OfType<WayStep.Cable>().OrderBy(WayWords.Of, StringComparer.Ordinal).First();
            report.Add(this, first.At, $"Audio can feed itself: {Wording.Way(loop)}.",
                related: Wording.Places([.. loop.Where(step => step is WayStep.Cable && step.At != first.At)]),
                about: loop.Select(step => new Subject(step.Port.Device, step.Port.Port)).Distinct());
        }
    }
}
