using RigLang.Editing;
using Xunit;

namespace RigLang.Tests.Editing;

public class CompletingSettings
{
    private const string Gear = """
        gear Rook {
          out midi : midi on din-5
          track a, b sends midi
          clock sends midi
        }
        gear Tern {
          in  mic   : audio mono mic phantom on xlr-3
          in  midi  : midi on din-5
          in  sync  : pulse 2 ppqn 5 V on ts 3.5 mm
          out thru  : midi on din-5
          out line  : audio mono line on ts 6.35 mm
          route midi to thru
          part voice receives midi on channel any, sounds at line
          part drum  receives midi on channel 10
          clock follows internal, midi, sync
          filters clock, transport
          battery
        }
        device seq : Rook {
          a on channel 1
          b on channel 3
        }
        connect seq.midi to bass.midi

        """;

    [Fact]
    public void A_line_starts_with_a_part_a_track_or_a_port_that_can_be_set() =>
        Assert.Equal(["voice", "drum", "clock", "runs on battery", "mic", "midi", "thru", "sync", "line"], Completed.Labels(Gear + "device bass : Tern {\n  $0\n}"));

    [Fact]
    public void A_part_that_is_set_already_comes_later() =>
        Assert.Equal("drum", Completed.Labels(Gear + "device bass : Tern {\n  voice on channel 2\n  $0\n}")[0]);

    [Fact]
    public void A_block_that_is_not_closed_yet_is_a_block() =>
        Assert.Equal("voice", Completed.Labels(Gear + "device bass : Tern {\n  $0")[0]);

    [Fact]
    public void Free_channels_come_first_then_those_that_somebody_is_on_then_the_words()
    {
        var text = Gear + "device bass : Tern {\n  voice on channel $0\n}";
        Assert.Equal(
            ["2", "4", "5", "6", "7", "8", "9", "11", "12", "13", "14", "15", "16", "1", "3", "10", "any", "auto", "off"], Completed.Labels(text));
        Assert.Equal("seq.a", Completed.Find(text, "1").Detail);
        Assert.Equal("free", Completed.Find(text, "2").Detail);
    }

    [Fact]
    public void A_channel_that_is_there_is_replaced() =>
        Assert.Contains("voice on channel 4\n", Completed.Taken(Gear + "device bass : Tern {\n  voice on channel 12$0\n}", "4"), StringComparison.Ordinal);

    [Fact]
    public void What_the_part_itself_is_on_counts_as_free() =>
        Assert.Equal("free", Completed.Find(Gear + "device bass : Tern {\n  voice on channel 7$0\n}", "7").Detail);

    [Fact]
    public void A_part_with_a_fixed_channel_has_no_other() =>
        Assert.Equal(["10", "any", "auto", "off"], Completed.Labels(Gear + "device bass : Tern {\n  drum on channel $0\n}"));

    [Fact]
    public void A_clock_source_that_is_fed_comes_first()
    {
        var text = Gear + "device bass : Tern {\n  clock $0\n}";
        Assert.Equal(["midi", "internal", "sync"], Completed.Labels(text));
        Assert.Equal("fed by seq.midi", Completed.Find(text, "midi").Detail);
    }

    [Theory]
    [InlineData("voice $0", "on")]
    [InlineData("voice on $0", "channel")]
    [InlineData("voice on channel 2 $0", "layered")]
    [InlineData("midi $0", "drops")]
    [InlineData("midi passes $0", "only")]
    [InlineData("mic $0", "phantom on")]
    [InlineData("mic phantom $0", "on")]
    [InlineData("thru thru $0", "off")]
    [InlineData("runs $0", "on battery")]
    public void Behind_a_name_stands_what_can_be_set_there(string line, string word) =>
        Assert.Equal(word, Completed.Labels(Gear + "device bass : Tern {\n  " + line + "\n}")[0]);

    [Fact]
    public void Only_messages_that_the_gear_can_drop_are_named() =>
        Assert.Equal(["clock", "start", "stop", "continue", "transport"], Completed.Labels(Gear + "device bass : Tern {\n  midi drops $0\n}"));

    [Fact]
    public void A_message_that_is_listed_is_not_named_again() =>
        Assert.DoesNotContain("clock", Completed.Labels(Gear + "device bass : Tern {\n  midi drops clock, $0\n}"));

    [Fact]
    public void Behind_the_colon_of_a_device_stands_gear_the_rigs_own_first()
    {
        var text = "import \"shared/gear.rig\"\n" + Gear + "device bass : $0";
        Assert.Equal(["Rook", "Tern"], Completed.Labels(text)[..2]);
        Assert.Equal("from shared/gear.rig", Completed.Find(text, "MonoSynth").Detail);
    }

    [Fact]
    public void Gear_of_the_library_is_named_only_where_it_is_imported() =>
        Assert.Equal(["Rook", "Tern"], Completed.Labels(Gear + "device bass : $0"));
}
