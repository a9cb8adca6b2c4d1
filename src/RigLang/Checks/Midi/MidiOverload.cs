using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
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

    public override void Run(Rig rig, Report report)
    {
        // The same tracks overload every cable behind the first; that one is told.
        var told = new Dictionary<bool, HashSet<IReadOnlyList<MidiSource>>> { [false] = new(SameList<MidiSource>.Only), [true] = new(SameList<MidiSource>.Only) };
        NearestSources? ways = null;
        foreach (var cable in rig.Traffic.Cables)
        {
            var (link, load, tracks) = (cable.Link, cable.Share, cable.Tracks);
            if (load <= Heavy || !told[load > 1].Add(tracks))
            {
                continue;
            }
            var node = MidiGraph.Out(link.From.Device, link.From.Port);
            report.Add(this, link.Hookup.Connection.At,
                $"{link.From} has to carry up to {Units.Figure(Math.Round(load * 100, 1))} % of its 31,250 baud at {rig.Traffic.Tempo}: {Prose.Few(tracks, t => t.Text, t => $"{t.Text} with {Wording.Count(MidiTraffic.NotesAtOnce(t), "note")}")}{(cable.HasClock ? ", and the clock" : "")}.",
                related: (ways ??= new NearestSources(rig, MessageKinds.Notes)).Nearest(node).SelectMany(MidiPaths.Related),
                severity: load > 1 ? Severity.Error : Severity.Warning);
        }
    }
}
