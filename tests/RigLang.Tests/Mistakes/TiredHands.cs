using RigLang.Checks.Language;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Mistakes;

/// <summary>Lines that tired hands write: one finding, which writes out the line that was meant, and an edit that makes it.</summary>
public class TiredHands
{
    private const string Table = """
        import "shared/gear.rig"
        import "shared/leads.rig"
        gear Heron {
          in  midi  : midi on din-5
          out "LINE OUT" : audio mono line on ts 6.35 mm
          part voice receives midi on channel any, sounds at "LINE OUT"
          clock follows internal, midi
        }
        gear Rook {
          out out : midi on din-5
          track a sends out on channel 1..16
          clock sends out
        }
        gear Filter {
          in  in  : midi on din-5
          out out : midi on din-5
          route in to out
        }
        gear Desk {
          in line1 : audio mono line on ts 6.35 mm
          in power : dc 9 V centre-positive, 250 mA on barrel 5.5x2.1 mm
        }
        device seq  : Rook {
          a on channel 2
        }
        device bass : Heron {
          voice on channel 2
        }
        device desk : Desk {
          // all that it needs
        }
        connect seq.out to bass.midi with MidiDin 1.5 m yellow "BASS"
        connect bass."LINE OUT" to desk.line1 with Patch 1.5 m
        must notes from seq.a reach bass on channel 2
        must audio from bass reach desk
        """;

    [Theory]
    [InlineData("must audio from bass reach desk", "audio from bass reach desk", "Write: `must audio from bass reach desk`.")]
    [InlineData("must audio from bass reach desk", "must audio reach desk from bass", "Write: `must audio from bass reach desk`.")]
    [InlineData("must audio from bass reach desk", "must audio from bass -> desk", "Write: `must audio from bass reach desk`.")]
    [InlineData("must audio from bass reach desk", "must audio from bass reach desk mono", "Write: `must audio from bass reach desk in mono`.")]
    [InlineData("must notes from seq.a reach bass on channel 2", "must notes on channel 2 from seq.a reach bass", "Write: `must notes from seq.a reach bass on channel 2`.")]
    [InlineData("connect seq.out to bass.midi with MidiDin 1.5 m yellow", "connect seq.out with MidiDin 1.5 m to bass.midi yellow",
        "Write: `connect seq.out to bass.midi with MidiDin 1.5 m yellow \"BASS\"`.")]
    [InlineData("to bass.midi", "bass.midi", "Write: `connect seq.out to bass.midi with MidiDin 1.5 m yellow \"BASS\"`.")]
    [InlineData("to bass.midi", "-> bass.midi", "Write: `connect seq.out to bass.midi with MidiDin 1.5 m yellow \"BASS\"`.")]
    [InlineData("with MidiDin", "MidiDin", "Write: `connect seq.out to bass.midi with MidiDin 1.5 m yellow \"BASS\"`.")]
    [InlineData("MidiDin 1.5 m", "MidiDin 1,5 m", "Write: `connect seq.out to bass.midi with MidiDin 1.5 m yellow \"BASS\"`.")]
    [InlineData("MidiDin 1.5 m", "MidiDin 1.5", "Write it behind the figure: 1.5 m.")]
    [InlineData("Patch 1.5 m", "Patch 1.5", "Write: `connect bass.\"LINE OUT\" to desk.line1 with Patch 1.5 m`.")]
    [InlineData("bass.\"LINE OUT\" to", "bass.LINE OUT to", "Write: `connect bass.\"LINE OUT\" to desk.line1 with Patch 1.5 m`.")]
    [InlineData("device desk :", "device desk", "Write: `device desk : Desk {`.")]
    [InlineData("device desk :", "device desk =", "Write: `device desk : Desk {`.")]
    [InlineData("device desk : Desk", "device Desk : desk", "Write the name first: device desk : Desk.")]
    [InlineData("9 V centre", "9 centre", "Write it behind the figure: 9 V.")]
    [InlineData("250 mA", "250 A", "Did you mean 250 mA?")]
    [InlineData("  voice on channel 2", "  voice on channel 2, clock internal", "Write: `voice on channel 2` and, on a line of its own, `clock internal`.")]
    [InlineData("device seq ", "# the sequencer\ndevice seq ", "Write: `// the sequencer`.")]
    [InlineData("device seq ", "; the sequencer\ndevice seq ", "Write: `// the sequencer`.")]
    [InlineData("import \"shared/leads.rig\"\n", "", "It is in the library: add the line import \"shared/leads.rig\".")]
    public void The_line_that_was_meant_is_written_out(string right, string wrong, string advice)
    {
        var clean = Table.ReplaceLineEndings("\n");
        var before = Rigs.Compile(clean);
        Assert.Contains(right, clean, StringComparison.Ordinal);
        var broken = Rigs.Compile(clean.Replace(right, wrong, StringComparison.Ordinal));

        var finding = Assert.Single(broken.Findings, f => !before.Names().Contains(f.Check.Name));
        Assert.Equal(advice, finding.Advice);
        var fix = Assert.Single(finding.Fixes);
        var mended = fix.Edits.OrderByDescending(e => e.Span.Start).Aggregate(
            broken.Files[0].Content, (text, edit) => text.Remove(edit.Span.Start, edit.Span.Length).Insert(edit.Span.Start, edit.NewText));
        Assert.Equal(before.Names(), Rigs.Compile(mended).Names());
    }

