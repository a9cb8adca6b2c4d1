using System.Text.RegularExpressions;
using RigLang.Editing;
using RigLang.Syntax;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Documents;

/// <summary>
/// A word of the language stands in the table, and from there or held against it here: in completion, hover, the reference and the grammars of the editors,
/// which have no word that the table has not. Sublime's grammar is made from that of TextMate.
/// </summary>
public partial class VocabularyEverywhere
{
    private static string Read(params string[] path) => File.ReadAllText(Path.Combine([Repository.Root, .. path]));

    private static IEnumerable<string> Kinds => Vocabulary.Messages.Concat(Vocabulary.Expected);

    public static TheoryData<string> Lists => ["statements", "keywords", "units", "colours", "messages", "signals"];

    private static string[] Table(string list) => Sorted(list switch
    {
        "statements" => Vocabulary.Statements,
        "keywords" => Vocabulary.Keywords,
        "units" => Vocabulary.Units,
        "colours" => Vocabulary.Colours,
        "messages" => Kinds,
        _ => Vocabulary.SignalWords,
    });

    private static string[] Sorted(IEnumerable<string> words) => [.. words.Distinct().Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Lists))]
    public void Emacs_has_the_words_of_the_table(string list)
    {
        var text = Read("editors", "emacs", "rig-mode.el");
        string[] names = list switch
        {
            "statements" => ["statement-keywords"],
            "keywords" => ["statement-keywords", "line-keywords", "word-keywords"],
            "signals" => ["signals", "details"],
            _ => [list],
        };
        Assert.Equal(Table(list), Sorted(names.SelectMany(name =>
            QuotedWord().Matches(Regex.Match(text, $@"\(defconst rig-{name}\s+'\(([^)]*)\)").Groups[1].Value).Select(m => m.Groups[1].Value))));
    }

    [Theory]
    [MemberData(nameof(Lists))]
    public void Kate_has_the_words_of_the_table(string list)
    {
        var text = Read("editors", "kate", "rig.xml");
        string[] names = list switch
        {
            "keywords" => ["statements", "lines", "words"],
            "signals" => ["signals", "details"],
            _ => [list],
        };
        var words = names.SelectMany(name =>
            Item().Matches(Regex.Match(text, $"""<list name="{name}">(.*?)</list>""", RegexOptions.Singleline).Groups[1].Value).Select(m => m.Groups[1].Value));
        // Message kinds of two words cannot stand in a list of Kate's.
        Assert.Equal(Table(list).Where(w => !w.Contains(' ')), Sorted(words));
        Assert.All(Table(list).Where(w => w.Contains(' ')), w => Assert.Contains(w.Replace(" ", @"\s+", StringComparison.Ordinal), text, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Lists))]
    public void Vim_has_the_words_of_the_table(string list)
    {
        var text = Read("editors", "vim", "syntax", "rig.vim");
        if (list == "signals")
        {
            Assert.Equal(Table(list), Sorted(VimKeywords().Matches(text).SelectMany(m => m.Groups[1].Value.Split(' ', StringSplitOptions.RemoveEmptyEntries))));
            return;
        }
        Assert.All(Table(list), word =>
            Assert.Matches($@"(?:\\[(|<]|\\s\+|\\s\*|[( ]){Regex.Escape(word).Replace(@"\ ", @"\\s\\\+", StringComparison.Ordinal)}(?:\\[)|>]|\\s)", text));
    }

    [Theory]
    [MemberData(nameof(Lists))]
    public void TextMate_has_the_words_of_the_table(string list)
    {
        var text = Read("editors", "textmate", "rig.tmLanguage.json");
        Assert.All(Table(list), word =>
            Assert.Matches($@"[(|]{Regex.Escape(word).Replace(@"\ ", @"\\\\s\+", StringComparison.Ordinal)}[)|]", text));
        if (list == "signals")
        {
            var found = SignalScopes().Matches(text).SelectMany(m => m.Groups[1].Value.Split('|'));
            Assert.Equal(Table(list), Sorted(found));
        }
    }

    [Fact]
    public void Every_word_of_a_port_has_a_hover()
    {
        Assert.Subset(WordText.Signals.Keys.ToHashSet(), Vocabulary.Signals.Keys.Concat(Vocabulary.Signals.Values.SelectMany(w => w)).Concat(Vocabulary.Jacks).ToHashSet());
        Assert.Subset(WordText.MessageKinds.Keys.ToHashSet(), Vocabulary.Messages.ToHashSet());
        Assert.Subset(WordText.Settings.Keys.ToHashSet(),
            Vocabulary.Evening.Concat(Vocabulary.LeadFacts).Concat(Vocabulary.RouteFigures).Concat(Vocabulary.Switches).Concat(Vocabulary.ChannelWords).ToHashSet());
        Assert.All(Vocabulary.Keywords, word => Assert.Contains(Keywords.Find(word), KeywordText.Table.Keys));
    }

    [Fact]
    public void No_hover_is_of_a_word_that_is_none() =>
        Assert.Subset(Vocabulary.SignalWords.ToHashSet(), WordText.Signals.Keys.ToHashSet());

    [Fact]
    public void Completion_offers_the_words_of_each_signal() =>
        Assert.Equal(Vocabulary.Signals.Select(s => (s.Key, string.Join(' ', s.Value))), GearSuggestions.Signals.Select(s => (s.Key, string.Join(' ', s.Value.Words))));

    [Fact]
    public void Every_statement_is_explained_while_it_is_typed() => Assert.All(Vocabulary.Statements.Where(s => s != "stock"), word =>
    {
        var view = Editing.Caret.ViewOf(word + " ");
        Assert.NotNull(SignatureFinder.At(view, word.Length + 1));
    });

    [Fact]
    public void The_reference_has_every_word()
    {
        var code = string.Join('\n', Code().Matches(Read("grammar", "README.md")).Select(m => m.Value));
        Assert.All(Vocabulary.SignalWords.Concat(Vocabulary.Units).Concat(Kinds).Concat(Vocabulary.Keywords).Concat(Vocabulary.Switches)
            .Concat(Vocabulary.Evening).Concat(Vocabulary.LeadFacts).Concat(Vocabulary.RouteFigures).Concat(Vocabulary.ChannelWords),
            word => Assert.Matches($@"(?<![\w-]){Regex.Escape(word)}(?![\w-])", code));
        Assert.All(Vocabulary.Colours, colour => Assert.Contains(colour, Read("grammar", "README.md"), StringComparison.Ordinal));
    }

    [GeneratedRegex("\"([^\"]+)\"")]
    private static partial Regex QuotedWord();

    [GeneratedRegex("<item>(.*?)</item>")]
    private static partial Regex Item();

    [GeneratedRegex(@"(?m)^syn keyword rig(?:Signal|Detail|Plug)\s+contained (.*)$")]
    private static partial Regex VimKeywords();

    [GeneratedRegex("""(?:storage\.(?:type|modifier)\.signal|support\.constant\.connector)\.rig",\s*"match": "[^"]*?\)\(([a-z0-9|-]+)\)""")]
    private static partial Regex SignalScopes();

    [GeneratedRegex(@"(?s)```.*?```|`[^`\n]+`")]
    private static partial Regex Code();
}
