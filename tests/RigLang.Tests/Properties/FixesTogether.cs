using System.Text;
using RigLang.Findings;
using RigLang.Tests.Examples;
using RigLang.Tests.Mistakes;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>Of all that findings offer, any choice (one fix a finding) can be applied together: it mends what it says and breaks nothing.</summary>
public class FixesTogether
{
    public static TheoryData<string> Twins => [.. Shipped.RigsIn("examples/mistakes")];

    /// <summary>What two fixes that know nothing of one another would bring about.</summary>
    private static readonly string[] Collisions = ["duplicate-name", "jack-in-use", "syntax-error", "unbalanced-block"];

    [Theory]
    [MemberData(nameof(Twins))]
    public void Every_choice_of_the_fixes_of_a_twin_can_be_applied(string path)
    {
        var before = Shipped.Compile(path);
        var random = new Random(7);
        for (var i = 0; i < 20; i++)
        {
            var chosen = before.Findings.Where(f => !f.Fixes.IsEmpty && random.Next(2) == 0).Select(f => (Finding: f, Fix: f.Fixes[random.Next(f.Fixes.Length)])).ToList();
            Judge(before, chosen);
        }
        Judge(before, [.. before.Findings.Where(f => !f.Fixes.IsEmpty).Select(f => (f, f.Fixes[0]))]);
    }

    [Fact]
    public void What_two_mistakes_offer_can_be_applied_together()
    {
        var random = new Random(11);
        foreach (var path in Shipped.RigsIn("examples"))
        {
            foreach (var mistake in SingleMistakes.In(path).Where(m => m.Kind is "wrong adapter" or "plugs swapped").Where(_ => random.Next(4) == 0))
            {
                var before = Shipped.Compile(mistake.Rig);
                Judge(before, [.. before.Findings.Where(f => !f.Fixes.IsEmpty).Select(f => (f, f.Fixes[random.Next(f.Fixes.Length)]))]);
            }
        }
    }

    private static void Judge(Compilation before, List<(Finding Finding, Fix Fix)> chosen)
    {
        if (chosen.Count == 0)
        {
            return;
        }
        var after = Shipped.Compile(Applied(before.Files[0], chosen.SelectMany(c => c.Fix.Edits)));
        var titles = string.Join("; ", chosen.Select(c => c.Fix.Title));
        foreach (var name in Collisions)
        {
            Assert.True(Count(after, name) <= Count(before, name), $"{titles}: more of {name}\n{string.Join('\n', after.Findings.Select(f => f.What))}");
        }
        Assert.All(chosen, c => Assert.False(
            after.Findings.Any(f => f.Check == c.Finding.Check && f.What == c.Finding.What), $"{titles}: still {c.Finding.What}"));
    }

    private static int Count(Compilation compilation, string name) => compilation.Findings.Count(f => f.Check.Name == name);

    /// <summary>An edit that several bring counts once; new lines at one place stand behind one another.</summary>
    private static SourceText Applied(SourceText source, IEnumerable<TextEdit> fixes)
    {
        var text = new StringBuilder();
        var end = 0;
        foreach (var edit in fixes.Distinct().Where(e => e.Source == source).OrderBy(e => e.Span.Start).ThenBy(e => e.Span.End))
        {
            Assert.True(edit.Span.Start >= end, $"two edits at {source.PositionOf(edit.Span.Start)}");
            text.Append(source.Content, end, edit.Span.Start - end).Append(edit.NewText);
            end = edit.Span.End;
        }
        return new SourceText(source.Path, text.Append(source.Content, end, source.Length - end).ToString());
    }
}
