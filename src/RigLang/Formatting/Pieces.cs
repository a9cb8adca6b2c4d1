using RigLang.Parsing;
using RigLang.Syntax;

namespace RigLang.Formatting;

internal enum PieceKind : byte
{
    Line,
    /// <summary>A statement and the opening brace behind it.</summary>
    Header,
    /// <summary>The closing brace of a block.</summary>
    Close,
    /// <summary>Tokens that belong to no readable line, or a block that cannot be laid out.</summary>
    Unreadable,
}

/// <summary>A stretch of tokens that is laid out, or kept, as one.</summary>
/// <param name="Kept">Stays as written, and with it all that shares a line with it.</param>
/// <param name="Unclosed">A block that has no end: comments further in than its header are still part of it.</param>
internal readonly record struct Piece(
    PieceKind Kind, TokenRange Tokens, Statement? Statement, bool Kept, bool StartsBlock = false, bool Unclosed = false);

/// <summary>Cuts a tree into pieces, in the order of the file, so that each token but line ends is in exactly one.</summary>
internal sealed class PieceReader(SyntaxTree tree)
{
    private readonly Token[] _tokens = tree.Tokens;
    private readonly List<Piece> _pieces = new(tree.Outline.Lines.Count + 4);
    private int _next;

    public List<Piece> Read()
    {
        var lines = tree.Outline.Lines;
        for (var i = 0; i < lines.Count; i++)
        {
            var (line, statement) = (lines[i], tree.Statements[i]);
            if (line.Block is not { } block)
            {
                Add(new Piece(PieceKind.Line, line.Tokens, statement, statement is BrokenLine));
            }
            else if (CannotBeLaidOut(line, block))
            {
                var end = block.Close >= 0 ? block.Close + 1 : i + 1 < lines.Count ? FirstToken(lines[i + 1]) : _tokens.Length;
                var range = new TokenRange(FirstToken(line), EndWithoutLineEnds(end));
                Add(new Piece(PieceKind.Unreadable, range, null, Kept: true, Unclosed: block.Close < 0));
            }
            else
            {
                AddBlock(line, block, statement);
            }
        }
        AddUnreadableUpTo(_tokens.Length);
        return _pieces;
    }

    private void AddBlock(OutlineLine header, OutlineBlock block, Statement statement)
    {
        var tokens = new TokenRange(header.Tokens.First, block.Open + 1);
        Add(new Piece(PieceKind.Header, tokens, statement, statement is BrokenLine, StartsBlock: true));
        for (var i = 0; i < block.Lines.Count; i++)
        {
            var line = block.Lines[i].Tokens;
            Add(new Piece(PieceKind.Line, line, statement.Body[i], statement.Body[i] is BrokenLine || StandsAtMarginAfterComma(line)));
        }
        Add(new Piece(PieceKind.Close, new TokenRange(block.Close, block.Close + 1), null, Kept: false));
    }

    private bool CannotBeLaidOut(OutlineLine line, OutlineBlock block) =>
        block.Close < 0 || line.Tokens.IsEmpty || RigParser.LinesOf(_tokens[line.Tokens.First].Keyword) is null;

    /// <summary>A statement word at the left margin keeps the line before it, which ends in a comma, from going on: it has to stay there.</summary>
    private bool StandsAtMarginAfterComma(TokenRange line) =>
        line.First >= 2
        && _tokens[line.First - 1].Kind == TokenKind.NewLine
        && _tokens[line.First - 2].Kind == TokenKind.Comma
        && Keywords.OpensStatement(_tokens[line.First].Keyword);

    private void Add(Piece piece)
    {
        AddUnreadableUpTo(piece.Tokens.First);
        _pieces.Add(piece);
        _next = piece.Tokens.End;
    }

    /// <summary>Tokens that the outline put into no line: blocks inside blocks, closing braces too many.</summary>
    private void AddUnreadableUpTo(int token)
    {
        while (_next < token && _tokens[_next].Kind == TokenKind.NewLine)
        {
            _next++;
        }
        if (_next < token)
        {
            _pieces.Add(new Piece(PieceKind.Unreadable, new TokenRange(_next, EndWithoutLineEnds(token)), null, Kept: true));
        }
        _next = Math.Max(_next, token);
    }

    private int EndWithoutLineEnds(int end)
    {
        while (end > 0 && _tokens[end - 1].Kind == TokenKind.NewLine)
        {
            end--;
        }
        return end;
    }

    private static int FirstToken(OutlineLine line) => line.Tokens.IsEmpty ? line.Block!.Open : line.Tokens.First;
}
