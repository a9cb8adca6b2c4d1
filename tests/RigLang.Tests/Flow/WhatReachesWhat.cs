using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>`must` and `never` follow what they speak of through the rig.</summary>
public class WhatReachesWhat
{
    [Fact]
    public void A_clock_follows_a_pulse_cable() =>
        Assert.Empty(Rigs.Compile("""
            gear Rook {
              out sync : pulse 2 ppqn 5 V on ts 3.5 mm
              clock sends sync
            }
            gear Larrick {
              in sync : pulse 2 ppqn 5 V on ts 3.5 mm
              clock follows internal, sync
            }
            device seq : Rook
            device box : Larrick {
              clock sync
            }
            connect seq.sync to box.sync
            must clock from seq reach box
            """).Names());

    [Fact]
    public void A_pulse_cable_carries_no_notes() =>
        Assert.Equal(["must-fails"], Rigs.Compile("""
            gear Rook {
              out sync : pulse 2 ppqn 5 V on ts 3.5 mm
              track a sends sync
            }
            gear Larrick {
              in sync : pulse 2 ppqn 5 V on ts 3.5 mm
            }
            device seq : Rook
            device box : Larrick
            connect seq.sync to box.sync
            must notes from seq.a reach box
            """).Names());

    private const string Desk = """
        gear Synth {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Desk {
          in  ch12   : audio stereo line on 2 ts 6.35 mm
          in  ret    : audio mono line   on ts 6.35 mm
          out send   : audio mono line   on ts 6.35 mm
          out record : audio stereo line on 2 ts 6.35 mm
          route ch12 to record, send
          route ret  to record
        }
        gear Echo {
          in  in  : audio mono line on ts 6.35 mm
          out out : audio mono line on ts 6.35 mm
          route in to out
        }
        gear Tape {
          in line : audio stereo line on 2 ts 6.35 mm
        }
        device pad  : Synth
        device desk : Desk
        device echo : Echo
        device tape : Tape

        """;

    [Fact]
    public void A_mono_effect_beside_it_takes_no_stereo_away() =>
        Assert.Empty(Rigs.Compile(Desk + """
            connect pad.main    to desk.ch12
            connect desk.send   to echo.in
            connect echo.out    to desk.ret
            connect desk.record to tape.line
            must audio from pad reach tape in stereo
            """).Names());

    [Fact]
    public void Stereo_through_a_mono_effect_alone_is_mono() =>
        Assert.Equal(["must-fails"], Rigs.Compile(Desk + """
            connect pad.main.left to echo.in
            connect echo.out      to desk.ret
            connect desk.record   to tape.line
            must audio from pad reach tape in stereo
            """).Names());

    [Fact]
    public void Sides_that_are_swapped_are_not_stereo_as_expected() =>
        Assert.Equal(["must-fails"], Rigs.Compile(Desk + """
            connect pad.main.left     to desk.ch12.right
            connect pad.main.right    to desk.ch12.left
            connect desk.record       to tape.line
            must audio from pad reach tape in stereo
            """).Names().Where(n => n != "unwired-device"));

    [Fact]
    public void An_insert_is_followed_out_and_back() =>
        Assert.Empty(Rigs.Compile("""
            import "shared/leads.rig"
            gear Synth {
              out line : audio mono line on ts 6.35 mm
            }
            gear Desk {
              in  line1 : audio mono line on ts 6.35 mm
              out ins1  : insert          on trs 6.35 mm
              out rec   : audio mono line on ts 6.35 mm
              route line1 to ins1
              route ins1  to rec
            }
            gear Press {
              in  in  : audio mono line on ts 6.35 mm
              out out : audio mono line on ts 6.35 mm
              route in to out
            }
            gear Tape {
              in line : audio mono line on ts 6.35 mm
            }
            device bass : Synth
            device desk : Desk
            device comp : Press
            device tape : Tape
            connect bass.line to desk.line1
            connect desk.ins1 to comp.in, comp.out with InsertY 1 m
            connect desk.rec  to tape.line
            must audio from bass reach tape
            """).Names());

    [Fact]
    public void A_data_cable_is_no_supply() =>
        Assert.Equal(["must-fails"], Rigs.Compile("""
            gear Brick {
              out out : dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm
            }
            gear Laptop {
              in  power : dc 9 V centre-positive, 1 A on barrel 5.5x2.1 mm
              out usb   : usb host 5 V 900 mA on usb-a
            }
            gear Desk {
              in usb : usb device on usb-b
            }
            device brick  : Brick
            device laptop : Laptop
            device desk   : Desk
            connect brick.out  to laptop.power
            connect laptop.usb to desk.usb
            must power from brick reach desk
            """).Names());

    [Fact]
    public void A_way_that_a_told_mistake_breaks_is_not_told_again() =>
        Assert.Equal(["syntax-error"], Rigs.Compile("""
            gear Rook {
              out midi : midi on din-5
              track a sends midi
            }
            gear Larrick {
              in midi : midi on din-5
            }
            device seq : Rook
            device box : Larrick
            connect seq.midi box.midi
            must notes from seq.a reach box
            """).Names());

    [Fact]
    public void What_may_not_arrive_is_told_as_a_chain_of_ports() =>
        Assert.Contains("keys.midi → thru.in → thru.out1 → bass.midi", Rigs.Compile(RigLang.Checks.CheckList.Find("never-fails")!.BadExample).Findings[0].What, StringComparison.Ordinal);
}
