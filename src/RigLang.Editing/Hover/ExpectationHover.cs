using RigLang.Flow;
using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>A `must` or `never`: whether it holds, target by target, and the way.</summary>
internal static class ExpectationHover
{
    public static string? Of(RigView view, ExpectStatement statement, EditorStyle style)
    {
        var outcomes = view.Rig.Outcomes.Where(o => ReferenceEquals(o.Expectation.Statement, statement)).ToList();
        if (outcomes.Count == 0)
        {
            return null;
        }
        var page = new HoverPage(style);
        page.Title(outcomes.TrueForAll(o => o.Holds) ? "This holds" : "This does not hold, or cannot be told");
        foreach (var outcome in outcomes)
        {
            var verdict = outcome.Verdict switch
            {
                Verdict.Holds => "holds",
                Verdict.Fails => "does not hold",
                _ => "cannot be told",
            };
            var way = outcome.Hops.Count == 0 ? "" : $", by {Checks.Wording.Way(outcome.Hops)}";
            page.Fact(page.Name(statement.From.Count > 1 ? $"{outcome.Expectation.From.Text} to {outcome.Target.Text}" : outcome.Target.Text), verdict + way + (outcome.Holds || outcome.Stopped.Length == 0 ? "" : $": {outcome.Stopped}"));
        }
        return page.ToString();
    }
}
