using RigLang.Syntax;

namespace RigLang.Editing;

/// <summary>The names of imports before a gear or a lead that is being typed: <c>tide.</c>, <c>tide.deep.</c></summary>
internal static class PrefixesTyped
{
    /// <summary>The names, each with its dot, that follow up to the end; null when something else stands there, so that no name is awaited.</summary>
    public static IReadOnlyList<string>? Behind(IReadOnlyList<Token> tokens, int first)
    {
        var names = new List<string>();
        for (var i = first; i < tokens.Count; i += 2)
        {
            if (!tokens[i].IsName || i + 1 == tokens.Count || tokens[i + 1].Kind != TokenKind.Dot)
            {
                return null;
            }
            names.Add(tokens[i].Text!);
        }
        return names;
    }
}
