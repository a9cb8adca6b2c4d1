using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class ClockCycle : Check
{
    public override string Name => "clock-cycle";
    public override Severity Severity => Severity.Error;
    public override string Title => "Devices that follow one another in a circle";
    public override string Why => "Each waits for the other: nobody starts, or the tempo drifts away.";
    public override string Advice => "Choose one leader and write `clock internal` in its block.";
    public override string Source => "common practice: the clock graph has no cycle";
    public override string BadExample => """
        gear Pair {
          in  midi-in  : midi on din-5
          out midi-out : midi on din-5
          clock follows internal, midi-in
          clock sends midi-out
        }
        device left  : Pair {
          clock midi-in
        }
        device right : Pair {
          clock midi-in
        }
        connect left.midi-out  to right.midi-in
        connect right.midi-out to left.midi-in
        """;
    public override string GoodExample => """
        gear Pair {
          in  midi-in  : midi on din-5
          out midi-out : midi on din-5
          clock follows internal, midi-in
          clock sends midi-out
        }
        device left  : Pair {
          clock internal
        }
        device right : Pair {
          clock midi-in
        }
        connect left.midi-out  to right.midi-in
        connect right.midi-out to left.midi-in
        """;

    private const int MostLinks = 4;

    public override void Run(Rig rig, Report report)
    {
        foreach (var cycle in rig.Midi.Clock.Cycles())
        {
            var names = cycle.Select(f => $"{f.Device.Name} follows {f.Leaders[0].Name}").ToList();
            report.Add(this, cycle[0].Device.At, $"{Wording.And(names)}: there is no leader.",
                related: cycle.OrderBy(f => f.Device.Name, StringComparer.Ordinal).Take(MostLinks).SelectMany(f => MidiPaths.Related(MidiPaths.To(rig, MidiPaths.SectionOf(rig, f.Leaders[0]), MessageKinds.Clock, f.Node))));
        }
    }
}
