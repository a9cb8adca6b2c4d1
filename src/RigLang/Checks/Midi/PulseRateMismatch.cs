using RigLang.Findings;
using RigLang.Flow;
using RigLang.Trade;

namespace RigLang.Checks.Midi;

public sealed class PulseRateMismatch : Check
{
    public override string Name => "pulse-rate-mismatch";
    public override Severity Severity => Severity.Error;
    public override string Title => "Clock pulses at another rate than the device counts";
    public override string Why => "It runs at the wrong tempo from the first bar.";
    public override string Advice => "Set both to the same number of pulses a quarter note, or put a clock divider between them.";
    public override string Source => "common practice: tempo follows as sent rate by expected rate";
    public override string BadExample => """
        gear Rook {
          out sync : pulse 2 ppqn 5 V on ts 3.5 mm
          clock sends sync
        }
        gear Larrick {
          in sync : pulse 4 ppqn 5 V on ts 3.5 mm
          clock follows internal, sync
        }
        device seq : Rook
        device box : Larrick {
          clock sync
        }
        connect seq.sync to box.sync
        """;
    public override string GoodExample => BadExample.Replace("pulse 4 ppqn", "pulse 2 ppqn", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var link in rig.Links.Links)
        {
            if (ClockFlow.RateFactor(link) is not { } factor)
            {
                continue;
            }
            var runs = rig.Names.Tempo is { } tempo
                ? $": at {tempo} it runs at {new Bpm(Math.Round(tempo.Value * factor, 2))}"
                : $": it runs at {Units.Figure(Math.Round(factor, 3))} times the tempo";
            report.Add(this, link.Hookup.Connection.At, $"{link.From} sends {link.From.Port.Signal!.Rate}, and {link.To} counts {link.To.Port.Signal!.Rate}{runs}.",
                related: [Wording.Also(link.From.Port.At, $"{link.From} is declared here"), Wording.Also(link.To.Port.At, $"{link.To} is declared here")]);
        }
    }
}
