using RigLang.Editing;
using Xunit;

namespace RigLang.Tests.Editing;

public class CompletingConnections
{
    private const string Stage = """
        import "shared/leads.rig"
        gear Rook {
          in  reset : midi on din-5
          out midi, midi2 : midi on din-5
          out line : audio mono line on ts 6.35 mm
          track a sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          in  tape : audio stereo line on 2 ts 6.35 mm
          out "LINE OUT" : audio mono line on ts 6.35 mm
        }
        gear Desk {
          in ch1, ch2 : audio mono line on ts 6.35 mm
          in "CH 3/4" : audio stereo line on 2 ts 6.35 mm
          insert : nothing yet
        }
        device far  : Tern at (9 m, 0 m)
        device seq  : Rook at (0 m, 0 m)
        device bass : Tern at (1 m, 0 m)
        device desk : Desk at (2 m, 0 m)

        """;

    [Fact]
    public void Behind_connect_stand_devices_those_with_a_free_output_first() =>
        Assert.Equal(["far", "seq", "bass", "desk"], Completed.Labels(Stage + "connect $0"));

    [Fact]
    public void Behind_a_device_stand_its_outputs_then_its_inputs() =>
        Assert.Equal(["midi", "midi2", "line", "reset"], Completed.Labels(Stage + "connect seq.$0"));

    [Fact]
    public void A_port_says_its_signal_and_its_connector() =>
        Assert.Equal("mono line audio on ts 6.35 mm", Completed.Find(Stage + "connect seq.$0", "line").Detail);

    [Fact]
    public void A_port_in_use_comes_after_all_free_ones_and_says_by_whom()
    {
        var text = Stage + "connect seq.midi to bass.midi\nconnect seq.$0";
        Assert.Equal(["midi2", "line", "reset", "midi"], Completed.Labels(text));
        Assert.Equal("MIDI on din-5, in use by bass.midi", Completed.Find(text, "midi").Detail);
    }

    [Fact]
    public void The_line_that_is_being_written_does_not_use_its_own_ports() =>
        Assert.Equal("MIDI on din-5", Completed.Find(Stage + "connect seq.mi$0di to bass.midi", "midi").Detail);

    [Fact]
    public void Behind_to_stand_only_devices_that_the_signal_fits_the_nearest_first() =>
        Assert.Equal(["bass", "far", "seq"], Completed.Labels(Stage + "connect seq.midi to $0"));

    [Fact]
    public void A_device_says_which_port_fits_and_how_far_it_is() =>
        Assert.Equal("Tern: midi, 1 m away", Completed.Find(Stage + "connect seq.midi to $0", "bass").Detail);

    [Fact]
    public void A_device_whose_only_fitting_port_is_taken_comes_last() =>
        Assert.Equal(["far", "seq", "bass"], Completed.Labels(Stage + "connect seq.midi to bass.midi\nconnect seq.midi2 to $0"));

    [Fact]
    public void Behind_the_other_device_stand_only_ports_that_the_signal_fits() =>
        Assert.Equal(["midi"], Completed.Labels(Stage + "connect seq.midi to bass.$0"));

    [Fact]
    public void Among_the_ports_that_fit_the_right_direction_comes_first() =>
        Assert.Equal(["tape", "LINE OUT"], Completed.Labels(Stage + "connect seq.line to bass.$0"));

    [Fact]
    public void An_input_for_the_level_comes_before_one_for_another()
    {
        const string Mixer = "gear Mixer {\n  in mic : audio mono mic on xlr-3\n  in line : audio mono line on ts 6.35 mm\n}\ndevice mixer : Mixer\n";
        Assert.Equal(["line", "mic"], Completed.Labels(Stage + Mixer + "connect seq.line to mixer.$0"));
    }

    [Fact]
    public void A_pair_of_jacks_has_a_left_and_a_right_one() =>
        Assert.Equal(["left", "right"], Completed.Labels(Stage + "connect seq.line to bass.tape.$0"));

    [Fact]
    public void The_jack_of_a_pair_that_is_free_comes_first() =>
        Assert.Equal(["right", "left"], Completed.Labels(Stage + "connect far.\"LINE OUT\" to bass.tape.left\nconnect seq.line to bass.tape.$0"));

    [Fact]
    public void A_port_with_one_jack_has_no_sides() => Assert.Empty(Completed.At(Stage + "connect seq.line.$0"));

    [Theory]
    [InlineData("connect seq.midi $0", "to")]
    [InlineData("connect seq.midi to bass.midi $0", "with")]
    public void Behind_a_whole_jack_stands_the_next_word(string line, string word) => Assert.Equal(word, Completed.Labels(Stage + line)[0]);

    [Fact]
    public void A_name_with_a_space_is_put_in_quotes() =>
        Assert.EndsWith("connect bass.\"LINE OUT\"", Completed.Taken(Stage + "connect bass.L$0", "LINE OUT"), StringComparison.Ordinal);

    [Fact]
    public void A_name_that_is_begun_in_quotes_gets_its_closing_quote() =>
        Assert.EndsWith("connect bass.\"LINE OUT\"", Completed.Taken(Stage + "connect bass.\"LI$0", "LINE OUT"), StringComparison.Ordinal);

    [Fact]
    public void A_name_between_two_quotes_keeps_them() =>
        Assert.EndsWith("connect bass.\"LINE OUT\" to desk.ch1", Completed.Taken(Stage + "connect bass.\"LI$0\" to desk.ch1", "LINE OUT"), StringComparison.Ordinal);

    [Fact]
    public void In_the_middle_of_a_word_the_whole_word_is_replaced() =>
        Assert.EndsWith("connect seq.midi2 to bass.midi", Completed.Taken(Stage + "connect seq.li$0ne to bass.midi", "midi2"), StringComparison.Ordinal);

    [Fact]
    public void A_line_may_go_on_behind_a_comma() =>
        Assert.Contains("tape", Completed.Labels(Stage + "connect seq.line to desk.ch1,\n  bass.$0"));

    [Fact]
    public void A_device_of_unknown_gear_has_no_ports_to_name() =>
        Assert.Empty(Completed.At(Stage + "device odd : Nobody\nconnect odd.$0"));

    [Fact]
    public void Between_the_two_signs_of_a_line_end_the_line_is_still_the_one_before() =>
        Assert.Equal(["to"], Completed.Labels(Stage + "connect seq.midi \r$0\n"));

    [Fact]
    public void A_name_without_letters_is_not_suggested() =>
        Assert.DoesNotContain("", Completed.Labels(Stage + "device \"\" : Rook\nconnect $0"));

    [Fact]
    public void Nothing_is_suggested_in_a_comment() => Assert.Empty(Completed.At(Stage + "connect seq.midi // to $0"));

    [Fact]
    public void The_sort_key_keeps_the_order_in_any_editor()
    {
        var all = Completed.At(Stage + "connect seq.midi to $0");
        Assert.Equal(all.Select(s => s.SortKey), all.Select(s => s.SortKey).Order(StringComparer.Ordinal));
        Assert.Equal(all.Count, all.Select(s => s.SortKey).Distinct().Count());
    }
}
