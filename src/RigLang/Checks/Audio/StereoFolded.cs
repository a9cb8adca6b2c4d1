using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Audio;

public sealed class StereoFolded : Check
{
    public override string Name => "stereo-folded";
    public override Severity Severity => Severity.Hint;
    public override string Title => "Stereo that becomes mono inside a box";
    public override string Why => "The source gives two sides and the place where it ends has two, but a box between them has one channel only.";
    public override string Advice => "Take it out of the way of this source, use one lead for it, or accept it; a line `must audio from … reach … in mono` says the same.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Drums {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Sum {
          in  in  : audio stereo line on 2 ts 6.35 mm
          out out : audio mono line on ts 6.35 mm
          route in to out
        }
        gear Recorder {
          in line : audio stereo line normalled on 2 ts 6.35 mm
        }
        device drums : Drums
        device sum   : Sum
        device tape  : Recorder
        connect drums.main to sum.in         with 2 m
        connect sum.out    to tape.line.left with 2 m

        """;
    public override string GoodExample => BadExample + "must audio from drums reach tape in mono\n";

    public override void Run(Rig rig, Report report)
    {
        if (!rig.Names.Devices.Select(device => device.Gear).OfType<GearSymbol>().Distinct().Any(gear => gear.Routes.Groups.Any(group => group.From.Any(IsStereo) && group.To.Any(IsMono))))
        {
            return;
        }
        foreach (var (step, shares) in ShapeChanges.Of(rig, share => share.Shape == AudioShape.Folded && share.To.Channels == 2 && !IsMeant(rig, share)))
        {
            if (step is WayStep.Through through && IsStereo(through.From.Port) && IsMono(through.Port.Port))
            {
                report.Add(this, step.At, $"{ShapeChanges.Sources(shares)} {(shares.Count == 1 ? "is" : "are")} stereo, and mono from {through.Port} on.",
                    missing: new ShapeChanged(step),
                    about: [new Subject(through.Port.Device), new Subject(through.Port.Device, through.Port.Port)]);
            }
        }
    }

    private static bool IsStereo(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio, IsStereo: true };

    private static bool IsMono(PortSymbol port) => port.Signal is { Kind: SignalKind.Audio, IsStereo: false };

    /// <summary>A promise that asks for mono says that it is meant.</summary>
    private static bool IsMeant(Rig rig, AudioShare share) =>
        rig.Names.Expectations.Any(line => line.InStereo == false && ReferenceEquals(line.From.Device, share.Source.Device));
}
