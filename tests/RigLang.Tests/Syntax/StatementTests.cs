using RigLang.Connectors;
using RigLang.Syntax;
using Xunit;

namespace RigLang.Tests.Syntax;

/// <summary>Every statement of the language, and every line of its blocks.</summary>
public class StatementTests
{
    [Fact]
    public void Rig_has_a_title() => Assert.Equal("Lantern Barge", Reading.Statement<RigStatement>("rig \"Lantern Barge\" {\n}").Title?.Text);

    [Fact]
    public void Rig_needs_no_title() => Assert.Null(Reading.Statement<RigStatement>("rig {\n}").Title);

    [Fact]
    public void A_rig_setting_has_a_name_and_quantities()
    {
        var mains = Reading.Line<RigSetting>("rig", "mains 230 V 50 Hz");
        Assert.Equal("mains", mains.Name.Text);
        Assert.Equal(["230 V", "50 Hz"], mains.Values.Select(q => $"{q.Number.Text} {q.Unit.Text}"));
    }

    [Fact]
    public void Import_names_a_file() => Assert.Equal("our-gear.rig", Reading.Statement<ImportStatement>("import \"our-gear.rig\"").Path.Text);

    [Fact]
    public void Gear_has_a_name() => Assert.Equal("Tern", Reading.Statement<GearStatement>("gear Tern { }").Name.Text);

    [Fact]
    public void A_port_has_a_direction_names_a_signal_and_a_connector()
    {
        var port = Reading.Line<PortLine>("gear Tern", "in power : dc 9..12 V centre-positive, 250 mA on barrel 5.5x2.1 mm");
        Assert.False(port.IsOutput);
        Assert.Equal(["power"], Reading.Texts(port.Names));
        Assert.Equal(["dc", "9", "centre-positive", "250"], port.Signal.Select(a => a.Value.Text));
        Assert.Equal("12", port.Signal[1].UpTo?.Text);
        Assert.Equal("V", port.Signal[1].Unit?.Text);
        Assert.Equal(["barrel", "5.5x2.1"], port.On.Select(a => a.Value.Text));
    }

    [Fact]
    public void Numbered_ports_are_declared_as_a_range()
    {
        var port = Reading.Line<PortLine>("gear Weir", "out out1..out5, \"SPARE A\" : midi");
        Assert.True(port.IsOutput);
        Assert.Equal(["out1..out5", "SPARE A"], Reading.Texts(port.Names));
        Assert.Null(port.OnWord);
    }

    [Fact]
    public void A_route_has_ways_in_ways_out_and_extras()
    {
        var route = Reading.Line<RouteLine>("gear Delay", "route in to left, right latency 3 ms");
        Assert.Equal(["in"], Reading.Texts(route.From));
        Assert.Equal(["left", "right"], Reading.Texts(route.To));
        Assert.Equal(["latency", "3"], route.Extras.Select(a => a.Value.Text));
    }

    [Fact]
    public void Join_ties_ports_together()
    {
        var join = Reading.Line<JoinLine>("gear Splitter", "join in to out1..out3");
        Assert.Equal(["out1..out3"], Reading.Texts(join.To));
    }

    [Fact]
    public void A_part_receives_on_a_channel_and_sounds_at_a_port()
    {
        var part = Reading.Line<PartLine>("gear Tern", "part voice receives midi, usb on channel any, sounds at line");
        Assert.Equal(["midi", "usb"], Reading.Texts(part.Receives));
        Assert.Equal("any", part.Channel?.Value.Text);
        Assert.Equal(["line"], Reading.Texts(part.SoundsAt));
    }

    [Fact]
    public void A_part_may_say_where_it_sounds_without_a_channel()
    {
        var part = Reading.Line<PartLine>("gear Tern", "part voice receives midi, sounds at line");
        Assert.Equal(["midi"], Reading.Texts(part.Receives));
        Assert.Null(part.Channel);
        Assert.Equal(["line"], Reading.Texts(part.SoundsAt));
    }

    [Fact]
    public void A_part_may_receive_from_a_port_called_sounds() =>
        Assert.Equal(["midi", "sounds"], Reading.Texts(Reading.Line<PartLine>("gear Tern", "part voice receives midi, sounds").Receives));

