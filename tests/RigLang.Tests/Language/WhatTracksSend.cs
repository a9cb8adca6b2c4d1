using RigLang.Tests.Support;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>`track … sends … only KINDS`, and filters that hold for one way of a port that goes both ways.</summary>
public class WhatTracksSend
{
    private static string Rig(string only, string expect) => $$"""
        gear Board {
          out out : midi on din-5
          track switches sends out{{only}}
        }
        gear Tern {
          in midi : midi on din-5
          part voice receives midi on channel any
        }
        device board : Board {
          switches on channel 3
        }
        device bass : Tern {
          voice on channel 3
        }
        connect board.out to bass.midi
        {{expect}}
        """;

    [Theory]
    [InlineData("", "must notes from board.switches reach bass")]
    [InlineData(" only program change, controllers", "must program change from board.switches reach bass")]
    [InlineData(" only program change, controllers", "never notes from board.switches reach bass")]
    [InlineData(" only notes", "never system exclusive from board reach bass")]
    public void It_sends_these_kinds_and_no_others(string only, string expect) =>
        Assert.DoesNotContain(Rigs.Compile(Rig(only, expect)).Names(), name => name is "must-fails" or "never-fails" or "unknown-word");

    [Fact]
    public void What_it_does_not_send_does_not_arrive() =>
        Assert.Contains("must-fails", Rigs.Compile(Rig(" only program change", "must notes from board.switches reach bass")).Names());

    [Fact]
    public void Notes_that_it_never_sends_are_not_missed()
    {
        var text = Rig(" only program change", "").Replace("voice on channel 3", "voice on channel 4", StringComparison.Ordinal);
        Assert.DoesNotContain("channel-nobody-hears", Rigs.Compile(text).Names());
        Assert.Contains("channel-nobody-hears", Rigs.Compile(text.Replace(" only program change", "", StringComparison.Ordinal)).Names());
    }

    [Fact]
    public void Clock_is_not_what_a_track_sends() => Assert.Contains("unknown-word", Rigs.Compile(Rig(" only clock", "")).Names());

    [Fact]
    public void Plays_and_a_channel_may_follow()
    {
        var compilation = Rigs.Compile("gear A {\n  out out : midi on din-5\n  in in : midi on din-5\n  part p receives in\n  track t sends out only notes, velocity on channel 2, plays p\n}");
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
        var track = compilation.Rig.Names.FindGear("A")!.Tracks["t"];
        Assert.Equal((MessageKinds.Notes | MessageKinds.Velocity, 2, "p"), (track.Kinds, track.Channels.First, track.Plays.Single()));
    }

    private static Compilation Usb(string setting, string expect) => Rigs.Compile($$"""
        gear Box {
          in usb : usb device on usb-c
          track a sends usb
          part voice receives usb
          clock sends usb
          clock follows internal, usb
          filters any
        }
        gear Computer {
          out usb : usb host on usb-a
          track song sends usb
          clock sends usb
        }
        device box : Box {
          clock internal
          {{setting}}
        }
        device laptop : Computer
        connect laptop.usb to box.usb
        {{expect}}
        """);

    [Theory]
    [InlineData("usb drops clock coming in", "must clock from box reach laptop")]
    [InlineData("usb drops clock coming in", "never clock from laptop reach box")]
    [InlineData("usb drops clock going out", "must clock from laptop reach box.usb")]
    [InlineData("usb drops clock going out", "never clock from box reach laptop")]
    [InlineData("usb drops clock", "never clock from box reach laptop")]
    [InlineData("usb passes only clock coming in", "must notes from box reach laptop")]
    public void A_filter_holds_one_way_where_it_says_so(string setting, string expect)
    {
        var names = Usb(setting, expect).Names();
        Assert.DoesNotContain("never-fails", names);
        Assert.DoesNotContain("must-fails", names);
        Assert.DoesNotContain("syntax-error", names);
    }

    [Fact]
    public void Without_it_the_other_way_is_stopped_too() => Assert.Contains("must-fails", Usb("usb drops clock", "must clock from box reach laptop").Names());

    [Fact]
    public void At_a_jack_that_goes_one_way_the_other_is_a_slip()
    {
        var finding = Rigs.Compile("""
            gear Weir {
              in  in   : midi on din-5
              out out1 : midi on din-5
              route in to out1
              filters any
            }
            device thru : Weir {
              out1 drops clock coming in
            }
            """).Findings.Single(f => f.Check.Name == "wrong-form");
        Assert.Equal("Nothing is coming in at `out1`: it is an output.", finding.What);
        Assert.Equal("", finding.Fixes[0].Edits[0].NewText);
    }
}
