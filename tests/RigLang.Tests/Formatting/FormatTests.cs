using RigLang.Formatting;
using RigLang.Syntax;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Formatting;

/// <summary>The canonical layout, by example.</summary>
public class FormatTests
{
    [Fact]
    public void A_whole_rig_reads_as_a_table() => Layout.Becomes(
        """
        rig "Lantern Barge, spring run" {
        tempo 112bpm
            mains 230V 50Hz
          set 75 min
        }
        import "our-gear.rig"      // beside this file
        /// Two-oscillator bass synthesizer.
        gear Tern {

          in power : dc 9 V centre-positive,250 mA on barrel 5.5x2.1mm
          in midi:midi on din-5
          out thru :midi on din-5
          in sync:pulse 2ppqn 5V   on ts 3.5 mm
          out line:audio mono line on ts 6.35 mm


          route midi to thru
          part voice receives midi on channel any,sounds at line
          clock follows internal,midi
        }
        /// Five-way MIDI thru box with filters.
        gear Weir {
          in  usb : dc 5 V, 60 mA on usb-b mini
          in  in : midi on din-5
          out out1 .. out5: midi on din-5      // declares out1 .. out5
          route in to out1, out2
          filters any
        }
        lead MiniJack: trs 3.5 mm to trs 3.5 mm
        lead Breakout : trs 3.5 mm to ts 6.35 mm left, ts 6.35 mm right {
          tip to left.tip
          ring to right.tip
          sleeve to left.sleeve,right.sleeve
        }
        device bass : Tern at (0.8 m, 0.4 m) {
          voice on channel 2                          // what you dial in on the box
          clock midi
        }
        device thru : Weir at ( 0.5 m,0.9 m ) {
          in drops start, stop           // the arranger's stop button must not stop the band
          out3 drops velocity
        }
        connect seq.midi to thru.in with MidiTrsB 0.6 m
        connect thru.out1 to bass.midi with MidiDin 1.5 m yellow "B1"
        connect pad.phones to desk.ch34 with Breakout 1.5 m // one plug in, two plugs out
        connect bass.line to desk.ch1 // no lead named: the simplest one that fits

        stock {                 // what we own; the rest is the shopping list
          6 MidiDin 1.5 m
          12 Breakout 0.6 m yellow
        }

        must notes from seq.a reach bass
        never start, stop from keys reach bass
        must audio from pad reach laptop, recorder in stereo
        """,
        """
        rig "Lantern Barge, spring run" {
          tempo 112 bpm
          mains 230 V 50 Hz
          set   75 min
        }

        import "our-gear.rig"  // beside this file

        /// Two-oscillator bass synthesizer.
        gear Tern {
          in  power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
          in  midi  : midi                           on din-5
          out thru  : midi                           on din-5
          in  sync  : pulse 2 ppqn 5 V               on ts 3.5 mm
          out line  : audio mono line                on ts 6.35 mm

          route midi to thru
          part voice receives midi on channel any, sounds at line
          clock follows internal, midi
        }

        /// Five-way MIDI thru box with filters.
        gear Weir {
          in  usb        : dc 5 V, 60 mA on usb-b mini
          in  in         : midi          on din-5
          out out1..out5 : midi          on din-5  // declares out1 .. out5
          route in to out1, out2
          filters any
        }

        lead MiniJack : trs 3.5 mm to trs 3.5 mm

        lead Breakout : trs 3.5 mm to ts 6.35 mm left, ts 6.35 mm right {
          tip    to left.tip
          ring   to right.tip
          sleeve to left.sleeve, right.sleeve
        }

        device bass : Tern at (0.8 m, 0.4 m) {
          voice on channel 2  // what you dial in on the box
          clock midi
        }

        device thru : Weir at (0.5 m, 0.9 m) {
          in   drops start, stop  // the arranger's stop button must not stop the band
          out3 drops velocity
        }

        connect seq.midi   to thru.in   with MidiTrsB 0.6 m
        connect thru.out1  to bass.midi with MidiDin 1.5 m yellow "B1"
        connect pad.phones to desk.ch34 with Breakout 1.5 m  // one plug in, two plugs out
        connect bass.line  to desk.ch1                       // no lead named: the simplest one that fits

        stock {  // what we own; the rest is the shopping list
           6 MidiDin  1.5 m
          12 Breakout 0.6 m yellow
        }

        must  notes from seq.a reach bass
        never start, stop from keys reach bass
        must  audio from pad reach laptop, recorder in stereo

        """);