    [Fact]
    public void A_track_sends_to_ports()
    {
        var track = Reading.Line<TrackLine>("gear Rook", "track a, b sends midi on channel 1..4");
        Assert.Equal(["a", "b"], Reading.Texts(track.Names));
        Assert.Equal(("1", "4"), (track.Channel?.Value.Text, track.Channel?.UpTo?.Text));
    }

    [Theory]
    [InlineData("clock follows internal, midi", false, false)]
    [InlineData("clock sends midi, sync", false, true)]
    [InlineData("transport follows midi, usb", true, false)]
    public void Clock_and_transport_follow_or_send(string line, bool isTransport, bool sends)
    {
        var clock = Reading.Line<ClockLine>("gear Rook", line);
        Assert.Equal((isTransport, sends, 2), (clock.IsTransport, clock.Sends, clock.Names.Count));
    }

    [Fact]
    public void Filters_are_message_kinds_of_one_or_two_words() =>
        Assert.Equal(["notes", "program change"], Reading.Line<FiltersLine>("gear Weir", "filters notes, program  change").Kinds.Select(k => k.Text));

    [Fact]
    public void Gear_may_run_on_a_battery_for_a_time() =>
        Assert.Equal("5", Reading.Line<BatteryLine>("gear Reel", "battery 5 h").Runs?.Number.Text);

    [Fact]
    public void A_lead_has_two_sides_with_a_plug_or_more_each()
    {
        var lead = Reading.Statement<LeadStatement>("lead Breakout : trs 3.5 mm to ts 6.35 mm left, ts 6.35 mm right");
        Assert.Single(lead.Near);
        Assert.Equal(["left", "right"], lead.Far.Select(end => end.Words[^1].Value.Text));
    }

    [Fact]
    public void A_wire_goes_from_a_contact_to_contacts()
    {
        var wire = Reading.Line<WireLine>("lead Breakout : trs 3.5 mm to ts 6.35 mm left", "sleeve to left.sleeve, right.sleeve");
        Assert.Equal("sleeve", wire.From.Text);
        Assert.Equal(["left.sleeve", "right.sleeve"], Reading.Texts(wire.To));
    }

    [Fact]
    public void A_lead_has_properties() =>
        Assert.Equal("2", Reading.Line<LeadProperty>("lead X : ts 3.5 mm to ts 3.5 mm", "longest 2 m").Value.Number.Text);

    [Fact]
    public void A_device_is_a_piece_of_gear_at_a_place()
    {
        var device = Reading.Statement<DeviceStatement>("device bass : Tern at (0.8 m, -0.4 m)");
        Assert.Equal(("bass", "Tern"), (device.Name.Text, device.Gear.Text));
        Assert.Equal(["0.8", "-0.4"], device.At.Select(q => q.Number.Text));
    }

    [Theory]
    [InlineData("voice on channel 2", false)]
    [InlineData("voice on channel 2 layered", true)]
    public void A_device_line_sets_a_channel(string line, bool layered) =>
        Assert.Equal(layered, Reading.Line<ChannelSetting>("device bass : Tern", line).Layered);

    [Fact]
    public void A_device_line_chooses_a_clock() =>
        Assert.Equal("midi", Reading.Line<ClockSetting>("device bass : Tern", "clock midi").Source.Text);

    [Theory]
    [InlineData("in, out1..out3 drops start, stop", false)]
    [InlineData("in, out1..out3 passes only start, stop", true)]
    public void A_device_line_sets_a_filter(string line, bool passesOnly)
    {
        var filter = Reading.Line<FilterSetting>("device thru : Weir", line);
        Assert.Equal(passesOnly, filter.PassesOnly);
        Assert.Equal(["in", "out1..out3"], Reading.Texts(filter.Ports));
        Assert.Equal(["start", "stop"], filter.Kinds.Select(k => k.Text));
    }

    [Fact]
    public void A_device_line_turns_a_switch()
    {
        var setting = Reading.Line<SwitchSetting>("device desk : Desk", "ch1 phantom on");
        Assert.Equal(("phantom", "on"), (setting.Switch.Text, setting.State.Text));
    }

    [Fact]
    public void A_device_may_run_on_its_battery() => Reading.Line<BatterySetting>("device reel : Reel", "runs on battery");

