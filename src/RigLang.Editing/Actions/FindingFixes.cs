using RigLang.Findings;

namespace RigLang.Editing;

/// <summary>The fixes that the checks themselves propose.</summary>
internal static class FindingFixes
{
    public static IEnumerable<EditAction> In(IEnumerable<Finding> findings) =>
        from finding in findings
        from fix in finding.Fixes
        select new EditAction(fix.Title, EditAction.QuickFix, fix.IsSafe, finding, fix.Edits, null);
}
