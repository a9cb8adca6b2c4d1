using RigLang.Editing;
using Xunit;

namespace RigLang.Tests.Editing;

public class CompletingLeads
{
    private const string Stage = """
        import "shared/leads.rig"
        gear Rook {
          out midi, midi2 : midi on trs 3.5 mm type-b
          out line : audio mono line on ts 6.35 mm
        }
        gear Tern {
          in midi, midi2 : midi on din-5
          in line, line2 : audio mono line on ts 6.35 mm
        }
        device seq  : Rook at (0 m, 0 m)
        device bass : Tern at (0 m, 2 m)

        """;

    [Fact]
    public void Only_leads_that_fit_both_ends_are_named_the_one_that_works_first()
    {
        var leads = Completed.Labels(Stage + "connect seq.midi to bass.midi with $0");
        Assert.Equal("MidiTrsB", leads[0]);
        Assert.DoesNotContain("MidiDin", leads);
        Assert.DoesNotContain("Patch", leads);
    }

    [Fact]
    public void A_lead_that_fits_but_is_wired_otherwise_says_so() =>
        Assert.StartsWith("wired otherwise than MidiTrsB", Completed.Find(Stage + "connect seq.midi to bass.midi with $0", "MidiTrsA").Detail, StringComparison.Ordinal);

    [Fact]
    public void Leads_in_the_box_come_first_with_how_many_are_left()
    {
        var text = Stage + "stock {\n  2 SpeakerLead 3 m\n}\nconnect seq.line to bass.line with $0";
        Assert.Equal(["SpeakerLead", "Patch"], Completed.Labels(text)[..2]);
        Assert.StartsWith("2 left", Completed.Find(text, "SpeakerLead").Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void What_other_connections_use_is_not_left()
    {
        var text = Stage + "stock {\n  1 SpeakerLead 3 m\n}\nconnect seq.line to bass.line2 with SpeakerLead 3 m\nconnect seq.line to bass.line with $0";
        Assert.Equal("Patch", Completed.Labels(text)[0]);
        Assert.StartsWith("0 left", Completed.Find(text, "SpeakerLead").Detail, StringComparison.Ordinal);
    }

    [Fact]
    public void Behind_a_lead_an_adapter_that_makes_it_fit_is_named() =>
        Assert.Equal("MidiAdapterB", Completed.Labels(Stage + "connect bass.midi to seq.midi with MidiDin 1.5 m + $0")[0]);

    [Fact]
    public void A_lead_of_the_rig_itself_is_named_too() =>
        Assert.Contains("Mine", Completed.Labels("lead Mine : ts 6.35 mm to ts 6.35 mm\n" + Stage + "connect seq.line to bass.line with $0"));

    [Fact]
    public void Behind_a_lead_stand_lengths_in_the_box_then_lengths_that_are_sold_and_reach()
    {
        var lengths = Completed.Labels(Stage + "stock {\n  2 Patch 4 m\n  1 Patch 0.5 m\n}\nconnect seq.line to bass.line with Patch $0");
        Assert.Equal(["4 m", "2 m", "3 m", "5 m", "10 m", "0.5 m"], lengths[..6]);
    }

    [Fact]
    public void A_length_that_does_not_reach_says_so() =>
        Assert.Equal("too short: the way is 2 m", Completed.Find(Stage + "connect seq.line to bass.line with Patch $0", "1 m").Detail);

    [Fact]
    public void Lengths_are_in_feet_where_feet_are_wanted() =>
        Assert.Equal("10 ft", Completed.At(Stage + "connect seq.line to bass.line with Patch $0", Completed.Feet)[0].Label);

    [Fact]
    public void Behind_a_number_stand_units_of_length() =>
        Assert.Equal(["m", "cm", "mm", "ft", "inch"], Completed.Labels(Stage + "connect seq.line to bass.line with Patch 3 $0"));

    [Fact]
    public void A_unit_right_behind_its_number_brings_a_space() =>
        Assert.EndsWith("with Patch 3 m", Completed.Taken(Stage + "connect seq.line to bass.line with Patch 3$0", "m"), StringComparison.Ordinal);

    [Fact]
    public void Behind_a_length_stand_the_colours()
    {
        var colours = Completed.At(Stage + "connect seq.line to bass.line with Patch 3 m ye$0");
        Assert.Equal(Colours.Words.Count, colours.Count);
        Assert.All(colours, c => Assert.Equal(SuggestionKind.Colour, c.Kind));
    }

    [Fact]
    public void The_library_that_is_not_imported_is_not_named() =>
        Assert.Empty(Completed.At(Stage.Replace("import \"shared/leads.rig\"", "", StringComparison.Ordinal) + "connect seq.line to bass.line with $0"));

    [Fact]
    public void Lines_of_the_stock_name_leads_behind_their_number() =>
        Assert.Equal("MidiTrsB", Completed.Labels(Stage + "connect seq.midi to bass.midi with MidiTrsB 1 m\nstock {\n  3 $0\n}")[0]);
}
