using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>What players write and the language says otherwise: each is one finding with the text to write, and one fix where it is certain.</summary>
public class SayingItOtherwise
{
    private static Findings.Finding Told(string text) => Rigs.Compile(text).Findings.Single(f => f.Check.Name is not ("unwired-device" or "part-hears-nobody"));

    private static string[] Written(Findings.Finding finding) => [.. finding.Fixes.Select(f => f.Edits[0].NewText)];

    [Theory]
    [InlineData("audio stereo line", "jack 6.35 mm", "trs 6.35 mm")]
    [InlineData("audio stereo line", "minijack", "trs 3.5 mm")]
    [InlineData("midi", "minijack type-b", "trs 3.5 mm type-b")]
    [InlineData("midi", "mini jack", "trs 3.5 mm")]
    [InlineData("insert", "jack 6.3 mm", "trs 6.35 mm")]
    [InlineData("audio mono instrument", "jack 6.35 mm", "ts 6.35 mm")]
    [InlineData("audio mono line", "trs 6.5 mm", "trs 6.35 mm")]
    [InlineData("audio mono line", "0.25 inch ts", "ts 6.35 mm")]
    [InlineData("audio mono mic", "xlr", "xlr-3")]
    [InlineData("midi", "din", "din-5")]
    [InlineData("audio mono line", "phono", "rca")]
    [InlineData("usb device", "micro-usb", "usb-b micro")]
    [InlineData("audio mono speaker", "captive jack 6.35 mm", "captive ts 6.35 mm")]
    public void A_connector_that_can_only_be_one_is_told(string signal, string connector, string meant)
    {
        var finding = Told($"gear A {{\n  in x : {signal} on {connector}\n}}");
        Assert.Equal("wrong-form", finding.Check.Name);
        Assert.Equal([meant], Written(finding));
        Assert.True(finding.Fixes[0].IsSafe);
    }

    [Theory]
    [InlineData("audio mono line", "jack 6.35 mm", "ts 6.35 mm|trs 6.35 mm")]
    [InlineData("audio mono line", "minijack", "ts 3.5 mm|trs 3.5 mm")]
    [InlineData("audio mono line", "6.35 mm", "ts 6.35 mm|trs 6.35 mm")]
    [InlineData("audio stereo line", "jack", "trs 6.35 mm|trs 3.5 mm")]
    [InlineData("usb device", "usb", "usb-a|usb-b|usb-c")]
    public void One_that_can_be_several_is_asked_about(string signal, string connector, string ways)
    {
        var finding = Told($"gear A {{\n  in x : {signal} on {connector}\n}}");
        Assert.Equal(ways.Split('|'), Written(finding));
        Assert.All(finding.Fixes, fix => Assert.False(fix.IsSafe));
    }

    [Theory]
    [InlineData("on 1/4 inch", "ts 6.35 mm|trs 6.35 mm")]
    [InlineData("on trs 1/4 inch", "trs 6.35 mm")]
    [InlineData("on 1/8 inch jack", "ts 3.5 mm|trs 3.5 mm")]
    [InlineData("on trs 1/4\"", "trs 6.35 mm")]
    public void A_fraction_of_an_inch_is_written_in_millimetres(string on, string ways)
    {
        var finding = Told($"gear A {{\n  in x : audio mono line {on}\n}}");
        Assert.Equal(ways.Split('|'), Written(finding));
        Assert.Contains("millimetres", finding.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("audio line on rca mono", "audio line mono on rca")]
    [InlineData("audio mono on ts 6.35 mm line unbalanced", "audio mono line unbalanced on ts 6.35 mm")]
    [InlineData("dc 9 V centre-negative on barrel 5.5x2.1 mm 250 mA", "dc 9 V centre-negative 250 mA on barrel 5.5x2.1 mm")]
    [InlineData("midi type-b on trs 3.5 mm", "midi on trs 3.5 mm type-b")]
    [InlineData("audio mono line ts 6.35 mm", "audio mono line on ts 6.35 mm")]
    [InlineData("dc 9 V centre-negative barrel 5.5x2.1 mm", "dc 9 V centre-negative on barrel 5.5x2.1 mm")]
    public void A_word_on_the_wrong_side_of_on_is_put_right(string written, string right)
    {
        var finding = Told($"gear A {{\n  in x : {written}\n}}");
        Assert.Equal("wrong-form", finding.Check.Name);
        Assert.Equal([right], Written(finding));
        Assert.True(Rigs.Compile($"gear A {{\n  in x : {right}\n}}").Findings.IsEmpty);
    }

    [Theory]
    [InlineData("dc 9 V centre-negative 250..300 mA on barrel 5.5x2.1 mm", "300 mA")]
    [InlineData("pulse 2..4 ppqn on ts 3.5 mm", "2 ppqn|4 ppqn")]
    public void A_range_where_one_figure_belongs_is_told(string signal, string ways) =>
        Assert.Equal(ways.Split('|'), Written(Told($"gear A {{\n  in x : {signal}\n}}")));

    [Fact]
    public void A_voltage_may_be_a_range() =>
        Assert.True(Rigs.Compile("gear A {\n  in x : dc 9..12 V centre-negative 250 mA on barrel 5.5x2.1 mm\n}").Findings.IsEmpty);

    private const string Boxes = """
        gear Seq {
          out midi : midi on din-5
          out thru : midi on din-5
          in  in   : midi on din-5
          in  mic  : audio mono mic phantom on xlr-3
          route in to thru
          part voice receives in
          track a, b sends midi
          track keys sends midi, plays voice
        }
        device seq : Seq {

        """;

    [Theory]
    [InlineData("a off", "a on channel off")]
    [InlineData("a, b off", "a, b on channel off")]
    [InlineData("a muted", "a on channel off")]
    [InlineData("a 3", "a on channel 3")]
    [InlineData("voice channel 3", "voice on channel 3")]
    [InlineData("voice on 3", "voice on channel 3")]
    [InlineData("mic off", "mic phantom off")]
    [InlineData("thru off", "thru thru off")]
    [InlineData("keys off", "keys on channel off|keys local off")]
    public void A_setting_with_a_word_left_out_is_told(string line, string ways)
    {
        var finding = Told(Boxes + line + "\n}");
        Assert.Equal("wrong-form", finding.Check.Name);
        Assert.Equal(ways.Split('|'), Written(finding));
    }

    [Fact]
    public void What_can_only_be_meant_holds_as_well()
    {
        var compilation = Rigs.Compile(Boxes + "a off\nvoice 3\n}");
        var device = compilation.Rig.Names.Devices[0];
        Assert.Equal(("off", 3), (device.Channels["a"].Word, device.Channels["voice"].Channel));
    }

    [Fact]
    public void A_name_that_nothing_has_is_told_as_such() => Assert.Equal("unknown-name", Told(Boxes + "c off\n}").Check.Name);
}
