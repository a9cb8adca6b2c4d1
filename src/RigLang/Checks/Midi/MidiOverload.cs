using RigLang.Connectors;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class MidiOverload : Check
{
    public override string Name => "midi-overload";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A MIDI cable with more to carry than it should";
    public override string Why => "Above half of its capacity chords smear and the clock stumbles; above all of it notes arrive late or never.";
    public override string Advice => "Spread the tracks over two ports or cables, or let fewer notes play at once.";
    public override string Source => "MIDI 1.0: 31,250 baud; sixteenths of every track at the tempo as the worst case: common practice";
    public override string BadExample => """
        rig {
          tempo 160 bpm
        }
        gear Rook {
          out midi : midi on din-5
          track a, b, c sends midi
          clock sends midi
        }
        gear Tape {
          in midi : midi on din-5
        }
        device seq : Rook {
          a up to 16 notes at once
          b up to 16 notes at once
          c up to 16 notes at once
        }
        device tape : Tape
        connect seq.midi to tape.midi
        """;
    public override string GoodExample => BadExample.Replace("up to 16 notes", "up to 4 notes", StringComparison.Ordinal);

    /// <summary>Half of the line: above it, what comes at the same moment is heard to spread. Common practice.</summary>
    private const double Heavy = 0.5;

    /// <summary>When the rig does not say its tempo. Source: the default of Standard MIDI Files.</summary>
    private static readonly Bpm UsualTempo = new(120);

    public override void Run(Rig rig, Report report)
    {
        var tempo = rig.Names.Tempo ?? UsualTempo;
        var told = new HashSet<(string, int)>();
        foreach (var link in rig.Links.Links.Where(l => l.Kind == SignalKind.Midi))
        {
            var node = MidiGraph.Out(link.From.Device, link.From.Port);
            var tracks = rig.Midi.Flow.AtomsAt(node, MessageKinds.Notes).Select(a => rig.Midi.Sources[a.Atom.Source]).Distinct().ToList();
            var clock = rig.Midi.Flow.AtomsAt(node, MessageKinds.Clock).Any();
            var load = MidiLoad.LinkLoad(clock, tempo, tracks.Select(NotesAtOnce));
            // The same tracks overload every cable behind the first; that one is told.
            if (load <= Heavy || !told.Add((string.Join(' ', tracks.Select(t => t.Text)), load > 1 ? 1 : 0)))
            {
                continue;
            }
            report.Add(this, link.Hookup.Connection.At,
                $"{link.From} has to carry up to {Units.Figure(Math.Round(load * 100, 1))} % of its 31,250 baud at {tempo}: {Wording.And(tracks.Select(t => $"{t.Text} with {Wording.Count(NotesAtOnce(t), "note")}"))}{(clock ? ", and the clock" : "")}.",
                related: tracks.SelectMany(t => MidiPaths.Related(MidiPaths.To(rig, t, MessageKinds.Notes, node))),
                severity: load > 1 ? Severity.Error : Severity.Warning);
        }
    }

    private static int NotesAtOnce(MidiSource source) =>
        source.Device.NotesAtOnce.TryGetValue(source.Track!.Name, out var notes) ? notes : MidiLoad.DefaultNotesAtOnce;
}
