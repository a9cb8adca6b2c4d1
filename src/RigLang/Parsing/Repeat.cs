using Pidgin;
using RigLang.Syntax;

namespace RigLang.Parsing;

/// <summary>
/// Items one after another, with or without a separator. The library's own repeats build a parser type around each result type,
/// and those around others, without end; an ahead-of-time compiler has to cut that off with a warning. This one is a single type,
/// and hands out a list instead of an enumerable.
/// </summary>
internal sealed class Repeat<T>(Parser<Token, T> item, Parser<Token, Token>? separator, bool atLeastOne) : Parser<Token, IReadOnlyList<T>>
{
    private readonly IBeginsWithToken? _more = (separator ?? (object)item) as IBeginsWithToken;

    public override bool TryParse(ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds, out IReadOnlyList<T> result)
    {
        // Most lists have one item: it is kept as an array of one, and no list grows for it.
        var only = default(T)!;
        List<T>? items = null;
        var count = 0;
        result = [];
        while (true)
        {
            if (_more is not null && (count > 0 || (separator is null && !atLeastOne)) && !(state.HasCurrent && _more.CanBeginWith(state.Current)))
            {
                result = Finish();
                return true;
            }
            var start = state.Location;
            if (count > 0 && separator is not null)
            {
                var unused = Expectations.NewList();
                var goesOn = separator.TryParse(ref state, ref unused, out _);
                unused.Dispose();
                if (!goesOn)
                {
                    result = Finish();
                    return true;
                }
            }
            var mustCome = (count == 0 && atLeastOne) || (count > 0 && separator is not null);
            var wanted = Expectations.NewList();
            if (item.TryParse(ref state, ref wanted, out var value))
            {
                wanted.Dispose();
                Add(value);
                continue;
            }
            // An item that began and broke off is an error; one that did not begin ends the list.
            var failed = mustCome || state.Location != start;
            if (failed)
            {
                expecteds.AddRange(wanted.AsSpan());
            }
            wanted.Dispose();
            result = Finish();
            return !failed;
        }

        void Add(T value)
        {
            count++;
            if (count == 1)
            {
                only = value;
                return;
            }
            items ??= [only];
            items.Add(value);
        }

        T[] Finish() => items is not null ? [.. items] : count == 1 ? [only] : [];
    }
}
