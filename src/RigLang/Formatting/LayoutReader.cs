using System.Text;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Formatting;

/// <summary>
/// Reads a tree into lines of output, not yet aligned. Goes through the file line by line; the pieces that share a line,
/// or reach from one line into the next, are laid out together, or kept together when one of them has to be kept.
/// </summary>
internal sealed class LayoutReader
{
    private const int Indent = 2;
    private const int ContinuationIndent = 4;

    private readonly string _text;
    private readonly Token[] _tokens;
    private readonly List<Piece> _pieces;
    private readonly SourceLines _source;
    private readonly bool _bracesMatch;
    private readonly Columns _columns = new();
    private readonly List<LayoutLine> _lines;
    private readonly StringBuilder _cell = new();
    private int _depth;
    private bool _blank;

    public LayoutReader(SyntaxTree tree)
    {
        _text = tree.Source.Content;
        _tokens = tree.Tokens;
        _pieces = new PieceReader(tree).Read();
        _bracesMatch = tree.Outline.BracesMatch;
        _source = new SourceLines(_text, _tokens);
        _lines = new List<LayoutLine>(_source.Count);
    }

    public List<LayoutLine> Read()
    {
        var piece = 0;
        // Comments further in than this belong to an unclosed block.
        var unclosedAt = int.MaxValue;
        for (var line = 0; line < _source.Count; line++)
        {
            if (_source.HasTokens(line))
            {
                var first = piece;
                var last = TakeNeighbours(ref piece, line, out var keep);
                if (keep)
                {
                    KeepLines(first, piece, line, last);
                }
                else
                {
                    LayOut(first, piece);
                }
                unclosedAt = ColumnIfUnclosed(_pieces[piece - 1]);
                line = last;
            }
            else if (_source.CommentOf(line) is not { } comment)
            {
                _blank = true;
            }
            else if (comment.Start - _source.Start(line) > unclosedAt)
            {
                var kept = Kept(line);
                kept.IsKeptComment = true;
                Add(kept);
            }
            else
            {
                unclosedAt = int.MaxValue;
                Add(new LayoutLine(LineKind.Comment, _depth * Indent) { Comment = _text.Substring(comment.Start, comment.Length) });
            }
        }
        return _lines;
    }

    /// <summary>
    /// Moves past all pieces that hang together with the first by sharing lines; gives the last of these lines, and whether
    /// one of the pieces has to be kept.
    /// </summary>
    private int TakeNeighbours(ref int piece, int line, out bool keep)
    {
        keep = false;
        var isInBlock = false;
        while (piece < _pieces.Count && (_source.LineOf(_pieces[piece].Tokens.First) <= line || (isInBlock && keep && !_bracesMatch)))
        {
            keep |= _pieces[piece].Kept;
            // With a brace missing somewhere, indents decide what is inside: a header that stays where it is keeps its block too.
            isInBlock = _pieces[piece].Kind == PieceKind.Header || (isInBlock && _pieces[piece].Kind != PieceKind.Close);
            line = Math.Max(line, _source.LineOf(_pieces[piece].Tokens.End - 1));
            piece++;
        }
        return line;
    }

    /// <summary>The column of a block that never closes; comments further in than that belong to it.</summary>
    private int ColumnIfUnclosed(Piece last) =>
        last.Unclosed ? _tokens[last.Tokens.First].Start - _source.Start(_source.LineOf(last.Tokens.First)) : int.MaxValue;

    private void KeepLines(int first, int end, int firstLine, int lastLine)
    {
        var firstKept = _lines.Count;
        for (var line = firstLine; line <= lastLine; line++)
        {
            var kept = Kept(line);
            kept.IsPartOfKeptLines = lastLine > firstLine;
            kept.Closes = line == firstLine && _pieces[first].Kind == PieceKind.Close;
            Add(kept);
        }
        _lines[firstKept].StartsBlock = _depth == 0 && _pieces[first].StartsBlock;
        for (var i = first; i < end; i++)
        {
            Enter(_pieces[i]);
        }
        _lines[^1].Opens = _pieces[end - 1].Kind == PieceKind.Header;
        _lines[^1].EndsBlock = _pieces[end - 1].Kind == PieceKind.Close;
    }

    private void LayOut(int first, int end)
    {
        for (var i = first; i < end; i++)
        {
            LayOut(_pieces[i]);
        }
    }

    private void LayOut(Piece piece)
    {
        if (piece.Kind == PieceKind.Close)
        {
            Enter(piece);
            var brace = piece.Tokens.First;
            Add(new LayoutLine(LineKind.Brace, _depth * Indent)
            {
                Cells = [new Cell(0, "}") { Gap = 0 }],
                Comment = CommentBehind(brace),
                Closes = true,
                EndsBlock = true,
            });
            return;
        }
        var code = piece.Tokens;
        var shape = _columns.Cut(piece.Statement!, _tokens, code);
        var kind = LineKind.Statement;
        for (var from = code.First; from < code.End;)
        {
            var to = from;
            while (to < code.End && _tokens[to].Kind != TokenKind.NewLine)
            {
                to++;
            }
            var isFirst = kind == LineKind.Statement;
            Add(new LayoutLine(kind, (_depth * Indent) + (isFirst ? 0 : ContinuationIndent))
            {
                Cells = CellsOf(new TokenRange(from, to), isFirst),
                Shape = isFirst ? shape : Shape.None,
                Comment = CommentBehind(to - 1),
                StartsBlock = isFirst && piece.StartsBlock,
                Opens = to == code.End && piece.Kind == PieceKind.Header,
            });
            kind = LineKind.Continuation;
            from = to + 1;
        }
        Enter(piece);
    }

