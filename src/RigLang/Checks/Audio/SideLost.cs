using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Wiring;

namespace RigLang.Checks.Audio;

public sealed class SideLost : Check
{
    public override string Name => "side-lost";
    public override Severity Severity => Severity.Warning;
    public override string Title => "One side of a stereo signal that is heard nowhere";
    public override string Why => "What is panned to that side is missing for the audience and on the recording: half of the drums, one hand of the piano.";
    public override string Advice => "Plug in the other jack of the pair as well. If one jack alone carries both sides, say so in the gear with `normalled`; or set it to `mono`.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Drums {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Desk {
          in  ch12 : audio stereo line on 2 ts 6.35 mm
          out main : audio stereo line on 2 ts 6.35 mm
          route ch12 to main
        }
        gear Speaker {
          in line : audio mono line on ts 6.35 mm
        }
        device drums : Drums
        device desk  : Desk
        device left, right : Speaker
        connect drums.main     to desk.ch12  with 3 m
        connect desk.main.left to left.line  with 3 m

        """.Replace("device left, right", "device left", StringComparison.Ordinal);
    public override string GoodExample => BadExample.Replace("device left ", "device left, right ", StringComparison.Ordinal) + "connect desk.main.right to right.line with 3 m\n";

    public override void Run(Rig rig, Report report)
    {
        var halves = Halves(rig).ToList();
        if (halves.Count == 0)
        {
            return;
        }
        var flow = rig.Audio.Flow;
        var lost = flow.Sources.Where(source => source.IsStereo).SelectMany(source => LostOf(flow, source).Select(side => (Source: source, Side: side))).ToList();
        foreach (var (port, free, cable) in halves)
        {
            // Which jack of its own a source carries both sides at, its gear may have left unsaid.
            var here = lost.Where(l => l.Side == free && l.Source.Device != port.Device && flow.From(l.Source).Any(share => flow.WayOf(share).Any(step => step.Port == port && IsBothAt(rig, l.Source, port)))).ToList();
            if (here.Count == 0)
            {
                continue;
            }
            var side = free == Side.Left ? "left" : "right";
            var names = here.Select(l => l.Source.Text).Distinct().ToList();
            report.Add(this, cable.Connection.At,
                $"The {side} of {Wording.And(names)} is heard nowhere: nothing is plugged into {port}.{side}.",
                about: [new Subject(port.Device, port.Port)]);
        }
    }

    /// <summary>Stereo outputs on two jacks of which one has a plug and the other, which needs one, has none.</summary>
    private static IEnumerable<(PortRef Port, Side Free, Hookup Cable)> Halves(Rig rig)
    {
        foreach (var device in rig.Names.Devices)
        {
            foreach (var port in device.Gear?.Ports ?? [])
            {
                if (port is not { IsOutput: true, IsPassive: false, Jacks.Count: 2, Signal: { Kind: SignalKind.Audio, IsStereo: true } })
                {
                    continue;
                }
                var (left, right) = (rig.Wiring.Plugged[device.FirstJack + port.Jacks[0].Index], rig.Wiring.Plugged[device.FirstJack + port.Jacks[1].Index]);
                if (left is { IsSound: true } && right is null && !port.Signal.Normalled)
                {
                    yield return (new PortRef(device, port), Side.Right, left);
                }
                else if (right is { IsSound: true } && left is null)
                {
                    yield return (new PortRef(device, port), Side.Left, right);
                }
            }
        }
    }

    /// <summary>The side of a source that is heard nowhere, where the other one is.</summary>
    private static IEnumerable<Side> LostOf(AudioFlow flow, AudioSource source)
    {
        var shares = flow.From(source).ToList();
        var (left, right) = (IsHeard(AudioImage.Left), IsHeard(AudioImage.Right));
        if (left != right)
        {
            yield return left ? Side.Right : Side.Left;
        }

        bool IsHeard(int channel) => shares.Exists(share => share.Channels.Any(at => share.Amount(channel, at) != 0));
    }

    /// <summary>True when both sides still come as far as this output: it is here that one of them is lost.</summary>
    private static bool IsBothAt(Rig rig, AudioSource source, PortRef port) => rig.Audio.Follow(source.Target, reach =>
    {
        var image = reach.In(rig.Audio.Map.Out(port.Device, port.Port));
        return image.Lanes.Any(lane => lane.LeftShare != 0) && image.Lanes.Any(lane => lane.RightShare != 0);
    });
}
