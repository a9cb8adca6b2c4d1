using RigLang.Checks;
using RigLang.Findings;
using RigLang.Flow;
using RigLang.Syntax;
using RigLang.Tests.Examples;
using RigLang.Tests.Support;
using RigLang.Text;
using Xunit;
using Check = RigLang.Findings.Check;

namespace RigLang.Tests.Properties;

/// <summary>What is found does not depend on which check speaks first, on where a line stands, or on whether another check works.</summary>
public class AnyOrder
{
    public static TheoryData<string> Rigs => [.. Shipped.RigsIn("examples").Concat(Shipped.RigsIn("examples/mistakes"))];

    [Theory]
    [MemberData(nameof(Rigs))]
    public void The_order_of_the_checks_does_not_matter(string path)
    {
        var rig = Shipped.Compile(path).Rig;
        var usual = Told(Judgements.Of(rig).Findings);
        foreach (var checks in Shuffles(CheckList.All))
        {
            Assert.Equal(usual, Told(Judgements.Of(rig, checks).Findings));
        }
        Assert.Equal(usual, Told(Judgements.Of(rig, [.. CheckList.All.Reverse()]).Findings));
    }

    [Theory]
    [MemberData(nameof(Rigs))]
    public void The_order_of_the_statements_does_not_matter(string path)
    {
        var whole = Shipped.Read(path);
        var usual = Lines(Shipped.Compile(path));
        foreach (var shuffled in Shuffles(Statements(whole)))
        {
            var text = string.Join('\n', shuffled) + "\n";
            Assert.True(usual.SequenceEqual(Lines(Shipped.Compile(new SourceText(whole.Path, text)))), Difference(usual, Lines(Shipped.Compile(new SourceText(whole.Path, text)))));
        }
    }

    [Theory]
    [MemberData(nameof(Rigs))]
    public void A_check_that_fails_is_told_by_name_and_all_others_stand(string path)
    {
        var rig = Shipped.Compile(path).Rig;
        foreach (var place in (int[])[0, CheckList.All.Length / 2, CheckList.All.Length])
        {
            var findings = Judgements.Of(rig, [.. CheckList.All.Take(place), new Failing(), .. CheckList.All.Skip(place)]).Findings;
            var failed = Assert.Single(findings, f => f.Check is CheckFailed);
            Assert.Contains("`cable-of-gold`", failed.What, StringComparison.Ordinal);
            Assert.Equal(Severity.Error, failed.Severity);
            Assert.Equal(Told(Judgements.Of(rig).Findings), Told(findings.Where(f => f != failed)));
        }
    }

    /// <summary>Ten orders, the same in every run: what fails here fails again.</summary>
    private static IEnumerable<T[]> Shuffles<T>(IEnumerable<T> items)
    {
        var random = new Random(20);
        for (var i = 0; i < 10; i++)
        {
            T[] shuffled = [.. items];
            random.Shuffle(shuffled);
            yield return shuffled;
        }
    }

    private static string Difference(List<string> usual, List<string> other) =>
        $"only in the usual order:\n  {string.Join("\n  ", usual.Except(other))}\nonly in another:\n  {string.Join("\n  ", other.Except(usual))}";

    private sealed class Failing : Check
    {
        public override string Name => "cable-of-gold";
        public override Severity Severity => Severity.Hint;
        public override string Title => "";
        public override string Why => "";
        public override string Advice => "";
        public override string Source => "";
        public override string BadExample => "";
        public override string GoodExample => "";

        public override void Run(Rig rig, Report report)
        {
            report.Add(this, rig.Names.Devices[0].At, "half a thought");
            throw new InvalidOperationException("on purpose");
        }
    }

    /// <summary>Everything that is told of each finding.</summary>
    private static List<string> Told(IEnumerable<Finding> findings) =>
        [.. findings.Select(f => $"{f.Location.Span} {FindingText.Of(f)} {string.Join(" | ", f.Related)} {string.Join(" | ", f.Fixes.Select(x => x.Title))}")];

    /// <summary>Each finding with the lines that it stands on; what is said of numbers of lines is left out.</summary>
    private static List<string> Lines(Compilation compilation) =>
    [
        .. compilation.Findings.Select(f =>
        {
            var source = f.Location.Source;
            var line = source.Slice(source.LineSpan(source.PositionOf(f.Location.Span.Start).Line)).Split("//")[0].Trim();
            return $"{f.Severity} {f.Check.Name} on {line}: {string.Join(", ", f.Breaks.Select(b => b.Text).Order(StringComparer.Ordinal))}";
        }).Order(StringComparer.Ordinal),
    ];

    /// <summary>The pieces of a file that may change places: statements with their blocks and the comments at their lines.</summary>
    private static string[] Statements(SourceText source)
    {
        var tree = Parsing.RigParser.Parse(source);
        var pieces = new List<string>();
        var start = 0;
        foreach (var line in tree.Outline.Lines.Where(l => !l.Tokens.IsEmpty || l.Block is not null))
        {
            var last = line.Block is { Close: >= 0 } block ? tree.Tokens[block.Close].End
                : line.Block is { } open ? (open.Lines.Count > 0 ? tree.Tokens[open.Lines[^1].Tokens.End - 1].End : tree.Tokens[open.Open].End)
                : tree.Tokens[line.Tokens.End - 1].End;
            var end = source.LineSpan(source.PositionOf(last).Line).End;
            if (end > start)
            {
                pieces.Add(source.Content[start..end].TrimStart('\r', '\n'));
                start = end;
            }
        }
        return [.. pieces];
    }
}
