using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class ClockDropped : Check
{
    public override string Name => "clock-dropped";
    public override Severity Severity => Severity.Error;
    public override string Title => "A filter that keeps the clock from a device that follows it";
    public override string Why => "The device waits for a clock that never comes: it does not start, or runs at its own tempo.";
    public override string Advice => "Let the filter pass `clock`, or let the device follow another source.";
    public override string Source => "MIDI 1.0: clock is a message of its own, apart from start and stop";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
          clock sends midi
        }
        gear Weir {
          in  in   : midi on din-5
          out out1 : midi on din-5
          route in to out1
          filters any
        }
        gear Tern {
          in midi : midi on din-5
          clock follows internal, midi
        }
        device seq  : Rook
        device thru : Weir {
          out1 passes only notes
        }
        device bass : Tern {
          clock midi
        }
        connect seq.midi  to thru.in
        connect thru.out1 to bass.midi
        """;
    public override string GoodExample => BadExample.Replace("passes only notes", "passes only notes, clock", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var clocks = new StoppedClocks(rig);
        var stops = new List<(Follower Follower, MessageWalk Walk, WalkStep Stop)>();
        foreach (var follower in rig.Midi.Clock.Followers.Where(f => f.Leaders.Count == 0))
        {
            if (clocks.StopOf(follower) is var (walk, stop))
            {
                stops.Add((follower, walk, stop));
            }
        }
        // One filter that stops the clock of four devices is one finding.
        foreach (var byFilter in stops.GroupBy(s => s.Stop.StoppedBy!.Value.At))
        {
            var (_, walk, stop) = byFilter.First();
            report.Add(this, byFilter.Key, $"{rig.Midi.Graph.PortOf(stop.Node)} drops the clock that {Wording.And(byFilter.Select(s => s.Follower.Device.Name))} {(byFilter.Count() == 1 ? "follows" : "follow")}.",
                related: [.. MidiPaths.Related(walk.StepsTo(stop)), .. byFilter.Select(s => Wording.Also(s.Follower.Device.At, FollowsAt(s.Follower)))],
                missing: new NothingComes([.. byFilter.Select(s => s.Follower.Node)], MessageKinds.Clock, NeedsAll: true)
                {
                    Waiting = [.. byFilter.Select(s => s.Follower.Device)],
                    Origins = [new Origin.Line(byFilter.Key)],
                });
        }
    }

    private static string FollowsAt(Follower follower) => $"{follower.Device.Name} follows {follower.Port.Name}";
}
