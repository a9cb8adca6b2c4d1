using RigLang.Syntax;

namespace RigLang.Editing;

/// <param name="Start">Offset within the label.</param>
/// <param name="End">Offset within the label, just past it.</param>
public sealed record SignatureParameter(int Start, int End, string Documentation);

/// <summary>How the line goes, and which of its places the caret is in.</summary>
/// <param name="Active">Place in <see cref="Parameters"/>.</param>
public sealed record SignatureText(string Label, string Documentation, IReadOnlyList<SignatureParameter> Parameters, int Active);

/// <summary>How a line goes on, while it is being typed: found by its first words, whether or not the rest makes sense.</summary>
public static class SignatureFinder
{
    public static SignatureText? At(RigView view, int offset)
    {
        offset = Math.Clamp(offset, 0, view.Source.Length);
        var line = TypedLine.At(view, offset);
        var typed = line.Tokens.Where(t => IsDone(t, offset)).ToList();
        // Behind the dot of `tide.` the same name goes on.
        while (typed.Count > 2 && typed[^1].Kind == TokenKind.Dot)
        {
            typed.RemoveRange(typed.Count - 2, 2);
        }
        if (typed.Count == 0 || offset < line.Tokens[0].Start || SignatureTable.Of(line, typed) is not { } form)
        {
            return null;
        }
        return new SignatureText(form.Label, form.Documentation, form.Parameters, form.ActiveAfter(typed));
    }

    /// <summary>A word counts once something stands behind it: until then it may grow longer. Punctuation counts at once.</summary>
    private static bool IsDone(Token token, int offset) =>
        token.Kind is TokenKind.Word or TokenKind.Number or TokenKind.Size ? token.End < offset : token.End <= offset;
}
