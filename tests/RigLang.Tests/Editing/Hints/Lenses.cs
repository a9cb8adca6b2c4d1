using RigLang.Editing;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>The lines above devices, and the words shown behind connections.</summary>
public class Lenses
{
    private static readonly EditorStyle Plain = new(Markdown: false, InFeet: false);

    [Fact]
    public void Channels_stand_above_whoever_plays_or_hears() => Assert.Equal(
        ["device bass  : Tern at (1 m, 1 m): hears voice 2", "device seq   : Rook at (1 m, 2 m): sends a 2, b 3", "device brick : Brick: 250 mA of 1 A at 9 V · 1 of 2 outlets used"],
        Of(SmallRig.View));

    [Fact]
    public void What_takes_an_unknown_current_makes_a_sum_the_least_it_can_be() =>
        Assert.Contains("device brick : Brick: at least 0 of 1 A at 9 V · 1 of 2 outlets used", Of(SmallRig.With("centre-positive, 250 mA", "centre-positive$0").View));

    [Fact]
    public void An_output_that_gives_too_little_is_named() =>
        Assert.Contains("device brick : Brick: 750 mA of 1 A at 9 V · out1 gives too little · 1 of 2 outlets used", Of(SmallRig.With("centre-positive, 250 mA", "centre-positive, 750 mA$0").View));

    [Fact]
    public void A_voltage_at_a_time_is_added_up()
    {
        var view = Caret.ViewOf("""
            gear Brick {
              out a, b : dc 9 V centre-negative, 200 mA on captive barrel 5.5x2.1 mm
              out c    : dc 12 V centre-negative, 1 A   on captive barrel 5.5x2.1 mm
            }
            gear Nine {
              in power : dc 9 V centre-negative, 60 mA on barrel 5.5x2.1 mm
            }
            device brick : Brick
            device one   : Nine
            device two   : Nine
            connect brick.a to one.power
            connect brick.b to two.power
            """);
        Assert.Equal(["device brick : Brick: 120 of 400 mA at 9 V · 0 of 1 A at 12 V · 2 of 3 outlets used"], Of(view));
    }

    [Fact]
    public void One_outlet_in_use_that_says_nothing_of_itself_has_no_line() => Assert.Empty(Of(Caret.ViewOf("""
        import "shared/leads.rig"
        gear Wall {
          out socket : mains 230 V earthed on mains
        }
        gear Amp {
          in power : mains 230 V earthed on iec-c14
        }
        device wall : Wall
        device amp  : Amp
        connect wall.socket to amp.power with MainsLead 2 m
        """)));

    /// <summary>A wall, a strip in it, a supply in that, a chain behind the supply, and what hangs on the chain.</summary>
    private const string Stage = """
        import "shared/gear.rig"
        rig "Yard" {
          mains 230 V 16 A
        }
        gear Brick {
          in  plug : mains 230 V double-insulated on captive mains
          out out  : dc 9 V centre-negative, 500 mA on captive barrel 5.5x2.1 mm
        }
        gear Amp {
          in power : mains 230 V earthed, 60 W on captive mains
        }
        gear Fuzz {
          in power : dc 9 V centre-negative, 120 mA on barrel 5.5x2.1 mm
        }
        device wall  : WallSocket
        device strip : MainsStrip
        device amp   : Amp
        device brick : Brick
        device chain : DaisyChain
        device one   : Fuzz
        device two   : Fuzz
        connect wall.socket1   to strip.plug
        connect strip.outlet1  to amp.power
        connect strip.outlet2  to brick.plug
        connect brick.out      to chain.in
        connect chain.out1     to one.power
        connect chain.out2     to two.power
        """;

    [Fact]
    public void A_strip_and_a_chain_tell_what_hangs_on_them_as_the_supply_before_them_does() => Assert.Equal(
        [
            "device wall  : WallSocket: at least 104 of 3680 VA at 230 V · 1 of 2 outlets used",
            "device strip : MainsStrip: at least 104 VA at 230 V · 2 of 8 outlets used",
            "device brick : Brick: 240 of 500 mA at 9 V",
            "device chain : DaisyChain: 240 of 500 mA at 9 V · 2 of 5 outlets used",
        ],
        Of(Caret.ViewOf(Stage)));

