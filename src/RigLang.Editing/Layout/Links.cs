using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>The imports of a file as links.</summary>
public static class Links
{
    public static IReadOnlyList<(TextSpan Span, SourceText Target)> In(RigView view) =>
        [.. view.Occurrences.Where(o => o.Of.Kind == NameKind.File).Select(o => (o.Span, ((FileSymbols)o.Of.Symbol).Source))];
}
