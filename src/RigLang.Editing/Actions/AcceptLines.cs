using RigLang.Checks;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>The line that accepts a finding, behind the statement that it stands in; the player writes the reason.</summary>
internal static class AcceptLines
{
    /// <summary>What stands for the reason until somebody writes one.</summary>
    private const string Reason = "say why";

    public static IEnumerable<EditAction> In(RigView view, IEnumerable<Finding> findings)
    {
        foreach (var finding in findings)
        {
            if (finding.AcceptableOn is { } place)
            {
                yield return EditAction.Mending($"Accept {finding.Check.Name} on {place}", finding,
                    SharedEdits.LineAfter(view.Source, EndOf(view, finding.Location), $"accept {finding.Check.Name} on {place} because \"{Reason}\""));
            }
        }
    }

    private static int EndOf(RigView view, Location at) =>
        view.StatementAt(at.Span.Start) is { } statement ? view.WholeSpan(statement).End : at.Span.End;
}
