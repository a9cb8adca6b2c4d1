using RigLang.Symbols;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>Busses, assigned routes, numbered channels, sounds, tracks and what is dialled in: what is read, and how each slip is told.</summary>
public class WordsOfAMixer
{
    private const string Gear = """
        gear Desk {
          in  ch1..ch4 : audio mono line   on ts 6.35 mm
          in  ch56     : audio stereo line on 2 ts 6.35 mm
          in  midi     : midi              on din-5
          in  usb      : usb device        on usb-b
          out main     : audio stereo line on 2 ts 6.35 mm
          out send     : audio mono line   on ts 6.35 mm
          bus group1   : audio stereo
          bus group2   : audio mono
          assign ch1..ch4, ch56 to group1, main
          route  group1         to main
          route  ch1..ch4       to send
          route  ch1..ch4       to usb channels 1..4
          route  ch56           to usb channels 5..6 gain -3 dB
          route  usb            to main channels 1..2
          records main
        }
        gear Player {
          out usb : usb host on usb-a
          sound songs at usb channels 1..2
          sound click at usb channels 7
          records usb
        }
        gear Rail {
          out line : audio mono line on ts 6.35 mm
        }

        """;

    private const string Table = Gear + """
        import "shared/leads.rig"
        device rail   : Rail
        device laptop : Player
        connect rail.line  to desk.ch1
        connect laptop.usb to desk.usb with UsbAB 1 m

        """;

    private static Compilation With(string settings, string more = "") => Rigs.Compile($"{Table}device desk : Desk {{\n{settings}\n}}\n{more}\n");

    private static GearSymbol Desk => With("").Rig.Names.DevicesByName["desk"].Gear!;

    [Fact]
    public void A_bus_is_found_by_its_name_and_is_no_jack()
    {
        Assert.Equal(["group1", "group2"], Desk.Busses.Select(b => b.Name));
        Assert.DoesNotContain(Desk.Ports, p => p.IsBus);
        Assert.True(Desk.PortsByName["group1"].Signal!.IsStereo);
    }

    [Fact]
    public void Assigned_routes_are_routes_that_can_be_chosen()
    {
        var (ch1, group1) = (Desk.PortsByName["ch1"], Desk.PortsByName["group1"]);
        var gear = ch1.Gear;
        Assert.Equal(["group1", "main"], gear.Assigns.From(gear.PortsByName["ch1"]).Select(p => p.Name));
        Assert.True(gear.Routes.Contains(gear.PortsByName["ch1"], gear.PortsByName["group1"]));
        Assert.NotNull(group1);
    }

    [Fact]
    public void Numbered_channels_go_by_the_order_of_the_names_and_a_stereo_port_takes_two() =>
        Assert.Equal(["ch1>usb 1", "ch2>usb 2", "ch3>usb 3", "ch4>usb 4", "ch56>usb 5", "usb>main 1"], Desk.Streams.Select(s => $"{s.From.Name}>{s.To.Name} {s.First}"));

    [Fact]
    public void A_gain_of_a_route_is_kept() => Assert.Equal(-3, Desk is var gear ? gear.Gains.Of(gear.PortsByName["ch56"], gear.PortsByName["usb"]) : 0);

    [Fact]
    public void Sounds_have_their_channels()
    {
        var player = With("").Rig.Names.DevicesByName["laptop"].Gear!;
        Assert.Equal((7, 7), player.Sounds["click"].Channels);
        Assert.Equal((1, 2), player.Sounds["songs"].Channels);
    }

    [Fact]
    public void Settings_are_kept_one_by_one()
    {
        var desk = With("  ch1 to group1\n  ch1 pan left\n  ch1 gain 6 dB\n  ch1 send -10 dB\n  ch2 send off\n  ch3, ch4 muted\n  main mono").Rig.Names.DevicesByName["desk"];
        Assert.Equal(["Assign ch1", "Pan ch1", "Gain ch1", "Send ch1", "Send ch2", "Muted ch3", "Muted ch4", "Mono main"], desk.Mix.Select(m => $"{m.GetType().Name} {m.Port.Name}"));
    }

