using System.Buffers;
using System.Globalization;
using System.Text;
using RigLang.Text;

namespace RigLang.Syntax;

/// <summary>
/// Text to tokens. Never fails: what means nothing becomes a <see cref="TokenKind.Bad"/> token.
/// A line end is a token; spaces and comments lie between tokens.
/// </summary>
public static class Lexer
{
    public static Token[] Lex(SourceText source) => Lex(source, new TextSpan(0, source.Length), new NameTable());

    /// <summary>The tokens of whole lines of a text, in places of that text.</summary>
    /// <param name="names">The names met so far, each one string; grows.</param>
    internal static Token[] Lex(SourceText source, TextSpan part, NameTable names)
    {
        var text = source.Content;
        var tokens = new TokenBuffer(part.Length / 4 + 16);
        var at = part.Start;
        while (at < part.End)
        {
            var start = at;
            var c = text[at];
            switch (c)
            {
                case ' ' or '\t' or '\uFEFF' or '\u00A0':
                    at++;
                    break;
                case '\n':
                    Add(TokenKind.NewLine, 1);
                    break;
                case '\r':
                    Add(TokenKind.NewLine, at + 1 < text.Length && text[at + 1] == '\n' ? 2 : 1);
                    break;
                case '/' when at + 1 < text.Length && text[at + 1] == '/':
                    at = EndOfLine(text, at);
                    break;
                case ':':
                    Add(TokenKind.Colon, 1);
                    break;
                case ',':
                    Add(TokenKind.Comma, 1);
                    break;
                case '(':
                    Add(TokenKind.OpenParen, 1);
                    break;
                case ')':
                    Add(TokenKind.CloseParen, 1);
                    break;
                case '{':
                    Add(TokenKind.OpenBrace, 1);
                    break;
                case '}':
                    Add(TokenKind.CloseBrace, 1);
                    break;
                case '.' when at + 1 < text.Length && text[at + 1] == '.':
                    Add(TokenKind.DotDot, 2);
                    break;
                case '.':
                    Add(TokenKind.Dot, 1);
                    break;
                case '"':
                    LexString();
                    break;
                case '+' or '-' when at + 1 < text.Length && char.IsAsciiDigit(text[at + 1]):
                case >= '0' and <= '9':
                    LexNumber();
                    break;
                case '+':
                    Add(TokenKind.Plus, 1);
                    break;
                default:
                    LexWordOrBad();
                    break;
            }

            void Add(TokenKind kind, int length)
            {
                tokens.Add(new Token(kind, Keyword.None, start, length, null));
                at = start + length;
            }
        }
        return tokens.Finish();

        void LexString()
        {
            var start = at;
            var end = at + 1;
            while (end < text.Length && text[end] is not ('"' or '\n' or '\r'))
            {
                end++;
            }
            var closed = end < text.Length && text[end] == '"';
            var name = names.Find(text.AsSpan(start + 1, end - start - 1)).Text;
            at = closed ? end + 1 : end;
            tokens.Add(new Token(closed ? TokenKind.String : TokenKind.OpenString, Keyword.None, start, at - start, name));
        }

        void LexNumber()
        {
            var start = at;
            at = AfterDigits(text, text[at] is '+' or '-' ? at + 1 : at);
            var kind = TokenKind.Number;
            if (at + 1 < text.Length && text[at] == 'x' && char.IsAsciiDigit(text[at + 1]))
            {
                at = AfterDigits(text, at + 1);
                kind = TokenKind.Size;
            }
            tokens.Add(new Token(kind, Keyword.None, start, at - start, names.Find(text.AsSpan(start, at - start)).Text));
        }

        void LexWordOrBad()
        {
            var start = at;
            at = AfterWord(text, at);
            if (at > start)
            {
                var word = names.Find(text.AsSpan(start, at - start));
                tokens.Add(new Token(TokenKind.Word, word.Keyword, start, at - start, word.Text));
                return;
            }
            // One finding for a run of nonsense, not one a character.
            while (at < text.Length && IsMeaningless(text, at))
            {
                at += char.IsHighSurrogate(text[at]) && at + 1 < text.Length && char.IsLowSurrogate(text[at + 1]) ? 2 : 1;
            }
            if (at == start)
            {
                at++;
            }
            tokens.Add(new Token(TokenKind.Bad, Keyword.None, start, at - start, null));
        }
    }

