using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>Silence about a figure that nothing uses is no verdict: it is listed.</summary>
public class FiguresNotChecked
{
    private static string[] Listed(string lines, string rest = "") =>
        [.. Rigs.Compile($"gear A {{\n{lines}\n}}\ndevice a : A\n{rest}").NotChecked.Select(f => $"{f.Count} {f.Text} @{f.First.Source.PositionOf(f.First.Span.Start).Line + 1}")];

    [Fact]
    public void Each_kind_is_one_line_with_its_first_place() =>
        Assert.Equal(["2 nominal levels @2", "1 impedance @3"], Listed("in x : audio mono line +4 dBu on ts 6.35 mm\nin y : audio mono line -10 dBV 10 kohm on ts 6.35 mm"));

    [Fact]
    public void Gain_and_latency_of_audio_are_not_used() =>
        Assert.Equal(["1 latency of an audio route @4", "1 gain of a route @4"],
            Listed("in x : audio mono line on ts 6.35 mm\nout y : audio mono line on ts 6.35 mm\nroute x to y latency 900 ms gain -60 dB"));

    [Fact]
    public void The_latency_of_messages_is_what_promises_count() =>
        Assert.Empty(Listed("in x : midi on din-5\nout y : midi on din-5\nroute x to y latency 2 ms"));

    [Fact]
    public void Figures_that_are_used_are_not_listed() =>
        Assert.Empty(Listed("in p : dc 9 V centre-negative 250 mA on barrel 5.5x2.1 mm\nin s : pulse 2 ppqn 5 V on ts 3.5 mm\nin g : control gate 0..5 V on ts 3.5 mm"));

    [Fact]
    public void Gear_that_no_device_is_of_is_not_counted() => Assert.Empty(Listed("", "gear B {\n  in x : audio mono line +4 dBu on ts 6.35 mm\n}"));

    [Fact]
    public void Stock_is_listed() => Assert.Equal(["2 lines of stock, which are not counted against the connections @6"],
        Listed("", "lead L : ts 6.35 mm to ts 6.35 mm\nstock {\n  2 L 1 m\n  3 L 2 m\n}").Select(l => l.Replace("@7", "@6", StringComparison.Ordinal)));
}
