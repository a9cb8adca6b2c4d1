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
        foreach (var source in rig.Midi.Sources)
        {
            if (UnheardWalk(rig, source) is { } walk && !MidiPaths.IsTroubled(rig, report, walk))
            {
                var last = FarthestOf(walk);
                report.Add(this, PlaceOf(source), $"Nobody hears {source.Text} on channel {source.Channel}{Dropped(walk)}.",
                    advice: Listening(rig, walk) is { Count: > 0 } others ? $"On this way listen {Wording.And(others)}." : null,
                    related: MidiPaths.Related(walk.HopsTo(last)));
            }
        }
    }

    /// <summary>Where the notes of a track go when no part hears them; null when one does, or when they do not leave the device.</summary>
    internal static MessageWalk? UnheardWalk(Rig rig, MidiSource source)
    {
        // A channel that the gear fixes is nobody's choice, and so no mistake.
        if (source is not { Track: { } track, Channel: > 0 } || !source.Device.Channels.ContainsKey(track.Name))
        {
            return null;
        }
        var walk = MidiPaths.WalkOf(rig, source, MessageKinds.Notes);
        return walk.Devices.Count > 1 && !IsHeard(rig, walk) ? walk : null;
    }

    /// <summary>A box without parts of its own (a recorder, a computer) may take anything.</summary>
    private static bool IsHeard(Rig rig, MessageWalk walk) => walk.Reached.Any(step =>
        MidiGraph.IsIn(step.Node) && rig.Midi.Graph.PortOf(step.Node) is var port
        && (port.Device.Gear is not { Parts.Count: > 0 } gear
            ? !port.Device.Gear!.Routes.Exists(r => ReferenceEquals(r.From, port.Port))
            : gear.Parts.Values.Any(part => part.Receives.Contains(port.Port) && rig.Midi.Channels.Of(port.Device, part).Hears(step.Channel) != false)));

    private static string Dropped(MessageWalk walk) => walk.Stopped.FirstOrDefault() is { } stop ? $": {walk.HopOf(stop).Text}" : "";

    /// <summary>The place with the most steps before it; the first of several.</summary>
    private static WalkStep FarthestOf(MessageWalk walk)
    {
        var before = new int[walk.Steps.Count];
        foreach (var step in walk.Steps.Where(s => s.Parent >= 0))
        {
            before[step.Index] = before[step.Parent] + 1;
        }
        return walk.Reached.MaxBy(s => before[s.Index])!;
    }

    private static List<string> Listening(Rig rig, MessageWalk walk)
    {
        var reached = walk.Reached.Select(s => s.Node).ToHashSet();
        return
        [
            .. rig.Midi.Listeners.Where(l => l.Channel.Number is not null && l.Nodes.Any(reached.Contains))
                .Select(l => $"{l.Text} on channel {l.Channel.Number}").Distinct(),
        ];
    }

    private static Location PlaceOf(MidiSource source) =>
        source.Device.Channels.TryGetValue(source.Track!.Name, out var set) ? set.At : source.Device.At;
}
