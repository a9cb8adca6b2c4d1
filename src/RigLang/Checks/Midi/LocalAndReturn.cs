using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class LocalAndReturn : Check
{
    public override string Name => "local-and-return";
    public override Severity Severity => Severity.Error;
    public override string Title => "Notes that come back to the keyboard that plays them itself";
    public override string Why => "Every key sounds twice, once from inside and once over the cable: it phases, and half the voices are gone.";
    public override string Advice => "Switch local control off on the keyboard, `keys local off`, or stop the notes on their way back.";
    public override string Source => "MIDI 1.0, channel mode message 122: local control; common practice";
    public override string BadExample => """
        gear Piano {
          in  midi : midi on din-5
          out out  : midi on din-5
          track keys sends out, plays grand
          part grand receives midi on channel any
        }
        gear Split {
          in  in         : midi on din-5
          out out1, out2 : midi on din-5
          route in to out1, out2
        }
        device piano : Piano {
          keys  on channel 1
          grand on channel 1
        }
        device thru : Split
        connect piano.out to thru.in
        connect thru.out1 to piano.midi
        """;
    public override string GoodExample => BadExample.Replace("keys  on channel 1", "keys  local off\n          keys  on channel 1", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var source in rig.Midi.Sources)
        {
            if (source.Track is { } track && !source.Device.LocalOff.Contains(track.Name))
            {
                foreach (var listener in rig.Midi.Listeners.Where(l => ReferenceEquals(l.Device, source.Device) && track.Plays.Contains(l.Part.Name)))
                {
                    Tell(rig, source, listener, report);
                }
            }
        }
    }

    private void Tell(Rig rig, MidiSource source, Listener listener, Report report)
    {
        var walk = MidiPaths.WalkOf(rig, source, MessageKinds.Notes);
        var back = walk.Reached.FirstOrDefault(s => listener.Nodes.Contains(s.Node) && listener.Channel.Hears(s.Channel) == true);
        // A return that goes on to where it came from is a loop, and told as one.
        if (back is null || source.Starts.Any(start => MidiLoops.Leads(rig.Midi.Graph, back.Node, start.Node, MessageKinds.Notes)))
        {
            return;
        }
        var way = walk.StepsTo(back);
        report.Add(this, way.Last(step => step is WayStep.Cable).At, $"{source.Text} plays {listener.Text} inside, and its notes come back to it on channel {back.Channel}: {Wording.Way(way)}.",
            related: MidiPaths.Related(way), fixes: SwitchedOff(source));
    }

    /// <summary>A line before the first that sets the track; none where the device has no such line.</summary>
    private static IEnumerable<Fix> SwitchedOff(MidiSource source)
    {
        if (source.Device.Channels.TryGetValue(source.Track!.Name, out var set))
        {
            var (text, start) = (set.At.Source, set.At.Span.Start);
            var indent = text.Content[text.LineStart(text.PositionOf(start).Line)..start];
            if (string.IsNullOrWhiteSpace(indent))
            {
                yield return new Fix($"Switch local control of {source.Text} off", false, [new TextEdit(text, new TextSpan(start, 0), $"{source.Track.Name} local off\n{indent}")]);
            }
        }
    }
}
