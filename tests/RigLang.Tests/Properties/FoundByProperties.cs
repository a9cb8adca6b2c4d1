using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>Mistakes of the compiler that a property found once, each small enough to read.</summary>
public class FoundByProperties
{
    private const string Gear = """
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          out line : audio mono line on ts 6.35 mm
        }
        gear Rook {
          out midi : midi on din-5
        }
        gear Desk {
          in  ch1, ch2 : audio mono line on ts 6.35 mm
          out main     : audio stereo line on 2 ts 6.35 mm
        }
        """;

    [Fact]
    public void A_second_end_that_carries_another_signal_is_the_one_that_is_told()
    {
        var compilation = Rigs.Compile($"""
            {Gear}
            device bass : Tern
            device seq  : Rook
            device desk : Desk
            connect bass.line to desk.ch1, bass.midi
            connect seq.midi to desk.ch2
            """);
        Assert.Equal(["bass.line carries mono line audio, but bass.midi is for MIDI.", "seq.midi carries MIDI, but desk.ch2 is for mono line audio."],
            compilation.Findings.Select(f => f.What));
    }

    [Theory]
    [InlineData("connect desk.main to left.ch1, left.ch2", "connect desk.main.left to right.ch1", "connect desk.main.right to right.ch2")]
    [InlineData("connect desk.main.left to right.ch1", "connect desk.main.right to right.ch2", "connect desk.main to left.ch1, left.ch2")]
    [InlineData("connect desk.main.left to right.ch1", "connect desk.main to left.ch1, left.ch2", "connect desk.main.right to right.ch2")]
    public void Two_cables_that_each_want_one_jack_of_a_pair_are_two_mistakes_in_any_order(params string[] cables)
    {
        var compilation = Rigs.Compile($"""
            {Gear}
            device desk  : Desk
            device left  : Desk
            device right : Desk
            {string.Join('\n', cables)}
            """);
        Assert.Equal(["jack-in-use", "jack-in-use"], compilation.Names());
    }

    [Theory]
    [InlineData("connect bass.thru to bass.thru", "connect bass.thru to lead.midi")]
    [InlineData("connect bass.thru to lead.midi", "connect bass.thru to bass.thru")]
    public void A_jack_that_stands_twice_in_a_line_is_told_whichever_line_has_it_first(params string[] cables)
    {
        var compilation = Rigs.Compile($"""
            {Gear}
            device bass : Tern
            device lead : Tern
            {string.Join('\n', cables)}
            """);
        Assert.Equal(2, compilation.Names().Count(name => name == "jack-in-use"));
        Assert.Contains("bass.thru stands twice in this line.", compilation.Findings.Select(f => f.What));
    }

    [Theory]
    [InlineData("connect seq.midi to bass.midi", "connect seq.midi to lead.midi")]
    [InlineData("connect seq.midi to lead.midi", "connect seq.midi to bass.midi")]
    public void What_two_plugs_in_one_jack_keep_from_arriving_is_no_mistake_of_its_own(params string[] cables)
    {
        var compilation = Rigs.Compile($"""
            {Gear}
            device seq  : Rook
            device bass : Tern
            device lead : Tern
            {string.Join('\n', cables)}
            must clock from seq.midi reach bass
            must clock from seq.midi reach lead
            """);
        Assert.Equal(["jack-in-use"], compilation.Names());
    }

    [Theory]
    [InlineData("\uFEFF", "\r\n")]
    [InlineData("", "\r")]
    [InlineData("", "\n")]
    public void An_import_that_is_put_in_stands_behind_the_byte_order_mark_and_ends_as_the_other_lines_do(string mark, string end)
    {
        var compilation = Rigs.Compile($"{mark}gear Tern {{{end}}}{end}device a : Tern{end}connect a.x to a.y with MidiDin{end}");
        var edit = compilation.Findings.SelectMany(f => f.Fixes).Single(f => f.IsSafe).Edits.Single();
        Assert.Equal((mark.Length, 0, $"import \"shared/leads.rig\"{end}"), (edit.Span.Start, edit.Span.Length, edit.NewText));
    }
}
