using RigLang.Symbols;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>Rows of names: several devices in a line, channels one by one, jacks in pairs; and what is said when they do not fit.</summary>
public class ListsOneByOne
{
    private const string Pads = """
        gear Pads {
          out midi : midi on din-5
          track pad1..pad10 sends midi
          maps channels
        }

        """;

    private static RigNames Names(string text)
    {
        var compilation = Rigs.Compile(text);
        Assert.DoesNotContain(compilation.Findings, f => f.Check.Name != "unwired-device");
        return compilation.Rig.Names;
    }

    private static Findings.Finding Told(string text) => Rigs.Compile(text).Findings.Single(f => f.Check.Name != "unwired-device");

    [Theory]
    [InlineData("a, b", "a b")]
    [InlineData("box2..box4", "box2 box3 box4")]
    [InlineData("a, box2..box3", "a box2 box3")]
    public void A_line_can_be_several_devices(string names, string devices) =>
        Assert.Equal(devices.Split(' '), Names(Pads + $"device {names} : Pads").Devices.Select(d => d.Name));

    [Fact]
    public void Their_block_holds_for_each_of_them() =>
        Assert.Equal([3, 3], Names(Pads + "device a, b : Pads {\n  pad1 on channel 3\n}").Devices.Select(d => d.Channels["pad1"].Channel));

    [Fact]
    public void What_is_wrong_in_their_block_is_told_once() =>
        Assert.Equal("unknown-name", Told(Pads + "device a, b : Pads {\n  pad77 on channel 3\n}").Check.Name);

    [Fact]
    public void A_name_that_is_taken_is_told_at_its_place() =>
        Assert.Equal(("duplicate-name", 5), (Told(Pads + "device box3 : Pads\ndevice box2..box4 : Pads") is var f ? f.Check.Name : "", 5));

    [Fact]
    public void Several_boxes_do_not_stand_at_one_place()
    {
        var finding = Told(Pads + "device a, b : Pads at (1 m, 2 m)");
        Assert.Equal("wrong-form", finding.Check.Name);
        Assert.Contains("cannot all stand at one place", finding.What, StringComparison.Ordinal);
    }

    [Fact]
    public void A_range_of_channels_goes_one_by_one()
    {
        var device = Names(Pads + "device a : Pads {\n  pad3..pad10 on channel 3..10\n}").Devices[0];
        Assert.Equal(Enumerable.Range(3, 8), Enumerable.Range(3, 8).Select(i => device.Channels[$"pad{i}"].Channel!.Value));
    }

    [Fact]
    public void One_channel_is_that_of_all() =>
        Assert.All(Names(Pads + "device a : Pads {\n  pad3..pad10 on channel 3\n}").Devices[0].Channels.Values, c => Assert.Equal(3, c.Channel));

    [Fact]
    public void Channels_that_do_not_suffice_are_told_with_both_counts() =>
        Assert.Equal("`pad3..pad10` is 8, `channel 3..9` is 7: they cannot go together one by one.",
            Told(Pads + "device a : Pads {\n  pad3..pad10 on channel 3..9\n}").What);

    [Fact]
    public void A_range_where_one_channel_belongs_is_asked_about()
    {
        var finding = Told(Pads + "device a : Pads {\n  pad1 on channel 3..5\n}");
        Assert.Equal("wrong-form", finding.Check.Name);
        Assert.All(finding.Fixes, fix => Assert.False(fix.IsSafe));
    }

    [Fact]
    public void A_map_goes_one_by_one() =>
        Assert.Equal([(1, 5), (2, 6), (3, 7)],
            Names(Pads + "device a : Pads {\n  midi maps channel 1..3 to 5..7\n}").Devices[0].Maps.Select(m => (m.From, m.To.Single())));

    [Fact]
    public void A_map_of_one_channel_goes_to_all() =>
        Assert.Equal([5, 6, 7], Names(Pads + "device a : Pads {\n  midi maps channel 1 to 5..7\n}").Devices[0].Maps.Single().To);

    [Fact]
    public void A_map_that_does_not_fit_is_told() =>
        Assert.Equal("unequal-lists", Told(Pads + "device a : Pads {\n  midi maps channel 1..3 to 5, 6\n}").Check.Name);

    private const string Snake = """
        in  in1..in8     : audio mono line on trs 6.35 mm
        out core1..core8 : audio mono line on trs 6.35 mm
        """;

    [Theory]
    [InlineData("join")]
    [InlineData("route")]
    [InlineData("switch")]
    public void In_pairs_the_first_goes_to_the_first(string verb)
    {
        var gear = Names($"gear Snake {{\n{Snake}\n{verb} in1..in8 to core1..core8 in pairs\n}}").FindGear("Snake")!;
        var pairs = verb == "join" ? gear.Joins : gear.Routes;
        Assert.Equal(Enumerable.Range(1, 8).Select(i => ($"in{i}", $"core{i}")), pairs.Select(p => (p.From.Name, p.To.Name)));
    }

    [Fact]
    public void Eight_and_seven_make_no_pairs() =>
        Assert.Equal("`in1..in8` is 8, `core1..core7` is 7: they cannot go together in pairs.",
            Told($"gear Snake {{\n{Snake}\njoin in1..in8 to core1..core7 in pairs\n}}").What);

    [Fact]
    public void Whether_all_sixteen_are_meant_to_be_one_is_asked()
    {
        var finding = Told($"gear Snake {{\n{Snake}\njoin in1..in8 to core1..core8\n}}");
        Assert.Equal("This line would join all 16 jacks to one another.", finding.What);
        Assert.Equal([" in pairs", "in1 to in2..in8, core1..core8"], finding.Fixes.Select(f => f.Edits[0].NewText));
    }

    [Fact]
    public void A_splitter_is_one_jack_to_several() =>
        Assert.Equal(8, Names($"gear Snake {{\n{Snake}\njoin in1 to core1..core8\n}}").FindGear("Snake")!.Joins.Count);

    [Fact]
    public void Routes_go_from_each_to_all_unless_they_say_otherwise() =>
        Assert.Equal(64, Names($"gear Snake {{\n{Snake}\nroute in1..in8 to core1..core8\n}}").FindGear("Snake")!.Routes.Count);

    [Fact]
    public void Figures_may_follow_in_pairs() =>
        Assert.Equal(8, Names($"gear Snake {{\n{Snake}\nroute in1..in8 to core1..core8 in pairs latency 2 ms\n}}").FindGear("Snake")!.Routes.Count);
}
