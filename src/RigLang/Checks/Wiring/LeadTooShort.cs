using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Text;
using RigLang.Trade;
using RigLang.Wiring;

namespace RigLang.Checks.Wiring;

public sealed class LeadTooShort : Check
{
    public override string Name => "lead-too-short";
    public override Severity Severity => Severity.Error;
    public override string Title => "A lead shorter than the way it has to go";
    public override string Why => "It does not reach, or it hangs tight between two boxes and pulls a plug out.";
    public override string Advice => $"Take a longer lead: {Way}.";

    private const string Way = "the way along the table and down to the jacks is about a quarter more than the straight line";

    /// <summary>How much longer the routed way is; common practice.</summary>
    private const double RoutedOverStraight = 1.25;

    public override string Source => "geometry; a quarter more for the routed way is common practice";
    public override string BadExample => """
        import "shared/leads.rig"
        gear Rook {
          out midi : midi on din-5
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook at (0 m, 0 m)
        device bass : Tern at (1.5 m, 2 m)
        connect seq.midi to bass.midi with MidiDin 1.5 m
        """;
    public override string GoodExample => BadExample.Replace("MidiDin 1.5 m", "MidiDin 3 m", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var hookup in rig.Wiring.Hookups.Where(h => h.IsSound))
        {
            var connection = hookup.Connection;
            if (connection.Leads.Count == 0 || connection.Leads.Exists(l => l.Length is null))
            {
                continue;
            }
            var length = connection.Leads.Sum(l => l.Length!.Value.Value);
            var (a, b, distance) = FarthestApart(connection);
            if (distance > length)
            {
                report.Add(this, connection.Leads[0].At,
                    $"{new Metre(length)} does not reach: {a.Name} and {b.Name} stand {new Metre(Math.Round(distance, 2))} apart in a straight line.",
                    advice: Needed(hookup, length, distance) is { } metres ? $"Take {metres}: {Way}." : null,
                    related: [Wording.Also(a.At, $"{a.Name} is placed here"), Wording.Also(b.At, $"{b.Name} is placed here")],
                    fixes: _ => Longer(hookup, length, distance));
            }
        }
    }

    /// <summary>The length to take for the last lead of the chain, by the half metre; null when that lead is not made so long.</summary>
    private static Metre? Needed(Hookup hookup, double length, double distance)
    {
        var last = hookup.Connection.Leads[^1];
        var needed = Math.Ceiling(((distance * RoutedOverStraight) - length + last.Length!.Value.Value) * 2) / 2;
        var longest = hookup.LeadsUsed.Last().Lead?.Longest?.Value ?? double.PositiveInfinity;
        return needed <= longest ? new Metre(needed) : null;
    }

    private static IEnumerable<Fix> Longer(Hookup hookup, double length, double distance)
    {
        var use = hookup.Connection.Statement.Leads[^1];
        return Needed(hookup, length, distance) is { } metres && use.Length is { } written
            ? [new Fix($"Take {metres}", false, [new TextEdit(hookup.Connection.At.Source, written.Span, metres.ToString())])]
            : [];
    }

    private static (DeviceSymbol From, DeviceSymbol To, double Distance) FarthestApart(ConnectionSymbol connection)
    {
        var farthest = (connection.From[0].Device, connection.To[0].Device, Distance: 0.0);
        foreach (var from in connection.From)
        {
            foreach (var to in connection.To)
            {
                if (from.Device.DistanceTo(to.Device) is { Value: var distance } && distance > farthest.Distance)
                {
                    farthest = (from.Device, to.Device, distance);
                }
            }
        }
        return farthest;
    }
}