    [Theory]
    [InlineData("device bass:Tern at(1m,  2m)", "device bass : Tern at (1 m, 2 m)\n")]
    [InlineData("connect a . b to c\t.d .. e with X 2m+Y +3 m", "connect a.b to c.d..e with X 2 m + Y +3 m\n")]
    [InlineData("  import   \"a.rig\"  ", "import \"a.rig\"\n")]
    [InlineData("import\"a.rig\"//why", "import \"a.rig\"  //why\n")]
    [InlineData("never notes ,program   change from a reach b,c", "never notes, program change from a reach b, c\n")]
    public void One_space_stands_between_tokens(string text, string expected) => Layout.Becomes(text, expected);

    [Fact]
    public void A_contact_of_a_contact_does_not_become_a_decimal() => Layout.Becomes(
        "lead X : a to b {\n1 . tip to left . 2,2 .3\n}\n",
        "lead X : a to b {\n  1.tip to left.2, 2 .3\n}\n");

    [Fact]
    public void Leads_devices_routes_parts_and_tracks_have_columns_too() => Layout.Becomes(
        """
        lead MidiTrsB : trs 3.5 mm type-b to din-5
        lead Patch : ts 3.5 mm to ts 3.5 mm
        device bass : Tern at (0.8 m, 0.4 m)
        device recorder : Reel at (1.8 m, 0.4 m)
        gear Kit {
          route in to left, right latency 3 ms
          route send1 to out
          part kick receives midi on channel 10, sounds at main
          part snare, rim receives midi, sounds at main
          track a sends midi on channel 1
          track long sends midi, usb on channel 2
        }
        """,
        """
        lead MidiTrsB : trs 3.5 mm type-b to din-5
        lead Patch    : ts 3.5 mm         to ts 3.5 mm
        device bass     : Tern at (0.8 m, 0.4 m)
        device recorder : Reel at (1.8 m, 0.4 m)

        gear Kit {
          route in    to left, right latency 3 ms
          route send1 to out
          part kick       receives midi on channel 10, sounds at main
          part snare, rim receives midi,               sounds at main
          track a    sends midi      on channel 1
          track long sends midi, usb on channel 2
        }

        """);

    [Fact]
    public void A_blank_line_starts_the_columns_anew() => Layout.StaysAsItIs(
        """
        connect a.b  to c.d with X
        connect aa.b to c.d

        connect long-name.left to desk.ch1

        """);

    [Fact]
    public void A_comment_or_a_broken_line_between_lines_does_not_tear_their_columns_apart() => Layout.Becomes(
        """
        connect a.b to c.d with X
        // the long way round
        connect pad."LINE L" to desk.ch1 with X
        connect half.typed   to
        connect aa.b to c.dd with X
        """,
        """
        connect a.b          to c.d      with X
        // the long way round
        connect pad."LINE L" to desk.ch1 with X
        connect half.typed   to
        connect aa.b         to c.dd     with X

        """);

    [Fact]
    public void A_line_much_longer_than_its_neighbours_does_not_push_them() => Layout.Becomes(
        """
        connect seq.midi to thru.in with MidiTrsB 0.6 m // one
        connect pad."A PANEL NAME THAT WOULD FILL THE WHOLE REAR OF THE BOX" to desk.ch34 with Breakout 1.5 m // two
        connect bass.line to desk.ch1 with Mono 3 m // three
        """,
        """
        connect seq.midi  to thru.in  with MidiTrsB 0.6 m  // one
        connect pad."A PANEL NAME THAT WOULD FILL THE WHOLE REAR OF THE BOX" to desk.ch34 with Breakout 1.5 m  // two
        connect bass.line to desk.ch1 with Mono 3 m        // three

        """);

    [Fact]
    public void Wide_characters_take_two_columns_and_combining_marks_none() => Layout.Becomes(
        "device 低音 : Tern\ndevice thru : Weir\ndevice e\u0301te\u0301 : Tern\ndevice гитара : Tern\n",
        "device 低音   : Tern\ndevice thru   : Weir\ndevice e\u0301te\u0301    : Tern\ndevice гитара : Tern\n");

    [Fact]
    public void A_line_that_goes_on_keeps_its_breaks_and_its_comments() => Layout.Becomes(
        """
        connect pad.phones to desk.ch3, // left
         desk.ch4 with Breakout // right
        connect a.b to c.d
        gear X {
        in a,
        b : midi on din-5
        out long-name : midi on din-5
        }
        """,
        """
        connect pad.phones to desk.ch3,  // left
            desk.ch4 with Breakout       // right
        connect a.b        to c.d

        gear X {
          in  a,
              b : midi on din-5
          out long-name : midi on din-5
        }

        """);

