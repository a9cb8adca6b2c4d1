using RigLang.Checks;
using RigLang.Editing;
using RigLang.Parsing;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>What is told of the place under the pointer.</summary>
public class Hovers
{
    private static readonly EditorStyle Plain = new(Markdown: false, InFeet: false);
    private static readonly EditorStyle Markdown = new(Markdown: true, InFeet: false);

    [Theory]
    [InlineData("connect seq.midi")]
    [InlineData("bass.midi with")]
    [InlineData("1.5 m yellow")]
    [InlineData("\"B1\"")]
    public void Wherever_a_connection_has_no_name_in_it_the_cable_is_told(string place)
    {
        var caret = place == "connect seq.midi" ? SmallRig.With("connect seq.midi", "conn$0ect seq.midi") : SmallRig.On(place);
        Assert.StartsWith("seq.midi to bass.midi", Told(caret), StringComparison.Ordinal);
    }

    [Fact]
    public void A_midi_cable_tells_signal_lead_plugs_length_notes_clock_ground_and_wires() => Assert.Equal("""
        seq.midi to bass.midi

        Signal: MIDI
        Lead: MidiDin
        Plugs: din-5 at seq.midi; din-5 at bass.midi
        Length: 1.5 m; the boxes stand 1 m apart
        Notes: seq.a on channel 2 and seq.b on channel 3
        Clock: of seq
        Start and stop: of seq
        Ground link: no, a MIDI input is isolated and leaves the screen open

        seq.midi    bass.midi
        2 (ground)  2
        4 (source)  4 (source)
        5 (sink)    5 (sink)
        """, Told(SmallRig.On("bass.midi with")));

    [Fact]
    public void A_cable_without_a_lead_tells_the_one_that_was_taken() =>
        Assert.Contains("Lead: Patch, the simplest that fits, as none is named", Told(SmallRig.With("connect bass.line ", "conn$0ect bass.line ")), StringComparison.Ordinal);

    [Fact]
    public void Two_leads_of_a_pair_are_told_with_each_side()
    {
        var told = Told(SmallRig.With("connect seq.main ", "conn$0ect seq.main "));
        Assert.Contains("Signal: stereo line audio, 2 channels in this cable", told, StringComparison.Ordinal);
        Assert.Contains("Lead: 2 x Patch", told, StringComparison.Ordinal);
        Assert.Contains("desk.ch23.left hears: seq.main.left", told, StringComparison.Ordinal);
        Assert.Matches(@"main\.right tip \(right\) +ch23\.right tip \(right\)", told);
    }

    [Fact]
    public void An_unbalanced_plug_in_a_balanced_jack_shows_what_it_bridges() =>
        Assert.Contains("sleeve (ground)  ring (cold) + sleeve (ground)", Told(SmallRig.With("connect bass.line ", "conn$0ect bass.line ")), StringComparison.Ordinal);

    [Fact]
    public void An_audio_cable_joins_the_grounds() =>
        Assert.Contains("Ground link: yes, the screens are joined metal to metal", Told(SmallRig.With("connect bass.line ", "conn$0ect bass.line ")), StringComparison.Ordinal);

    [Fact]
    public void A_supply_cable_tells_what_is_taken_of_what() =>
        Assert.Contains("Power: brick.out1 feeds bass.power, which takes 250 mA of 500 mA", Told(SmallRig.With("connect brick.out1 ", "conn$0ect brick.out1 ")), StringComparison.Ordinal);

    [Fact]
    public void A_cable_through_which_nothing_gets_says_why() =>
        Assert.Contains("Nothing gets through: the two ends carry different signals.", Told(SmallRig.With("connect bass.line  to desk.ch1", "conn$0ect bass.line  to bass.power")), StringComparison.Ordinal);

    [Fact]
    public void A_cable_to_a_name_that_nothing_has_is_still_told() =>
        Assert.Contains("A name in this line is not known", Told(SmallRig.With("connect bass.line  to desk.ch1", "conn$0ect bass.line  to desk.ch9")), StringComparison.Ordinal);

    [Fact]
    public void Lengths_come_in_feet_where_feet_are_wanted() =>
        Assert.Contains("Length: 4.92 ft; the boxes stand 3.28 ft apart", Told(SmallRig.On("bass.midi with"), new EditorStyle(Markdown: false, InFeet: true)), StringComparison.Ordinal);

