using RigLang.Findings;
using RigLang.Flow;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class ChannelNobodyHears : Check
{
    public override string Name => "channel-nobody-hears";
    public override Severity Severity => Severity.Warning;
    public override string Title => "A track that plays on a channel nobody listens to";
    public override string Why => "The track runs, and not one note of it is heard.";
    public override string Advice => "Set the track and the part it should play to the same channel.";
    public override string Source => "common practice; channels after MIDI 1.0";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a, b sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 3
          b on channel off
        }
        device lead : Tern {
          voice on channel 2
        }
        connect seq.midi to lead.midi
        """;
    public override string GoodExample => BadExample.Replace("a on channel 3", "a on channel 2", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var unheard = UnheardTracks.Of(rig);
        (MidiSource Source, UnheardWay Way)? last = null;
        foreach (var source in rig.Midi.Sources.Where(unheard.Contains))
        {
            // Tracks behind one another at the same outputs take the same way, unless a map sends them apart by their channels.
            var way = last is { } other && !rig.Midi.Graph.HasMaps && other.Source.Starts.SequenceEqual(source.Starts) ? other.Way : WayOf(rig, source);
            last = (source, way);
            var broken = PromisedTo(rig, source)?.Broken;
            var why = broken is not null ? $": {BrokenWords.Reason(broken, PlaceOf(source).Source)}" : way.Listening.Length == 0 ? way.Dropped : "";
            report.Add(this, PlaceOf(source), $"Nobody hears {source.Text} on channel {source.Channel}{why}.",
                advice: (broken is null ? null : BrokenWords.Mend(broken, PlaceOf(source).Source)) ?? (way.Listening.Length > 0 ? $"Set one to the channel of the other: on this way listen {way.Listening}." : null),
                related: way.Related,
                missing: new NobodyHears(source.Device, source.Track, MessageKinds.Notes, way.Walk) { Origins = [new Origin.Line(PlaceOf(source)), .. way.Walk.Stopped.Select(stop => new Origin.Line(stop.StoppedBy!.Value.At))] });
        }
    }

    /// <summary>What a promise says of these notes tells best who was meant to hear them.</summary>
    private static Outcome? PromisedTo(Rig rig, MidiSource source) => rig.Outcomes.FirstOrDefault(o =>
        o is { Verdict: Verdict.Fails, Expectation.Must: true, Broken: not null } && (o.Missing & MessageKinds.Notes) != 0
        && o.Expectation.From.Device == source.Device && o.Expectation.From.Track == source.Track);

    /// <summary>Where the notes of a track go, in words.</summary>
    private sealed record UnheardWay(MessageWalk Walk, string Dropped, string Listening, List<RelatedPlace> Related);

    private static UnheardWay WayOf(Rig rig, MidiSource source)
    {
        var walk = MidiPaths.WalkOf(rig, source, MessageKinds.Notes);
        return new UnheardWay(walk, Dropped(walk), Listening(rig, walk), [.. MidiPaths.Related(walk.StepsTo(walk.Farthest!))]);
    }

    private static string Dropped(MessageWalk walk) => walk.Stopped.FirstOrDefault() is { } stop ? $": {WayWords.Of(walk.StopOf(stop)!)}" : "";

    private static string Listening(Rig rig, MessageWalk walk)
    {
        var listening = new List<Listener>();
        foreach (var listener in rig.Midi.Listeners)
        {
            var reached = false;
            for (var i = 0; i < listener.Nodes.Count && !reached && listener.Channel.Number is not null; i++)
            {
                reached = walk.Reaches(listener.Nodes[i]);
            }
            if (reached)
            {
                listening.Add(listener);
            }
        }
        return Prose.Few(listening, l => l.Text, l => $"{l.Text} on channel {l.Channel.Number}");
    }

    private static Location PlaceOf(MidiSource source) =>
        source.Device.Channels.TryGetValue(source.Track!.Name, out var set) ? set.At : source.Device.At;
}
