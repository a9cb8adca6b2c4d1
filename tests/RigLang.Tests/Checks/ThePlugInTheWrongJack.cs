using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>A plug in a jack that cannot take it is told as that, with the jack that can, and takes nothing away from others.</summary>
public class ThePlugInTheWrongJack
{
    private static Compilation Table(string cable, string more = "") => Rigs.Compile($$"""
        import "shared/leads.rig"
        gear Wren {
          out line : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in  mic          : audio mono mic balanced on xlr-3
          in  line1, line2 : audio mono line on ts 6.35 mm
          out send         : audio mono line on ts 6.35 mm
        }
        gear Probe {
          out out : audio mono mic balanced on xlr-3
        }
        device bass  : Wren
        device kick  : Wren
        device probe : Probe
        device desk  : Desk
        connect kick.line to desk.line1 with Patch 2 m
        {{cable}}
        {{more}}
        """);

    [Theory]
    [InlineData("connect bass.line to desk.send with Patch 2 m")]
    [InlineData("connect bass.line to desk.send")]
    [InlineData("connect bass.line to desk.send with JackToXlr 2 m")]
    public void An_output_in_an_output_is_told_whatever_the_lead_with_the_input_that_is_free(string cable)
    {
        var finding = Assert.Single(Table(cable).Findings, f => f.Check.Name is "outputs-joined" or "plug-does-not-fit" or "jack-in-use");
        Assert.Equal("outputs-joined", finding.Check.Name);
        Assert.Equal("bass.line and desk.send are both outputs, and are joined.", finding.What);
        Assert.Equal("desk.line2 is free and takes the same signal.", finding.Advice);
        Assert.Equal("Use desk.line2", Assert.Single(finding.Fixes).Title);
    }

    [Fact]
    public void An_output_that_is_in_use_is_not_the_free_output_of_another_line()
    {
        var found = Table("connect bass.line to desk.send with Patch 2 m", "connect desk.send to desk.line2 with Patch 1 m").Names();
        Assert.Contains("outputs-joined", found);
        Assert.DoesNotContain("jack-in-use", found);
    }

    [Fact]
    public void A_plug_that_does_not_go_in_takes_no_jack_away_from_the_one_that_does()
    {
        var table = Table("connect probe.out to desk.mic", "connect bass.line to desk.mic with Patch 2 m\nmust audio from probe reach desk.mic");
        var finding = Assert.Single(table.Findings, f => f.Check.Name is "plug-does-not-fit" or "jack-in-use" or "must-fails");
        Assert.Equal("plug-does-not-fit", finding.Check.Name);
        Assert.Empty(finding.Breaks);
    }

    [Fact]
    public void Two_plugs_that_both_go_in_still_want_one_jack() =>
        Assert.Contains("jack-in-use", Table("connect bass.line to desk.line1 with Patch 2 m").Names());

    [Fact]
    public void With_the_input_taken_in_exchange_the_table_is_as_clean_as_before()
    {
        var clean = Table("connect bass.line to desk.line2 with Patch 2 m").Names();
        var broken = Table("connect bass.line to desk.send with JackToXlr 2 m");
        var fix = Assert.Single(Assert.Single(broken.Findings, f => f.Check.Name == "outputs-joined").Fixes);
        var text = fix.Edits.OrderByDescending(e => e.Span.Start).Aggregate(
            broken.Files[0].Content, (text, edit) => text.Remove(edit.Span.Start, edit.Span.Length).Insert(edit.Span.Start, edit.NewText));
        Assert.Equal(clean, Rigs.Compile(text).Names());
    }
}