    [Fact]
    public void Connect_names_both_ends_and_perhaps_leads_colours_and_a_label()
    {
        var connect = Reading.Statement<ConnectStatement>(
            "connect pad.phones to desk.ch3, desk.ch4 with Breakout 1.5 m + 2 m + Coupler yellow black \"B 1\"");
        Assert.Equal(["pad.phones"], Reading.Texts(connect.From));
        Assert.Equal(["desk.ch3", "desk.ch4"], Reading.Texts(connect.To));
        Assert.Equal(["Breakout", null, "Coupler"], connect.Leads.Select(l => l.Lead?.Text));
        Assert.Equal(["1.5", "2", null], connect.Leads.Select(l => l.Length?.Number.Text));
        Assert.Equal(["yellow", "black"], connect.Colours.Select(c => c.Text));
        Assert.Equal("B 1", connect.Label?.Text);
    }

    [Fact]
    public void Connect_needs_no_lead() => Assert.Empty(Reading.Statement<ConnectStatement>("connect bass.line to desk.ch1").Leads);

    [Fact]
    public void A_path_may_have_three_parts_quoted_parts_and_a_range()
    {
        var connect = Reading.Statement<ConnectStatement>("connect desk.\"AUX 1/2\".left to strip.outlet1..outlet3");
        Assert.Equal(["desk", "AUX 1/2", "left"], connect.From[0].Parts.Select(p => p.Text));
        Assert.Equal("outlet3", connect.To[0].Last?.Text);
    }

    [Fact]
    public void A_stock_line_counts_leads()
    {
        var line = Reading.Line<StockLine>("stock", "6 MidiDin 1.5 m yellow");
        Assert.Equal(("6", "MidiDin", "1.5"), (line.Count.Text, line.Lead.Text, line.Length?.Number.Text));
        Assert.Equal(["yellow"], line.Colours.Select(c => c.Text));
    }

    [Theory]
    [InlineData("must notes, program change from seq.a reach bass", true)]
    [InlineData("never notes, program change from seq.a reach bass", false)]
    public void Must_and_never_say_what_reaches_whom(string text, bool must)
    {
        var expect = Reading.Statement<ExpectStatement>(text);
        Assert.Equal(must, expect.Must);
        Assert.Equal(["notes", "program change"], expect.What.Select(k => k.Text));
        Assert.Equal(("seq.a", "bass"), (expect.From[0].Text, Assert.Single(expect.To).Text));
    }

    [Fact]
    public void A_must_may_be_qualified()
    {
        var expect = Reading.Statement<ExpectStatement>("must audio from pad reach laptop, reel in stereo on channel 2 within 5 ms");
        Assert.Equal([Keyword.In, Keyword.Channel, Keyword.Within], expect.Qualifiers.Select(q => q.Kind));
        Assert.Equal(("stereo", "2", "5"), (expect.Qualifiers[0].Word?.Text, expect.Qualifiers[1].Channel?.Value.Text, expect.Qualifiers[2].Limit?.Number.Text));
    }

    [Theory]
    [InlineData("device drums : Tern")]
    [InlineData("device in : in at (1 m, 1 m)")]
    [InlineData("device must : never")]
    [InlineData("device device : gear")]
    [InlineData("connect to.to to to.to with with")]
    [InlineData("never notes from from reach reach")]
    [InlineData("lead lead : trs to ts")]
    [InlineData("gear gear")]
    public void A_keyword_may_be_a_name_wherever_a_name_stands(string text) => Assert.Empty(Reading.Tree(text).Faults);

    [Theory]
    [InlineData("gear X", "in in, out : midi")]
    [InlineData("gear X", "route to to to")]
    [InlineData("gear X", "part part receives receives on channel 1, sounds at at")]
    [InlineData("gear X", "clock sends sends, follows")]
    [InlineData("device x : X", "on on channel 3")]
    [InlineData("device x : X", "clock on channel 3")]
    [InlineData("device x : X", "clock, sync on channel 3")]
    [InlineData("device x : X", "clock..clock4 drops notes")]
    [InlineData("device x : X", "runs on channel 3")]
    [InlineData("device x : X", "drops drops notes")]
    [InlineData("lead x : ts to ts", "to to to")]
    public void A_keyword_may_be_a_name_inside_a_block(string header, string line) =>
        Assert.Empty(Reading.Tree($"{header} {{\n  {line}\n}}\n").Faults);
}
