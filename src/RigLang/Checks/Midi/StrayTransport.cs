using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class StrayTransport : Check
{
    public override string Name => "stray-transport";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A start or stop button that reaches a device led by another";
    public override string Why => "Whoever presses stop there halts this device while the band plays on.";
    public override string Advice => "Filter `start, stop` on the way, or write a `transport` line if it is meant to obey.";
    public override string Source => "MIDI 1.0: start, stop and continue are messages of their own, apart from clock";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
          clock sends midi
        }
        gear Keys {
          out midi : midi on din-5
          track manual sends midi
          transport sends midi
        }
        gear Join {
          in  in1, in2 : midi on din-5
          out out      : midi on din-5
          route in1, in2 to out
          filters any
        }
        gear Tern {
          in midi : midi on din-5
          clock follows internal, midi
        }
        device seq   : Rook
        device keys  : Keys
        device merge : Join
        device bass  : Tern {
          clock midi
        }
        connect seq.midi  to merge.in1
        connect keys.midi to merge.in2
        connect merge.out to bass.midi
        """;
    public override string GoodExample => BadExample.Replace("device merge : Join", """
        device merge : Join {
          in2 drops transport
        }
        """, StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var told = new HashSet<(string, string)>();
        foreach (var obeyer in rig.Midi.Clock.Obeyers)
        {
            // Only where the device has one leader is anybody else astray; its own transport line says that it is meant.
            if (obeyer.Device.Transport is not null || rig.Midi.Clock.Of(obeyer.Device) is not { Leaders: [var leader] })
            {
                continue;
            }
            foreach (var commander in obeyer.Commanders.Where(c => !ReferenceEquals(c, leader)))
            {
                // One button that stops four devices is one finding, at the cable that lets it out.
                if (told.Contains((commander.Name, leader.Name)))
                {
                    continue;
                }
                var way = WayOf(rig, commander, obeyer);
                var cable = way.FirstOrDefault(step => step is WayStep.Cable);
                if (cable is null)
                {
                    continue;
                }
                told.Add((commander.Name, leader.Name));
                var all = rig.Midi.Clock.Obeyers.Where(o => o.Device.Transport is null && o.Commanders.Contains(commander)
                    && rig.Midi.Clock.Of(o.Device) is { Leaders: [var l] } && ReferenceEquals(l, leader)).Select(o => o.Device.Name);
                report.Add(this, cable.At, $"Start and stop of {commander.Name} reach {Wording.And(all)}, led by {leader.Name}: {Wording.Way(way)}.",
                    related: MidiPaths.Related(way),
                    excess: new Excess([commander], MessageKinds.Start | MessageKinds.Stop | MessageKinds.Continue));
            }
        }
    }

    private static IReadOnlyList<WayStep> WayOf(Rig rig, DeviceSymbol commander, Obeyer obeyer)
    {
        var section = MidiPaths.SectionOf(rig, commander);
        return MidiPaths.To(rig, section, MessageKinds.Stop, obeyer.Node) is { Count: > 0 } way ? way : MidiPaths.To(rig, section, MessageKinds.Start, obeyer.Node);
    }
}
