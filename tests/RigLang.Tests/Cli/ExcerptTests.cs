using System.Diagnostics;
using RigLang.Cli.Output;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Cli;

public sealed class ExcerptTests
{
    /// <summary>The line as shown, and below it the underline.</summary>
    private static string Shown(string content, string marked, int maxCells = 100)
    {
        var source = new SourceText("a.rig", content);
        var excerpt = Excerpt.Of(source, MadeUp.Place(source, marked).Span, maxCells);
        return $"{excerpt.Text}\n{new string(' ', excerpt.MarkColumn)}{new string('~', excerpt.MarkWidth)}";
    }

    [Fact]
    public void The_marked_words_are_underlined()
        => Assert.Equal("device bass : Tern\n       ~~~~", Shown("\ndevice bass : Tern\n", "bass"));

    [Fact]
    public void Tabs_become_spaces_and_the_underline_follows()
        => Assert.Equal("    a   bass\n        ~~~~", Shown("\ta\tbass", "bass"));

    [Fact]
    public void A_wide_character_takes_two_cells()
        => Assert.Equal("低音 bass\n~~~~", Shown("低音 bass", "低音"));

    [Fact]
    public void A_combining_mark_takes_no_cell()
        => Assert.Equal("e\u0301tude bass\n      ~~~~", Shown("e\u0301tude bass", "bass"));

    [Fact]
    public void Half_a_character_marked_underlines_all_of_it()
        => Assert.Equal("e\u0301tude\n~", Shown("e\u0301tude", "\u0301"));

    [Fact]
    public void An_emoji_of_several_parts_is_one_wide_character()
        => Assert.Equal("👩‍🎤 bass\n   ~~~~", Shown("👩‍🎤 bass", "bass"));

    [Theory]
    [InlineData("a\e[31mb", "a␛[31mb")]
    [InlineData("a\u0007b", "a␇b")]
    [InlineData("a\u007Fb", "a␡b")]
    [InlineData("a\u0085b", "a<U+0085>b")]
    [InlineData("a\u202Eb", "a<U+202E>b")]
    [InlineData("a\u200Bb", "a<U+200B>b")]
    [InlineData("a\uFEFFb", "a<U+FEFF>b")]
    [InlineData("a\u2028b", "a<U+2028>b")]
    [InlineData("e\u0301\u202Eb", "e\u0301<U+202E>b")]
    public void Signs_that_would_not_be_seen_or_would_move_the_cursor_are_spelled_out(string text, string shown)
        => Assert.Equal(shown, Excerpt.Of(new("a.rig", text), new(0, 1), 100).Text);

    /// <summary>On its own, because an attribute cannot carry half a pair.</summary>
    [Fact]
    public void Half_a_surrogate_pair_is_spelled_out()
        => Assert.Equal("a<U+D800>b", Excerpt.Of(new("a.rig", "a\uD800b"), new(0, 1), 100).Text);

    [Fact]
    public void The_underline_stands_under_its_word_behind_a_spelled_out_sign()
        => Assert.Equal("<U+202E>bass\n        ~~~~", Shown("\u202Ebass", "bass"));

    [Fact]
    public void A_place_with_nothing_in_it_still_gets_a_mark()
    {
        var excerpt = Excerpt.Of(new("a.rig", "device\r\nnext"), new(6, 0), 100);
        Assert.Equal(("device", 6, 1), (excerpt.Text, excerpt.MarkColumn, excerpt.MarkWidth));
    }

    [Fact]
    public void An_empty_file_still_gets_a_mark()
    {
        var excerpt = Excerpt.Of(new("a.rig", ""), new(0, 0), 100);
        Assert.Equal((1, "", 0, 1), (excerpt.Line, excerpt.Text, excerpt.MarkColumn, excerpt.MarkWidth));
    }

    [Fact]
    public void Of_several_lines_the_first_is_shown_and_the_last_is_named()
    {
        var excerpt = Excerpt.Of(new("a.rig", "one\ngear Tern {\n  in\n}\n"), TextSpan.Between(4, 22), 100);
        Assert.Equal(new Excerpt(2, "gear Tern {", 0, 11, 4), excerpt);
    }

    [Fact]
    public void A_mark_that_ends_with_its_line_end_stays_on_its_line()
    {
        var excerpt = Excerpt.Of(new("a.rig", "one\ntwo\n"), new(0, 4), 100);
        Assert.Equal((1, 3), (excerpt.LastLine, excerpt.MarkWidth));
    }

    [Fact]
    public void A_long_line_is_cut_to_a_window_around_the_mark()
    {
        var content = new string('a', 500) + "bass" + new string('c', 500);
        Assert.Equal(
            $"…{new string('a', 10)}bass{new string('c', 26)}…\n           ~~~~",
            Shown(content, "bass", 40));
    }

    [Fact]
    public void A_long_line_marked_at_its_start_is_cut_at_its_end_only()
        => Assert.Equal($"bass{new string('c', 36)}…\n~~~~", Shown("bass" + new string('c', 500), "bass", 40));

    [Fact]
    public void A_long_line_marked_at_its_end_is_cut_at_its_start_only()
        => Assert.Equal($"…{new string('a', 36)}bass\n{new string(' ', 37)}~~~~", Shown(new string('a', 500) + "bass", "bass", 40));

    [Fact]
    public void A_thousand_excerpts_of_a_line_of_a_million_characters_take_no_time_to_speak_of()
    {
        var source = new SourceText("a.rig", new string('é', 1_000_000));
        var watch = Stopwatch.StartNew();
        for (var i = 0; i < 1000; i++)
        {
            Excerpt.Of(source, new(i * 1000, 500), 100);
        }
        // About 0.1 s; work that grew with the line would take minutes.
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(10), $"took {watch.Elapsed}");
    }

    [Fact]
    public void Any_text_and_any_place_give_an_excerpt_that_fits()
        => CsCheck.Check.Sample(
            CsCheck.Gen.Select(
                CsCheck.Gen.String[CsCheck.Gen.OneOf(CsCheck.Gen.Char, CsCheck.Gen.Char["ab \t\r\n\e低\u0301\u200D\uD83D\uDE00"]), 0, 300],
                CsCheck.Gen.Int[0, 300],
                CsCheck.Gen.Int[0, 300]),
            (text, start, length) =>
            {
                var excerpt = Excerpt.Of(new("a.rig", text), new(Math.Min(start, text.Length), length), 40);
                // Two cells for the cuts; a cluster is never wider than its name spelled out.
                Assert.DoesNotContain(excerpt.Text, char.IsControl);
                Assert.InRange(Cells.WidthOf(excerpt.Text), 0, 42);
                Assert.InRange(excerpt.MarkColumn, 0, 42);
                Assert.InRange(excerpt.MarkWidth, 1, 42);
            });
}
