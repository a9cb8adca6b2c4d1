using RigLang.Flow;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Flow.Audio;

/// <summary>
/// What arrives for each pair of jacks and lead. Sources: R109 and R110 (balanced and unbalanced interconnection), IEC 60603-11 (the contacts of plugs), common practice.
/// Amounts are factors of amplitude of the source's left, right or mono.
/// </summary>
public class PlugsAndJacks
{
    private const string Leads = """
        lead Ts   : ts 6.35 mm to ts 6.35 mm
        lead Trs  : trs 6.35 mm to trs 6.35 mm
        lead Y    : trs 6.35 mm to ts 6.35 mm left, ts 6.35 mm right {
          tip to left.tip
          ring to right.tip
          sleeve to left.sleeve, right.sleeve
        }
        lead Open : trs 6.35 mm to ts 6.35 mm {
          tip to tip
          sleeve to sleeve
        }
        lead Insert : trs 6.35 mm to ts 6.35 mm send, ts 6.35 mm return {
          tip to send.tip
          ring to return.tip
          sleeve to send.sleeve, return.sleeve
        }
        lead Two : ts 6.35 mm one, ts 6.35 mm other to ts 6.35 mm {
          one.tip to tip
          other.tip to tip
          one.sleeve to sleeve
          other.sleeve to sleeve
        }

        """;

    private static string Heard(string output, string lead, string input, string cable = "connect a.o to b.i with", string more = "")
    {
        var rig = Rigs.Compile($"{Leads}gear A {{\n  out o : {output}\n}}\ngear B {{\n  {input.Replace("; ", "\n  ", StringComparison.Ordinal)}\n}}\ndevice a : A\ndevice b : B\n{cable} {lead} 1 m\n{more}\n").Rig;
        return string.Join("; ", rig.Audio.Flow.Shares.Select(share =>
            $"{share.To.Port.Name}: {share.Shape} {string.Join(", ", share.Lanes.Select(l => string.Join('/', new[] { l.LeftShare, l.RightShare, l.MonoShare }.Where(x => x != 0).Select(x => x.ToString("0.##", System.Globalization.CultureInfo.InvariantCulture)))))}"));
    }

    private const string Mono = "in i : audio mono line on ts 6.35 mm";
    private const string Balanced = "in i : audio mono line balanced on trs 6.35 mm";
    private const string Stereo = "in i : audio stereo line on trs 6.35 mm";

    [Theory]
    // Balanced to balanced: all of it, as the difference of its two halves.
    [InlineData("audio mono line balanced on trs 6.35 mm", "Trs", Balanced, "i: Mono 1")]
    // A plain dual driver loses the shorted half: -6.02 dB. Impedance- and transformer-balanced lose nothing.
    [InlineData("audio mono line balanced on trs 6.35 mm", "Ts", Mono, "i: Mono 0.5")]
    [InlineData("audio mono line impedance-balanced on trs 6.35 mm", "Ts", Mono, "i: Mono 1")]
    [InlineData("audio mono line transformer-balanced on trs 6.35 mm", "Ts", Mono, "i: Mono 1")]
    [InlineData("audio mono line balanced on trs 6.35 mm", "Open", Mono, "i: Mono 0.5")]
    // Unbalanced into balanced: the same level, by either lead.
    [InlineData("audio mono line on ts 6.35 mm", "Ts", Balanced, "i: Mono 1")]
    [InlineData("audio mono line on ts 6.35 mm", "Trs", Balanced, "i: Mono 1")]
    // Headphones into a balanced input: left less right, so that what both have is gone (V4.4).
    [InlineData("audio stereo headphone on trs 6.35 mm", "Trs", Balanced, "i: Difference 1/-1")]
    // A two-pole plug in a stereo jack shorts the right.
    [InlineData("audio stereo headphone on trs 6.35 mm", "Ts", Mono, "i: LeftOnly 1")]
    [InlineData("audio stereo headphone on trs 6.35 mm", "Trs", Stereo, "i: Stereo 1, 1")]
    // A mono output behind a stereo plug: one ear only.
    [InlineData("audio mono line on ts 6.35 mm", "Trs", Stereo, "i: MonoLeft 1")]
    // Balanced into stereo: the same on both sides, one inverted.
    [InlineData("audio mono line balanced on trs 6.35 mm", "Trs", Stereo, "i: OutOfPhase 0.5, -0.5")]
    public void One_output_by_one_lead(string output, string lead, string input, string heard) => Assert.Equal(heard, Heard(output, lead, input));

    [Fact]
    public void A_breakout_keeps_left_and_right_apart() => Assert.Equal("l: LeftOnly 1; r: RightOnly 1",
        Heard("audio stereo headphone on trs 6.35 mm", "Y", "in l, r : audio mono line on ts 6.35 mm", "connect a.o to b.l, b.r with"));

    /// <summary>V4.7: +1 V and -1 V from two outputs on one wire leave nothing; a check tells that they drive each other.</summary>
    [Fact]
    public void Two_outputs_on_one_wire_are_added() => Assert.Equal("i: Mono 1; i: Mono 1",
        Heard("audio mono line on ts 6.35 mm", "Two", Mono, "connect a.o, c.o to b.i with", "device c : A"));

    [Fact]
    public void A_channel_with_a_plug_in_its_insert_is_heard_by_way_of_the_return_only() => Assert.Equal("main: Mono 1", Heard("audio mono line on ts 6.35 mm", "Ts",
        "in i : audio mono line on ts 6.35 mm; out ins : insert on trs 6.35 mm; out o : audio mono line on ts 6.35 mm; route i to ins; route i, ins to o",
        more: """
            gear Press {
              in in : audio mono line on ts 6.35 mm
              out out : audio mono line on ts 6.35 mm
              route in to out
            }
            gear Ear {
              in main : audio mono line on ts 6.35 mm
            }
            device press : Press
            device ear : Ear
            connect b.ins to press.in, press.out with Insert 1 m
            connect b.o to ear.main with Ts 1 m
            """));
}
