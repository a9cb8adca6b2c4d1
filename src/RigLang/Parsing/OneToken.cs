using Pidgin;
using RigLang.Syntax;

namespace RigLang.Parsing;

/// <summary>
/// One token that passes a test, or the words a player reads when it is missing. The library puts this together from three
/// parsers, of which each rents a list for every token; a short check spends more on that than on the grammar.
/// </summary>
internal sealed class OneToken<T>(Func<Token, bool> isWanted, Func<Token, T> read, params string[] labels) : Parser<Token, T>
{
    private readonly Expected<Token>[] _expected = Array.ConvertAll(labels, label => new Expected<Token>(label));

    public override bool TryParse(ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds, out T result)
    {
        var isThere = state.HasCurrent;
        if (isThere && isWanted(state.Current))
        {
            result = read(state.Current);
            state.Advance(1);
            return true;
        }
        state.SetError(isThere ? Pidgin.Maybe.Just(state.Current) : Pidgin.Maybe.Nothing<Token>(), !isThere, state.Location, null);
        expecteds.AddRange(_expected.AsSpan());
        result = default!;
        return false;
    }
}

/// <summary>Nothing more on the line.</summary>
internal sealed class EndOfLine : Parser<Token, Unit>
{
    private static readonly Expected<Token> End = new("the end of the line");

    public override bool TryParse(ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds, out Unit result)
    {
        result = Unit.Value;
        if (!state.HasCurrent)
        {
            return true;
        }
        state.SetError(Pidgin.Maybe.Just(state.Current), false, state.Location, null);
        expecteds.Add(End);
        return false;
    }
}
