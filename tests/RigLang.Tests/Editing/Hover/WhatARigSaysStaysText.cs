using System.Text.RegularExpressions;
using RigLang.Editing;
using RigLang.Findings;
using Xunit;

namespace RigLang.Tests.Editing;

/// <summary>A rig may come from a stranger: what it says is shown as text, and never becomes a picture, a link, a command or HTML.</summary>
public partial class WhatARigSaysStaysText
{
    private static readonly EditorStyle Plain = new(Markdown: false, InFeet: false);
    private static readonly EditorStyle Markdown = new(Markdown: true, InFeet: false);

    private static string Told(string documentation, EditorStyle style) =>
        HoverFinder.At(Caret.In($"{documentation}\ngear T$0ern {{\n  in midi : midi on din-5\n}}\n").View, documentation.Length + 7, style)!.Text;

    [Theory]
    [InlineData("![seen](http://tern.example/seen.png)", @"\!\[seen\](http\://tern.example/seen.png)")]
    [InlineData("[press](command:workbench.do)", @"\[press\](command\:workbench.do)")]
    [InlineData("<img src=x onerror=y>", @"\<img src=x onerror=y\>")]
    [InlineData("<http://tern.example>", @"\<http\://tern.example\>")]
    [InlineData("http://tern.example", @"http\://tern.example")]
    [InlineData("www.tern.example", @"www\.tern.example")]
    [InlineData("me@tern.example", @"me\@tern.example")]
    [InlineData("&#91;x](y)", @"\&#91;x\](y)")]
    [InlineData("`code` *big* __big__ ~~gone~~", @"\`code\` \*big\* \_\_big\_\_ \~\~gone\~\~")]
    [InlineData("# head", @"\# head")]
    [InlineData("- item", @"\- item")]
    [InlineData("+ item", @"\+ item")]
    [InlineData("1. item", @"1\. item")]
    [InlineData("23) item", @"23\) item")]
    [InlineData("> said", @"\> said")]
    [InlineData("===", @"\===")]
    [InlineData("| a | b |", @"\| a \| b \|")]
    [InlineData("[ref]: http://tern.example", @"\[ref\]: http\://tern.example")]
    [InlineData(@"a \[b](c)", @"a \\\[b\](c)")]
    public void Markup_in_a_documentation_is_shown_as_it_was_written(string said, string shown)
    {
        Assert.Contains("\n\n" + shown + "\n", Told("/// " + said, Markdown), StringComparison.Ordinal);
        Assert.Contains("\n\n" + said + "\n", Told("/// " + said, Plain), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("One voice. Passes MIDI on (5-pin), as of 2019: that's all!")]
    [InlineData("The snake_case of 2 x 3 - 1 = 5; \"as is\"")]
    public void Prose_stays_as_it_is(string said) => Assert.Contains("\n\n" + said + "\n", Told("/// " + said, Markdown), StringComparison.Ordinal);

    [Fact]
    public void Lines_of_a_documentation_stay_lines_of_their_own_paragraph() =>
        Assert.Contains("\n\nFirst\n\\- second\n\nthird\n", Told("/// First\n/// - second\n///\n/// third", Markdown), StringComparison.Ordinal);

    [Theory]
    [InlineData("\u202Egnp.exe", "<U+202E>gnp.exe")]
    [InlineData("a\u2066b\u2069", "a<U+2066>b<U+2069>")]
    [InlineData("bell\a", "bell\u2407")]
    [InlineData("hid\u200Bden", "hid<U+200B>den")]
    public void Controls_and_direction_marks_are_made_visible(string said, string shown)
    {
        Assert.Contains(shown, Told("/// " + said, Plain), StringComparison.Ordinal);
        Assert.Contains(shown.Replace("<", @"\<", StringComparison.Ordinal).Replace(">", @"\>", StringComparison.Ordinal), Told("/// " + said, Markdown), StringComparison.Ordinal);
    }

    [Fact]
    public void An_emoji_of_several_parts_stays_whole() =>
        Assert.Contains("\U0001F469\u200D\U0001F3A4 sings", Told("/// \U0001F469\u200D\U0001F3A4 sings", Markdown), StringComparison.Ordinal);

    private const string Nasty = """
        rig "![a](http://t) <b> `x` [c](command:d)\u202E"
        import "![a](http://t)`<b>`[c](command:d)\u202E.rig" as far

        /// ![a](http://t) <b> `x` [c](command:d) \u202E
        gear Rook {
          out midi : midi on din-5
          in power : dc 9 V centre-negative, 100 mA on barrel 5.5x2.1 mm
          track a sends midi
        }
        /// ![a](http://t) <b> `x` [c](command:d) \u202E
        gear Tern like Rook {
          in in : midi on din-5
          part voice receives in on channel any
        }
        /// ![a](http://t) <b> `x` [c](command:d) \u202E
        lead Long : din-5 to din-5 {
          4 to 4
          5 to 5
        }
        /// ![a](http://t) <b> `x` [c](command:d) \u202E
        device seq, two : Rook
        device bass : Tern {
          voice on channel 2
        }
        connect seq.midi to bass.in with Long 1 m "![a](http://t) <b> `x` [c](command:d)\u202E"
        must notes from seq.a reach bass
        accept unpowered-device on seq because "![a](http://t) <b> [c](command:d)\u202E"
        """;

    [Fact]
    public void Wherever_one_points_nothing_of_a_rig_becomes_markup_and_nothing_stays_hidden()
    {
        var view = Caret.ViewOf(Nasty.Replace("\\u202E", "\u202E", StringComparison.Ordinal));
        var pages = Enumerable.Range(0, view.Source.Length + 1).Select(at => HoverFinder.At(view, at, Markdown)?.Text).OfType<string>().Distinct().ToList();
        Assert.True(pages.Count > 20, $"{pages.Count} pages");
        foreach (var page in pages)
        {
            Assert.DoesNotMatch(Markup(), Code().Replace(Escapes().Replace(page, ""), ""));
            Assert.DoesNotContain('\u202E', page);
        }
    }

    [Fact]
    public void No_finding_holds_a_direction_mark()
    {
        var view = Caret.ViewOf(Nasty.Replace("\\u202E", "\u202E", StringComparison.Ordinal));
        var found = view.Compilation.Findings.Concat(view.Compilation.Accepted).ToList();
        Assert.Contains(found, f => f.What.Contains("<U+202E>", StringComparison.Ordinal));
        foreach (var finding in found)
        {
            Assert.DoesNotContain('\u202E', FindingText.Of(finding) + string.Concat(finding.Related.Select(r => r.Message)));
        }
    }

    /// <summary>A picture or link, HTML, or an address that an editor would make a link of.</summary>
    [GeneratedRegex(@"\]\(|<|\w://|command:")]
    private static partial Regex Markup();

    [GeneratedRegex(@"\\[^\w\s]")]
    private static partial Regex Escapes();

    [GeneratedRegex(@"```.*?```|(`+)(?!`).*?(?<!`)\1(?!`)", RegexOptions.Singleline)]
    private static partial Regex Code();
}