    [Theory]
    [InlineData("  ch1 pan middle", "unknown-word")]
    [InlineData("  ch56 pan left", "missing-ability")]
    [InlineData("  midi gain 3 dB", "missing-ability")]
    [InlineData("  ch1 gain 3 V", "wrong-dimension")]
    [InlineData("  ch56 send -3 dB", "missing-ability")]
    [InlineData("  ch1 sent -3 dB", "unknown-name")]
    [InlineData("  ch1 to group2", "missing-ability")]
    [InlineData("  ch1 mono", "missing-ability")]
    [InlineData("  midi muted", "missing-ability")]
    [InlineData("  ch9 muted", "unknown-name")]
    [InlineData("  ch1 muted\n  ch1 muted", "duplicate-name")]
    [InlineData("  ch1 pan left\n  ch1..ch2 pan right", "duplicate-name")]
    public void A_setting_that_the_gear_does_not_have_is_told(string setting, string check) => Assert.Equal([check], With(setting).Names().Distinct());

    [Theory]
    [InlineData("bus group : midi", "unknown-word")]
    [InlineData("bus main : audio mono", "duplicate-name")]
    [InlineData("bus extra : audio mono on ts 6.35 mm", "wrong-form")]
    [InlineData("route ch1..ch4 to usb channels 1..3", "unequal-lists")]
    [InlineData("route ch1 to main channels 1..2", "missing-ability")]
    [InlineData("route ch1 to usb channels 70", "out-of-range")]
    [InlineData("sound hum at midi", "missing-ability")]
    [InlineData("sound hum at main channels 2", "missing-ability")]
    [InlineData("records midi", "missing-ability")]
    [InlineData("records nothing", "unknown-name")]
    [InlineData("assign ch1 to nowhere", "unknown-name")]
    public void A_line_of_gear_that_means_nothing_is_told(string line, string check) =>
        Assert.Equal([check], Rigs.Compile(Table.Replace("  records main\n", $"  {line}\n", StringComparison.Ordinal) + "device desk : Desk\n").Names());

    [Fact]
    public void A_cable_into_a_bus_is_told_where_to_go_instead()
    {
        var finding = Assert.Single(With("", "device other : Rail\nconnect other.line to desk.group1").Findings);
        Assert.Equal("`group1` is a bus inside Desk: no cable goes in there.", finding.What);
        Assert.StartsWith("Connect a jack that it is routed to: `desk.ch1` or `desk.ch2`", finding.Advice, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("must audio from laptop.songs reach desk.main in stereo", true)]
    [InlineData("must audio from laptop.click reach desk.main", false)]
    [InlineData("must audio from laptop.click reach desk.usb", true)]
    [InlineData("must audio from rail reach laptop on track 1", true)]
    [InlineData("must audio from rail reach laptop on track 2", false)]
    [InlineData("must audio from rail reach desk on track 1", true)]
    [InlineData("must audio from rail reach desk.group1", true)]
    [InlineData("must audio from desk.ch1 reach laptop", true)]
    public void Promises_name_sounds_busses_inputs_and_tracks(string line, bool holds) =>
        Assert.Equal(holds, Assert.Single(With("", line).Rig.Outcomes).Holds);

    [Theory]
    [InlineData("  ch1 pan left\n  ch1 to main", "it is on track 1 of desk, not on 2", "must audio from rail reach desk on track 2", false)]
    [InlineData("  ch1 muted", "what comes in at desk.ch1 does not go on to desk.usb: desk.ch1 is muted (line 33)", "must audio from rail reach laptop", false)]
    [InlineData("  ch1 to group1\n  group1 muted", "what comes in at desk.ch1 does not go on to desk.group1: desk.group1 is muted (line 34)", "must audio from rail reach hall", false)]
    public void What_is_dialled_in_decides(string settings, string reason, string line, bool holds)
    {
        var outcome = Assert.Single(With(settings, "gear Hall {\n  in line : audio stereo line on 2 ts 6.35 mm\n}\ndevice hall : Hall\nconnect desk.main to hall.line\n" + line).Rig.Outcomes);
        Assert.Equal(holds, outcome.Holds);
        Assert.Equal(reason, outcome.Stopped);
    }

    [Theory]
    [InlineData("must notes from laptop.click reach desk")]
    [InlineData("must audio from rail reach rail on track 1")]
    [InlineData("must clock from desk reach laptop on track 1")]
    public void What_has_no_meaning_is_refused(string line) => Assert.Contains("missing-ability", With("", line).Names());

    [Fact]
    public void The_words_are_names_elsewhere() => Assert.Empty(Rigs.Compile("""
        gear Odd {
          out sound, bus, records : audio mono line on ts 6.35 mm
          in  assign, mono, muted, pan : audio mono line on ts 6.35 mm
        }
        device a, b : Odd
        connect a.sound to b.assign with 1 m
        connect a.bus   to b.mono   with 1 m
        connect b.records to a.pan  with 1 m
        """).Names());
}
