using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Checks;

/// <summary>
/// Tables on which the flow of audio speaks, and tables that look like them and work. A table that is written only in part, or ends at somebody
/// else's desk, is no mistake.
/// </summary>
public class WhereSoundEndsUp
{
    private const string Gear = """
        gear Keys {
          in  midi     : midi                       on din-5
          out midi-out : midi                       on din-5
          out main     : audio stereo line normalled on 2 ts 6.35 mm
          track hands sends midi-out
          part piano receives midi on channel any, sounds at main
        }
        gear Drums {
          out main : audio stereo line on 2 ts 6.35 mm
        }
        gear Guitar {
          out out : audio mono instrument on ts 6.35 mm
        }
        gear Pedal {
          in  in  : audio mono instrument on ts 6.35 mm
          out out : audio mono instrument on ts 6.35 mm
          route in to out
        }
        gear Echo {
          in  in  : audio mono line             on ts 6.35 mm
          out out : audio stereo line normalled on 2 ts 6.35 mm
          route in to out
        }
        gear Desk {
          in  ch1, ch2 : audio mono line             on ts 6.35 mm
          in  ch34     : audio stereo line normalled on 2 ts 6.35 mm
          in  ch56     : audio stereo line normalled on 2 ts 6.35 mm
          in  return   : audio stereo line normalled on 2 ts 6.35 mm
          out main     : audio stereo line           on 2 ts 6.35 mm
          out record   : audio stereo line           on 2 ts 6.35 mm
          out send     : audio mono line             on ts 6.35 mm
          out phones   : audio stereo headphone      on trs 6.35 mm
          route ch1, ch2, ch34, ch56, return to main, record, send, phones
        }
        gear Speaker {
          in  line : audio mono line on ts 6.35 mm
          out link : audio mono line on ts 6.35 mm
          route line to link
        }
        gear Tape {
          in  line   : audio stereo line      on 2 ts 6.35 mm
          out phones : audio stereo headphone on trs 6.35 mm
          route line to phones
        }
        device keys   : Keys
        device drums  : Drums
        device desk   : Desk
        device left   : Speaker
        device right  : Speaker
        connect desk.main.left  to left.line  with 3 m
        connect desk.main.right to right.line with 3 m
        connect drums.main      to desk.ch34  with 3 m
        connect keys.main       to desk.ch56  with 3 m

        """;

    private static string[] Found(string more, params (string Old, string New)[] changes) =>
        Rigs.Compile(changes.Aggregate(Gear, (text, change) => text.Contains(change.Old, StringComparison.Ordinal)
            ? text.Replace(change.Old, change.New, StringComparison.Ordinal) : throw new ArgumentException(change.Old)) + more).Names();

    [Fact]
    public void A_table_that_works_is_silent() => Assert.Empty(Found(""));

    [Fact]
    public void A_recorder_with_nothing_but_headphones_behind_it_is_an_end() =>
        Assert.Empty(Found("device tape : Tape\nconnect desk.record to tape.line with 1 m\n"));

    [Fact]
    public void The_link_of_a_loudspeaker_may_stay_free() => Assert.Empty(Found(""));

    [Fact]
    public void A_mono_effect_on_the_send_takes_nothing_from_the_stereo_beside_it() =>
        Assert.Empty(Found("device echo : Echo\nconnect desk.send to echo.in with 1 m\nconnect echo.out to desk.return with 1 m\n"));

    /// <summary>The return could be sent again: its knob stands at nothing until somebody turns it.</summary>
    [Fact]
    public void An_effect_whose_return_has_a_send_of_its_own_is_no_loop() =>
        Assert.DoesNotContain("audio-loop", Found("device echo : Echo\nconnect desk.send to echo.in with 1 m\nconnect echo.out to desk.return with 1 m\n"));

    [Fact]
    public void A_table_without_loudspeakers_ends_at_somebody_elses_desk() => Assert.Empty(Found("",
        ("connect desk.main.left  to left.line  with 3 m\nconnect desk.main.right to right.line with 3 m\n", ""),
        ("device left   : Speaker\ndevice right  : Speaker\n", "")));

