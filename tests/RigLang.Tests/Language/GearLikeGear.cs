using RigLang.Editing;
using RigLang.Symbols;
using RigLang.Tests.Editing;
using RigLang.Tests.Support;
using RigLang.Trade;
using Xunit;

namespace RigLang.Tests.Language;

/// <summary>`gear X like Y`: all that Y has, and what differs.</summary>
public class GearLikeGear
{
    private const string Tern = """
        gear Tern {
          in  power : dc 9 V centre-negative, 300 mA on barrel 5.5x2.1 mm
          in  midi  : midi            on din-5
          out thru  : midi            on din-5
          out line  : audio mono line on ts 6.35 mm
          route midi to thru
          part voice receives midi on channel any, sounds at line
          clock follows internal, midi
          filters clock
          battery 4 h
        }

        """;

    private static GearSymbol Two(string lines, string tern = Tern)
    {
        var compilation = Rigs.Compile(tern + "gear TernTwo like Tern {\n" + lines + "\n}\n");
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
        return compilation.Rig.Names.FindGear("TernTwo")!;
    }

    [Fact]
    public void It_has_all_lines_of_the_other()
    {
        var two = Two("");
        Assert.Equal(["power", "midi", "thru", "line"], two.Ports.Select(p => p.Name));
        Assert.Equal((1, 1, 2), (two.Routes.Count, two.Parts.Count, two.ClockFollows.Count));
        Assert.Same(two, two.Routes.First().From.Gear);
        Assert.Equal(9, two.PortsByName["power"].Signal!.Volts!.Value.Low.Value);
    }

    [Fact]
    public void A_port_of_the_same_name_takes_the_place_of_the_others()
    {
        var two = Two("  out line : audio stereo line on 2 ts 6.35 mm");
        Assert.True(two.PortsByName["line"].Signal!.IsStereo);
        Assert.Same(two.PortsByName["line"], two.Parts["voice"].SoundsAt[0]);
        Assert.Equal(4, two.Ports.Count);
    }

    [Fact]
    public void One_port_of_a_row_can_be_another()
    {
        var desk = Two("  in ch2 : audio mono mic on xlr-3", "gear Tern {\n  in ch1..ch3 : audio mono line on ts 6.35 mm\n}\n");
        Assert.Equal(["ch1", "ch3", "ch2"], desk.Ports.Select(p => p.Name));
        Assert.Equal("xlr-3", desk.PortsByName["ch2"].Jacks[0].Form.Name);
    }

    [Fact]
    public void A_part_of_the_same_name_takes_the_place_of_the_others() =>
        Assert.Equal(10, Two("  part voice receives midi on channel 10").Parts["voice"].Channels.First);

    [Fact]
    public void Clock_filters_and_battery_are_as_it_says_last()
    {
        var two = Two("  clock follows midi\n  filters any\n  battery 9 h");
        Assert.Equal(["midi"], two.ClockFollows.Select(c => c.Name));
        Assert.Equal(MessageKinds.All, two.Filters);
        Assert.Equal(9 * 3600, two.Battery!.Value.Lasts!.Value.Value);
    }

    [Fact]
    public void Ports_and_routes_add()
    {
        var two = Two("  out aux : midi on din-5\n  route midi to aux, thru");
        Assert.Equal(2, two.Routes.Count);
    }

    [Fact]
    public void The_other_may_stand_in_an_import()
    {
        var compilation = Rigs.Compile("import \"ours.rig\"\ngear TernTwo like Tern {\n  battery 5 h\n}\n", ("ours.rig", Tern));
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
        Assert.Equal(4, compilation.Rig.Names.FindGear("TernTwo")!.Ports.Count);
    }

    [Fact]
    public void The_other_may_be_of_the_library()
    {
        var compilation = Rigs.Compile("import \"shared/gear.rig\"\ngear MyThru like MidiThru {\n  battery 5 h\n}\ndevice a : MyThru");
        Assert.DoesNotContain(compilation.Findings, f => f.Check.Name is "unknown-name" or "missing-ability");
        Assert.True(compilation.Rig.Names.FindGear("MyThru")!.HasBattery);
    }

    [Fact]
    public void It_may_be_like_one_that_is_like_another_in_any_order()
    {
        var compilation = Rigs.Compile("gear C like B {\n  battery 5 h\n}\ngear B like Tern {\n  filters any\n}\n" + Tern);
        Assert.True(compilation.Findings.IsEmpty, compilation.Told());
        Assert.Equal((4, MessageKinds.All), (compilation.Rig.Names.FindGear("C")!.Ports.Count, compilation.Rig.Names.FindGear("C")!.Filters));
    }

    [Fact]
    public void A_circle_is_one_finding()
    {
        var compilation = Rigs.Compile("gear A like B {\n}\ngear B like C {\n}\ngear C like A {\n}\ndevice a : A\ndevice b : B {\n  voice on channel 2\n}\n");
        var finding = Assert.Single(compilation.Findings, f => f.Check.Name != "unwired-device");
        Assert.Equal("A is like B is like C is like A: a circle.", finding.What);
    }

    [Fact]
    public void One_that_is_like_nothing_known_is_one_finding()
    {
        var compilation = Rigs.Compile("gear A like Turn {\n}\ndevice a : A {\n  voice on channel 2\n}\n" + Tern);
        var finding = Assert.Single(compilation.Findings, f => f.Check.Name != "unwired-device");
        Assert.Equal("There is no gear called `Turn`.", finding.What);
    }

    [Fact]
    public void What_is_wrong_with_the_other_is_told_there_only() =>
        Assert.Equal(["unknown-unit@2"], Rigs.Compile("gear A {\n  in power : dc 9 Vo on barrel 5.5x2.1 mm\n}\ngear B like A {\n}\ngear C like A {\n}\n").Found());

    [Fact]
    public void A_row_without_end_is_refused_and_nothing_breaks()
    {
        var text = string.Concat(Enumerable.Range(1, 2000).Select(i => $"gear G{i} like G{i - 1} {{\n  out p{i} : midi on din-5\n}}\n"));
        var compilation = Rigs.Compile("gear G0 {\n}\n" + text);
        Assert.Contains("out-of-range", compilation.Names());
    }

    [Fact]
    public void A_port_that_it_has_from_the_other_is_declared_there()
    {
        var caret = Caret.In(Tern + "gear TernTwo like Tern {\n}\ndevice a : TernTwo\nconnect a.li$0ne to a.midi");
        Assert.Equal(4, caret.View.Source.PositionOf(caret.View.NameAt(caret.Offset)!.Of.At.Span.Start).Line);
    }

    [Fact]
    public void The_other_is_a_name_to_go_to()
    {
        var caret = Caret.In(Tern + "gear TernTwo like Te$0rn {\n}\n");
        Assert.Equal((NameKind.Gear, "Tern"), (caret.View.NameAt(caret.Offset)!.Of.Kind, caret.View.NameAt(caret.Offset)!.Of.Name));
    }

    [Fact]
    public void What_it_has_from_the_other_is_suggested() =>
        Assert.Contains("voice", Completed.Labels(Tern + "gear TernTwo like Tern {\n  battery 5 h\n}\ndevice a : TernTwo {\n  $0\n}"));

    [Fact]
    public void Behind_like_stands_gear() =>
        Assert.Contains("Tern", Completed.Labels(Tern + "gear TernTwo like $0"));
}