    [Fact]
    public void A_mains_outlet_that_gives_too_little_is_named() => Assert.Equal(
        ["device van : Inverter: 100 of 80 VA at 230 V · socket gives too little"],
        Of(Caret.ViewOf("""
            gear Inverter {
              out socket : mains 230 V earthed, 80 VA on mains
            }
            gear Amp {
              in power : mains 230 V earthed, 60 W on captive mains
            }
            device van : Inverter
            device amp : Amp
            connect van.socket to amp.power
            """)));

    [Fact]
    public void A_hub_on_the_bus_adds_up_its_ports_and_takes_from_the_computer_what_it_says() => Assert.Equal(
        [
            "device laptop : Laptop: 500 mA of 3.3 A at 5 V · 1 of 3 outlets used",
            "device hub    : UsbHubBusPowered: 170 of 400 mA at 5 V · 2 of 4 outlets used",
        ],
        PowerOf(Caret.ViewOf("""
            import "shared/gear.rig"
            import "shared/leads.rig"
            gear Box {
              in usb : usb device 5 V 85 mA on usb-b
            }
            device laptop : Laptop {
              runs on battery
            }
            device hub    : UsbHubBusPowered
            device one    : Box
            device two    : Box
            connect laptop.usb1 to hub.up
            connect hub.port1   to one.usb
            connect hub.port2   to two.usb
            """)));

    [Fact]
    public void Connections_show_what_they_carry() => Assert.Equal(
        [
            "connect brick.out1 to bass.power|9 V",
            "connect seq.midi   to bass.midi with MidiDin 1.5 m yellow \"B1\"|MIDI",
            "connect bass.line  to desk.ch1|with Patch",
            "connect bass.line  to desk.ch1|1 ch · line",
            "connect seq.main   to desk.ch23|with 2 x Patch",
            "connect seq.main   to desk.ch23|2 ch · line",
        ],
        HintsOf(SmallRig.View));

    [Fact]
    public void The_lead_that_was_taken_stands_before_a_length_by_itself()
    {
        var view = SmallRig.With("connect bass.line  to desk.ch1", "connect bass.line  to desk.ch1 with $03 m");
        var hint = HintFinder.In(view.View, Whole(view.View), Plain).Single(h => h.Text == "Patch");
        Assert.True(hint.IsBefore);
        Assert.Equal(view.Offset, hint.Offset);
    }

    [Fact]
    public void A_channel_that_was_chosen_stands_behind_auto()
    {
        var view = SmallRig.With("  a on channel 2\n  b on channel 3", "  a, b on channel auto$0");
        var hint = HintFinder.In(view.View, Whole(view.View), Plain).Single(h => h.Offset == view.Offset);
        Assert.StartsWith("= ", hint.Text, StringComparison.Ordinal);
        Assert.Equal(2, hint.Text.Split(", ").Length);
        Assert.Contains("seq.a on channel", hint.Tooltip, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cable_that_joins_nothing_shows_nothing() =>
        Assert.DoesNotContain(HintsOf(SmallRig.With("to desk.ch1\n", "to bass.power$0\n").View), h => h.StartsWith("connect bass.line", StringComparison.Ordinal));

    [Fact]
    public void Only_what_is_on_the_screen_is_asked_for()
    {
        var view = SmallRig.View;
        var line = view.Source.Content.IndexOf("connect bass.line", StringComparison.Ordinal);
        Assert.Equal(2, HintFinder.In(view, new TextSpan(line, 10), Plain).Count);
    }

    private static string[] PowerOf(RigView view) => [.. Of(view).Where(l => l.Contains("outlet", StringComparison.Ordinal))];

    private static TextSpan Whole(RigView view) => new(0, view.Source.Length);

    private static string[] Of(RigView view) => [.. LensFinder.In(view).Select(l => $"{view.Source.Slice(l.Span)}: {l.Title}")];

    private static string[] HintsOf(RigView view) =>
        [.. HintFinder.In(view, Whole(view), Plain).Select(h => $"{view.Source.Slice(view.Source.LineSpan(view.Source.PositionOf(h.Offset).Line))}|{h.Text}")];
}
