using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow;

/// <summary>`on channel auto` in whole rigs: what each part and track ends up on.</summary>
public class AutomaticChannels
{
    private const string Chain = """
        gear Rook {
          out midi : midi on din-5
          track a sends midi
        }
        gear Tern {
          in  midi : midi on din-5
          out thru : midi on din-5
          route midi to thru
          part voice receives midi on channel any
        }
        device seq : Rook {
          a on channel 2
        }
        device bass : Tern {
          voice on channel 2
        }
        device lead : Tern {
          voice on channel auto
        }
        connect seq.midi  to bass.midi
        connect bass.thru to lead.midi

        """;

    private static IEnumerable<string> Chosen(string rig) =>
        Rigs.Compile(rig).Rig.Midi.Channels.Chosen.Select(c => $"{c.Key.Device.Name}.{c.Key.Name} {c.Value}").Order(StringComparer.Ordinal);

    [Fact]
    public void A_part_keeps_clear_of_one_that_is_set_by_hand() => Assert.Equal(["lead.voice 1"], Chosen(Chain));

    [Fact]
    public void A_part_that_a_track_is_promised_to_joins_another_that_is_set_by_hand() =>
        Assert.Equal(["lead.voice 2"], Chosen(Chain + "must notes from seq.a reach bass.voice, lead.voice\n"));

    [Fact]
    public void Parts_that_are_both_called_layered_share_the_lowest_channel() =>
        Assert.Equal(
            ["bass.voice 1", "lead.voice 1"],
            Chosen(Chain.Replace("a on channel 2", "a on channel 4", StringComparison.Ordinal)
                .Replace("voice on channel 2", "voice on channel auto layered", StringComparison.Ordinal)
                .Replace("voice on channel auto\n", "voice on channel auto layered\n", StringComparison.Ordinal)));

    [Fact]
    public void A_track_that_no_part_hears_is_on_the_lowest_channel() =>
        Assert.Equal(
            ["seq.a 1"],
            Chosen("""
                gear Rook {
                  out midi : midi on din-5
                  track a sends midi
                }
                gear Tape {
                  in midi : midi on din-5
                }
                device seq : Rook {
                  a on channel auto
                }
                device tape : Tape
                connect seq.midi to tape.midi
                """));
}
