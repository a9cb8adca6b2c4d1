using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>Which controls can meet. Source: common practice; thresholds JEDEC JESD8.</summary>
public class ControlsOfTheirKind
{
    private static Compilation Join(string output, string input) => Bench.Join($"{output} on trs 6.35 mm", "BalancedTrs 1 m", $"{input} on trs 6.35 mm",
        "lead BalancedTrs : trs 6.35 mm to trs 6.35 mm");

    [Theory]
    [InlineData("control", "control")]
    [InlineData("control", "control gate")]
    [InlineData("control expression", "control")]
    [InlineData("control gate 0..5 V", "control trigger")]
    [InlineData("control trigger", "control gate")]
    [InlineData("pulse 2 ppqn 5 V", "control trigger 0..5 V")]
    [InlineData("pulse 2 ppqn", "control gate")]
    [InlineData("control pitch volt-per-octave", "control pitch")]
    [InlineData("control expression wiper tip", "control expression wiper tip")]
    [InlineData("control expression", "control expression wiper ring")]
    [InlineData("control switch normally open", "control switch")]
    [InlineData("control switch", "control trigger inverted")]
    [InlineData("control gate 0..3.3 V", "control gate 0..5 V")]
    public void These_meet_and_nothing_is_said(string output, string input)
    {
        var compilation = Join(output, input);
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
    }

    [Theory]
    [InlineData("control gate", "control expression")]
    [InlineData("control pitch", "control gate")]
    [InlineData("control gate", "control pitch")]
    [InlineData("control expression", "control switch")]
    [InlineData("control switch", "control expression")]
    [InlineData("control switch", "control gate")]
    [InlineData("control expression", "control pitch")]
    [InlineData("pulse 2 ppqn", "control pitch")]
    [InlineData("pulse 2 ppqn", "control switch")]
    [InlineData("control pitch volt-per-octave", "control pitch hertz-per-volt")]
    [InlineData("control expression wiper tip", "control expression wiper ring")]
    public void These_cannot_meet(string output, string input)
    {
        var finding = Assert.Single(Join(output, input).Findings);
        Assert.Equal(("signal-mismatch", Findings.Severity.Error), (finding.Check.Name, finding.Severity));
    }

    [Theory]
    [InlineData("control switch normally open", "control switch normally closed", "normally open, and the jack is for one that is normally closed")]
    [InlineData("control gate 0..1.5 V", "control gate 0..5 V", "takes nothing below 2 V")]
    [InlineData("control trigger inverted", "control trigger", "on at ground")]
    public void These_meet_and_do_not_work_as_they_are_meant(string output, string input, string why)
    {
        var finding = Assert.Single(Join(output, input).Findings);
        Assert.Equal(("signal-mismatch", Findings.Severity.Warning), (finding.Check.Name, finding.Severity));
        Assert.Contains(why, finding.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("control gate wiper tip")]
    [InlineData("control pitch normally open")]
    [InlineData("control pitch gate")]
    [InlineData("control inverted")]
    public void A_word_of_another_kind_means_nothing(string signal) =>
        Assert.Contains("unknown-word", Rigs.Compile($"gear A {{\n  in x : {signal} on ts 3.5 mm\n}}").Names());
}
