using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class PartHearsNobody : Check
{
    public override string Name => "part-hears-nobody";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A part that nothing plays";
    public override string Why => "The sound is set up, and no key, pad or track on stage makes it sound.";
    public override string Advice => "Set it to the channel of what should play it, or switch it off with `on channel off`.";
    public override string Source => "common practice";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Drum {
          in midi : midi on din-5
          part kit   receives midi on channel any
          part hands receives midi on channel any
        }
        device seq : Rook {
          a on channel 1
        }
        device drums : Drum {
          kit   on channel 1
          hands on channel 2
        }
        connect seq.midi to drums.midi
        """;
    public override string GoodExample => BadExample.Replace("hands on channel 2", "hands on channel off", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var listener in rig.Midi.Listeners)
        {
            // A channel that nobody set is nobody's mistake; a part whose ports are empty is played by hand.
            if (listener.Channel.Number is not { } channel || !listener.IsWired || !listener.Device.Channels.ContainsKey(listener.Part.Name))
            {
                continue;
            }
            var arriving = listener.Nodes.SelectMany(n => rig.Midi.Flow.AtomsAt(n, MessageKinds.Notes)).Select(a => a.Atom).Distinct().ToList();
            if (arriving.Count > 0 && arriving.TrueForAll(a => a.Channel > 0 && a.Channel != channel) && !IsPlayedInside(rig, listener)
                // A track that nobody hears is told; most likely it was meant for this part.
                && !arriving.Exists(a => ChannelNobodyHears.UnheardWalk(rig, rig.Midi.Sources[a.Source]) is not null)
                && !MidiPaths.IsTroubledBefore(rig, report, listener.Nodes))
            {
                var others = arriving.Select(a => $"{rig.Midi.Sources[a.Source].Text} on channel {a.Channel}").Distinct().Order(StringComparer.Ordinal);
                report.Add(this, ChannelCompany.PlaceOf(listener), $"Nothing plays {listener.Text} on channel {channel}; what comes in there is {Wording.And(others)}.",
                    related: MidiPaths.Related(MidiPaths.To(rig, rig.Midi.Sources[arriving[0].Source], MessageKinds.Notes, listener.Nodes.First(n => rig.Midi.Flow.AtomsAt(n, MessageKinds.Notes).Any()))));
            }
        }
    }

    private static bool IsPlayedInside(Rig rig, Listener listener) => listener.Device.Gear!.Tracks.Values.Any(t =>
        t.Plays.Contains(listener.Part.Name) && !listener.Device.LocalOff.Contains(t.Name));
}
