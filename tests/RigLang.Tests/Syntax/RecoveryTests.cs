using System.Diagnostics;
using RigLang.Syntax;
using Xunit;

namespace RigLang.Tests.Syntax;

/// <summary>A mistake costs its own line and no other, and is told at its place.</summary>
public class RecoveryTests
{
    [Fact]
    public void Every_independent_mistake_is_told_and_the_good_lines_count()
    {
        var tree = Reading.Tree("""
            rig "Barge" {
              tempo 112
              set 75 min
            }
            device bass Tern
            connect seq.midi to thru.in with MidiTrsB 0.6 m
            conect seq.midi to thru.in
            gear Tern {
              in midi : midi on din-5
              in sync : on ts 3.5 mm
              inn power : dc 9 V
              out line : audio mono line
            }
            must notes seq reach bass
            """);

        Assert.Equal(["112", "Tern", "conect", "on", "inn", "bass"], Reading.Underlined(tree));
        Assert.Equal(
            ["tempo 112", "device bass Tern", "conect seq.midi to thru.in", "in sync : on ts 3.5 mm", "inn power : dc 9 V", "must notes seq reach bass"],
            AllStatements(tree).Where(s => s is BrokenLine).Select(s => tree.Source.Slice(s.Span)));
        Assert.Equal(6, AllStatements(tree).Count(s => s is not BrokenLine));
    }

    [Fact]
    public void A_fault_says_what_was_expected_and_what_stands_there()
    {
        var fault = Assert.Single(Reading.Tree("device bass Tern").Faults);
        Assert.Equal(["`:`"], fault.Expected);
        Assert.Equal("Tern", fault.Found?.Text);
    }

    [Fact]
    public void A_half_typed_last_line_is_told_at_its_last_word_and_costs_only_itself()
    {
        var tree = Reading.Tree("device bass : Tern\nconnect bass.line to");
        Assert.Equal(["to"], Reading.Underlined(tree));
        Assert.Null(tree.Faults[0].Found);
        Assert.IsType<DeviceStatement>(tree.Statements[0]);
    }

    [Theory]
    [InlineData("connect a.b to c.d,")]
    [InlineData("connect a.b to c.d,\n\ndevice x : Y")]
    [InlineData("connect a.b to c.d,\ndevice x : Y")]
    [InlineData("connect a.b to c.d, // next one\n// and a remark\ndevice x : Y")]
    public void A_comma_at_the_end_of_a_half_typed_line_does_not_swallow_what_follows(string text)
    {
        var tree = Reading.Tree(text);
        Assert.IsType<BrokenLine>(tree.Statements[0]);
        Assert.Single(tree.Faults);
        Assert.Equal(text.Contains("device", StringComparison.Ordinal) ? 2 : 1, tree.Statements.Count);
    }

    [Fact]
    public void A_comma_at_the_end_of_a_block_s_last_line_leaves_the_brace_alone()
    {
        var tree = Reading.Tree("gear X {\n  in a, b,\n}\ndevice x : X");
        Assert.Single(tree.Faults);
        Assert.IsType<DeviceStatement>(tree.Statements[1]);
    }

    [Fact]
    public void A_line_that_ends_in_a_comma_goes_on()
    {
        var connect = Reading.Statement<ConnectStatement>("connect a.b to c.d, // first\r\n    e.f,\r    device.g\n");
        Assert.Equal(["c.d", "e.f", "device.g"], Reading.Texts(connect.To));
    }

    [Fact]
    public void An_unclosed_block_ends_at_the_next_statement()
    {
        var tree = Reading.Tree("gear X {\n  in a : midi\n\ndevice x : X\nconnect x.a to y.b\n");
        var fault = Assert.Single(tree.Faults);
        Assert.Equal(OutlineFault.Unclosed, fault.Outline);
        Assert.Equal("gear X", tree.Source.Slice(fault.Span));
        Assert.Equal([typeof(GearStatement), typeof(DeviceStatement), typeof(ConnectStatement)], tree.Statements.Select(s => s.GetType()));
        Assert.IsType<PortLine>(Assert.Single(tree.Statements[0].Body));
    }

    [Fact]
    public void Two_unclosed_blocks_are_two_faults()
    {
        var tree = Reading.Tree("gear X {\n  in a : midi\ngear Y {\n  in b : midi\n");
        Assert.Equal(["gear X", "gear Y"], Reading.Underlined(tree));
        Assert.All(tree.Statements, s => Assert.Single(s.Body));
    }

    [Fact]
    public void A_byte_order_mark_does_not_indent_the_first_statement()
    {
        // ` device` is one in from the margin, with or without the mark: part of the block that never closes.
        var marked = Reading.Tree("\uFEFFdevice x : X {\n device drops notes\n");
        var plain = Reading.Tree("device x : X {\n device drops notes\n");
        Assert.Equal(plain.Statements.Count, marked.Statements.Count);
        Assert.IsType<FilterSetting>(Assert.Single(marked.Statements[0].Body));
    }

