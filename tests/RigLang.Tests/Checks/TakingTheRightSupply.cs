using RigLang.Findings;
using RigLang.Tests.Examples;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>What is offered to one device with the wrong supply.</summary>
public class TakingTheRightSupply
{
    private static Compilation Fed(string adapter, string by = "nine.out", string lead = "") => Rigs.Compile($$"""
        import "shared/leads.rig"
        import "shared/gear.rig"
        gear Tern {
          in power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
        }
        device wall  : WallSocket
        device strip : MainsStrip
        device nine  : {{adapter}} at (1 m, 2 m)
        device bass  : Tern
        connect wall.socket1  to strip.plug
        connect strip.outlet1 to nine.{{(adapter.StartsWith("Adapter", StringComparison.Ordinal) ? "plug" : "power")}}
        connect {{by}} to bass.power {{lead}}
        """);

    private static (string Title, Compilation After) Mended(Compilation before)
    {
        var fix = Assert.Single(Assert.Single(before.Findings).Fixes);
        var text = fix.Edits.OrderByDescending(e => e.Span.Start).Aggregate(
            before.Files[0].Content, (text, edit) => text.Remove(edit.Span.Start, edit.Span.Length).Insert(edit.Span.Start, edit.NewText));
        return (fix.Title, Rigs.Compile(text));
    }

    [Theory]
    [InlineData("Adapter9Negative", "polarity-reversed")]
    [InlineData("Adapter12Positive", "voltage-mismatch")]
    [InlineData("Adapter9Ac", "ac-dc-mismatch")]
    public void Another_adapter_in_place_of_its_own_leaves_a_clean_rig(string adapter, string check)
    {
        var before = Fed(adapter);
        Assert.Equal([check], before.Names());
        var (title, after) = Mended(before);
        Assert.Equal("Take an Adapter9Positive for nine", title);
        Assert.Empty(after.Found());
        Assert.Equal("Adapter9Positive", after.Rig.Names.DevicesByName["nine"].Gear!.Name);
    }

    [Fact]
    public void What_hangs_on_a_supply_of_several_outputs_gets_an_adapter_of_its_own()
    {
        var (title, after) = Mended(Fed("PedalSupplyShared", "nine.out1", "with DcLead 1 m"));
        Assert.Equal("Feed bass from its own Adapter9Positive in strip.outlet2", title);
        Assert.Empty(after.Found());
    }

    [Fact]
    public void Nothing_is_offered_where_one_wrong_supply_feeds_several() => Assert.Empty(Assert.Single(Rigs.Compile("""
        import "shared/leads.rig"
        import "shared/gear.rig"
        device wall  : WallSocket
        device nine  : Adapter9Positive
        device chain : DaisyChain
        device one   : MonoPedal
        device two   : MonoPedal
        connect wall.socket1 to nine.plug
        connect nine.out to chain.in
        connect chain.out1 to one.power
        connect chain.out2 to two.power
        """).Findings).Fixes);

    private static Compilation Chained(string adapter, string each) => Rigs.Compile($$"""
        import "shared/gear.rig"
        gear Tern {
          in power : dc 12 V centre-positive, {{each}} on barrel 5.5x2.1 mm
        }
        gear Slim {
          in  plug : mains 100..240 V double-insulated, 10 W on captive c7-plug
          out out  : dc 12 V centre-positive, 300 mA on captive barrel 5.5x2.1 mm
        }
        device wall  : WallSocket
        device feed  : {{adapter}}
        device chain : DcSplitter
        device bass  : Tern
        device lead  : Tern
        connect wall.socket1 to feed.plug
        connect feed.out   to chain.in
        connect chain.out1 to bass.power
        connect chain.out2 to lead.power
        """.Replace("on captive c7-plug", PlugOfAdapters(), StringComparison.Ordinal));

    /// <summary>How the library's adapters go into the wall, so that one can take the place of another.</summary>
    private static string PlugOfAdapters() => Shipped.Read("shared/gear.rig").Content.Split('\n')
        .SkipWhile(l => !l.StartsWith("gear Adapter12Positive", StringComparison.Ordinal)).First(l => l.Contains("mains", StringComparison.Ordinal)).Split(" on ")[1].Insert(0, "on ");

    [Fact]
    public void A_chain_that_takes_too_much_gets_a_supply_that_gives_enough_for_all_of_it()
    {
        var before = Chained("Slim", "500 mA");
        Assert.Equal(["supply-overloaded"], before.Names());
        Assert.Contains("12 V centre-positive that gives 1 A or more", before.Findings[0].Advice, StringComparison.Ordinal);
        var (title, after) = Mended(before);
        Assert.Equal("Take an Adapter12Positive for feed", title);
        Assert.Empty(after.Found());
    }

    [Fact]
    public void No_supply_is_offered_where_none_gives_enough_but_the_figure_is_said()
    {
        var finding = Assert.Single(Chained("Slim", "900 mA").Findings);
        Assert.Empty(finding.Fixes);
        Assert.Contains("12 V centre-positive that gives 1.8 A or more", finding.Advice, StringComparison.Ordinal);
    }
}
