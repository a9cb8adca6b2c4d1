using RigLang.Text;

namespace RigLang.Findings;

/// <summary>A finding as one text, for places that have room for no more.</summary>
public static class FindingText
{
    /// <summary>What, why, what to do, which promises fail, and the caution where wiring can hurt: a line each.</summary>
    public static string Of(Finding finding)
    {
        var text = $"{finding.What}\n{finding.Why}\n{finding.Advice}";
        foreach (var promise in finding.Breaks)
        {
            text += $"\nFails: {promise.Line} ({LineWords.Of(promise.At, finding.Location.Source)}).";
        }
        text += finding.Check.Caution is { } caution ? $"\n{caution}" : "";
        return VisibleText.Of(finding.AcceptedBecause is { } reason ? $"Accepted: {reason}\n{text}" : text, keepLines: true);
    }
}