    private void Enter(Piece piece)
    {
        if (piece.Kind == PieceKind.Header)
        {
            _depth = 1;
        }
        else if (piece.Kind == PieceKind.Close)
        {
            _depth = 0;
        }
    }

    private Cell[] CellsOf(TokenRange range, bool cut)
    {
        var cuts = 0;
        while (cut && cuts < _columns.Cuts.Count && _columns.Cuts[cuts].Token < range.End)
        {
            cuts++;
        }
        var cells = new Cell[cuts + 1];
        for (var i = 0; i <= cuts; i++)
        {
            var from = i == 0 ? range.First : _columns.Cuts[i - 1].Token;
            var to = i == cuts ? range.End : _columns.Cuts[i].Token;
            cells[i] = new Cell(i == 0 ? 0 : _columns.Cuts[i - 1].Column, TextOf(from, to)) { Gap = i == 0 ? 0 : 1 };
        }
        return cells;
    }

    private string TextOf(int from, int to)
    {
        _cell.Clear();
        for (var i = from; i < to; i++)
        {
            if (i > from && (StandApart(_tokens[i - 1].Kind, _tokens[i].Kind) || WouldBeDecimal(i)))
            {
                _cell.Append(' ');
            }
            _cell.Append(_text, _tokens[i].Start, _tokens[i].Length);
        }
        return _cell.ToString();
    }

    private static bool StandApart(TokenKind before, TokenKind after) =>
        (after is not (TokenKind.Comma or TokenKind.CloseParen or TokenKind.Dot or TokenKind.DotDot)
            && before is not (TokenKind.OpenParen or TokenKind.Dot or TokenKind.DotDot))
        // Dots that were written apart would be read as others.
        || (before is TokenKind.Dot or TokenKind.DotDot && after is TokenKind.Dot or TokenKind.DotDot);

    /// <summary><c>2 .3</c> is a contact of a contact; without the space it is a number.</summary>
    private bool WouldBeDecimal(int dot) =>
        _tokens[dot].Kind == TokenKind.Dot
        && _tokens[dot - 1].Kind == TokenKind.Number
        && dot + 1 < _tokens.Length
        && _tokens[dot + 1].Kind == TokenKind.Number;

    private string? CommentBehind(int token)
    {
        var line = _source.LineOf(token);
        return _source.IsLastOn(line, token) && _source.CommentOf(line) is { } comment
            ? _text.Substring(comment.Start, comment.Length)
            : null;
    }

    private LayoutLine Kept(int line) => new(LineKind.Kept, 0)
    {
        Cells = [new Cell(0, _text[_source.Start(line).._source.End(line)]) { Gap = 0 }],
    };

    /// <summary>Blank lines in the source become one, and none at either end of a block.</summary>
    private void Add(LayoutLine line)
    {
        line.BlankBefore = _blank && _lines.Count > 0 && !line.Closes && !_lines[^1].Opens;
        _blank = false;
        _lines.Add(line);
    }
}

/// <summary>The lines of a text: where each starts and ends, which tokens it has, and the comment at its end.</summary>
internal sealed class SourceLines
{
    private readonly string _text;
    private readonly Token[] _tokens;
    private readonly int[] _lineOfToken;

    // First token of each line and, at the end, the number of tokens.
    private readonly List<int> _firstToken = [0];

    public SourceLines(string text, Token[] tokens)
    {
        _text = text;
        _tokens = tokens;
        _lineOfToken = new int[tokens.Length];
        for (var i = 0; i < tokens.Length; i++)
        {
            _lineOfToken[i] = _firstToken.Count - 1;
            if (tokens[i].Kind == TokenKind.NewLine)
            {
                _firstToken.Add(i + 1);
            }
        }
        _firstToken.Add(tokens.Length);
    }

    public int Count => _firstToken.Count - 1;

    public int LineOf(int token) => _lineOfToken[token];

    /// <summary>Where a line starts; the first one after the byte order mark, if there is one.</summary>
    public int Start(int line) =>
        line > 0 ? _tokens[_firstToken[line] - 1].End : _text.StartsWith('\uFEFF') ? 1 : 0;

    /// <summary>Where a line ends, without its line end.</summary>
    public int End(int line) => line < Count - 1 ? _tokens[_firstToken[line + 1] - 1].Start : _text.Length;

    public bool HasTokens(int line) => EndOfTokens(line) > _firstToken[line];

    public bool IsLastOn(int line, int token) => token == EndOfTokens(line) - 1;

    /// <summary>The comment at the end of a line, without the spaces behind it.</summary>
    public TextSpan? CommentOf(int line)
    {
        var start = HasTokens(line) ? _tokens[EndOfTokens(line) - 1].End : Start(line);
        var end = End(line);
        while (start < end && _text[start] != '/')
        {
            start++;
        }
        while (end > start && _text[end - 1] is ' ' or '\t')
        {
            end--;
        }
        return end > start ? TextSpan.Between(start, end) : null;
    }

    private int EndOfTokens(int line) => line < Count - 1 ? _firstToken[line + 1] - 1 : _tokens.Length;
}
