using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;

namespace RigLang.Checks.Whole;

public sealed class MustFails : Check
{
    public override string Name => "must-fails";
    public override Severity Severity => Severity.Error;
    public override string Title => "Something the players rely on does not arrive";
    public override string Why => "A `must` line is a promise of the rig to the players, and it does not hold.";
    public override string Advice => "Follow the way to where it ends and mend it there; if the promise is out of date, delete it.";
    public override string Source => "the rig's own expectations";
    public override string BadExample => """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
        }
        device bass : Tern {
          voice on channel 3
        }
        connect seq.midi to bass.midi
        must notes from seq.a reach bass
        """;
    public override string GoodExample => BadExample.Replace("voice on channel 3", "voice on channel 2", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var failed = rig.Outcomes.Where(o => o.Expectation.Must && !o.Holds).ToList();
        if (failed.Count == 0)
        {
            return;
        }
        var troubled = TroubledDevices(rig, report);
        foreach (var outcome in failed)
        {
            // What does not arrive because a cable on the way is told of already is no second mistake.
            if (outcome.Reached.Count > 0 && (troubled.Contains(outcome.Target.Device) || outcome.Reached.Any(troubled.Contains)))
            {
                continue;
            }
            report.Add(this, outcome.Target.At, $"{outcome.Expectation.What} from {outcome.Expectation.From.Text} {Does(outcome)} not reach {outcome.Target.Text}: {outcome.Stopped}.",
                related: outcome.Hops.Select(h => new RelatedPlace(h.At, h.Text)));
        }
    }

    /// <summary>Devices at the ends of a connection that an error is told of, and those named in lines that could not be read.</summary>
    private static HashSet<DeviceSymbol> TroubledDevices(Rig rig, Report report)
    {
        var errors = report.Findings.Where(f => f.Severity == Severity.Error).Select(f => f.Location).ToList();
        var lines = errors.Select(at => (at.Source, at.Source.PositionOf(at.Span.Start).Line)).ToHashSet();
        var troubled = rig.Names.Devices.Where(d => rig.Names.NamesInBrokenLines.Contains(d.Name)).ToHashSet();
        foreach (var connection in rig.Names.Connections)
        {
            if (lines.Contains((connection.At.Source, connection.At.Source.PositionOf(connection.At.Span.Start).Line)))
            {
                troubled.UnionWith(connection.From.Concat(connection.To).Select(e => e.Device));
            }
        }
        SpreadThroughPassive(rig, troubled);
        return troubled;
    }

    /// <summary>A strip or splitter that gets nothing has nothing to give: what is plugged into it is in the same trouble.</summary>
    private static void SpreadThroughPassive(Rig rig, HashSet<DeviceSymbol> troubled)
    {
        var open = new Queue<DeviceSymbol>(troubled);
        while (open.TryDequeue(out var device))
        {
            if (device.Gear is not { Joins.Count: > 0 } gear)
            {
                continue;
            }
            for (var jack = 0; jack < gear.JackCount; jack++)
            {
                foreach (var other in rig.Wiring.Plugged[device.FirstJack + jack]?.Jacks ?? [])
                {
                    if (troubled.Add(other.Device))
                    {
                        open.Enqueue(other.Device);
                    }
                }
            }
        }
    }

    private static string Does(Outcome outcome) => outcome.Expectation.What is "audio" or "power" or "clock" ? "does" : "do";
}
