using RigLang.Editing;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Editing;

public class ChangingConnections
{
    private const string Stage = """
        import "shared/leads.rig"
        gear Rook {
          out midi, midi2 : midi on din-5
          out line : audio mono line on ts 6.35 mm
          track a sends midi
          clock sends midi
        }
        gear Tern {
          in  midi, midi2 : midi on din-5
          in  tape, tape2 : audio mono line on ts 6.35 mm
          part voice receives midi on channel any
          clock follows midi
        }
        device seq : Rook {
          a on channel 1
        }
        device bass : Tern {
          voice on channel 1
          clock midi
        }

        """;

    [Fact]
    public void A_lead_that_was_chosen_can_be_written_out() =>
        Assert.EndsWith("connect seq.line to bass.tape with Patch red\n", Acted.After(Stage + "connect seq.li$0ne to bass.tape red\n", "Name the lead"), StringComparison.Ordinal);

    [Fact]
    public void A_length_without_a_lead_gets_the_lead_before_it() =>
        Assert.EndsWith("with Patch 3 m\n", Acted.After(Stage + "connect seq.li$0ne to bass.tape with 3 m\n", "Name the lead"), StringComparison.Ordinal);

    [Fact]
    public void A_lead_of_the_library_brings_its_import()
    {
        var text = Stage.Replace("import \"shared/leads.rig\"\n", "", StringComparison.Ordinal) + "connect seq.li$0ne to bass.tape\n";
        Assert.StartsWith("import \"shared/leads.rig\"\n", Acted.After(text, "Name the lead"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_connection_that_names_its_lead_has_none_to_write_out() =>
        Assert.DoesNotContain(Acted.Titles(Stage + "connect seq.li$0ne to bass.tape with Patch\n"), t => t.StartsWith("Name the lead", StringComparison.Ordinal));

    [Fact]
    public void An_isolator_goes_into_an_audio_cable()
    {
        var after = Acted.After(Stage + "connect seq.li$0ne to bass.tape with Patch 3 m red \"B\"\nmust audio from seq reach bass\nconnect seq.midi to bass.midi\n", "Put a LineIsolator");
        Assert.Contains("device isolator : LineIsolator\n", after, StringComparison.Ordinal);
        Assert.Contains("connect seq.line to isolator.in.left with", after, StringComparison.Ordinal);
        Assert.Contains("red \"B\"\nconnect isolator.out.left to bass.tape\n", after, StringComparison.Ordinal);
        Assert.Empty(Rigs.Compile(after).Findings);
    }

    [Fact]
    public void A_cable_that_is_isolated_already_gets_no_second_one()
    {
        var after = Acted.After(Stage + "connect seq.li$0ne to bass.tape\n", "Put a LineIsolator");
        var view = Caret.ViewOf(after);
        var offset = after.IndexOf("connect isolator", StringComparison.Ordinal);
        Assert.DoesNotContain(ActionFinder.In(view, new TextSpan(offset, 0)), a => a.Title.StartsWith("Put a", StringComparison.Ordinal));
    }

    [Fact]
    public void A_USB_isolator_goes_into_a_USB_cable()
    {
        var after = Acted.After("""
            import "shared/gear.rig"
            import "shared/leads.rig"
            device laptop : Laptop {
              runs on battery
            }
            device keys : Keyboard {
              upper on channel 2
            }
            connect laptop.usb1 to ke$0ys.usb with UsbAB 1 m
            """, "Put a UsbIsolator");
        Assert.Contains("}\ndevice isolator : UsbIsolator\nconnect laptop.usb1 to isolator.up with UsbAB 1 m\nconnect isolator.down to keys.usb", after, StringComparison.Ordinal);
    }

    [Fact]
    public void A_midi_cable_gets_no_isolator() =>
        Assert.DoesNotContain(Acted.Titles(Stage + "connect seq.mi$0di to bass.midi\n"), t => t.StartsWith("Put a", StringComparison.Ordinal));

    [Theory]
    [InlineData("connect seq.li$0ne to bass.tape", "must audio from seq reach bass")]
    [InlineData("connect seq.mi$0di to bass.midi", "must notes from seq reach bass")]
    [InlineData("connect seq.mi$0di to bass.midi2", null)]
    public void What_a_cable_does_can_be_relied_on_where_it_holds(string line, string? must)
    {
        if (must is null)
        {
            Assert.DoesNotContain(Acted.Titles(Stage + line + "\n"), t => t.Contains("must notes", StringComparison.Ordinal));
            return;
        }
        var after = Acted.After(Stage + line + "\n", "Rely on it: " + must);
        Assert.EndsWith("\n\n" + must + "\n", after, StringComparison.Ordinal);
        Assert.All(Rigs.Compile(after).Rig.Outcomes, outcome => Assert.True(outcome.Holds));
    }

    [Fact]
    public void It_is_written_below_the_last_must() =>
        Assert.Contains("reach bass  // why\nmust audio from seq reach bass\nnever",
            Acted.After(Stage + "connect seq.li$0ne to bass.tape\nmust notes from seq reach bass  // why\nnever stop from seq reach bass\nconnect seq.midi to bass.midi\n", "Rely on it"),
            StringComparison.Ordinal);

    [Fact]
    public void What_is_relied_on_already_is_not_offered_again() =>
        Assert.DoesNotContain(Acted.Titles(Stage + "connect seq.li$0ne to bass.tape\nmust audio from seq reach bass\n"), t => t.Contains("must audio", StringComparison.Ordinal));

    [Fact]
    public void Connections_are_grouped_by_signal_with_their_comments()
    {
        const string Lines = """

            // the first
            connect seq.line to bass.tape  // behind
            // above
            connect seq.mi$0di to bass.midi
            connect seq.midi2 to bass.midi2
            connect seq.line to bass.tape2 // last

            // apart
            connect seq.line to bass.tape

            """;
        Assert.EndsWith("""

            // the first
            connect seq.line to bass.tape  // behind
            connect seq.line to bass.tape2 // last

            // above
            connect seq.midi to bass.midi
            connect seq.midi2 to bass.midi2

            // apart
            connect seq.line to bass.tape

            """, Acted.After(Stage + Lines, "Group these"), StringComparison.Ordinal);
    }

    [Fact]
    public void Connections_of_one_signal_are_grouped_already() =>
        Assert.DoesNotContain("Group these connections by signal", Acted.Titles(Stage + "connect seq.mi$0di to bass.midi\nconnect seq.midi2 to bass.midi2\n"));

    [Fact]
    public void Grouping_keeps_every_line_of_the_example()
    {
        var text = Examples.Shipped.Read("examples/pantile-yard.rig").Content.Replace("\n\nconnect", "\nconnect", StringComparison.Ordinal);
        var view = Caret.ViewOf(text);
        var seen = 0;
        for (var at = text.IndexOf("\nconnect", StringComparison.Ordinal); at >= 0; at = text.IndexOf("\nconnect", at + 1, StringComparison.Ordinal))
        {
            foreach (var action in ActionFinder.In(view, new TextSpan(at + 1, 0)).Where(a => a.Title.StartsWith("Group", StringComparison.Ordinal)))
            {
                seen++;
                Assert.Equal(Lines(text), Lines(Acted.Apply(view.Source, action.Edits)));
            }
        }
        Assert.True(seen > 0);

        static IEnumerable<string> Lines(string text) => text.Split('\n').Where(l => l.Length > 0).Order(StringComparer.Ordinal);
    }
}
