using System.Text;
using RigLang.Tests.Examples;
using RigLang.Tests.Support;
using Xunit;

namespace RigLang.Tests.Mistakes;

/// <summary>Whoever makes one mistake reads one finding: what follows from it is told with it.</summary>
public class OneMistakeOneFinding(ITestOutputHelper output)
{
    private static readonly string[] Rigs = [.. Shipped.RigsIn("examples").Where(r => Shipped.Compile(r).Rig.Names.Connections.Count > 0)];

    [Fact]
    public void What_is_wrong_with_each_of_a_range_is_said_once()
    {
        var finding = Assert.Single(Shipped.Compile(new RigLang.Text.SourceText("range.rig", """
            gear Rook {
              out midi : midi on din-5
            }
            device o1..o4 : Rook
            """)).Findings);
        Assert.Equal("Nothing is plugged into o1.", finding.What);
        Assert.Equal(["Nothing is plugged into o2.", "Nothing is plugged into o3.", "Nothing is plugged into o4."], finding.Related.Select(r => r.Message));
    }

    [Fact]
    public void Single_mistakes_in_the_examples_give_little_more_than_one_finding_each()
    {
        var told = Rigs.SelectMany(SingleMistakes.In).Select(m => (Mistake: m, Found: Shipped.Compile(m.Rig))).ToList();
        var found = told.Where(t => !t.Found.Findings.IsEmpty).ToList();
        var average = found.Average(t => t.Found.Findings.Length);
        var table = new StringBuilder();
        foreach (var kind in told.GroupBy(t => t.Mistake.Kind))
        {
            var some = kind.Where(t => !t.Found.Findings.IsEmpty).ToList();
            table.AppendLine($"{kind.Key,-20} {kind.Count(),4} mistakes, {some.Count,4} found, {(some.Count == 0 ? 0 : some.Average(t => t.Found.Findings.Length)),5:F2} findings each, worst {kind.Max(t => t.Found.Findings.Length)}");
        }
        foreach (var (mistake, compilation) in found.Where(t => t.Found.Findings.Length > 1).OrderByDescending(t => t.Found.Findings.Length))
        {
            table.AppendLine($"{mistake}\n{compilation.Told()}\n");
        }
        output.WriteLine($"{told.Count} mistakes, {found.Count} found, {average:F3} findings each\n{table}");
        Assert.True(average <= 1.1, $"{average:F3} findings a mistake\n{table}");
    }
}
