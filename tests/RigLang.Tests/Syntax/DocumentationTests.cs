using Xunit;

namespace RigLang.Tests.Syntax;

public class DocumentationTests
{
    [Fact]
    public void The_lines_with_three_slashes_right_above_a_statement_are_its_documentation() =>
        Assert.Equal("Two oscillators.\nOne filter.", DocumentationOfFirst("// plain\n/// Two oscillators.  \n  ///One filter.\ngear X { }"));

    [Fact]
    public void A_blank_line_or_a_plain_comment_cuts_documentation_off()
    {
        Assert.Equal("", DocumentationOfFirst("/// Two oscillators.\n\ngear X { }"));
        Assert.Equal("", DocumentationOfFirst("/// Two oscillators.\n// plain\ngear X { }"));
    }

    [Fact]
    public void A_line_in_a_block_has_documentation_too()
    {
        var tree = Reading.Tree("gear X {\r\n  /// The jack at the back.\r\n  in a : midi\r\n}\r\n");
        Assert.Equal("The jack at the back.", tree.DocumentationOf(tree.Statements[0].Body[0]));
    }

    [Fact]
    public void A_byte_order_mark_before_the_first_line_does_not_hide_it() =>
        Assert.Equal("Two oscillators.", DocumentationOfFirst("\uFEFF/// Two oscillators.\ngear X { }"));

    [Fact]
    public void What_stands_behind_another_statement_does_not_take_its_documentation()
    {
        var tree = Reading.Tree("/// Two oscillators.\ngear X { in a : midi } gear Y { }");
        Assert.Equal("Two oscillators.", tree.DocumentationOf(tree.Statements[0]));
        Assert.Equal("", tree.DocumentationOf(tree.Statements[0].Body[0]));
        Assert.Equal("", tree.DocumentationOf(tree.Statements[1]));
    }

    private static string DocumentationOfFirst(string text)
    {
        var tree = Reading.Tree(text);
        return tree.DocumentationOf(tree.Statements[0]);
    }
}