    [Fact]
    public void Where_braces_match_a_keyword_at_the_margin_is_still_inside_its_block()
    {
        var tree = Reading.Tree("device x : X {\ndevice drops notes\n}\n");
        Assert.Empty(tree.Faults);
        Assert.IsType<FilterSetting>(Assert.Single(tree.Statements[0].Body));
    }

    [Fact]
    public void A_closing_brace_too_many_is_a_fault_of_its_own()
    {
        var tree = Reading.Tree("device x : X {\n}\n}\ndevice y : X\n");
        Assert.Equal(OutlineFault.StrayClose, Assert.Single(tree.Faults).Outline);
        Assert.Equal(2, tree.Statements.Count);
    }

    [Fact]
    public void A_block_inside_a_block_is_passed_over_and_the_rest_of_the_block_read()
    {
        var tree = Reading.Tree("gear X {\n  in a : midi\n  foo {\n    bar { baz }\n  }\n  in b : midi\n}\n");
        var fault = Assert.Single(tree.Faults);
        Assert.Equal((OutlineFault.NestedBlock, "foo"), (fault.Outline, tree.Source.Slice(fault.Span)));
        Assert.Equal(2, tree.Statements[0].Body.Count);
    }

    [Fact]
    public void A_block_without_a_statement_is_told_at_its_brace()
    {
        var tree = Reading.Tree("device x : X\n{\n  clock midi\n}\n");
        Assert.Equal(OutlineFault.BareBlock, Assert.Single(tree.Faults).Outline);
        Assert.Equal("{", tree.Source.Slice(tree.Statements[1].Span));
    }

    [Fact]
    public void A_block_behind_a_statement_that_has_none_is_told_at_its_brace()
    {
        var tree = Reading.Tree("import \"a.rig\" {\n}\n");
        Assert.Equal(["{"], Reading.Underlined(tree));
        Assert.Equal(["the end of the line"], tree.Faults[0].Expected);
        Assert.IsType<ImportStatement>(tree.Statements[0]);
    }

    [Fact]
    public void A_faulty_header_does_not_make_its_block_faulty()
    {
        var tree = Reading.Tree("gear {\n  in a : midi\n  in b midi\n}\n");
        Assert.Equal(["gear", "midi"], Reading.Underlined(tree));
        Assert.IsType<PortLine>(tree.Statements[0].Body[0]);
    }

    [Fact]
    public void A_smart_quote_is_underlined_alone()
    {
        var tree = Reading.Tree("rig “Lantern Barge” {\n  tempo 112 bpm\n}\n");
        Assert.Equal(["“"], Reading.Underlined(tree));
        Assert.IsType<RigSetting>(Assert.Single(tree.Statements[0].Body));
    }

    [Fact]
    public void An_open_quote_costs_its_line_only()
    {
        var tree = Reading.Tree("import \"our-gear.rig\ndevice x : X\n");
        Assert.Equal(["\"our-gear.rig"], Reading.Underlined(tree));
        Assert.IsType<DeviceStatement>(tree.Statements[1]);
    }

    [Theory]
    [InlineData("")]
    [InlineData(" \t ")]
    [InlineData("\uFEFF")]
    [InlineData("\r\n\r\n")]
    [InlineData("// only a remark")]
    public void A_file_that_says_nothing_has_no_fault(string text)
    {
        var tree = Reading.Tree(text);
        Assert.Empty(tree.Statements);
        Assert.Empty(tree.Faults);
        Assert.Equal(text, tree.Print());
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Line_ends_make_no_difference(string lineEnd)
    {
        var tree = Reading.Tree($"\uFEFFgear X {{{lineEnd}\tin a : midi{lineEnd}}}{lineEnd}device x : X{lineEnd}");
        Assert.Empty(tree.Faults);
        Assert.Equal(2, tree.Statements.Count);
        Assert.Equal((3, 0), tree.Source.PositionOf(tree.Statements[1].Span.Start));
    }

    [Theory]
    [InlineData("{", 10_000)]
    [InlineData("}", 10_000)]
    [InlineData("x {\n", 10_000)]
    [InlineData("gear X {\n", 10_000)]
    [InlineData("{}", 10_000)]
    [InlineData("a,\n", 10_000)]
    [InlineData("\"", 100_001)]
    [InlineData("““", 100_000)]
    [InlineData("/ ", 100_000)]
    public void Thousands_of_braces_commas_and_quotes_are_findings_not_a_crash(string scrap, int times)
    {
        var text = string.Concat(Enumerable.Repeat(scrap, times));
        var watch = Stopwatch.StartNew();
        var tree = Reading.Tree(text);
        Assert.NotEmpty(tree.Faults);
        Assert.Equal(text, tree.Print());
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(5), $"took {watch.Elapsed}");
    }

    private static IEnumerable<Statement> AllStatements(SyntaxTree tree) => tree.Statements.SelectMany(s => s.Body.Prepend(s));
}