    [Fact]
    public void Two_pedals_and_the_lead_between_them_are_a_part_of_a_table() =>
        Assert.Empty(Found("device one, two : Pedal\nconnect one.out to two.in with 0.3 m\n"));

    [Fact]
    public void A_pedal_that_waits_for_a_guest_is_silent() =>
        Assert.Empty(Found("device drive : Pedal\nconnect drive.out to desk.ch1 with 3 m\n"));

    [Fact]
    public void A_guitar_that_ends_in_a_pedal_is_told_at_the_pedal() =>
        Assert.Equal(["no-way-out"], Found("device guitar : Guitar\ndevice drive : Pedal\nconnect guitar.out to drive.in with 3 m\n"));

    [Fact]
    public void Nothing_on_the_outputs_of_a_second_desk_is_told_once() =>
        Assert.Equal(["no-way-out"], Found("device small : Desk\ndevice guitar, bass : Guitar\nconnect guitar.out to small.ch1 with 3 m\nconnect bass.out to small.ch2 with 3 m\n"));

    [Fact]
    public void A_pedal_without_its_guitar_is_told_where_an_instrument_stands_beside_it_without_a_lead() =>
        Assert.Equal(["no-way-in"], Found("device other : Keys\ndevice drive : Pedal\nconnect drive.out to desk.ch1 with 3 m\nconnect keys.midi-out to other.midi with 3 m\n"));

    [Fact]
    public void An_instrument_that_is_played_and_has_no_lead_is_told() => Assert.Equal(["voice-unheard"], Found("""
        device other : Keys {
          piano on channel 1
        }
        connect keys.midi-out to other.midi with 3 m
        """, ("device keys   : Keys\n", "device keys : Keys {\n  hands on channel 1\n}\n")));

    [Fact]
    public void An_instrument_that_only_plays_others_needs_no_lead_for_its_sound() => Assert.Empty(Found("""
        device pad : Keys
        connect pad.midi-out to keys.midi with 3 m
        """));

    [Fact]
    public void One_loudspeaker_alone_loses_the_other_side_of_what_is_stereo() =>
        Assert.Equal(["side-lost"], Found("", ("connect desk.main.right to right.line with 3 m\n", ""), ("device right  : Speaker\n", "")));

    [Fact]
    public void One_loudspeaker_alone_is_enough_where_the_other_side_is_heard_elsewhere() =>
        Assert.Empty(Found("device tape : Tape\nconnect desk.record to tape.line with 1 m\n", ("connect desk.main.right to right.line with 3 m\n", ""), ("device right  : Speaker\n", "")));

    [Fact]
    public void One_loudspeaker_alone_is_enough_for_what_is_mono() => Assert.Empty(Found("device guitar : Guitar\nconnect guitar.out to desk.ch1 with 3 m\n",
        ("connect desk.main.right to right.line with 3 m\n", ""), ("device right  : Speaker\n", ""), ("connect drums.main      to desk.ch34  with 3 m\n", ""), ("device drums  : Drums\n", ""),
        ("connect keys.main       to desk.ch56  with 3 m\n", "connect keys.main.left to desk.ch56.left with 3 m\n")));

    [Fact]
    public void A_crossed_pair_is_told_at_its_cable() => Assert.Equal(["sides-exchanged"], Found("device tape : Tape\nconnect desk.record.left to tape.line.right with 1 m\nconnect desk.record.right to tape.line.left with 1 m\n"));

    [Fact]
    public void A_crossed_pair_before_two_loudspeakers_is_a_matter_of_where_they_stand() =>
        Assert.Empty(Found("", ("to left.line", "to x.line"), ("to right.line", "to left.line"), ("to x.line", "to right.line")));

    [Fact]
    public void Two_mono_channels_may_be_panned_apart_at_the_desk() =>
        Assert.Empty(Found("connect drums.main.left to desk.ch1 with 3 m\nconnect drums.main.right to desk.ch2 with 3 m\n", ("connect drums.main      to desk.ch34  with 3 m\n", "")));

