using System.Text;
using RigLang.Syntax;
using Xunit;

namespace RigLang.Tests.Syntax;

public class LexerTests
{
    [Fact]
    public void A_number_and_its_unit_need_no_space_between_them() => Assert.Equal("Number Word", Reading.Kinds("9V"));

    [Theory]
    [InlineData("9", "9")]
    [InlineData("0.6", "0.6")]
    [InlineData("-10", "-10")]
    [InlineData("+4", "+4")]
    [InlineData("99999999999999999999999999", "99999999999999999999999999")]
    public void A_number_has_a_sign_and_decimals_as_written(string text, string number)
    {
        var token = Assert.Single(Reading.Tokens(text));
        Assert.Equal(TokenKind.Number, token.Kind);
        Assert.Equal(number, token.Text);
    }

    [Fact]
    public void Two_measures_of_one_part_are_one_size() => Assert.Equal("Size Word", Reading.Kinds("5.5x2.1 mm"));

    [Fact]
    public void A_range_of_numbers_is_not_a_decimal() => Assert.Equal("Number DotDot Number Word", Reading.Kinds("9..12 V"));

    [Fact]
    public void A_hyphen_joins_words_and_a_minus_starts_a_number()
    {
        Assert.Equal("Word", Reading.Kinds("centre-positive"));
        Assert.Equal("Word Number", Reading.Kinds("gain -10"));
        Assert.Equal("Word", Reading.Kinds("din-5"));
    }

    [Theory]
    [InlineData("ベース")]
    [InlineData("гитара")]
    [InlineData("e\u0301tage")]
    [InlineData("低音-2")]
    [InlineData("कीबोर्ड")]
    [InlineData("𝔟𝔞𝔰𝔰")]
    [InlineData("_x1")]
    public void A_name_may_be_in_any_script(string name)
    {
        var token = Assert.Single(Reading.Tokens(name));
        Assert.Equal(TokenKind.Word, token.Kind);
        Assert.Equal(name, token.Text);
        Assert.True(Lexer.IsBareWord(name));
    }

    [Fact]
    public void A_quoted_name_is_compared_without_its_quotes()
    {
        var token = Assert.Single(Reading.Tokens("\"LINE OUT L/MONO // {\""));
        Assert.Equal(TokenKind.String, token.Kind);
        Assert.Equal("LINE OUT L/MONO // {", token.Text);
    }

    [Fact]
    public void A_quoted_keyword_is_only_a_name()
    {
        Assert.Equal(Keyword.Must, Reading.Tokens("must")[0].Keyword);
        Assert.Equal(Keyword.None, Reading.Tokens("\"must\"")[0].Keyword);
    }

    [Fact]
    public void Keywords_are_written_small() => Assert.Equal(Keyword.None, Reading.Tokens("Must")[0].Keyword);

    [Fact]
    public void A_quote_left_open_ends_with_its_line() =>
        Assert.Equal("Word OpenString NewLine Word", Reading.Kinds("rig \"Lantern { // x\ngear"));

    [Fact]
    public void Smart_quotes_mean_nothing_and_are_pointed_at_one_by_one()
    {
        Assert.Equal("Word Bad Word Word Bad", Reading.Kinds("rig “Lantern Barge”"));
        Assert.Equal(4, Reading.Tokens("rig “Lantern Barge”")[1].Start);
    }

    [Fact]
    public void A_run_of_nonsense_is_one_token() => Assert.Equal("Word Bad Word", Reading.Kinds("a ;#!?% b"));

    [Fact]
    public void Half_a_surrogate_pair_is_nonsense_not_a_crash() => Assert.Equal("Bad Word", Reading.Kinds("\uD800 a"));

    [Theory]
    [InlineData("a\nb")]
    [InlineData("a\r\nb")]
    [InlineData("a\rb")]
    public void Each_kind_of_line_end_is_one_token(string text) => Assert.Equal("Word NewLine Word", Reading.Kinds(text));

    [Fact]
    public void Tabs_hard_spaces_and_byte_order_marks_are_spaces() => Assert.Equal("Word Word Word", Reading.Kinds("\uFEFFa\t\tb\u00A0c"));

    [Fact]
    public void A_comment_goes_to_the_end_of_its_line() => Assert.Equal("Word NewLine Word", Reading.Kinds("a // \" { } \r\nb"));

    [Fact]
    public void The_same_name_is_the_same_string_throughout_a_file()
    {
        var tokens = Reading.Tokens("bass \"bass\" bass");
        Assert.Same(tokens[0].Text, tokens[1].Text);
        Assert.Same(tokens[0].Text, tokens[2].Text);
    }

    [Theory]
    [InlineData("")]
    [InlineData("two words")]
    [InlineData("1st")]
    [InlineData("a-")]
    [InlineData("L/MONO")]
    public void Other_names_need_quotes(string name) => Assert.False(Lexer.IsBareWord(name));

    [Fact]
    public void A_line_of_a_million_characters_is_read_at_once()
    {
        var text = new StringBuilder("connect a.b to c.d").Insert("connect a.b to c.d".Length, ", e.f", 200_000).ToString();
        Assert.Equal(8 + (4 * 200_000), Reading.Tokens(text).Length);
        Assert.Empty(Reading.Tree(text).Faults);
    }
}
