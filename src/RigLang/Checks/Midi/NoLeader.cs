using RigLang.Findings;
using RigLang.Flow;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class NoLeader : Check
{
    public override string Name => "no-leader";
    public override Severity Severity => Severity.Error;
    public override string Title => "A device that follows a clock nobody sends it";
    public override string Why => "It waits for a clock that never comes: it does not start, or runs at its own tempo.";
    public override string Advice => "Connect it to something that sends clock, or write `clock internal`.";
    public override string Source => "common practice: each follower has exactly one leader";
    public override string BadExample => """
        gear Keys {
          out midi : midi on din-5
          track manual sends midi
        }
        gear Tern {
          in midi : midi on din-5
          clock follows internal, midi
        }
        device keys : Keys
        device bass : Tern {
          clock midi
        }
        connect keys.midi to bass.midi
        """;
    public override string GoodExample => BadExample.Replace("clock midi", "clock internal", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var clocks = new StoppedClocks(rig);
        foreach (var follower in rig.Midi.Clock.Followers)
        {
            if (follower.Leaders.Count > 0 || clocks.SourceFor(follower) is not null)
            {
                continue;
            }
            var isEmpty = !rig.Wiring.IsPlugged(follower.Device, follower.Port);
            report.Add(this, PlaceOf(follower), isEmpty
                    ? $"{follower.Device.Name} follows {follower.Port.Name}, and nothing is plugged in there."
                    : $"{follower.Device.Name} follows {follower.Port.Name}, and no clock comes in there.",
                related: isEmpty || rig.Wiring.Plugged[follower.Device.FirstJack + follower.Port.Jacks[0].Index] is not { } hookup
                    ? null
                    : [Wording.Also(hookup.Connection.At, "what is plugged in there")],
                missing: new NothingComes([follower.Node], MessageKinds.Clock)
                {
                    Waiting = [follower.Device],
                    Origins = MidiPaths.OriginsBefore(rig, [follower.Node], MessageKinds.Clock),
                    Consequence = Wording.Also(PlaceOf(follower), $"{follower.Device.Name} follows {follower.Port.Name}"),
                });
        }
    }

    private static Location PlaceOf(Follower follower) =>
        follower.Device.Statement.Body.OfType<ClockSetting>().FirstOrDefault(c => !c.IsTransport) is { } line
            ? new Location(follower.Device.At.Source, line.Span)
            : follower.Device.At;
}
