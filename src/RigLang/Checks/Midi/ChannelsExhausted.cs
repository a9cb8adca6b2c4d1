using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Midi;

public sealed class ChannelsExhausted : Check
{
    public override string Name => "channels-exhausted";
    public override Severity Severity => Severity.Error;
    public override string Title => "Automatic channels that cannot be found";
    public override string Why => "There are more parts on this way than channels they can be set to, so some would play together.";
    public override string Advice => "Move one of them to another port, or layer those that may sound together.";
    public override string Source => "MIDI 1.0: sixteen channels a port";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a, b, c sends midi
        }
        gear Weir {
          in  in         : midi on din-5
          out out1..out3 : midi on din-5
          route in to out1..out3
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel 1..2
        }
        device seq  : Rook {
          a, b, c on channel auto
        }
        device thru : Weir
        device bass : Tern {
          voice on channel auto
        }
        device lead : Tern {
          voice on channel auto
        }
        device pad  : Tern {
          voice on channel auto
        }
        connect seq.midi  to thru.in
        connect thru.out1 to bass.midi
        connect thru.out2 to lead.midi
        connect thru.out3 to pad.midi
        must notes from seq.a reach bass
        must notes from seq.b reach lead
        must notes from seq.c reach pad
        """;
    public override string GoodExample => BadExample.Replace("on channel 1..2", "on channel 1..3", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var conflict in rig.Midi.AutoConflicts)
        {
            var first = conflict.Members.FirstOrDefault(m => m.IsAuto, conflict.Members[0]);
            var at = first.Device.Channels.TryGetValue(first.Name, out var set) ? set.At : first.Device.At;
            report.Add(this, at, $"{Wording.And(conflict.Members.Select(m => $"{m.Device.Name}.{m.Name}"), 20)} cannot all have a channel of their own{(conflict.IsSmallest ? "; no fewer of them are in one another's way" : "")}.",
                advice: conflict.Moves.Count > 0 ? $"Move {Wording.Or(conflict.Moves)}, or take one of them to another port." : null,
                related: conflict.Members.Skip(1).Select(m => Wording.Also(m.Device.Channels.TryGetValue(m.Name, out var other) ? other.At : m.Device.At, $"{m.Device.Name}.{m.Name}")));
        }
    }
}
