using RigLang.Checks.Midi;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Trade;

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
          b on channel 2
        }
        device bass : Tern {
          voice on channel 2
        }
        device lead : Tern {
          voice on channel 3
        }
        connect seq.midi  to bass.midi
        connect bass.thru to lead.midi
        must notes from seq.a reach bass
        """;
    public override string GoodExample => BadExample.Replace("reach bass", "reach lead", StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        var failed = rig.Outcomes.Where(o => o.Expectation.Must && o.Verdict == Verdict.Fails).ToList();
        if (failed.Count == 0)
        {
            return;
        }
        var troubled = report.TroubledDevices(rig);
        foreach (var outcome in failed)
        {
            // What does not arrive because a cable on the way is told of already is no second mistake.
            if (outcome.Reached.Count > 0 && (troubled.Contains(outcome.Target.Device) || outcome.Reached.Any(troubled.Contains)))
            {
                continue;
            }
            if (IsToldByChannel(outcome, report) || (outcome.Expectation.Messages == MessageKinds.Clock && ClockDropped.IsToldOf(outcome.Target.Device, report)))
            {
                continue;
            }
            report.Add(this, outcome.Target.At, $"{outcome.Expectation.What} from {outcome.Expectation.From.Text} {Does(outcome)} not reach {outcome.Target.Text}{(outcome.Expectation.Within is { } limit ? $" within {limit}" : "")}: {outcome.Stopped}.",
                advice: outcome.Broken is { } broken ? BrokenWords.Mend(broken) : null,
                related: Wording.Places(outcome.Hops), fixes: PromiseFixes.Of(rig, outcome));
        }
    }

    /// <summary>A track that nobody hears at all is told at its channel.</summary>
    private static bool IsToldByChannel(Outcome outcome, Report report)
    {
        var from = outcome.Expectation.From;
        return outcome.Reached.Count == 0 && from.Device.Channels.Any(set =>
            (from.Track is null || from.Track.Name == set.Key)
            && report.Findings.Any(f => f.Check is ChannelNobodyHears && f.Location == set.Value.At));
    }

    private static string Does(Outcome outcome) => outcome.Expectation.What is "audio" or "power" or "clock" ? "does" : "do";
}
