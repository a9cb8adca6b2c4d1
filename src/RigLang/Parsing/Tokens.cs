using Pidgin;
using RigLang.Syntax;
using static Pidgin.Parser;

namespace RigLang.Parsing;

/// <summary>The smallest parsers: one token each, labelled with the words a player reads when it is missing.</summary>
internal static class Tokens
{
    public static Parser<Token, Token> Kind(TokenKind kind, string label) =>
        Parser<Token>.Token(t => t.Kind == kind).Labelled(label);

    /// <summary>A keyword in its place. A quoted name is never a keyword.</summary>
    public static Parser<Token, Token> Word(Keyword keyword) =>
        Parser<Token>.Token(t => t.Keyword == keyword).Labelled($"`{Keywords.Spelling(keyword)}`");

    public static readonly Parser<Token, Token> Colon = Kind(TokenKind.Colon, "`:`");
    public static readonly Parser<Token, Token> Comma = Kind(TokenKind.Comma, "`,`");
    public static readonly Parser<Token, Token> Dot = Kind(TokenKind.Dot, "`.`");
    public static readonly Parser<Token, Token> DotDot = Kind(TokenKind.DotDot, "`..`");
    public static readonly Parser<Token, Token> Plus = Kind(TokenKind.Plus, "`+`");
    public static readonly Parser<Token, Token> Open = Kind(TokenKind.OpenParen, "`(`");
    public static readonly Parser<Token, Token> Close = Kind(TokenKind.CloseParen, "`)`");
    public static readonly Parser<Token, Token> Number = Kind(TokenKind.Number, "a number");

    public static Parser<Token, Name> Name(string what) =>
        Parser<Token>.Token(t => t.IsName).Labelled(what).Select(t => new Name(t));

    public static readonly Parser<Token, Name> AnyName = Name("a name");

    /// <summary>A name that is not the given word, for lists that end at that word.</summary>
    public static Parser<Token, Token> WordOtherThan(string what, params Keyword[] stops) =>
        Parser<Token>.Token(t => t.IsName && (t.Keyword == Keyword.None || !stops.Contains(t.Keyword))).Labelled(what);

    /// <summary>One or more, with commas between.</summary>
    public static Parser<Token, IReadOnlyList<T>> ListOf<T>(Parser<Token, T> item) => new Repeat<T>(item, Comma, atLeastOne: true);

    /// <summary>Any number, or none.</summary>
    public static Parser<Token, IReadOnlyList<T>> ManyOf<T>(Parser<Token, T> item) => new Repeat<T>(item, null, atLeastOne: false);

    public static Parser<Token, IReadOnlyList<T>> OneOrMoreOf<T>(Parser<Token, T> item) => new Repeat<T>(item, null, atLeastOne: true);

    public static Parser<Token, IReadOnlyList<T>> Separated<T>(Parser<Token, T> item, Parser<Token, Token> separator) =>
        new Repeat<T>(item, separator, atLeastOne: true);

    public static Parser<Token, T?> MaybeClass<T>(Parser<Token, T> item)
        where T : class => item.Optional().Select(m => m.HasValue ? m.Value : null);

    public static Parser<Token, T?> MaybeStruct<T>(Parser<Token, T> item)
        where T : struct => item.Optional().Select(m => m.HasValue ? (T?)m.Value : null);
}
