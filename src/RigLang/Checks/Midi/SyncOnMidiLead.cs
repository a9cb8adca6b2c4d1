using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Checks.Midi;

public sealed class SyncOnMidiLead : Check
{
    public override string Name => "sync-on-midi-lead";
    public override Severity Severity => Severity.Error;
    public override string Title => "DIN sync over a MIDI lead";
    public override string Why => "DIN sync uses pins 1 and 3, which a MIDI lead does not have: the machine never starts.";
    public override string Advice => "Take a five-wire DIN lead.";
    public override string Source => "DIN sync: pin 1 run, pin 3 clock, pin 2 ground (common practice); MIDI 1.0: pins 4, 5 and 2";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Rook {
          out sync : din-sync 24 ppqn on din-5
        }
        gear Drum {
          in sync : din-sync 24 ppqn on din-5
        }
        device seq   : Rook
        device drums : Drum
        connect seq.sync to drums.sync with MidiDin 1 m
        """;
    public override string GoodExample => BadExample.Replace("with MidiDin", "with DinSync", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            if (hookup.JackWith(Role.SyncClock, Drive.Out) is { } output && hookup.JackWith(Role.SyncClock, Drive.In) is { } input
                && !Meets(rig.Nets, output, input))
            {
                report.Add(this, hookup.Connection.At, $"{Prose.Capital(Wording.LeadOf(hookup))} does not carry run and clock from {output} to {input}.");
            }
        }
    }

    private static bool Meets(Nets nets, JackRef output, JackRef input) =>
        Enumerable.Range(0, output.Jack.Roles.Count).All(i =>
            output.Jack.Roles[i].Role is not (Role.SyncRun or Role.SyncClock)
            || nets.AreJoined(nets.Contact(output.Id, i), nets.Contact(input.Id, i)));
}
