using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Audio;

public sealed class NothingHeard : Check
{
    public override string Name => "nothing-heard";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A loudspeaker, headphones or recorder at which nothing arrives";
    public override string Why => "It stands there, it is switched on, and it stays silent: one ear, one side of the hall, or the whole recording.";
    public override string Advice => "Follow its cable back to where something sounds, and connect what is missing there.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Drums {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Desk {
          in  ch12, ch34   : audio stereo line on 2 ts 6.35 mm
          out main, record : audio stereo line on 2 ts 6.35 mm
          route ch12 to main
          route ch34 to record
        }
        gear Speaker {
          in line : audio stereo line on 2 ts 6.35 mm
        }
        device drums : Drums
        device desk  : Desk
        device hall, monitor : Speaker
        connect drums.main  to desk.ch12    with 3 m
        connect desk.main   to hall.line    with 3 m
        connect desk.record to monitor.line with 3 m
        """;
    public override string GoodExample => BadExample.Replace("connect desk.record to monitor", "device bass : Drums\nconnect bass.main to desk.ch34 with 3 m\nconnect desk.record to monitor", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var flow = rig.Audio.Flow;
        if (flow.Destinations.Count == 0 || !SoundEnds.IsAnythingHeard(rig))
        {
            return;
        }
        foreach (var destination in flow.Destinations)
        {
            if (flow.To(destination).Any() || destination.Port.Signal is not { Kind: SignalKind.Audio } || !SoundEnds.IsForEars(rig, destination))
            {
                continue;
            }
            if (destination.Port.Jacks.Select(jack => rig.Wiring.Plugged[destination.Device.FirstJack + jack.Index]).FirstOrDefault(hookup => hookup is not null) is { IsSound: true } cable)
            {
                TellPlugged(rig, destination, cable.Connection.At, report);
            }
        }
        foreach (var (device, inputs) in SoundEnds.DeafSinks(rig))
        {
            report.Add(this, device.At, $"Nothing is heard at {Wording.Written(device.Name)}: no lead is in {SoundEnds.Named(device, inputs, " or ")}.",
                missing: new SoundStops(device) { Origins = [.. inputs.Select(input => new Origin.Ports(new PortRef(device, input).ToString()))] },
                about: inputs.Select(port => new Subject(device, port)));
        }
    }

    private void TellPlugged(Rig rig, AudioDestination destination, Text.Location at, Report report)
    {
        var before = rig.Audio.EndsBefore(destination);
        // What somebody muted is silent on purpose.
        if (before.Devices.Any(device => device.Mix.Count > 0))
        {
            return;
        }
        var free = before.Free.Where(port => port.Device != destination.Device).Select(port => port.ToString()).Order(StringComparer.Ordinal).ToList();
        var reason = free.Count == 0 ? "" : $": nothing is plugged into {Text.Prose.InOrder(free, " or ", Most)}, from where it would come";
        report.Add(this, at, $"Nothing arrives at {destination.Text}{reason}.",
            missing: new NoSound(destination.Device) { Origins = [new Origin.Line(at), .. free.Select(port => new Origin.Ports(port))] },
            about: [new Subject(destination.Device, destination.Port)]);
    }

    private const int Most = 4;
}
