using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Whole;

public sealed class MustFails : Check
{
    public override string Name => "must-fails";
    public override Severity Severity => Severity.Error;
    public override string Title => "Something the players rely on does not arrive";
    public override string Why => "A `must` line is a promise of the rig to the players, and it does not hold.";
    public override string Advice => "Follow the way to where it ends and mend it there; if the promise is out of date, delete it.";
    public override string Source => "the rig's own expectations";
    public override string NeverAcceptedBecause => "a promise that does not hold is kept, changed or deleted";
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
        foreach (var outcome in rig.Outcomes.Where(o => o.Expectation.Must && o.Verdict == Verdict.Fails))
        {
            report.Add(this, outcome.Target.At, $"{outcome.Expectation.What} from {outcome.Expectation.From.Text} {Does(outcome)} not reach {outcome.Target.Text}{(outcome.Expectation.Within is { } limit ? $" within {limit}" : "")}: {outcome.Stopped}.",
                advice: outcome.Broken is { } broken ? BrokenWords.Mend(broken, outcome.Target.At.Source) : null,
                related: Wording.Places(outcome.Hops),
                fixes: plan => PromiseFixes.Of(rig, outcome).ToList() is { Count: > 0 } fixes && plan.LetsMessages(through: true) ? fixes : [],
                missing: new PromiseFails(outcome) { Origins = [new Origin.Line(outcome.Expectation.At), .. outcome.Broken is { } gap ? OriginsOf(gap) : []] });
        }
    }

    private static IReadOnlyList<Origin> OriginsOf(Broken gap) => gap switch
    {
        Broken.NoCable none => [new Origin.Ports(none.From.ToString()), new Origin.Ports(none.To.ToString())],
        Broken.NoRoute none => [new Origin.Ports($"{none.In} {none.Out}")],
        Broken.ThruOff off => [new Origin.Ports($"{off.In} {off.Out}")],
        Broken.Filtered filtered => [new Origin.Line(filtered.Filter.At)],
        Broken.Mapped mapped => [new Origin.Line(mapped.Map.At)],
        Broken.OtherSetting other => [new Origin.Line(other.Port.Device.At)],
        Broken.NothingSends silent => [new Origin.Ports(silent.From.Text)],
        { At: { } cable } => [new Origin.Line(cable.Connection.At)],
        _ => [],
    };

    private static string Does(Outcome outcome) => outcome.Expectation.What is "notes" or "controllers" || outcome.Expectation.What.Contains(',', StringComparison.Ordinal) ? "do" : "does";
}
