using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Wiring;

namespace RigLang.Checks.Midi;

public sealed class MidiOutputSplit : Check
{
    public override string Name => "midi-output-split";
    public override Severity Severity => Severity.Warning;
    public override string Title => "One MIDI output on two inputs without a thru box";
    public override string Why => "The 5 mA of one output have to light two receivers: messages are lost now and then, on stage more than at home.";
    public override string Advice => "Put a MIDI thru box between them, or go on from the thru jack of the first.";
    public override string Source => "MIDI 1.0 (IEC 63035): one output drives one input";
    public override string BadExample => """
        lead MidiY : din-5 to din-5 a, din-5 b {
          4 to a.4, b.4
          5 to a.5, b.5
          2 to a.2, b.2
        }
        gear Rook {
          out midi : midi on din-5
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook
        device bass : Tern
        device lead : Tern
        connect seq.midi to bass.midi, lead.midi with MidiY 1 m
        """;
    public override string GoodExample => """
        gear Rook {
          out midi : midi on din-5
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
        }
        device seq  : Rook
        device bass : Tern
        device lead : Tern
        connect seq.midi  to bass.midi
        connect bass.thru to lead.midi
        """;

    public override void Run(Rig rig, Report report)
    {
        for (var seat = 0; seat < rig.Nets.SeatCount; seat++)
        {
            var roles = rig.Nets.Jack(seat).Jack.Roles;
            for (var i = 0; i < roles.Count; i++)
            {
                if (roles[i] is { Role: Role.MidiSource, Drive: Drive.Out } && rig.Wiring.Plugged[seat] is { } hookup
                    && InputsOn(rig.Nets, rig.Nets.Contact(seat, i)) is { Count: > 1 } inputs)
                {
                    report.Add(this, hookup.Connection.At, $"{rig.Nets.Jack(seat)} drives {Wording.And(inputs.Order(StringComparer.Ordinal))} at once.");
                }
            }
        }
    }

    private static List<string> InputsOn(Nets nets, int contact)
    {
        var inputs = new List<string>();
        foreach (var member in nets.Members(contact))
        {
            if (nets.RoleOf(member) is { Role: Role.MidiSource, Drive: Drive.In })
            {
                inputs.Add(nets.Jack(nets.SeatOf(member)).ToString());
            }
        }
        return inputs;
    }
}
