using System.Diagnostics;
using Xunit;

namespace RigLang.Tests.Formatting;

/// <summary>What cannot be read is kept to the byte, and the good lines around it are laid out.</summary>
public class FormatFaultsTests
{
    [Fact]
    public void A_half_typed_line_is_kept_and_its_neighbours_are_laid_out() => Layout.Becomes(
        "device bass:Tern\n  connect   bass.line   to \ndevice pad  :Pad",
        "device bass : Tern\n  connect   bass.line   to \ndevice pad  : Pad\n");

    [Theory]
    [InlineData("import   \"open")]
    [InlineData("rig   “Lantern   Barge”")]
    [InlineData("device   x ; Y")]
    [InlineData("gear")]
    [InlineData("  }")]
    [InlineData("   { foo }")]
    [InlineData("import   \"a.rig\"   { in a:midi }")]
    public void A_line_with_a_fault_is_kept(string line) =>
        Layout.Becomes($"device a:X\n{line}\ndevice b:X\n", $"device a : X\n{line}\ndevice b : X\n");

    [Fact]
    public void What_shares_a_line_with_a_fault_is_kept_with_it() => Layout.Becomes(
        "gear X {   in a midi   } device   y:X\ndevice z:X\n",
        "gear X {   in a midi   } device   y:X\ndevice z : X\n");

    [Fact]
    public void A_faulty_header_is_kept_and_its_block_laid_out() => Layout.Becomes(
        "gear   {\nin a:midi\n   in  b\n out long:midi\n}\n",
        "gear   {\n  in  a    : midi\n   in  b\n  out long : midi\n}\n");

    [Fact]
    public void A_block_that_never_closes_is_kept_with_its_remarks() => Layout.Becomes(
        "import\"a\"\ngear X {\n     in   a:midi\n\n\n    // to do\n\ndevice x:X\n",
        "import \"a\"\ngear X {\n     in   a:midi\n\n    // to do\n\ndevice x : X\n");

    [Fact]
    public void A_block_inside_a_block_is_kept() => Layout.Becomes(
        "gear X {\nin a:midi\n     foo {\n in   b:midi\n\n\n bar { }   }\nin c:midi\n}\n",
        "gear X {\n  in a : midi\n     foo {\n in   b:midi\n\n\n bar { }   }\n  in c : midi\n}\n");

    [Fact]
    public void A_keyword_at_the_margin_behind_a_trailing_comma_is_not_moved_into_the_line_before() => Layout.Becomes(
        "device x : X {\n  in drops notes,\ndevice drops   clock\n  out drops   start\n}\n",
        "device x : X {\n  in drops notes,\ndevice drops   clock\n  out drops start\n}\n");

    [Fact]
    public void With_a_brace_missing_a_header_that_stays_indented_keeps_its_block() =>
        // Moved to the usual indent, `device drops` would stand left of the header, and so outside its block.
        Layout.StaysAsItIs("}\n\n    device {\n      device drops   notes\n    }\n");

    [Fact]
    public void A_byte_order_mark_inside_a_kept_line_does_not_become_that_of_the_file() =>
        Layout.Becomes("\n\n\uFEFFgear {\n import a\n", "\n\uFEFFgear {\n import a\n");

    [Theory]
    [InlineData("{")]
    [InlineData("}")]
    [InlineData("{\n")]
    [InlineData("x {\n\n")]
    [InlineData("gear X {\n")]
    [InlineData("gear X { in a : midi }")]
    [InlineData("a,\n")]
    [InlineData("// remark\n")]
    [InlineData("/// remark\n\n")]
    [InlineData("connect a.b to c.d,\n")]
    [InlineData("  connect a.b to c.d with X // y\n")]
    [InlineData("\"“")]
    public void Tens_of_thousands_of_anything_take_little_time(string scrap)
    {
        var text = string.Concat(Enumerable.Repeat(scrap, 20_000));
        var watch = Stopwatch.StartNew();
        var once = Layout.Of(text);
        var elapsed = watch.Elapsed;
        Assert.Equal(once, Layout.Of(once));
        // Linear work takes a fiftieth of this; quadratic work takes minutes.
        Assert.True(elapsed < TimeSpan.FromSeconds(10), $"took {elapsed}");
    }

    [Fact]
    public void A_line_of_a_million_characters_is_laid_out()
    {
        var formatted = Layout.Of("connect a.b to " + string.Join(",", Enumerable.Repeat("c.d", 250_000)));
        Assert.EndsWith("c.d, c.d\n", formatted, StringComparison.Ordinal);
    }
}