    /// <summary>True when the whole text is one bare word, so that it needs no quotes as a name.</summary>
    public static bool IsBareWord(string text) => text.Length > 0 && AfterWord(text, 0) == text.Length;

    private static int EndOfLine(string text, int at)
    {
        var end = text.AsSpan(at).IndexOfAny('\n', '\r');
        return end < 0 ? text.Length : at + end;
    }

    private static int AfterDigits(string text, int at)
    {
        while (at < text.Length && char.IsAsciiDigit(text[at]))
        {
            at++;
        }
        if (at + 1 < text.Length && text[at] == '.' && char.IsAsciiDigit(text[at + 1]))
        {
            at += 2;
            while (at < text.Length && char.IsAsciiDigit(text[at]))
            {
                at++;
            }
        }
        return at;
    }

    private static int AfterWord(string text, int start)
    {
        var at = start;
        while (at < text.Length)
        {
            var c = text[at];
            if (char.IsAsciiLetter(c) || c == '_' || (at > start && char.IsAsciiDigit(c)))
            {
                at++;
            }
            else if (c == '-' && at > start && at + 1 < text.Length && WordRune(text, at + 1, first: false) > 0)
            {
                at++;
            }
            else if (c >= 0x80 && WordRune(text, at, first: at == start) is > 0 and var length)
            {
                at += length;
            }
            else
            {
                break;
            }
        }
        return at;
    }

    private static int WordRune(string text, int at, bool first)
    {
        if (Rune.DecodeFromUtf16(text.AsSpan(at), out var rune, out var length) != OperationStatus.Done)
        {
            return 0;
        }
        return Rune.GetUnicodeCategory(rune) switch
        {
            UnicodeCategory.UppercaseLetter or UnicodeCategory.LowercaseLetter or UnicodeCategory.TitlecaseLetter
                or UnicodeCategory.ModifierLetter or UnicodeCategory.OtherLetter or UnicodeCategory.LetterNumber => length,
            UnicodeCategory.NonSpacingMark or UnicodeCategory.SpacingCombiningMark or UnicodeCategory.DecimalDigitNumber
                or UnicodeCategory.ConnectorPunctuation when !first => length,
            _ => 0,
        };
    }

    private static bool IsMeaningless(string text, int at) =>
        text[at] is not (' ' or '\t' or '\n' or '\r' or ':' or ',' or '.' or '(' or ')' or '{' or '}' or '"' or '+' or '/' or '\uFEFF' or '\u00A0')
        && !char.IsAsciiDigit(text[at])
        && AfterWord(text, at) == at;

    /// <summary>
    /// Tokens as they come, in a rented array: of a big file it is too large to be thrown away at every step of growth without
    /// making the collector walk all that lives.
    /// </summary>
    private struct TokenBuffer(int size)
    {
        private Token[] _tokens = ArrayPool<Token>.Shared.Rent(size);
        private int _count;

        public void Add(in Token token)
        {
            if (_count == _tokens.Length)
            {
                var larger = ArrayPool<Token>.Shared.Rent(_count * 2);
                _tokens.AsSpan().CopyTo(larger);
                ArrayPool<Token>.Shared.Return(_tokens, clearArray: true);
                _tokens = larger;
            }
            _tokens[_count++] = token;
        }

        public readonly Token[] Finish()
        {
            var tokens = _tokens.AsSpan(0, _count).ToArray();
            _tokens.AsSpan(0, _count).Clear();
            ArrayPool<Token>.Shared.Return(_tokens);
            return tokens;
        }
    }
}
