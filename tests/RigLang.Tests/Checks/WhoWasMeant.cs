using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>Where a promise says who was meant to play what, a finding gives the reason that lies between the two, and advises nothing that does harm.</summary>
public class WhoWasMeant
{
    private static Compilation Table(string track, string part, string promise = "must notes from seq.a reach bass") => Rigs.Compile($$"""
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Weir {
          in  in         : midi on din-5
          out out1, out2 : midi on din-5
          route in to out1, out2
          filters any
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
        }
        device seq  : Rook {
          a on {{track}}
        }
        device thru : Weir {
          out2 drops notes
        }
        device bass : Tern {
          voice on {{part}}
        }
        device echo : Tern {
          voice on channel off
        }
        connect seq.midi  to thru.in
        connect thru.out1 to bass.midi
        connect thru.out2 to echo.midi
        {{promise}}
        """);

    [Fact]
    public void The_channel_is_the_reason_and_not_a_filter_on_another_way()
    {
        var finding = Assert.Single(Table("channel 2", "channel 3").Findings, f => f.Check.Name == "channel-nobody-hears");
        Assert.Equal("Nobody hears seq.a on channel 2: bass.voice listens to channel 3, and notes come on channel 2.", finding.What);
        Assert.Equal("Set bass.voice to channel 2, or seq.a to channel 3.", finding.Advice);
    }

    [Fact]
    public void Without_a_promise_those_who_listen_on_the_way_are_named_and_no_filter()
    {
        var finding = Assert.Single(Table("channel 2", "channel 3", "").Findings, f => f.Check.Name == "channel-nobody-hears");
        Assert.Equal("Nobody hears seq.a on channel 2.", finding.What);
        Assert.Contains("bass.voice on channel 3", finding.Advice, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_that_nothing_plays_names_the_track_that_should_and_is_off()
    {
        var table = Rigs.Compile("""
            gear Keys {
              out midi : midi on din-5
              track manual sends midi
              track pads   sends midi
            }
            gear Tern {
              in midi : midi on din-5
              part voice receives midi on channel any
              part organ receives midi on channel any
            }
            device keys : Keys {
              manual on channel off
              pads   on channel 3
            }
            device poly : Tern {
              voice on channel 4
              organ on channel 3
            }
            connect keys.midi to poly.midi
            must notes from keys.manual reach poly.voice
            """);
        var finding = Assert.Single(table.Findings, f => f.Check.Name == "part-hears-nobody");
        Assert.Equal("Nothing plays poly.voice on channel 4: keys.manual is off.", finding.What);
    }

    [Fact]
    public void No_cable_is_advised_that_would_bring_another_voltage()
    {
        var outcome = Assert.Single(Rigs.Compile("""
            gear Brick {
              out out1 : dc 9 V centre-negative, 500 mA on barrel 5.5x2.1 mm
            }
            gear Lens {
              in power : dc 5 V centre-positive, 500 mA on barrel 5.5x2.1 mm
            }
            device brick  : Brick
            device camera : Lens
            must power from brick reach camera
            """).Rig.Outcomes);
        Assert.Equal("Feed camera.power with 5 V DC centre-positive: brick.out1 gives 9 V DC centre-negative.", BrokenWords.Mend(outcome.Broken!, outcome.Target.At.Source));
    }

    [Fact]
    public void No_cable_is_advised_that_would_feed_a_box_into_itself()
    {
        var outcome = Assert.Single(Rigs.Compile("""
            gear Wren {
              out line : audio mono line on ts 6.35 mm
            }
            gear Desk {
              in  ch1, ch2  : audio mono line on ts 6.35 mm
              out main, rec : audio mono line on ts 6.35 mm
              route ch1 to main
              route ch2 to rec
            }
            gear Tape {
              in line : audio mono line on ts 6.35 mm
            }
            device bass : Wren
            device desk : Desk
            device tape : Tape
            connect bass.line to desk.ch1
            connect desk.rec to tape.line
            must audio from bass reach tape
            """).Rig.Outcomes);
        Assert.DoesNotContain("Connect desk.main to desk.ch2", BrokenWords.Mend(outcome.Broken!, outcome.Target.At.Source), StringComparison.Ordinal);
    }
}
