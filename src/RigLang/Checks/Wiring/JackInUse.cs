using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Wiring;

public sealed class JackInUse : Check
{
    public override string Name => "jack-in-use";
    public override Severity Severity => Severity.Error;
    public override string Title => "Two plugs for one jack";
    public override string Why => "Only one plug goes into a jack, so on stage one of the two cables stays in your hand.";
    public override string Advice => "Use a free jack, or a splitter, thru box or merger made for this signal.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
        }
        device bass : Wren
        device lead : Wren
        device desk : Desk
        connect bass.line to desk.ch1
        connect lead.line to desk.ch1
        """;
    public override string GoodExample => BadExample.Replace("lead.line to desk.ch1", "lead.line to desk.ch2", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        // Two plugs for the same two jacks of a pair are one mistake.
        var told = new HashSet<(Hookup, Hookup)>();
        foreach (var (jack, first, second) in rig.Wiring.Contested)
        {
            if (!told.Add((first, second)))
            {
                continue;
            }
            var free = jack.Jack.Port.Gear.Ports.FirstOrDefault(p =>
                p != jack.Jack.Port && p.IsOutput == jack.Jack.Port.IsOutput && p.Signal == jack.Jack.Port.Signal
                && p.Jacks.Count > 0 && !rig.Wiring.IsPlugged(jack.Device, p));
            report.Add(this, second.Connection.At, ReferenceEquals(first, second)
                    ? $"{jack} stands twice in this line."
                    : $"{jack} already has a plug in it.",
                advice: free is null ? FreeInputs.Advice(rig, second) : $"{jack.Device.Name}.{free.Name} is free and takes the same signal.",
                related: ReferenceEquals(first, second) ? null : [Wording.Also(first.Connection.At, $"the plug that is in {jack}")]);
        }
    }
}
