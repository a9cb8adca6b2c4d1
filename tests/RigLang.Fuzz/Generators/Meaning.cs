using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Fuzz.Generators;

/// <summary>
/// All that a text says, without how it is laid out: tokens (line ends left out), comments, statements with their
/// blocks and documentation, faults. Two texts that mean the same give the same string.
/// </summary>
public static class Meaning
{
    public static string Of(string text)
    {
        var tree = RigParser.Parse(new SourceText("meaning.rig", text));
        var meaning = new StringBuilder();
        foreach (var token in tree.Tokens)
        {
            if (token.Kind != TokenKind.NewLine)
            {
                Write(meaning, tree, token);
            }
        }
        foreach (var comment in CommentsOf(tree))
        {
            meaning.Append('\n').Append(comment.TrimEnd(' ', '\t'));
        }
        for (var i = 0; i < tree.Statements.Count; i++)
        {
            meaning.Append('\n').Append(tree.Outline.Lines[i].Block is { } block ? block.Close < 0 ? "{ " : "{ } " : "");
            Write(meaning, tree, tree.Statements[i]);
        }
        foreach (var fault in tree.Faults)
        {
            meaning.Append(CultureInfo.InvariantCulture, $"\nfault {fault.Outline} expected {string.Join('|', fault.Expected)} found ");
            Write(meaning, tree, fault.Found);
        }
        return meaning.ToString();
    }

    /// <summary>Every comment of a file, in order, from its slashes to the end of its line.</summary>
    public static List<string> CommentsOf(SyntaxTree tree)
    {
        var comments = new List<string>();
        var end = 0;
        foreach (var start in tree.Tokens.Select(t => t.Start).Append(tree.Source.Length).Zip(tree.Tokens.Select(t => t.End).Append(tree.Source.Length)))
        {
            var gap = tree.Source.Content[end..start.First];
            if (gap.IndexOf('/', StringComparison.Ordinal) is >= 0 and var slash)
            {
                comments.Add(gap[slash..]);
            }
            end = start.Second;
        }
        return comments;
    }

    private static void Write(StringBuilder meaning, SyntaxTree tree, object? value)
    {
        switch (value)
        {
            case null:
                meaning.Append('-');
                break;
            case Token token:
                meaning.Append(token.Kind).Append('(').Append(tree.Source.Slice(token.Span)).Append(')');
                break;
            case TextSpan:
                break;
            case string text:
                meaning.Append('\'').Append(text).Append('\'');
                break;
            case IEnumerable list:
                meaning.Append('[');
                foreach (var item in list)
                {
                    Write(meaning, tree, item);
                }
                meaning.Append(']');
                break;
            case bool or Enum:
                meaning.Append(value);
                break;
            default:
                WriteRecord(meaning, tree, value);
                break;
        }
        meaning.Append(' ');
    }

    private static void WriteRecord(StringBuilder meaning, SyntaxTree tree, object value)
    {
        meaning.Append(value.GetType().Name).Append('(');
        foreach (var property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance))
        {
            if (property.PropertyType != typeof(TextSpan) && property.GetIndexParameters().Length == 0)
            {
                Write(meaning, tree, property.GetValue(value));
            }
        }
        if (value is Statement statement)
        {
            meaning.Append("doc ").Append(tree.DocumentationOf(statement));
        }
        meaning.Append(')');
    }
}
