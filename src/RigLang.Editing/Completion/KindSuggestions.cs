using RigLang.Syntax;
using RigLang.Trade;

namespace RigLang.Editing;

/// <summary>A list of message kinds, some of which are two words.</summary>
internal static class KindSuggestions
{
    /// <param name="first">Where the list starts in the tokens.</param>
    /// <param name="allowed">Kinds that make sense here.</param>
    /// <returns>True when the list may end here, so that other words may follow.</returns>
    public static bool Add(IReadOnlyList<Token> tokens, int first, MessageKinds allowed, SuggestionList list)
    {
        var written = MessageKinds.None;
        var open = "";
        for (var i = first; i < tokens.Count; i++)
        {
            open = tokens[i].Kind == TokenKind.Comma ? "" : open.Length == 0 ? tokens[i].Text ?? "" : $"{open} {tokens[i].Text}";
            written |= MessageKindNames.Table.GetValueOrDefault(open);
        }
        if (open.Length == 0)
        {
            foreach (var (word, kinds) in MessageKindNames.Table)
            {
                if ((kinds & allowed) == kinds && (kinds & written) != kinds && !(kinds == MessageKinds.All && written != MessageKinds.None))
                {
                    list.Word(0, word, SuggestionKind.Word, kinds is MessageKinds.Transport ? "start, stop, continue" : kinds == MessageKinds.All ? "every message" : "", SuggestionKey.Of("kind", word));
                }
            }
            return false;
        }
        var halves = MessageKindNames.Table.Keys.Where(word => word.StartsWith(open + " ", StringComparison.Ordinal)).ToList();
        foreach (var word in halves)
        {
            list.Word(0, word[(open.Length + 1)..], SuggestionKind.Word);
        }
        return halves.Count == 0;
    }
}
