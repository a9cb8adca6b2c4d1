using RigLang.Text;

namespace RigLang.Syntax;

/// <summary>Tokens <see cref="First"/> up to, not including, <see cref="End"/>.</summary>
public readonly record struct TokenRange(int First, int End)
{
    public int Count => End - First;
    public bool IsEmpty => End <= First;
}

/// <summary>One statement line, and the block behind it if it opens one.</summary>
/// <param name="Tokens">The line's own tokens, without braces and line end.</param>
public sealed record OutlineLine(TokenRange Tokens, OutlineBlock? Block);

/// <summary>The lines between two braces. <see cref="Close"/> is -1 when the closing brace is missing.</summary>
public sealed record OutlineBlock(int Open, IReadOnlyList<OutlineLine> Lines, int Close);

public enum OutlineFault
{
    /// <summary>A block that never closes.</summary>
    Unclosed,
    /// <summary>A closing brace with nothing to close.</summary>
    StrayClose,
    /// <summary>A block inside a block: the language has one level.</summary>
    NestedBlock,
    /// <summary>An opening brace without a statement before it.</summary>
    BareBlock,
}

/// <summary>
/// The shape of a file before its grammar: which tokens make a line, and which lines stand in whose block. Because lines
/// are found first, a mistake inside one line can never cost another. Works in one pass without recursion, so that ten
/// thousand nested braces are a finding and not a crash.
/// </summary>
public sealed class Outline
{
    private readonly Token[] _tokens;
    private readonly SourceText _source;
    private readonly bool _balanced;
    private readonly List<OutlineLine> _top = [];
    private readonly List<(OutlineFault Fault, TextSpan Span)> _faults = [];

    private Outline(SourceText source, Token[] tokens)
    {
        _source = source;
        _tokens = tokens;
        _balanced = BracesBalance(tokens);
        ReadLines();
    }

    public IReadOnlyList<OutlineLine> Lines => _top;
    public IReadOnlyList<(OutlineFault Fault, TextSpan Span)> Faults => _faults;

    /// <summary>Every brace has its partner. If not, indents take part in saying where a block ends.</summary>
    public bool BracesMatch => _balanced;

    public static Outline Of(SourceText source, Token[] tokens) => new(source, tokens);

    private void ReadLines()
    {
        var at = 0;
        List<OutlineLine>? body = null;
        var header = default(TokenRange);
        var open = -1;
        while (at < _tokens.Length)
        {
            var kind = _tokens[at].Kind;
            if (kind == TokenKind.NewLine)
            {
                at++;
                continue;
            }
            if (kind == TokenKind.CloseBrace)
            {
                if (body is null)
                {
                    _faults.Add((OutlineFault.StrayClose, _tokens[at].Span));
                }
                else
                {
                    Close(at);
                }
                at++;
                continue;
            }
            if (body is not null && StartsStatementOutside(at, header))
            {
                _faults.Add((OutlineFault.Unclosed, HeaderSpan()));
                Close(-1);
            }
            var range = new TokenRange(at, EndOfLine(at));
            at = range.End;
            if (at < _tokens.Length && _tokens[at].Kind == TokenKind.OpenBrace)
            {
                if (body is not null)
                {
                    _faults.Add((OutlineFault.NestedBlock, range.IsEmpty ? _tokens[at].Span : SpanOf(range)));
                    at = SkipBlock(at);
                }
                else
                {
                    if (range.IsEmpty)
                    {
                        _faults.Add((OutlineFault.BareBlock, _tokens[at].Span));
                    }
                    header = range;
                    open = at++;
                    body = [];
                }
            }
            else if (!range.IsEmpty)
            {
                (body ?? _top).Add(new OutlineLine(range, null));
            }
        }
        if (body is not null)
        {
            _faults.Add((OutlineFault.Unclosed, HeaderSpan()));
            Close(-1);
        }

        void Close(int close)
        {
            _top.Add(new OutlineLine(header, new OutlineBlock(open, body!, close)));
            body = null;
        }

        TextSpan HeaderSpan() => header.IsEmpty ? _tokens[open].Span : SpanOf(header);
    }

    /// <summary>A line ends at its line end or a brace, or goes on past a comma that is the last thing on it.</summary>
    private int EndOfLine(int at)
    {
        while (at < _tokens.Length)
        {
            switch (_tokens[at].Kind)
            {
                case TokenKind.OpenBrace or TokenKind.CloseBrace:
                    return at;
                case TokenKind.NewLine when at > 0 && _tokens[at - 1].Kind == TokenKind.Comma && GoesOn(at + 1):
                    at++;
                    break;
                case TokenKind.NewLine:
                    return at;
                default:
                    at++;
                    break;
            }
        }
        return at;
    }

    /// <summary>
    /// A half-typed line often ends in a comma. It does not swallow a blank line, the end of its block, or a statement
    /// that starts at the left margin.
    /// </summary>
    private bool GoesOn(int next) =>
        next < _tokens.Length
        && _tokens[next].Kind is not (TokenKind.NewLine or TokenKind.CloseBrace)
        && !(Keywords.OpensStatement(_tokens[next].Keyword) && ColumnOf(next) == 0);

    /// <summary>
    /// With a closing brace missing somewhere, a statement word no further in than the block's header is taken for the
    /// next statement. In a file whose braces match, this guess is never made.
    /// </summary>
    private bool StartsStatementOutside(int at, TokenRange header) =>
        !_balanced
        && Keywords.OpensStatement(_tokens[at].Keyword)
        && !header.IsEmpty
        && ColumnOf(at) <= ColumnOf(header.First)
        && (at == 0 || _tokens[at - 1].Kind == TokenKind.NewLine);

    private int ColumnOf(int token)
    {
        var (line, column) = _source.PositionOf(_tokens[token].Start);
        // A byte order mark does not indent the first line.
        return line == 0 && _source.Content.StartsWith('\uFEFF') ? column - 1 : column;
    }

    private int SkipBlock(int at)
    {
        var depth = 0;
        for (; at < _tokens.Length; at++)
        {
            if (!_balanced && _tokens[at].Kind == TokenKind.NewLine && !GoesOn(at + 1))
            {
                return at;
            }
            if (_tokens[at].Kind == TokenKind.OpenBrace)
            {
                depth++;
            }
            else if (_tokens[at].Kind == TokenKind.CloseBrace && --depth == 0)
            {
                return at + 1;
            }
        }
        return at;
    }

    private TextSpan SpanOf(TokenRange range)
    {
        // The line end behind a trailing comma belongs to the line when a brace follows, but is nothing to underline.
        var last = range.End - 1;
        while (_tokens[last].Kind == TokenKind.NewLine)
        {
            last--;
        }
        return TextSpan.Between(_tokens[range.First].Start, _tokens[last].End);
    }

    private static bool BracesBalance(Token[] tokens)
    {
        var depth = 0;
        foreach (var token in tokens)
        {
            depth += token.Kind switch { TokenKind.OpenBrace => 1, TokenKind.CloseBrace => -1, _ => 0 };
            if (depth < 0)
            {
                return false;
            }
        }
        return depth == 0;
    }
}