    [Fact]
    public void The_wires_of_a_cable_are_a_table_in_markdown()
    {
        var caret = SmallRig.On("bass.midi with");
        var text = Told(caret, Markdown);
        Assert.StartsWith("**`seq.midi` to `bass.midi`**\n\n- Signal: MIDI\n- Lead: `MidiDin`", text, StringComparison.Ordinal);
        Assert.Contains("\n\n| `seq.midi` | `bass.midi` |\n| --- | --- |\n| 2 (ground) | 2 |\n", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_tells_gear_settings_power_and_who_plays_it() => Assert.Equal("""
        bass: Tern

        The bass of the first set.

        One voice.
        Passes MIDI on.

        Stands at: 1 m from the left, 1 m from the front
        Part voice: channel 2, played by seq.a
        Clock: follows seq, at midi
        thru drops: start, stop
        Power: 9 V DC from brick.out1, takes 250 mA
        Sound goes to: desk.ch1
        Free jacks: thru
        """, Told(SmallRig.On("device bass ")));

    [Fact]
    public void A_device_that_plays_others_tells_who_hears_it_and_whom_it_leads()
    {
        var told = Told(SmallRig.On("device seq "));
        Assert.Contains("Track a: channel 2, heard by bass.voice", told, StringComparison.Ordinal);
        Assert.Contains("Track b: channel 3, nobody hears it", told, StringComparison.Ordinal);
        Assert.Contains("Leads: bass", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_supply_tells_what_it_gives() =>
        Assert.Contains("Supplies: 250 mA of 1 A at 9 V · 1 of 2 outlets used", Told(SmallRig.On("device brick")), StringComparison.Ordinal);

    [Fact]
    public void A_device_of_gear_that_nobody_knows_says_so() =>
        Assert.Contains("No gear of this name is known", Told(SmallRig.With("device desk  : Desk", "device de$0sk  : Dask")), StringComparison.Ordinal);

    [Fact]
    public void A_port_tells_its_cable_and_what_arrives() => Assert.Equal("""
        bass.midi, an input of Tern

        Signal: MIDI
        Connector: din-5
        Cable: MidiDin 1.5 m to seq.midi, marked B1
        Notes that arrive: seq.a on channel 2 and seq.b on channel 3
        Clock that arrives: from seq
        Start and stop that arrive: from seq
        Goes on to: thru
        Parts that listen here: voice
        """, Told(SmallRig.With("to bass.midi", "to bass.mi$0di")));

    [Fact]
    public void A_port_without_a_plug_is_free() => Assert.Contains("Cable: none, it is free", Told(SmallRig.With("thru drops", "th$0ru drops")), StringComparison.Ordinal);

    [Fact]
    public void A_port_of_gear_tells_what_its_contacts_do() => Assert.Contains("tip      signal\nsleeve   ground", Told(SmallRig.On("out line")), StringComparison.Ordinal);

    [Fact]
    public void A_lead_tells_plugs_wires_and_how_many_there_are()
    {
        var told = Told(SmallRig.On("6 MidiDi"));
        Assert.Contains("Plugs: din-5 to din-5", told, StringComparison.Ordinal);
        Assert.Contains("In the box: 6 of 1.5 m", told, StringComparison.Ordinal);
        Assert.Contains("In use: 1 in this rig", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_gear_tells_its_documentation_ports_parts_and_devices()
    {
        var told = Told(SmallRig.On("gear Tern"));
        Assert.Contains("One voice.\nPasses MIDI on.", told, StringComparison.Ordinal);
        Assert.Contains("Out: line (mono line audio; ts 6.35 mm)", told, StringComparison.Ordinal);
        Assert.Contains("Parts: voice (any channel)", told, StringComparison.Ordinal);
        Assert.Contains("In this rig: 1 (bass)", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_tells_its_channel_and_who_plays_it()
    {
        var told = Told(SmallRig.With("  voice on", "  vo$0ice on"));
        Assert.Contains("Channel: channel 2", told, StringComparison.Ordinal);
        Assert.Contains("Played by: seq.a", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_track_that_nobody_hears_says_so() => Assert.Contains("Heard by: nobody", Told(SmallRig.With("b on channel 3", "$0b on channel 3")), StringComparison.Ordinal);

    [Fact]
    public void A_promise_tells_whether_it_holds_and_the_way() => Assert.Equal("""
        This holds

        bass: holds, by seq.midi → bass.midi
        """, Told(SmallRig.On("must ")));

    [Theory]
    [InlineData("a1", "**`a1`:")]
    [InlineData("*a_b*", "**`*a_b*`:")]
    [InlineData("a`b", "**``a`b``:")]
    [InlineData("`", "**`` ` ``:")]
    public void No_name_is_read_as_markdown(string device, string expected)
    {
        var caret = Caret.In($"device \"$0{device}\" : Nothing");
        Assert.StartsWith(expected, Told(caret, Markdown), StringComparison.Ordinal);
    }

    [Fact]
    public void A_bar_in_a_name_does_not_break_a_table()
    {
        var caret = Caret.In("""
            gear X {
              out "a|b" : audio mono line on ts 6.35 mm
              in  c     : audio mono line on ts 6.35 mm
            }
            device x : X
            device y : X
            co$0nnect x."a|b" to y.c with Patch
            import "shared/leads.rig"
            """);
        Assert.Contains("| `x.a\\|b` | `y.c` |", Told(caret, Markdown), StringComparison.Ordinal);
    }

    [Fact]
    public void A_strip_passes_on_what_comes_from_the_wall()
    {
        var caret = Caret.In("""
            import "shared/gear.rig"
            device wall  : WallSocket
            device st$0rip : MainsStrip
            connect wall.socket1 to strip.plug
            """);
        Assert.Contains("Power: passed on from wall.socket1", Told(caret), StringComparison.Ordinal);
        var connection = caret with { Offset = caret.View.Source.Content.IndexOf("connect", StringComparison.Ordinal) };
        Assert.Contains("Carries what comes from: wall.socket1", Told(connection), StringComparison.Ordinal);
    }

    [Fact]
    public void An_audio_cable_and_its_jacks_tell_what_sounds_there()
    {
        var caret = Caret.In("""
            import "shared/leads.rig"
            gear Keys {
              out main : audio stereo line on 2 ts 6.35 mm
            }
            gear Rail {
              out line : audio mono line on ts 6.35 mm
            }
            gear Desk {
              in  ch1, ch2 : audio mono line   on ts 6.35 mm
              in  ch34     : audio stereo line on 2 ts 6.35 mm
              out record   : audio stereo line on trs 3.5 mm
              route ch1, ch2, ch34 to record
            }
            gear Tape {
              in line : audio stereo line on trs 3.5 mm
            }
            device keys : Keys
            device rail : Rail
            device desk : Desk {
              ch1 pan left
            }
            device tape : Tape
            connect keys.main   to desk.ch34
            connect rail.line   to desk.ch1
            conn$0ect desk.record to tape.line
            """);
        Assert.Contains("Sounds at tape.line: keys.main (stereo) and rail.line (mono, on the left)", Told(caret), StringComparison.Ordinal);
        var jack = caret with { Offset = caret.View.Source.Content.IndexOf("ch34\n", StringComparison.Ordinal) };
        Assert.Contains("Sounds: keys.main (stereo)", Told(jack), StringComparison.Ordinal);
    }

    [Fact]
    public void An_import_tells_what_it_brings() => Assert.Contains("Leads: 54 kinds", Told(SmallRig.On("shared/leads")), StringComparison.Ordinal);

    // Words.

    [Theory]
    [InlineData("tempo 96 b$0pm", "bpm measures a tempo", "625 ms a beat")]
    [InlineData("set 90 m$0in", "min measures a time", "1.5 h")]
    public void A_unit_tells_what_it_measures_and_the_figure_in_others(string line, string title, string same)
    {
        var told = Told(Caret.In($"rig {{\n  {line}\n}}"));
        Assert.StartsWith(title, told, StringComparison.Ordinal);
        Assert.Contains(same, told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("-10", "dBV", "-7.8 dBu, 316.2 mV")]
    [InlineData("4", "dBu", "1.8 dBV, 1.23 V")]
    [InlineData("24", "awg", "0.2 mm²")]
    [InlineData("10", "ft", "3.05 m")]
    [InlineData("-6", "dB", "0.501 times the voltage")]
    public void Figures_of_the_trade_are_converted(string number, string unit, string expected) =>
        Assert.Contains(expected, UnitHover.Of(unit, number, Plain)!, StringComparison.Ordinal);

    [Fact]
    public void Every_unit_has_a_text() => Assert.All(Units.Table.Keys, unit => Assert.NotNull(UnitHover.Of(unit, "1", Plain)));

    [Fact]
    public void Every_keyword_has_a_text_and_an_example() => Assert.All(Keywords.Table, word =>
    {
        var (text, example) = KeywordText.Table[word.Value];
        Assert.EndsWith(".", text, StringComparison.Ordinal);
        Assert.Contains(Keywords.Spelling(word.Value), example, StringComparison.Ordinal);
    });

    [Fact]
    public void Every_example_of_a_keyword_can_be_read() => Assert.All(KeywordText.Table.Values, entry => Assert.Contains(
        (string[])["$", "rig {\n$\n}", "gear X {\n$\n}", "device x : X {\n$\n}", "stock {\n$\n}"],
        place => RigParser.Parse(new SourceText("example.rig", place.Replace("$", entry.Example, StringComparison.Ordinal))).Faults.Count == 0));

    [Fact]
    public void Every_word_of_a_signal_that_the_library_uses_has_a_text()
    {
        var tree = SharedLibrary.Open("shared/gear.rig")!.Tree;
        var words = tree.Statements.SelectMany(s => s.Body).OfType<PortLine>().SelectMany(p => p.Signal).Where(w => w.IsWord).Select(w => w.Value.Text!).Distinct();
        Assert.All(words, word => Assert.Contains(word, WordText.Signals));
    }

    [Fact]
    public void Every_message_kind_has_a_text() =>
        Assert.Equal(MessageKindNames.Table.Keys.Order(StringComparer.Ordinal), WordText.MessageKinds.Keys.Order(StringComparer.Ordinal));

    [Theory]
    [InlineData("gear X {\n  filters cl$0ock\n}", "24 pulses a quarter note")]
    [InlineData("device x : X {\n  in drops program ch$0ange\n}", "Calls up another sound")]
    [InlineData("device x : X {\n  in drops pro$0gram change\n}", "Calls up another sound")]
    [InlineData("must clo$0ck from", "24 pulses a quarter note")]
    public void A_message_kind_is_told_on_whole_and_half_typed_lines(string text, string expected) =>
        Assert.Contains(expected, Told(Caret.In(text)), StringComparison.Ordinal);

    [Theory]
    [InlineData("device x : X {\n  clo$0ck midi\n}", "The pulse that tempo is taken from")]
    [InlineData("conn$0ect", "A cable, from a jack to a jack.")]
    [InlineData("gear X {\n  in midi : midi on din-5\n  rou$0te midi to\n}", "What comes in at the first")]
    public void A_keyword_is_told_where_it_is_one(string text, string expected) => Assert.Contains(expected, Told(Caret.In(text)), StringComparison.Ordinal);

    [Theory]
    [InlineData("device in$0 : X")]
    [InlineData("connect foo.o$0ut to")]
    public void A_keyword_that_stands_for_a_name_is_not_told(string text)
    {
        var caret = Caret.In(text);
        Assert.DoesNotContain("A jack that", HoverFinder.At(caret.View, caret.Offset, Plain)?.Text ?? "", StringComparison.Ordinal);
    }

    [Fact]
    public void A_connector_tells_what_each_contact_does_in_this_port()
    {
        var told = Told(Caret.In("gear X {\n  in midi : midi on trs 3.5 m$0m type-b\n}"));
        Assert.Contains("tip      source\nring     sink", told, StringComparison.Ordinal);
        Assert.Contains("Source: IEC 60603-11", told, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plug_of_a_lead_tells_its_contacts() => Assert.Contains("2        hot", Told(Caret.In("lead X : xl$0r-3 to xlr-3")), StringComparison.Ordinal);

    [Fact]
    public void A_word_of_a_signal_is_told() => Assert.Contains("the left one alone serves as mono", Told(Caret.In("gear X {\n  in a : audio stereo normal$0led on 2 ts 6.35 mm\n}")), StringComparison.Ordinal);

    [Fact]
    public void The_name_of_a_check_in_a_comment_gives_its_page()
    {
        var hover = HoverFinder.At(Caret.ViewOf("// mistake: polarity-reversed"), 20, Plain)!;
        Assert.Equal("// mistake: ".Length, hover.Span.Start);
        Assert.Equal(CheckText.Plain(CheckList.Find("polarity-reversed")!), hover.Text);
    }

    [Fact]
    public void Nothing_is_told_of_a_plain_comment() => Assert.Null(HoverFinder.At(Caret.ViewOf("// clock from here"), 5, Plain));

    [Fact]
    public void Every_check_has_a_page_with_both_examples() => Assert.All(CheckList.All, check =>
    {
        var page = CheckText.Markdown(check);
        Assert.StartsWith($"**`{check.Name}` (", page, StringComparison.Ordinal);
        Assert.Equal(5, page.Split("```").Length);
        Assert.Equal(2, page.Split("```rig\n").Length - 1);
        Assert.All((string[])[check.Title, check.Why, check.Advice, check.Source], text => Assert.Contains(text, page, StringComparison.Ordinal));
        Assert.DoesNotContain("```", CheckText.Plain(check), StringComparison.Ordinal);
    });

    private static string Told(Caret caret, EditorStyle? style = null) => HoverFinder.At(caret.View, caret.Offset, style ?? Plain)?.Text ?? "nothing";
}
