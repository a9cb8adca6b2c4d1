using Pidgin;
using RigLang.Syntax;

namespace RigLang.Parsing;

/// <summary>
/// What may be left out: nothing when it does not begin here, an error when it began and broke off. As the library's own
/// `Optional`, but without its generic virtual calls, which a native program looks up slowly the first time.
/// </summary>
internal sealed class Optional<T, TFound>(Parser<Token, T> item, Func<T, TFound> found) : Parser<Token, TFound?>
{
    private readonly IBeginsWithToken? _begin = item as IBeginsWithToken;

    public override bool TryParse(ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds, out TFound? result)
    {
        if (_begin is not null && !(state.HasCurrent && _begin.CanBeginWith(state.Current)))
        {
            result = default;
            return true;
        }
        var start = state.Location;
        var wanted = Expectations.NewList();
        var isThere = item.TryParse(ref state, ref wanted, out var value);
        var brokeOff = !isThere && state.Location != start;
        if (brokeOff)
        {
            expecteds.AddRange(wanted.AsSpan());
        }
        wanted.Dispose();
        result = isThere ? found(value!) : default;
        return !brokeOff;
    }
}
