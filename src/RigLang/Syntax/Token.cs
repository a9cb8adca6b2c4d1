using RigLang.Text;

namespace RigLang.Syntax;

public enum TokenKind : byte
{
    /// <summary>A bare name, keyword or unit: letters and digits of any script, <c>_</c>, and <c>-</c> between them.</summary>
    Word,
    /// <summary><c>9</c>, <c>0.6</c>, <c>-10</c>, <c>+4</c>.</summary>
    Number,
    /// <summary><c>5.5x2.1</c>: two measures of one part.</summary>
    Size,
    /// <summary>A name or text in straight double quotes, on one line.</summary>
    String,
    Colon,
    Comma,
    Dot,
    DotDot,
    OpenParen,
    CloseParen,
    OpenBrace,
    CloseBrace,
    Plus,
    NewLine,
    /// <summary>A quote that is not closed on its line.</summary>
    OpenString,
    /// <summary>Characters that mean nothing in the language.</summary>
    Bad,
}

/// <summary>
/// A token and where it stands. What lies between two tokens (spaces, comments) is not stored: the source has it,
/// so tokens and the gaps between them always cover every character.
/// </summary>
/// <param name="Text">The name or number as compared: without quotes; interned per file. Null for punctuation.</param>
public readonly record struct Token(TokenKind Kind, Keyword Keyword, int Start, int Length, string? Text)
{
    public TextSpan Span => new(Start, Length);
    public int End => Start + Length;
    public bool IsName => Kind is TokenKind.Word or TokenKind.String;
}
