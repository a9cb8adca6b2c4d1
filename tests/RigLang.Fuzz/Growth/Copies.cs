using System.Globalization;
using System.Text;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Fuzz.Growth;

/// <summary>A rig several times over in one file, every time with other names for all that it declares.</summary>
internal static class Copies
{
    public static string Of(string rig, int count)
    {
        var source = new SourceText("copy.rig", rig);
        var tokens = Lexer.Lex(source);
        var declared = Declared(source, tokens);
        var renamed = tokens.Where(t => t.IsName && declared.Contains(Stem(t.Text!))).ToList();
        var text = new StringBuilder(Copy(rig, renamed, 0));
        var rest = WithoutWhatStandsOnce(rig, renamed);
        for (var i = 1; i < count; i++)
        {
            text.Append('\n').Append(Copy(rest.Text, rest.Renamed, i));
        }
        return text.ToString();
    }

    private static string Copy(string rig, List<Token> renamed, int number)
    {
        var text = new StringBuilder();
        var end = 0;
        foreach (var token in renamed)
        {
            var start = token.Kind == TokenKind.String ? token.Start + 1 : token.Start;
            text.Append(rig, end, start - end).Append(CultureInfo.InvariantCulture, $"k{number}_");
            end = start;
        }
        return text.Append(rig, end, rig.Length - end).ToString();
    }

    /// <summary>Names of gear, leads and devices that the rig's own lines declare; of a range what stands before its number.</summary>
    private static HashSet<string> Declared(SourceText source, IReadOnlyList<Token> tokens)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        var (depth, isFirst, declares) = (0, true, false);
        foreach (var token in tokens)
        {
            if (token.Kind is TokenKind.Colon or TokenKind.OpenBrace or TokenKind.NewLine || source.Slice(token.Span) == "like")
            {
                declares = false;
            }
            else if (declares && token.IsName)
            {
                names.Add(Stem(token.Text!));
            }
            else if (isFirst && depth == 0)
            {
                declares = source.Slice(token.Span) is "gear" or "lead" or "device";
            }
            depth += token.Kind == TokenKind.OpenBrace ? 1 : token.Kind == TokenKind.CloseBrace ? -1 : 0;
            isFirst = token.Kind == TokenKind.NewLine;
        }
        return names;
    }

    private static string Stem(string name) => name.TrimEnd('0', '1', '2', '3', '4', '5', '6', '7', '8', '9');

    /// <summary>Imports and the rig block are said once a file. They stand before what is declared; nothing is to be renamed in them.</summary>
    private static (string Text, List<Token> Renamed) WithoutWhatStandsOnce(string rig, List<Token> renamed)
    {
        var cut = 0;
        foreach (var line in rig.Split('\n'))
        {
            if (!line.StartsWith("import ", StringComparison.Ordinal) && line.Trim().Length > 0)
            {
                break;
            }
            cut += line.Length + 1;
        }
        if (rig[Math.Min(cut, rig.Length)..].StartsWith("rig", StringComparison.Ordinal) && rig.IndexOf("\n}\n", cut, StringComparison.Ordinal) is > 0 and var close)
        {
            cut = close + 3;
        }
        return cut >= rig.Length || renamed.Exists(t => t.Start < cut) ? (rig, renamed) : (rig[cut..], renamed.ConvertAll(t => t with { Start = t.Start - cut }));
    }
}
