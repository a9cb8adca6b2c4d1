using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>What is offered for a lead that does not reach.</summary>
public class TakingALongerLead
{
    private static Compilation Apart(string lead, string leads = "") => Rigs.Compile($$"""
        import "shared/leads.rig"
        {{leads}}
        gear Rook {
          out midi : midi on din-5
        }
        gear Tern {
          in midi : midi on din-5
        }
        device seq  : Rook at (0 m, 0 m)
        device bass : Tern at (0 m, 3 m)
        connect seq.midi to bass.midi with {{lead}}
        """);

    [Theory]
    [InlineData("MidiDin 1.5 m", "Take 4 m", "with MidiDin 4 m")]
    [InlineData("150 cm", "Take 4 m", "with 4 m")]
    public void A_lead_long_enough_for_the_way_along_the_table(string lead, string title, string after)
    {
        var before = Apart(lead);
        Assert.Equal(["lead-too-short"], before.Names());
        var fix = Assert.Single(before.Findings[0].Fixes);
        Assert.Equal(title, fix.Title);
        Assert.StartsWith("Take 4 m: the way along the table", before.Findings[0].Advice, StringComparison.Ordinal);
        var edit = Assert.Single(fix.Edits);
        var text = before.Files[0].Content.Remove(edit.Span.Start, edit.Span.Length).Insert(edit.Span.Start, edit.NewText);
        Assert.EndsWith(after, text.TrimEnd(), StringComparison.Ordinal);
        Assert.Empty(Rigs.Compile(text).Found());
    }

    [Fact]
    public void None_is_offered_that_is_not_made_so_long()
    {
        var finding = Assert.Single(Apart("Stub 1 m", "lead Stub : din-5 to din-5 {\n  longest 2 m\n}").Findings);
        Assert.Empty(finding.Fixes);
        Assert.StartsWith("Take a longer lead", finding.Advice, StringComparison.Ordinal);
    }
}
