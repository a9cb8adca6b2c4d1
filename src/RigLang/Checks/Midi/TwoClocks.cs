using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class TwoClocks : Check
{
    public override string Name => "two-clocks";
    public override Severity Severity => Severity.Error;
    public override string Title => "Two clocks for one device";
    public override string Why => "The device counts both: its tempo doubles, or stumbles from one to the other.";
    public override string Advice => "Let one of the two run without sending clock: filter `clock` where the two come together.";
    public override string Source => "common practice: each follower has exactly one leader";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
          clock sends midi
        }
        gear Join {
          in  in1, in2 : midi on din-5
          out out      : midi on din-5
          route in1, in2 to out
          filters any
        }
        gear Tern {
          in midi : midi on din-5
          clock follows internal, midi
        }
        device seq   : Rook
        device drums : Rook
        device merge : Join
        device bass  : Tern {
          clock midi
        }
        connect seq.midi   to merge.in1
        connect drums.midi to merge.in2
        connect merge.out  to bass.midi
        """;
    public override string GoodExample => BadExample.Replace("device merge : Join", """
        device merge : Join {
          in2 drops clock, transport
        }
        """, StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        NearestSources? clocks = null;
        foreach (var together in rig.Midi.Clock.Followers.Where(f => f.Leaders.Count > 1).GroupBy(f => f.Leaders, SameList<DeviceSymbol>.Only))
        {
            // All that follow the same mixture suffer from the same meeting; it is told once.
            var follower = together.MinBy(f => f.Device.Name, StringComparer.Ordinal)!;
            var ways = (clocks ??= new NearestSources(rig, MessageKinds.Clock)).Nearest(follower.Node);
            if (follower.Leaders.Count <= Prose.MostWays)
            {
                // All of them are told, in the order in which they are named.
                ways = [.. follower.Leaders.Select(leader => ways.Find(way => ReferenceEquals(way[0].Port.Device, leader))).OfType<IReadOnlyList<WayStep>>()];
            }
            report.Add(this, MeetingOf(ways) ?? follower.Device.At,
                $"{Wording.And(together.Select(f => f.Device.Name))} {(together.Count() == 1 ? "gets" : "get")} the clock of {Wording.And(follower.Leaders.Select(l => l.Name))}: {Wording.Ways(ways, follower.Leaders.Count)}.",
                related: ways.SelectMany(MidiPaths.Related),
                excess: new Excess(follower.Leaders, MessageKinds.Clock));
        }
    }

    /// <summary>
    /// The last cable that is not common to all the ways: the one that brings the second clock in. None where one way is the end of another, and both
    /// come by the same cable.
    /// </summary>
    private static Location? MeetingOf(List<IReadOnlyList<WayStep>> ways)
    {
        var shared = ways.Select(w => w.Select(h => h.At).ToHashSet()).Aggregate((a, b) => [.. a.Intersect(b)]);
        var own = ways.ConvertAll(way => way.LastOrDefault(step => step is WayStep.Cable && !shared.Contains(step.At)));
        return own.Contains(null) ? null : own[^1]!.At;
    }
}