    [Theory]
    [InlineData("passes nothing", "Write: `in drops any`.")]
    [InlineData("passes none", "Write: `in drops any`.")]
    public void A_filter_that_lets_nothing_through_drops_any(string wrong, string advice) =>
        Assert.Contains(Rigs.Compile($"{Table}\ndevice box : Filter {{\n  in {wrong}\n}}").Findings, f => f.Check.Name == "syntax-error" && f.Advice == advice);

    [Theory]
    [InlineData("drops everything", "Did you mean `any`?")]
    [InlineData("drops CC", "Did you mean `controllers`?")]
    [InlineData("drops sysex", "Did you mean `system exclusive`?")]
    public void What_players_call_otherwise_is_understood(string wrong, string advice) =>
        Assert.Contains(Rigs.Compile($"{Table}\ndevice box : Filter {{\n  in {wrong}\n}}").Findings, f => f.Check.Name == "unknown-word" && f.Advice == advice);

    [Fact]
    public void Words_are_taken_for_one_name_only_where_something_is_called_so() =>
        Assert.DoesNotContain("quotes", Assert.Single(Rigs.Compile("gear Tern {\n}\ndevice bass : Tern off at (1 m, 1 m)").Findings, f => f.Check.Name == "syntax-error").What, StringComparison.Ordinal);

    public static TheoryData<string> Samples => [.. LineSamples.OfFile.Values, .. LineSamples.OfGear.Values];

    [Theory]
    [MemberData(nameof(Samples))]
    public void A_sample_line_can_be_read(string sample)
    {
        var line = LineSamples.OfGear.Values.Contains(sample) ? $"gear Tern {{\n  {sample}\n}}" : sample.EndsWith('{') ? sample + "\n}" : sample;
        Assert.Empty(RigParser.Parse(new SourceText("sample.rig", line)).Faults);
    }

    [Fact]
    public void A_line_of_a_kind_that_has_a_sample_shows_it() =>
        Assert.Equal("Such a line is written `route midi to thru`.",
            Assert.Single(Rigs.Compile("gear Tern {\n  in a : midi on din-5\n  out b : midi on din-5\n  route a to b ) c\n}").Findings).Advice);

    [Fact]
    public void A_setting_that_cannot_be_read_is_not_missed_a_second_time() =>
        Assert.Single(Rigs.Compile(Table
            .Replace("  voice on channel 2", "  voice on channel 17", StringComparison.Ordinal)).Findings, f => f.Check.Name is "out-of-range" or "expectation-unproven");
}
