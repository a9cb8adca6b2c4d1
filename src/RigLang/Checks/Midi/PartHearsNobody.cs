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
        UnheardTracks? unheard = null;
        foreach (var listener in rig.Midi.Listeners)
        {
            // A channel that nobody set is nobody's mistake; a part whose ports are empty is played by hand.
            if (listener.Channel.Number is not { } channel || !listener.IsWired || !listener.Device.Channels.ContainsKey(listener.Part.Name)
                || !OnlyOthersArrive(rig.Midi.Flow, listener, channel) || IsPlayedInside(rig, listener))
            {
                continue;
            }
            unheard ??= UnheardTracks.Of(rig);
            var arriving = listener.Nodes.SelectMany(n => rig.Midi.Flow.AtomsAt(n, MessageKinds.Notes)).Select(a => a.Atom);
            // A track that nobody hears is told; most likely it was meant for this part.
            if (!arriving.Any(a => unheard.Contains(rig.Midi.Sources[a.Source])))
            {
                var others = arriving.Select(a => $"{rig.Midi.Sources[a.Source].Text} on channel {a.Channel}").Distinct().Order(StringComparer.Ordinal);
                var broken = PromisedTo(rig, listener)?.Broken;
                var why = broken is not null ? $": {BrokenWords.Reason(broken, ChannelCompany.PlaceOf(listener).Source)}" : $"; what comes in there is {Wording.And(others)}";
                report.Add(this, ChannelCompany.PlaceOf(listener), $"Nothing plays {listener.Text} on channel {channel}{why}.",
                    advice: broken is null ? null : BrokenWords.Mend(broken, ChannelCompany.PlaceOf(listener).Source),
                    related: MidiPaths.Related(MidiPaths.To(rig, rig.Midi.Sources[arriving.First().Source], MessageKinds.Notes, listener.Nodes.First(n => rig.Midi.Flow.AtomsAt(n, MessageKinds.Notes).Any()))),
                    missing: new NothingComes([.. listener.Nodes], MessageKinds.Notes)
                    {
                        Waiting = [listener.Device],
                        Origins = [new Origin.Line(ChannelCompany.PlaceOf(listener))],
                    });
            }
        }
    }

    /// <summary>What a promise says of this part tells best who was meant to play it.</summary>
    private static Outcome? PromisedTo(Rig rig, Listener listener) => rig.Outcomes.FirstOrDefault(o =>
        o is { Verdict: Verdict.Fails, Expectation.Must: true, Broken: not null } && (o.Missing & MessageKinds.Notes) != 0
        && o.Target.Device == listener.Device && (o.Target.Part is null || o.Target.Part == listener.Part));

    /// <summary>True when notes come in, every one on a channel that is known and not the part's.</summary>
    private static bool OnlyOthersArrive(MidiFlow flow, Listener listener, int channel)
    {
        var isAny = false;
        foreach (var node in listener.Nodes)
        {
            var row = flow.RowAt(node);
            for (var atom = 0; atom < row.Length; atom++)
            {
                if ((row[atom] & (ushort)MessageKinds.Notes) != 0)
                {
                    isAny = true;
                    if (flow.Atoms[atom].Channel is var on && (on == 0 || on == channel))
                    {
                        return false;
                    }
                }
            }
        }
        return isAny;
    }

    private static bool IsPlayedInside(Rig rig, Listener listener) => listener.Device.Gear!.Tracks.Values.Any(t =>
        t.Plays.Contains(listener.Part.Name) && !listener.Device.LocalOff.Contains(t.Name));
}
