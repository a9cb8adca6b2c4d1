using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.Syntax;

/// <summary>How the syntax tests read text and look at what came out.</summary>
internal static class Reading
{
    public static SyntaxTree Tree(string text) => RigParser.Parse(new SourceText("test.rig", text));

    public static Token[] Tokens(string text) => Lexer.Lex(new SourceText("test.rig", text));

    /// <summary>The kinds of a text's tokens, written one after the other.</summary>
    public static string Kinds(string text) => string.Join(' ', Tokens(text).Select(t => t.Kind));

    /// <summary>The only statement of a text without faults.</summary>
    public static T Statement<T>(string text)
        where T : Statement
    {
        var tree = Tree(text);
        Assert.Empty(tree.Faults);
        return Assert.IsType<T>(Assert.Single(tree.Statements));
    }

    /// <summary>The only line in the block of the only statement of a text without faults.</summary>
    public static T Line<T>(string header, string line)
        where T : Statement
    {
        var tree = Tree($"{header} {{\n  {line}\n}}\n");
        Assert.Empty(tree.Faults);
        return Assert.IsType<T>(Assert.Single(Assert.Single(tree.Statements).Body));
    }

    /// <summary>Each fault as the text it underlines.</summary>
    public static string[] Underlined(SyntaxTree tree) => [.. tree.Faults.Select(f => tree.Source.Slice(f.Span))];

    public static string[] Texts(IEnumerable<NameRange> ranges) =>
        [.. ranges.Select(r => r.First.Text + (r.Last is { } last ? ".." + last.Text : ""))];

    public static string[] Texts(IEnumerable<PathNode> paths) => [.. paths.Select(p => p.Text)];
}
