using Pidgin;
using RigLang.Syntax;
using static Pidgin.Parser;
using static RigLang.Parsing.Tokens;

namespace RigLang.Parsing;

/// <summary>The pieces that statements are made of: paths, quantities, channels, attributes, message kinds.</summary>
internal static class Pieces
{
    /// <summary><c>out1</c> or <c>out1..out5</c>.</summary>
    public static readonly Parser<Token, NameRange> Range = RangeOf("a name");

    public static Parser<Token, NameRange> RangeOf(string what) =>
        Map((first, last) => new NameRange(first, last), Name(what), MaybeStruct(DotDot.Then(AnyName)));

    public static readonly Parser<Token, IReadOnlyList<NameRange>> Ranges = ListOf(Range);

    /// <summary><c>thru.out1</c>, <c>desk.ch34.left</c>, <c>strip.outlet1..outlet3</c>.</summary>
    public static Parser<Token, PathNode> Path(string what) => Map(
        (first, more, last) => new PathNode(more.Count == 0 ? [first] : [first, .. more], last),
        Name(what),
        ManyOf(Dot.Then(Name("a name after the `.`"))),
        MaybeStruct(DotDot.Then(AnyName)));

    /// <summary><c>Tern</c>, or <c>tide.Tern</c> for what an import brings under a name of its own.</summary>
    public static Parser<Token, Name> NameOfImport(string what) => Map(
        (first, more) => more.Count == 0 ? first : new Name(string.Join('.', [first.Text, .. more.Select(m => m.Text)]), first.Span.To(more[^1].Span)),
        Name(what),
        ManyOf(Dot.Then(Name("a name after the `.`"))));

    /// <summary><c>tip</c>, <c>left.tip</c>, <c>4</c>, <c>left.2</c>: contacts are named or numbered.</summary>
    public static Parser<Token, PathNode> ContactPath(string what) => Map(
        (first, more) => new PathNode(more.Count == 0 ? [first] : [first, .. more], null),
        NameOrNumber(what),
        ManyOf(Dot.Then(NameOrNumber("a contact after the `.`"))));

    private static Parser<Token, Name> NameOrNumber(string what) =>
        new OneToken<Name>(t => t.IsName || t.Kind == TokenKind.Number, t => new Name(t), what);

    /// <summary><c>9 V</c>; <paramref name="what"/> is the example to give when it is missing.</summary>
    public static Parser<Token, QuantityNode> Quantity(string what) => Map(
        (number, unit) => new QuantityNode(number, unit),
        Kind(TokenKind.Number, what),
        Name("a unit after the number"));

    public static readonly Parser<Token, ChannelNode> Channel = Map(
        (value, last) => new ChannelNode(value, last),
        new OneToken<Token>(t => t.Kind is TokenKind.Number or TokenKind.Word, t => t, "a channel from 1 to 16, `any`, `auto` or `off`"),
        MaybeStruct(DotDot.Then(Number)));

    public static readonly Parser<Token, ChannelNode> OnChannel =
        Word(Keyword.On).Then(Word(Keyword.Channel)).Then(Channel);

    /// <summary>A measure (<c>9 V</c>, <c>9..12 V</c>, <c>5.5x2.1 mm</c>), its unit left out only for a bare count.</summary>
    private static Parser<Token, AttributeNode> Measure(params Keyword[] stops) => Map(
        (value, upTo, unit) => new AttributeNode(value, upTo, unit is { } u ? new Name(u) : null),
        new OneToken<Token>(IsFigure, t => t, Figure),
        MaybeStruct(DotDot.Then(Number)),
        MaybeStruct(WordOtherThan("a unit", stops)));

    /// <summary>One word or measure of a description that ends at one of the given words.</summary>
    public static Parser<Token, AttributeNode> Attribute(string what, params Keyword[] stops)
    {
        var measure = Measure(stops);
        var word = new OneToken<AttributeNode>(IsWordOtherThan(stops), t => new AttributeNode(t, null, null), Figure, what);
        return Choose((first, _) => first is { } token && IsFigure(token) ? measure : word);
    }

    private const string Figure = "a number with its unit";

    private static bool IsFigure(Token token) => token.Kind is TokenKind.Number or TokenKind.Size;

    /// <summary>Message kinds: one or two words each, up to the end of the line or <paramref name="stops"/>.</summary>
    public static Parser<Token, IReadOnlyList<KindNode>> Kinds(params Keyword[] stops) => ListOf(OneKind(stops));

    public static Parser<Token, KindNode> OneKind(params Keyword[] stops) =>
        OneOrMoreOf(WordOtherThan("a message kind such as `notes`, `clock` or `program change`", stops)).Select(words =>
            new KindNode(string.Join(' ', words.Select(w => w.Text)), words[0].Span.To(words[^1].Span)));

    /// <summary>Reads on with the parser that the next tokens choose, without trying others.</summary>
    public static Parser<Token, T> Choose<T>(Func<Token?, Token?, Parser<Token, T>> choose) =>
        new ChooseParser<T>((first, second, _) => choose(first, second));

    /// <inheritdoc cref="Choose{T}(Func{Token?, Token?, Parser{Token, T}})"/>
    public static Parser<Token, T> Choose<T>(Func<Token?, Token?, Token?, Parser<Token, T>> choose) => new ChooseParser<T>(choose);

    private sealed class ChooseParser<T>(Func<Token?, Token?, Token?, Parser<Token, T>> choose) : Parser<Token, T>
    {
        public override bool TryParse(ref ParseState<Token> state, ref PooledList<Expected<Token>> expecteds, out T result)
        {
            var ahead = state.LookAhead(3);
            var parser = choose(At(ahead, 0), At(ahead, 1), At(ahead, 2));
            return parser.TryParse(ref state, ref expecteds, out result!);
        }

        private static Token? At(ReadOnlySpan<Token> ahead, int index) => index < ahead.Length ? ahead[index] : null;
    }
}