    [Fact]
    public void Comments_behind_neighbouring_lines_share_a_column() => Layout.Becomes(
        """
        import "a.rig" // one
        import "longer.rig"// two

        import "b.rig"          // three
        import "c.rig"
        import "even-longer.rig"      // four
        """,
        """
        import "a.rig"       // one
        import "longer.rig"  // two

        import "b.rig"  // three
        import "c.rig"
        import "even-longer.rig"  // four

        """);

    [Fact]
    public void Comments_on_their_own_lines_take_the_indent_of_their_block_and_keep_their_text() => Layout.Becomes(
        "   //  first \t\ngear X {\n//a\n      /// The jack.\nin a : midi\n        //   b\n}\n\t// last",
        "//  first\ngear X {\n  //a\n  /// The jack.\n  in a : midi\n  //   b\n}\n\n// last\n");

    [Fact]
    public void A_block_has_one_blank_line_around_it_and_its_comments_stay_with_it() => Layout.Becomes(
        """


        import "a.rig"
        // about X
        /// The X.
        gear X {


          in a : midi



          in b : midi

        }
        // about y
        device y : X
        stock {
          1 Lead
        }



        device z : X


        """,
        """
        import "a.rig"

        // about X
        /// The X.
        gear X {
          in a : midi

          in b : midi
        }

        // about y
        device y : X

        stock {
          1 Lead
        }

        device z : X

        """);

    [Fact]
    public void A_comment_apart_from_its_block_stays_apart() =>
        Layout.StaysAsItIs("import \"a.rig\"\n/// Not about X.\n\ngear X {\n  in a : midi\n}\n");

    [Fact]
    public void A_block_on_one_line_is_opened_up() => Layout.Becomes(
        "gear X{in a:midi}device x : X { clock midi } // hall\n",
        "gear X {\n  in a : midi\n}\n\ndevice x : X {\n  clock midi\n}  // hall\n");

    [Theory]
    [InlineData("gear X{}", "gear X { }\n")]
    [InlineData("gear X {\n\n}   // nothing yet", "gear X { }  // nothing yet\n")]
    [InlineData("gear X {// nothing yet\n}", "gear X {  // nothing yet\n}\n")]
    [InlineData("gear X {\n// nothing yet\n}", "gear X {\n  // nothing yet\n}\n")]
    public void An_empty_block_is_two_braces_unless_it_holds_a_comment(string text, string expected) => Layout.Becomes(text, expected);

    [Theory]
    [InlineData("import \"a\"\r\nimport \"b\"\r\nimport \"c\"\n", "import \"a\"\r\nimport \"b\"\r\nimport \"c\"\r\n")]
    [InlineData("import \"a\"\r\nimport \"b\"\nimport \"c\"\n", "import \"a\"\nimport \"b\"\nimport \"c\"\n")]
    [InlineData("import \"a\"\rimport \"b\"", "import \"a\"\nimport \"b\"\n")]
    public void Line_ends_become_those_the_file_has_most_of(string text, string expected) => Layout.Becomes(text, expected);

    [Fact]
    public void A_byte_order_mark_at_the_start_stays_and_others_are_only_spaces() =>
        Layout.Becomes("\uFEFF\uFEFFimport\uFEFF\"a\"", "\uFEFFimport \"a\"\n");

    [Theory]
    [InlineData("", "")]
    [InlineData(" \r\n\t\n", "")]
    [InlineData("\uFEFF", "\uFEFF")]
    [InlineData("// only a remark", "// only a remark\n")]
    public void A_file_that_says_nothing_stays_empty(string text, string expected) => Layout.Becomes(text, expected);

    [Fact]
    public void Dots_that_were_written_apart_stay_apart()
    {
        var source = new SourceText("dots.rig", "device a : A {\n    line channel 1 . . 4   ,   2 . .. 3\n  }accept in on import because\t\"here\"");
        Assert.Equal(Kinds(source), Kinds(new SourceText("dots.rig", Formatter.Format(source))));

        static IEnumerable<TokenKind> Kinds(SourceText text) => Lexer.Lex(text).Select(t => t.Kind).Where(k => k != TokenKind.NewLine);
    }
}
