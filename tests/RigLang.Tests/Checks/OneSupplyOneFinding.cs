using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>A wrong supply feeds many boxes at once; it is still one mistake, told where it is plugged in.</summary>
public class OneSupplyOneFinding
{
    private static Compilation ChainOf(string adapter, string third = "MonoPedal") => Rigs.Compile($"""
        import "shared/gear.rig"
        device strip   : MainsStrip
        device wall    : WallSocket
        device adapter : {adapter}
        device chain   : DaisyChain
        device a       : MonoPedal
        device b       : MonoPedal
        device c       : {third}
        connect wall.socket1 to strip.plug
        connect strip.outlet1 to adapter.plug
        connect adapter.out to chain.in
        connect chain.out1 to a.power
        connect chain.out2 to b.power
        connect chain.out3 to c.power
        """);

    [Theory]
    [InlineData("Adapter12Negative", "voltage-mismatch@11")]
    [InlineData("Adapter9Positive", "polarity-reversed@11")]
    [InlineData("Adapter9Ac", "ac-dc-mismatch@11")]
    public void A_supply_that_suits_none_of_its_loads_is_told_once(string adapter, string finding) =>
        Assert.Equal([finding], ChainOf(adapter).Found());

    [Fact]
    public void The_finding_names_every_load() =>
        Assert.Equal("adapter.out gives 12 V, but a.power wants 9 V, b.power wants 9 V and c.power wants 9 V.",
            ChainOf("Adapter12Negative").Findings.Single().What);

    [Fact]
    public void One_load_that_its_supply_does_not_suit_is_told_at_its_own_cable() =>
        Assert.Equal(["polarity-reversed@14"], ChainOf("Adapter9Negative", third: "LineProcessor").Found());

    [Fact]
    public void A_supply_that_suits_all_of_its_loads_is_not_told() => Assert.Empty(ChainOf("Adapter9Negative").Found());

    [Fact]
    public void An_earth_that_a_lead_loses_before_the_strip_is_told_at_that_lead()
    {
        var compilation = Rigs.Compile("""
            import "shared/gear.rig"
            lead TwoCore : mains to socket mains {
              line    to line
              neutral to neutral
            }
            device wall  : WallSocket
            device strip : MainsStrip
            device left  : ActiveSpeaker
            device right : ActiveSpeaker
            connect wall.socket1 to strip.plug with TwoCore 3 m
            connect strip.outlet1 to left.power
            connect strip.outlet2 to right.power
            """);
        Assert.Equal(["earth-missing@10"], compilation.Found());
        Assert.Equal("left.power and right.power need a protective earth, and the TwoCore lead does not bring it from wall.socket1. Do not switch them on.",
            compilation.Findings[0].What);
    }

    [Fact]
    public void A_socket_without_an_earth_is_told_where_the_strip_is_plugged_in()
    {
        var compilation = Rigs.Compile("""
            import "shared/gear.rig"
            gear OldSocket {
              out socket : mains 230 V double-insulated on mains
            }
            device wall  : OldSocket
            device strip : MainsStrip
            device left  : ActiveSpeaker
            device right : ActiveSpeaker
            connect wall.socket to strip.plug
            connect strip.outlet1 to left.power
            connect strip.outlet2 to right.power
            """);
        Assert.Equal(["earth-missing@9"], compilation.Found());
        Assert.Contains("wall.socket has none", compilation.Findings[0].What, StringComparison.Ordinal);
    }
}
