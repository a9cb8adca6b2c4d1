using Pidgin;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Parsing;

/// <summary>
/// Text to syntax tree. Never fails: tokens, then lines and blocks, then each line by itself through the grammar, so that
/// every independent mistake is reported and every good line still counts.
/// </summary>
public static class RigParser
{
    public static SyntaxTree Parse(SourceText source) => Parse(source, Lexer.Lex(source));

    /// <summary>The statements that these tokens of the text make.</summary>
    internal static SyntaxTree Parse(SourceText source, Token[] tokens) => Parse(source, tokens, Outline.Of(source, tokens));

    /// <summary>The statements that these lines of the text make.</summary>
    internal static SyntaxTree Parse(SourceText source, Token[] tokens, Outline outline)
    {
        var faults = outline.Faults.Select(f => new SyntaxFault(f.Span, [], null, f.Fault)).ToList();
        var statements = new List<Statement>(outline.Lines.Count);
        foreach (var line in outline.Lines)
        {
            statements.Add(ParseStatement(tokens, line, faults));
        }
        ImportPrefixes.Join(statements);
        faults.Sort((a, b) => a.Span.Start.CompareTo(b.Span.Start));
        return new SyntaxTree(source, tokens, outline, statements, faults);
    }

    private static Statement ParseStatement(Token[] tokens, OutlineLine line, List<SyntaxFault> faults)
    {
        var opener = line.Tokens.IsEmpty ? Keyword.None : tokens[line.Tokens.First].Keyword;
        var statement = ParseLine(Grammar.FileLine, tokens, line.Tokens, faults);
        if (line.Block is not { } block)
        {
            return statement;
        }
        if (line.Tokens.IsEmpty)
        {
            statement.Span = tokens[block.Open].Span;
        }
        if (LinesOf(opener) is { } grammar)
        {
            // A header that is wrong does not make its block wrong: the lines are read, and their own mistakes told.
            var body = new List<Statement>(block.Lines.Count);
            foreach (var inner in block.Lines)
            {
                body.Add(ParseLine(grammar, tokens, inner.Tokens, faults));
            }
            statement.Body = body;
        }
        else if (statement is not BrokenLine)
        {
            faults.Add(new SyntaxFault(tokens[block.Open].Span, ["the end of the line"], tokens[block.Open], null));
        }
        return statement;
    }

    /// <summary>What the lines of a statement's block may say; null for statements that have no block.</summary>
    internal static Parser<Token, Statement>? LinesOf(Keyword opener) => opener switch
    {
        Keyword.Rig => Grammar.RigLine,
        Keyword.Gear => Grammar.GearLine,
        Keyword.Lead => Grammar.LeadLine,
        Keyword.Device => Grammar.DeviceLine,
        Keyword.Stock => Grammar.StockLine,
        _ => null,
    };

    private static Statement ParseLine(Parser<Token, Statement> grammar, Token[] tokens, TokenRange range, List<SyntaxFault> faults)
    {
        if (range.IsEmpty)
        {
            return new BrokenLine();
        }
        var line = LineTokens(tokens, range);
        var result = grammar.Parse(line, Expectations.Configuration);
        var span = TextSpan.Between(line[0].Start, line[^1].End);
        if (result.Success)
        {
            result.Value.Span = span;
            return result.Value;
        }
        faults.Add(FaultOf(result.Error!, line));
        return new BrokenLine { Span = span };
    }

    /// <summary>The line's tokens; a line that goes on after a comma is read as if it stood on one.</summary>
    private static ReadOnlySpan<Token> LineTokens(Token[] tokens, TokenRange range)
    {
        var line = tokens.AsSpan(range.First, range.Count);
        foreach (var token in line)
        {
            if (token.Kind == TokenKind.NewLine)
            {
                return Array.FindAll(line.ToArray(), t => t.Kind != TokenKind.NewLine);
            }
        }
        return line;
    }

    private static SyntaxFault FaultOf(ParseError<Token> error, ReadOnlySpan<Token> line)
    {
        var at = error.ErrorOffset;
        var expected = error.Expected
            .Select(e => e.IsEof ? "the end of the line" : e.Label ?? "")
            .Where(label => label.Length > 0)
            .Distinct()
            .ToList();
        // At the end of a line the squiggle goes under the last thing typed: there is nothing else to underline.
        return at < line.Length
            ? new SyntaxFault(line[at].Span, expected, line[at], null)
            : new SyntaxFault(line[^1].Span, expected, null, null);
    }
}