    [Fact]
    public void A_recorder_that_plays_back_into_the_desk_it_records_can_howl() => Assert.Equal(["audio-loop"], Found("""
        gear Deck {
          in  line     : audio stereo line on 2 ts 6.35 mm
          out line-out : audio stereo line on 2 ts 6.35 mm
          route line to line-out
        }
        device deck : Deck
        connect desk.record   to deck.line   with 1 m
        connect deck.line-out to desk.return with 1 m
        """));

    [Fact]
    public void A_computer_passes_on_what_its_programs_are_told_to() => Assert.DoesNotContain("audio-loop", Found("""
        import "shared/gear.rig"
        import "shared/leads.rig"
        gear UsbDesk like Desk {
          in usb : usb device on usb-b
          route ch1, ch2, ch34, ch56, return to usb
        }
        device laptop : Laptop {
          runs on battery
        }
        connect laptop.usb1   to desk.usb    with UsbAB 1 m
        connect laptop.phones to desk.return with Breakout 1 m
        """, ("device desk   : Desk", "device desk   : UsbDesk")));

    [Fact]
    public void A_loudspeaker_with_power_and_no_lead_is_told_at_the_loudspeaker() => Assert.Equal(["nothing-heard"], Found("""
        import "shared/gear.rig"
        import "shared/leads.rig"
        device wall : WallSocket
        device fill : ActiveSpeaker
        connect wall.socket1 to fill.power with MainsLead 2 m
        """));

    [Fact]
    public void A_recorder_behind_outputs_that_nothing_is_routed_to_is_told_at_its_cable() => Assert.Equal(["nothing-heard"], Found("""
        device tape : Tape
        connect desk.aux to tape.line with 1 m
        """, ("out send     ", "out aux      : audio stereo line           on 2 ts 6.35 mm\n  in talkback  : audio mono line             on ts 6.35 mm\n  route talkback to aux\n  out send     ")));

    [Fact]
    public void Headphones_behind_a_box_that_gets_nothing_are_not_told_beside_it() => Assert.Equal(["no-way-in"], Found("""
        device other : Keys
        device drive : Pedal
        device fill  : Speaker
        connect drive.out to fill.line with 3 m
        connect keys.midi-out to other.midi with 3 m
        """));

    [Fact]
    public void A_sampler_need_not_let_through_what_it_samples() => Assert.DoesNotContain("audio-loop", Found("""
        gear Grains {
          in  input : audio stereo line on 2 ts 6.35 mm
          in  midi  : midi              on din-5
          out main  : audio stereo line on 2 ts 6.35 mm
          route input to main
          part pads receives midi on channel any, sounds at main
        }
        device grains : Grains
        connect desk.record to grains.input with 1 m
        connect grains.main to desk.return  with 1 m
        """));

    /// <summary>Nobody says that it does; who relies on it may.</summary>
    [Fact]
    public void A_promise_may_rely_on_what_a_computer_passes_on() => Assert.Empty(Found("""
        import "shared/gear.rig"
        import "shared/leads.rig"
        gear UsbDesk like Desk {
          in usb : usb device on usb-b
          route ch1, ch2, ch34, ch56, return to usb
        }
        device laptop : Laptop {
          runs on battery
        }
        device ears : Headphones
        connect laptop.usb1   to desk.usb  with UsbAB 1 m
        connect laptop.phones to ears.plug
        must audio from drums reach ears in stereo
        """, ("device desk   : Desk", "device desk   : UsbDesk")));

    [Fact]
    public void Headphones_on_a_lead_that_does_not_fit_are_told_once() => Assert.Equal(["plug-does-not-fit"], Found("""
        lead Mini : trs 3.5 mm to trs 3.5 mm
        gear Cans {
          in plug : audio stereo headphone on trs 3.5 mm
        }
        device cans : Cans
        connect desk.phones to cans.plug with Mini 1 m
        """));
}
