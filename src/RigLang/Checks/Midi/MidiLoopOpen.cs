using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Midi;

public sealed class MidiLoopOpen : Check
{
    public override string Name => "midi-loop-open";
    public override Severity Severity => Severity.Error;
    public override string Title => "A MIDI cable through which no current can flow";
    public override string Why => "MIDI is a current loop: when it does not close the right way round, not one message arrives.";
    public override string Advice => "Between type A and type B jacks take a crossed lead; between the same types a straight one.";
    public override string Source => "MIDI 1.0 (IEC 63035) for the loop; RP-054 for type A; type B is common practice";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Rook {
          out midi : midi on trs 3.5 mm type-a
        }
        gear Wren {
          in midi : midi on trs 3.5 mm type-b
        }
        device seq  : Rook
        device lead : Wren
        connect seq.midi to lead.midi with MidiTrs 0.6 m
        """;
    public override string GoodExample => BadExample.Replace("with MidiTrs 0.6 m", "with MidiTrsCrossed 0.6 m", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            if (hookup.JackWith(Role.MidiSource, Drive.Out) is not { } output || hookup.JackWith(Role.MidiSource, Drive.In) is not { } input)
            {
                continue;
            }
            var nets = rig.Nets;
            var (source, sink) = (Contact(output, Role.MidiSource), Contact(output, Role.MidiSink));
            var (source2, sink2) = (Contact(input, Role.MidiSource), Contact(input, Role.MidiSink));
            var isGrounded = nets.IsGrounded(source) || nets.IsGrounded(sink);
            if (nets.AreJoined(source, source2) && nets.AreJoined(sink, sink2) && !nets.AreJoined(source, sink) && !isGrounded)
            {
                continue;
            }
            var isReversed = nets.AreJoined(source, sink2) && nets.AreJoined(sink, source2);
            report.Add(this, hookup.Connection.At, isReversed
                    ? $"The current runs backwards from {output} ({TypeOf(output)}) to {input} ({TypeOf(input)}): no MIDI at all."
                    : isGrounded ? $"{Prose.Capital(Wording.LeadOf(hookup))} ties the current loop from {output} to {input} to the screen: no MIDI at all."
                    : $"The current loop from {output} ({TypeOf(output)}) to {input} ({TypeOf(input)}) is not closed: no MIDI at all.",
                advice: rig.Wiring.Choice.Clean([output.Jack], [input.Jack]) is { } lead && !hookup.Leads.Contains(lead) ? $"{lead.Name} connects these two." : null);

            int Contact(JackRef jack, Role role)
            {
                var at = 0;
                while (jack.Jack.Roles[at].Role != role)
                {
                    at++;
                }
                return nets.Contact(jack.Id, at);
            }
        }
    }

    private static string TypeOf(JackRef jack) => jack.Jack.Form.Name == "din-5" ? "DIN" : jack.Jack.Port.Signal!.MidiWiring switch
    {
        MidiWiring.TypeB => "type B",
        MidiWiring.TwoPole => "two-pole",
        _ => "type A",
    };
}
