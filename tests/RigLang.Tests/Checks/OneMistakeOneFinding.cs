using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>One mistake gives one finding, however much follows from it.</summary>
public class OneMistakeOneFinding
{
    private const string Gear = """
        gear Wren {
          in  power : dc 9 V centre-positive, 100 mA on barrel 5.5x2.1 mm
          in  midi  : midi on din-5
          out line  : audio mono line on ts 6.35 mm
          part voice receives midi on channel any
        }
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Brick {
          out out1, out2 : dc 9 V centre-positive, 500 mA on barrel 5.5x2.1 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
        }

        """;

    [Fact]
    public void A_misspelt_port_is_told_once_and_nothing_is_said_to_be_unplugged() =>
        Assert.Equal(["unknown-name@21"], Rigs.Compile(Gear + """
            device bass  : Wren
            device seq   : Rook
            device brick : Brick
            device desk  : Desk
            connect brick.out1 to bass.powr
            connect seq.midi to bass.midi
            connect bass.line to desk.ch1
            """).Found());

    [Fact]
    public void A_line_with_an_unknown_name_takes_no_jack_from_a_line_that_is_whole() =>
        Assert.Equal(["unknown-name@23"], Rigs.Compile(Gear + """
            device bass  : Wren { voice on channel 2 }
            device seq   : Rook { a on channel 2 }
            device brick : Brick
            device desk  : Desk
            connect brick.out1 to bass.power
            connect seq.midi to bass.midi
            connect seq.mdi to bass.midi
            connect bass.line to desk.ch1
            must notes from seq.a reach bass
            """).Found());

    [Fact]
    public void A_gear_that_could_not_be_read_is_not_missed_again_where_it_is_used() =>
        Assert.Equal(["syntax-error"], Rigs.Compile("""
            gear Wren : {
              out line : audio mono line on ts 6.35 mm
            }
            device bass : Wren
            """).Names());

    [Fact]
    public void A_device_line_that_could_not_be_read_is_not_missed_again_where_it_is_plugged() =>
        Assert.Equal(["syntax-error"], Rigs.Compile("""
            gear Wren {
              out line : audio mono line on ts 6.35 mm
            }
            gear Desk {
              in ch1 : audio mono line on ts 6.35 mm
            }
            device bass Wren
            device desk : Desk
            connect bass.line to desk.ch1
            """).Names());

    [Fact]
    public void A_broken_import_is_told_and_the_names_it_should_bring_are_not() =>
        Assert.Equal(["import-not-found"], Rigs.Compile("""
            import "ours.rig"
            device bass : Wren
            device desk : Desk
            connect bass.line to desk.ch1 with Thing 1 m
            """).Names());

    [Fact]
    public void A_device_that_nothing_is_plugged_into_is_not_also_said_to_be_without_power() =>
        Assert.Equal(["unwired-device"], Rigs.Compile(Gear + "device bass : Wren\n").Names());

    [Fact]
    public void A_cable_that_does_not_fit_leaves_no_device_unplugged() =>
        Assert.Equal(["plug-does-not-fit"], Rigs.Compile("import \"shared/leads.rig\"\n" + Gear + """
            device bass  : Wren
            device seq   : Rook
            device brick : Brick
            device desk  : Desk
            connect brick.out1 to bass.power with Patch 1 m
            connect seq.midi to bass.midi
            connect bass.line to desk.ch1
            """).Names());

    [Fact]
    public void A_port_of_five_jacks_tells_its_mistake_once() =>
        Assert.Equal(["unknown-word"], Rigs.Compile("""
            gear Weir {
              out out1..out5 : midi on din-7
            }
            """).Names());

}
