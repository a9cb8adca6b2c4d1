using RigLang.Checks;
using RigLang.Findings;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Size;

/// <summary>A finding is as long as a player reads, however long the chain or the list that it speaks of.</summary>
public class BoundedFindings
{
    /// <summary>Letters: the longest of the examples has about half.</summary>
    private const int LongestSentence = 600;

    /// <summary>Where names are a page long, sentences that hold them are cut.</summary>
    private const int LongestCut = 1000;

    private const int MostPlaces = 10;

    public static TheoryData<string> Kinds => [.. BigRigs.All.Keys];

    public static TheoryData<string> Checks => [.. CheckList.All.Select(check => check.Name)];

    [Theory]
    [MemberData(nameof(Kinds))]
    public void A_finding_of_a_big_rig_has_short_sentences_and_few_other_places(string kind)
    {
        var compilation = Rigs.Compile(BigRigs.All[kind](100));
        Assert.NotEmpty(compilation.Findings);
        AssertBounded(compilation, kind.StartsWith("names", StringComparison.Ordinal) ? LongestCut : LongestSentence);
    }

    [Theory]
    [MemberData(nameof(Checks))]
    public void A_finding_of_an_example_needs_no_cut(string name) =>
        AssertBounded(Rigs.Compile(CheckList.All.First(check => check.Name == name).BadExample), LongestSentence);

    [Fact]
    public void Of_many_clocks_two_ways_are_told_and_the_others_counted()
    {
        var finding = Rigs.Compile(BigRigs.All["a merger of clocks"](25)).Findings.First(f => f.Check.Name == "two-clocks");
        Assert.Contains(", box14, box15 and 17 more", finding.What, StringComparison.Ordinal);
        Assert.Contains("box0.out → join.in0 → join.out → last.midi and box1.out → join.in1 → join.out → last.midi and 23 more ways", finding.What, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_many_clocks_those_with_the_shortest_ways_are_told()
    {
        var finding = Rigs.Compile(BigRigs.All["a chain of clocks"](30)).Findings.First(f => f.Check.Name == "two-clocks" && f.What.StartsWith("box29 ", StringComparison.Ordinal));
        Assert.Contains("box28.out → box29.midi and box27.out → box28.midi → box28.out → box29.midi and 27 more ways", finding.What, StringComparison.Ordinal);
    }

    [Fact]
    public void The_middle_of_a_long_way_is_counted()
    {
        var chain = string.Concat(Enumerable.Range(1, 39).Select(i => $"device t{i} : Thru\nconnect t{i - 1}.out to t{i}.in\n"));
        var compilation = Rigs.Compile($$"""
            gear Keys {
              out midi : midi on din-5
              clock sends midi
            }
            gear Thru {
              in in : midi on din-5
              out out : midi on din-5
              route in to out
            }
            gear Bass {
              in midi : midi on din-5
              clock follows internal, midi
              filters clock
            }
            device keys : Keys
            device t0 : Thru
            device bass : Bass {
              clock midi
              midi drops clock
            }
            connect keys.midi to t0.in
            connect t39.out to bass.midi
            {{chain}}
            """);
        var finding = Assert.Single(compilation.Findings, f => f.What.Contains("drops the clock", StringComparison.Ordinal));
        Assert.Contains(finding.Related, place => place.Message == "74 more steps on, t37.out to t38.in");
        Assert.Contains(finding.Related, place => place.Message == "keys.midi");
    }

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Which_few_are_told_does_not_depend_on_the_order_of_the_lines(string kind)
    {
        var text = BigRigs.All[kind](24);
        var statements = Statements(text);
        var other = string.Concat(Enumerable.Reverse(statements));
        Assert.Equal(Sentences(text, WithLine(kind)), Sentences(other, WithLine(kind)));
    }

    /// <summary>Where the same is declared many times over, which of them counts depends on what is written beside it.</summary>
    private static bool WithLine(string kind) => kind != "a hundred of one name";

    private static List<string> Sentences(string text, bool withSentence) =>
        [.. Rigs.Compile(text).Findings.Select(f => withSentence ? $"{f.Check.Name}: {WordsOf(f.What)}" : f.Check.Name).Order(StringComparer.Ordinal)];

    /// <summary>A short list is told in the order of the lines.</summary>
    private static string WordsOf(string sentence) =>
        string.Join(' ', sentence.Split([' ', ',', '.', ':'], StringSplitOptions.RemoveEmptyEntries).Order(StringComparer.Ordinal));

    private static List<string> Statements(string text)
    {
        var statements = new List<string>();
        var isOpen = false;
        foreach (var line in text.Split('\n'))
        {
            if (isOpen)
            {
                statements[^1] += line + "\n";
            }
            else
            {
                statements.Add(line + "\n");
            }
            isOpen = line.EndsWith('{') || (isOpen && line != "}");
        }
        return statements;
    }

    private static void AssertBounded(Compilation compilation, int longest)
    {
        foreach (var finding in compilation.Findings)
        {
            AssertShort(finding.What);
            AssertShort(finding.Why);
            AssertShort(finding.Advice);
            Assert.True(finding.Related.Length <= MostPlaces, $"{finding.Check.Name} names {finding.Related.Length} other places");
            Assert.All(finding.Related, place => AssertShort(place.Message));
            Assert.All(finding.Breaks, promise => AssertShort(promise.Text));
            Assert.All(finding.Fixes, fix => AssertShort(fix.Title));

            void AssertShort(string sentence) =>
                Assert.True(sentence.Length <= longest, $"{finding.Check.Name} has a sentence of {sentence.Length} letters: {sentence[..Math.Min(300, sentence.Length)]}");
        }
    }
}
