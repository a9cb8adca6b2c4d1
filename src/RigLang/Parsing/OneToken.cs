using Pidgin;
using RigLang.Syntax;

namespace RigLang.Parsing;

/// <summary>
/// One token that passes a test, or the words a player reads when it is missing. The library puts this together from three
/// parsers, of which each rents a list for every token; a short check spends more on that than on the grammar.
/// </summary>
internal sealed class OneToken<T>(Func<Token, bool> isWanted, Func<Token, T> read, params string[] labels) : Parser<Token, T>, IBeginsWithToken
{
    private readonly Expected<Token>[] _expected = Array.ConvertAll(labels, label => new Expected<Token>(label));

    public bool CanBeginWith(Token token) => isWanted(token);

    /// <summary>This token and then what the other reads.</summary>
    public new Parser<Token, TNext> Then<TNext>(Parser<Token, TNext> next) => new AfterToken<T, TNext>(this, next);

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

/// <summary>
/// A parser of which the next token alone tells whether it begins here. What may be left out or go on is asked this first: most of it is
/// left out, and a parser that fails notes what it wanted for nothing.
/// </summary>
internal interface IBeginsWithToken
{
    bool CanBeginWith(Token token);
}

/// <summary>A token that leads something in, such as the `with` before a lead; only what follows counts.</summary>
internal sealed class AfterToken<T, TNext>(OneToken<T> first, Parser<Token, TNext> next) : Parser<Token, TNext>, IBeginsWithToken
{
    public bool CanBeginWith(Token token) => first.CanBeginWith(token);

    public override bool TryParse(ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds, out TNext result)
    {
        if (first.TryParse(ref state, ref expecteds, out _))
        {
            return next.TryParse(ref state, ref expecteds, out result!);
        }
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
