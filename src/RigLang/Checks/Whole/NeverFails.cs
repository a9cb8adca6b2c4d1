using RigLang.Findings;
using RigLang.Flow;

namespace RigLang.Checks.Whole;

public sealed class NeverFails : Check
{
    public override string Name => "never-fails";
    public override Severity Severity => Severity.Error;
    public override string Title => "Something arrives where it must never arrive";
    public override string Why => "A `never` line is a promise of the rig to the players, and there is a way through.";
    public override string Advice => "Break the way at one of its places: a filter that drops it, or another cable.";
    public override string Source => "the rig's own expectations";
    public override string NeverAcceptedBecause => "a promise that does not hold is kept, changed or deleted";
    public override string BadExample => """
        gear Keys {
          out midi : midi on din-5
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
        device keys : Keys
        device thru : Weir
        device bass : Tern {
          clock midi
        }
        connect keys.midi to thru.in
        connect thru.out1 to bass.midi
        never start, stop from keys reach bass
        """;
    public override string GoodExample => BadExample.Replace("device thru : Weir", """
        device thru : Weir {
          in drops start, stop
        }
        """, StringComparison.Ordinal);

    public override void Run(Rig rig, Report report)
    {
        foreach (var outcome in rig.Outcomes.Where(o => !o.Expectation.Must && o.Verdict == Verdict.Fails))
        {
            var cut = Cuts.Of(rig, outcome);
            report.Add(this, outcome.Target.At, $"{outcome.Expectation.What} from {outcome.Expectation.From.Text} can reach {outcome.Target.Text}: {Wording.Way(outcome.Hops)}.",
                advice: cut is null ? "No single change keeps it: there is more than one way. Break this one, and ask again." : PromiseFixes.Advice(cut, outcome.Target.At.Source),
                related: Wording.Places(outcome.Hops),
                fixes: cut is null ? null : plan => PromiseFixes.Of(cut).ToList() is { Count: > 0 } fixes && plan.LetsMessages(through: false) ? fixes : [],
                missing: new NeverComesAllTheSame(outcome) { Origins = OriginsOf(outcome, cut) });
        }
    }

    /// <summary>What comes from the same device, or is kept away by the same change, is one mistake.</summary>
    private static IReadOnlyList<Origin> OriginsOf(Outcome outcome, Cut? cut) =>
    [
        new Origin.Line(outcome.Expectation.At),
        .. cut is { Port: { } port } ? [new Origin.Ports(port.ToString())] : cut is { Cable: { } cable } ? (Origin[])[new Origin.Line(cable.Connection.At)] : [],
    ];
}
