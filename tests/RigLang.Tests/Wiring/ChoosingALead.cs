using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Wiring;

/// <summary>When a connection names no lead, the simplest that fits and carries everything is taken, and said.</summary>
public class ChoosingALead
{
    [Theory]
    [InlineData("audio mono line on ts 6.35 mm", "audio mono line on ts 6.35 mm", "Patch", 1)]
    [InlineData("audio mono line balanced on trs 6.35 mm", "audio mono line balanced on trs 6.35 mm", "Balanced", 1)]
    [InlineData("audio mono line balanced on trs 6.35 mm", "audio mono line on ts 6.35 mm", "Unbalancing", 1)]
    [InlineData("audio stereo headphone on trs 3.5 mm", "audio stereo line on 2 ts 6.35 mm", "Breakout", 1)]
    [InlineData("audio stereo line on 2 ts 6.35 mm", "audio stereo line on 2 ts 6.35 mm", "Patch", 2)]
    [InlineData("audio mono mic on xlr-3", "audio mono mic on xlr-3", "Xlr", 1)]
    [InlineData("audio mono mic on xlr-3", "audio mono mic on combo", "Xlr", 1)]
    [InlineData("midi on din-5", "midi on din-5", "MidiDin", 1)]
    [InlineData("midi on trs 3.5 mm type-a", "midi on trs 3.5 mm type-a", "MidiTrs", 1)]
    [InlineData("midi on trs 3.5 mm type-a", "midi on trs 3.5 mm type-b", "MidiTrsCrossed", 1)]
    [InlineData("midi on trs 3.5 mm type-b", "midi on din-5", "MidiTrsB", 1)]
    [InlineData("midi on din-5", "midi on trs 3.5 mm type-a", "MidiTrsA", 1)]
    [InlineData("din-sync 24 ppqn on din-5", "din-sync 24 ppqn on din-5", "DinSync", 1)]
    [InlineData("dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm", "dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm", "DcLead", 1)]
    [InlineData("dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm", "dc 9 V centre-negative, 1 A on barrel 5.5x2.1 mm", "DcReversing", 1)]
    [InlineData("usb host 5 V 900 mA on usb-a", "usb device on usb-b", "UsbAB", 1)]
    [InlineData("mains 230 V earthed on mains", "mains 230 V earthed on iec-c14", "MainsLead", 1)]
    public void It_is_the_one_a_player_would_take_from_the_box(string output, string input, string lead, int count)
    {
        var rig = Bench.Join(output, "", input);
        var chosen = Assert.Single(rig.ChosenLeads);
        Assert.Equal((lead, count), (chosen.Lead, chosen.Count));
        Assert.Empty(rig.Names());
    }

    [Fact]
    public void A_length_alone_leaves_the_choice_open_too() =>
        Assert.Equal("Patch", Assert.Single(Bench.Join("audio mono line on ts 6.35 mm", "2 m", "audio mono line on ts 6.35 mm").ChosenLeads).Lead);

    [Fact]
    public void A_lead_of_the_rigs_own_serves_where_the_library_has_none() =>
        Assert.Equal("Odd", Assert.Single(Bench.Join("audio mono line on ts 2.5 mm", "", "audio mono line on rca",
            """
            lead Odd : ts 2.5 mm to rca
            """).ChosenLeads).Lead);

    [Theory]
    [InlineData("centre-positive")]
    [InlineData("centre-negative")]
    public void A_splitter_takes_the_polarity_of_its_supply_so_a_straight_lead_serves(string polarity)
    {
        var rig = Rigs.Compile($$"""
            import "shared/leads.rig"
            gear Brick {
              out out : dc 9 V {{polarity}}, 1 A on barrel 5.5x2.1 mm
            }
            gear Split {
              in  in         : dc on barrel 5.5x2.1 mm
              out out1, out2 : dc on barrel 5.5x2.1 mm
              join in to out1, out2
            }
            gear Tern {
              in power : dc 9 V {{polarity}}, 250 mA on barrel 5.5x2.1 mm
            }
            device brick : Brick
            device split : Split
            device bass  : Tern
            connect brick.out  to split.in
            connect split.out1 to bass.power
            """);
        Assert.All(rig.ChosenLeads, chosen => Assert.Equal("DcLead", chosen.Lead));
        Assert.Empty(rig.Names());
    }
}
