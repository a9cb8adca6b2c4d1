using RigLang.Findings;

namespace RigLang.Editing;

/// <summary>A change that an editor offers: all its edits together, or none.</summary>
/// <param name="Kind">As LSP 3.17 names them: <c>quickfix</c>, <c>refactor</c>, <c>refactor.extract</c>, <c>refactor.rewrite</c>.</param>
/// <param name="IsPreferred">True when nothing else the file means can change by it.</param>
/// <param name="Mends">The finding that is gone afterwards.</param>
/// <param name="NewFile">A file that has to be written too; one of that name must not be there yet.</param>
public sealed record EditAction(
    string Title, string Kind, bool IsPreferred, Finding? Mends, IReadOnlyList<TextEdit> Edits, (string Path, string Content)? NewFile)
{
    internal const string QuickFix = "quickfix";
    internal const string Refactor = "refactor";
    internal const string Extract = "refactor.extract";
    internal const string Rewrite = "refactor.rewrite";

    internal static EditAction Mending(string title, Finding mends, params IReadOnlyList<TextEdit> edits) => new(title, QuickFix, false, mends, edits, null);

    internal static EditAction Changing(string title, string kind, params IReadOnlyList<TextEdit> edits) => new(title, kind, false, null, edits, null);
}
