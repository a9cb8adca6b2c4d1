using CsCheck;
using RigLang.Checks.Whole;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Tests.Support;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>What is said of promises that fail, on random rigs: the stop that is named is on a way to the target, and the edits that are offered work.</summary>
public class PromiseProperties
{
    private const int Iterations = 120;

    [Fact]
    public void The_edit_that_is_offered_for_a_must_makes_it_hold()
    {
        var (edits, failing) = (0, 0);
        Promises("must").Sample(
            text =>
            {
                var rig = Rigs.Compile(text).Rig;
                var outcomes = rig.Outcomes;
                for (var i = 0; i < outcomes.Count; i++)
                {
                    Interlocked.Add(ref failing, outcomes[i].Verdict == Verdict.Fails ? 1 : 0);
                    foreach (var fix in outcomes[i].Verdict == Verdict.Fails ? PromiseFixes.Of(rig, outcomes[i]) : [])
                    {
                        var mended = Rigs.Compile(With(text, fix)).Rig.Outcomes[i];
                        Assert.True(mended.Holds, $"{fix.Title} does not mend {Told(outcomes[i])}; now {mended.Stopped}\n{text}");
                        Interlocked.Increment(ref edits);
                    }
                }
            },
            iter: 3 * Iterations);
        Assert.True(edits > Iterations / 4, $"only {edits} edits for {failing} promises: the rigs show nothing");
    }

    [Fact]
    public void The_stop_that_is_named_leads_to_the_target()
    {
        var stops = 0;
        Promises("must").Sample(
            text =>
            {
                var rig = Rigs.Compile(text).Rig;
                foreach (var outcome in rig.Outcomes.Where(o => o.Verdict == Verdict.Fails))
                {
                    Assert.True(outcome.Broken is not null && outcome.Stopped.Length > 0, $"nothing is said of {Told(outcome)}\n{text}");
                    if (EndOf(outcome.Broken) is { } end)
                    {
                        var kind = MessageKindNames.Each(outcome.Expectation.Messages).First();
                        Assert.True(LeadsTo(rig, end, outcome.Target, kind), $"{outcome.Stopped}: that is not on a way of {Told(outcome)}\n{text}");
                        Interlocked.Increment(ref stops);
                    }
                }
            },
            iter: Iterations);
        Assert.True(stops > Iterations, $"only {stops} stops: the rigs show nothing");
    }

    [Fact]
    public void The_way_that_is_told_is_gone_hop_by_hop()
    {
        Promises("must").Sample(
            text =>
            {
                var rig = Rigs.Compile(text).Rig;
                var simulator = new HopByHop(rig);
                foreach (var outcome in rig.Outcomes.Where(o => o.Verdict == Verdict.Fails && o.Expectation.From.Track is not null && o.Hops.Count > 0))
                {
                    var (arrived, stopped) = simulator.Push(outcome.Expectation.From.Device, outcome.Expectation.From.Track, outcome.Expectation.Messages);
                    var places = arrived.Select(a => a.At).Concat(stopped).Select(p => (p.Device, p.Port)).ToHashSet();
                    Assert.All(outcome.Hops, step => Assert.Contains((step.Port.Device, step.Port.Port), places));
                }
            },
            iter: Iterations / 2);
    }

    [Fact]
    public void One_change_that_is_named_for_a_never_keeps_it()
    {
        var (filters, cables) = (0, 0);
        Promises("never").Sample(
            text =>
            {
                var rig = Rigs.Compile(text).Rig;
                var outcomes = rig.Outcomes;
                for (var i = 0; i < outcomes.Count; i++)
                {
                    if (outcomes[i].Verdict != Verdict.Fails || Cuts.Of(rig, outcomes[i]) is not { } cut)
                    {
                        continue;
                    }
                    var lines = text.Split('\n').ToList();
                    if (cut.Cable is { } cable)
                    {
                        lines.RemoveAt(cable.Connection.At.Source.PositionOf(cable.Connection.At.Span.Start).Line);
                        Interlocked.Increment(ref cables);
                    }
                    var mended = cut.Cable is not null ? string.Join('\n', lines) : With(text, Assert.Single(PromiseFixes.Of(cut)));
                    Interlocked.Add(ref filters, cut.Port is null ? 0 : 1);
                    Assert.True(Rigs.Compile(mended).Rig.Outcomes[i].Holds, $"{PromiseFixes.Advice(cut, outcomes[i].Target.At.Source)} does not keep {Told(outcomes[i])}\n{text}");
                }
            },
            iter: Iterations);
        Assert.True(filters > Iterations / 8, $"only {filters} filters and {cables} cables: the rigs show nothing");
    }

    /// <summary>Rigs with a line for one thing from everything that sends to everything else.</summary>
    private static Gen<string> Promises(string verb) => Gen.Select(RandomMidiRig.Texts, Gen.Int[0, 2], Gen.Int[0, 3]).Select((text, what, thinned) =>
    {
        var rig = RandomMidiRig.Compile(text);
        var kind = new[] { "notes", "clock", "start" }[what];
        var from = rig.Names.Devices.SelectMany(d => d.Gear!.Tracks.Keys.Select(t => $"{d.Name}.{t}").Prepend(d.Name));
        var to = rig.Names.Devices.SelectMany(d => d.Gear!.Parts.Keys.Select(p => $"{d.Name}.{p}").Prepend(d.Name)).ToList();
        var lines = from.SelectMany(_ => to, (a, b) => $"{verb} {kind} from {a} reach {b}").Where((_, i) => i % 4 == thinned);
        var without = text.Split('\n').Where(line => !line.StartsWith("must ", StringComparison.Ordinal));
        return string.Join('\n', [.. without, .. lines]) + "\n";
    });

    /// <summary>From where on nothing is missing any more; null where it is missing at the target itself.</summary>
    private static Place? EndOf(Broken? broken) => broken switch
    {
        Broken.NoCable gap => new Place(gap.To.Device, gap.To.Port, true),
        Broken.NotCarried gap => new Place(gap.To.Device, gap.To.Port, true),
        Broken.NoRoute gap => new Place(gap.Out.Device, gap.Out.Port, false),
        Broken.ThruOff gap => new Place(gap.Out.Device, gap.Out.Port, false),
        Broken.Filtered { Port: { Port.Signal.Kind: not RigLang.Connectors.SignalKind.Usb } port } => new Place(port.Device, port.Port, !port.Port.IsOutput),
        _ => null,
    };

    private static bool LeadsTo(Rig rig, Place start, RigLang.Symbols.Target target, MessageKinds kind)
    {
        var hops = HopByHop.Hops(rig, kind).ToLookup(h => h.Source, h => h.Target);
        var seen = new HashSet<Place> { start };
        var open = new Queue<Place>(seen);
        while (open.TryDequeue(out var at))
        {
            if (at.IsInward && at.Device == target.Device && (target.Part is null || target.Part.Receives.Contains(at.Port)))
            {
                return true;
            }
            foreach (var next in hops[at].Where(seen.Add))
            {
                open.Enqueue(next);
            }
        }
        return false;
    }

    private static string Told(Outcome outcome) =>
        $"{(outcome.Expectation.Must ? "must" : "never")} {outcome.Expectation.What} from {outcome.Expectation.From.Text} reach {outcome.Target.Text}";

    private static string With(string text, Fix fix) => fix.Edits.OrderByDescending(e => e.Span.Start)
        .Aggregate(text, (so, edit) => so[..edit.Span.Start] + edit.NewText + so[edit.Span.End..]);
}
