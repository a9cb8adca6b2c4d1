using CsCheck;
using RigLang.Checks;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Tests.Examples;
using RigLang.Tests.Mistakes;
using RigLang.Tests.Properties;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>A promise that fails is told, or the finding that takes its place says so by name and is an error.</summary>
public class GreenMeansGreen
{
    private const string Trio = """
        gear Rook {
          out midi : midi on din-5
          track line sends midi
          clock sends midi
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
          clock follows internal, midi
        }
        device drums : Rook {
          line on channel 5
        }
        device bass : Tern {
          voice on channel 2
          clock internal
        }
        connect drums.midi to bass.midi
        must notes from drums.line reach bass
        must clock from drums reach bass

        """;

    [Fact]
    public void Two_promises_broken_by_a_channel_and_a_clock_are_two_errors()
    {
        var findings = Rigs.Compile(Trio).Findings;
        Assert.All(findings, f => Assert.Equal(Severity.Error, f.Severity));
        Assert.Equal(["channel-nobody-hears", "must-fails"], findings.Select(f => f.Check.Name).Order());
        Assert.Equal(["notes from drums.line to bass"], findings.Single(f => f.Check.Name == "channel-nobody-hears").Breaks.Select(b => b.Text));
    }

    [Fact]
    public void A_promise_that_a_broken_cable_fails_is_named_at_the_cable()
    {
        var finding = Assert.Single(Rigs.Compile(Trio.Replace("channel 5", "channel 2", StringComparison.Ordinal)
            .Replace("clock internal", "clock midi", StringComparison.Ordinal)
            .Replace("connect drums.midi to bass.midi", "connect drums.midi to basss.midi", StringComparison.Ordinal)).Findings);
        Assert.Equal("unknown-name", finding.Check.Name);
        Assert.Equal(["notes from drums.line to bass", "clock from drums to bass"], finding.Breaks.Select(b => b.Text));
    }

    [Fact]
    public void A_never_that_fails_because_of_a_warning_is_named_by_it_and_makes_it_an_error()
    {
        var rig = CheckList.Find("stray-transport")!.BadExample;
        var warning = Assert.Single(Rigs.Compile(rig).Findings);
        Assert.Equal(Severity.Warning, warning.Severity);
        var finding = Assert.Single(Rigs.Compile($"{rig}\nnever start, stop from {Commander(warning)} reach {Obeyer(warning)}\n").Findings);
        Assert.Equal(("stray-transport", Severity.Error), (finding.Check.Name, finding.Severity));
        Assert.Equal($"never start, stop from {Commander(warning)} to {Obeyer(warning)}", Assert.Single(finding.Breaks).Line);

        // "Start and stop of KEYS reach BASS, led by ..."
        static string Commander(Finding finding) => finding.What.Split(' ')[4];
        static string Obeyer(Finding finding) => finding.What.Split(' ')[6].TrimEnd(',');
    }

    [Fact]
    public void No_promise_of_a_random_rig_fails_in_silence() => RigGen.Statements.Sample(
        statements => Assert.Empty(Silent(Rigs.Compile(RigGen.Text(statements)))), iter: 600, print: s => RigGen.Text(s));

    [Fact]
    public void No_promise_fails_in_silence_behind_a_single_mistake() =>
        Assert.Empty(Shipped.RigsIn("examples").SelectMany(SingleMistakes.In).SelectMany(m => Silent(Shipped.Compile(m.Rig)).Select(s => $"{m}: {s}")));

    /// <summary>The promises that fail and are named by no error.</summary>
    private static IEnumerable<string> Silent(Compilation compilation)
    {
        var told = compilation.Findings.Where(f => f.Severity == Severity.Error)
            .SelectMany(f => f.Breaks.Select(b => b.At).Append(f.Location).Select(at => (at.Source, Line: at.Source.PositionOf(at.Span.Start).Line))).ToHashSet();
        return compilation.Rig.Outcomes.Where(o => o.Verdict == Verdict.Fails)
            .Where(o => !told.Contains((o.Expectation.At.Source, o.Expectation.At.Source.PositionOf(o.Expectation.At.Span.Start).Line))
                && !told.Contains((o.Target.At.Source, o.Target.At.Source.PositionOf(o.Target.At.Span.Start).Line)))
            .Select(o => $"{o.Expectation.What} from {o.Expectation.From.Text} to {o.Target.Text}");
    }
}
