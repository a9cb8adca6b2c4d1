using Pidgin;
using RigLang.Syntax;

namespace RigLang.Parsing;

/// <summary>The smallest parsers: one token each, labelled with the words a player reads when it is missing.</summary>
internal static class Tokens
{
    public static OneToken<Token> Kind(TokenKind kind, string label) =>
        new OneToken<Token>(t => t.Kind == kind, t => t, label);

    /// <summary>A keyword in its place. A quoted name is never a keyword.</summary>
    public static OneToken<Token> Word(Keyword keyword) =>
        new OneToken<Token>(t => t.Keyword == keyword, t => t, Quoted(keyword));

    /// <summary>One of two keywords.</summary>
    public static OneToken<Token> Word(Keyword one, Keyword other) =>
        new OneToken<Token>(t => t.Keyword == one || t.Keyword == other, t => t, Quoted(one), Quoted(other));

    private static string Quoted(Keyword keyword) => "`" + Keywords.Spelling(keyword) + "`";

    public static readonly OneToken<Token> Colon = Kind(TokenKind.Colon, "`:`");
    public static readonly OneToken<Token> Comma = Kind(TokenKind.Comma, "`,`");
    public static readonly OneToken<Token> Dot = Kind(TokenKind.Dot, "`.`");
    public static readonly OneToken<Token> DotDot = Kind(TokenKind.DotDot, "`..`");
    public static readonly OneToken<Token> Plus = Kind(TokenKind.Plus, "`+`");
    public static readonly OneToken<Token> Open = Kind(TokenKind.OpenParen, "`(`");
    public static readonly OneToken<Token> Close = Kind(TokenKind.CloseParen, "`)`");
    public static readonly OneToken<Token> Number = Kind(TokenKind.Number, "a number");

    public static OneToken<Name> Name(string what) =>
        new OneToken<Name>(t => t.IsName, t => new Name(t), what);

    public static readonly OneToken<Name> AnyName = Name("a name");

    /// <summary>A name that is not the given word, for lists that end at that word.</summary>
    public static OneToken<Token> WordOtherThan(string what, params Keyword[] stops) =>
        new OneToken<Token>(IsWordOtherThan(stops), t => t, what);

    public static Func<Token, bool> IsWordOtherThan(Keyword[] stops) =>
        t => t.IsName && (t.Keyword == Keyword.None || !stops.Contains(t.Keyword));

    /// <summary>One or more, with commas between.</summary>
    public static Parser<Token, IReadOnlyList<T>> ListOf<T>(Parser<Token, T> item) => new Repeat<T>(item, Comma, atLeastOne: true);

    /// <summary>Any number, or none.</summary>
    public static Parser<Token, IReadOnlyList<T>> ManyOf<T>(Parser<Token, T> item) => new Repeat<T>(item, null, atLeastOne: false);

    public static Parser<Token, IReadOnlyList<T>> OneOrMoreOf<T>(Parser<Token, T> item) => new Repeat<T>(item, null, atLeastOne: true);

    public static Parser<Token, IReadOnlyList<T>> Separated<T>(Parser<Token, T> item, Parser<Token, Token> separator) =>
        new Repeat<T>(item, separator, atLeastOne: true);

    public static Parser<Token, T?> MaybeClass<T>(Parser<Token, T> item)
        where T : class => new Optional<T, T>(item, value => value);

    public static Parser<Token, T?> MaybeStruct<T>(Parser<Token, T> item)
        where T : struct => new Optional<T, T?>(item, value => value);
}
