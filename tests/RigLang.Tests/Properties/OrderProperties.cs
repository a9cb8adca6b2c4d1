using CsCheck;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>A file is a set of statements: in another order it says the same, and the same is wrong with it.</summary>
public class OrderProperties
{
    private static readonly Gen<(string[] Statements, string[] Shuffled)> RigAndShuffle =
        from statements in RigGen.Statements
        from shuffled in Gen.Shuffle(Whole(statements))
        select (Whole(statements), shuffled);

    [Fact]
    public void Findings_do_not_depend_on_the_order_of_statements() => RigAndShuffle.Sample(
        rig => Assert.Equal(FindingsOf(rig.Statements), FindingsOf(rig.Shuffled)), iter: 1000, print: Both);

    [Fact]
    public void Facts_do_not_depend_on_the_order_of_statements() => RigAndShuffle.Sample(
        rig => Assert.Equal(FactsOf(rig.Statements), FactsOf(rig.Shuffled)), iter: 300, print: Both);

    private static string Both((string[] Statements, string[] Shuffled) rig) =>
        $"{RigGen.Text(rig.Statements)}---- and in another order ----\n{RigGen.Text(rig.Shuffled)}";

    /// <summary>A block without its other brace takes in what stands next to it; order counts there, so such are left out.</summary>
    private static string[] Whole(string[] statements) => [.. statements.Where(s => s.Count(c => c == '{') == s.Count(c => c == '}'))];

    private static IEnumerable<string> FactsOf(string[] statements) =>
        Rigs.Compile(RigGen.Text(statements)).Facts.Select(f => $"{f.Count} {f.Text}").ToList();

    /// <summary>Each finding as its check and the lines that have a part in it.</summary>
    private static List<string> FindingsOf(string[] statements)
    {
        var text = RigGen.Text(statements);
        return
        [
            .. Rigs.Compile(text).Findings.Select(finding =>
            {
                // What leads up to a failed expectation is one way of several of the same length; which one is told is free.
                var related = finding.Check.Name is "must-fails" or "never-fails" ? [] : finding.Related.Select(r => r.Location);
                var lines = related.Append(finding.Location)
                    .Select(at => at.Source.Slice(at.Source.LineSpan(at.Source.PositionOf(at.Span.Start).Line)).Trim());
                return $"{finding.Check.Name}: {string.Join(" | ", lines.Distinct().Order(StringComparer.Ordinal))}";
            }).Order(StringComparer.Ordinal),
        ];
    }
}
