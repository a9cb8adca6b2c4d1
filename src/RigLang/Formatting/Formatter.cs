using System.Text;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Formatting;

/// <summary>
/// The canonical layout of a file. It changes spaces, blank lines and line ends, never a token, a comment or their order,
/// so the file means what it meant; formatting what is formatted changes nothing.
/// <list type="bullet">
/// <item>One statement a line, two spaces of indent in a block, the closing brace on its own line. A block written on one
/// line is opened up; an empty one is <c>{ }</c>.</item>
/// <item>One space between tokens; none around <c>.</c> and <c>..</c>, inside brackets, or before a comma.</item>
/// <item>Neighbouring lines of one kind share their columns (<see cref="Columns"/>). A blank line, or a line of another
/// kind, starts the columns anew; a line much longer than its neighbours does not move them (<see cref="Alignment"/>).</item>
/// <item>A line that goes on after a comma keeps its breaks; the rest is indented by four more spaces, without columns.</item>
/// <item>Comments keep their text. One behind code stands two spaces after it, in one column with those of the lines
/// next to it; one on its own line takes the indent of its block.</item>
/// <item>At most one blank line in a row, none at either end of the file or of a block, exactly one around a block
/// statement and the comments that stand directly on it.</item>
/// <item>What cannot be read is kept to the byte: lines with a fault and those that share a line with them, a block that
/// never closes, a block inside a block, a block where none belongs. The good lines around it are laid out.</item>
/// <item>Line ends become those that the file has most of, LF or CRLF; the last line gets one; a byte order mark stays.</item>
/// </list>
/// </summary>
public static class Formatter
{
    /// <summary>The file in canonical layout. Takes any text and never throws; time grows with the length of the text.</summary>
    public static string Format(SourceText source) => Format(RigParser.Parse(source));

    /// <inheritdoc cref="Format(SourceText)"/>
    public static string Format(SyntaxTree tree)
    {
        var lines = new LayoutReader(tree).Read();
        BlankLines.Settle(lines);
        Alignment.AlignColumns(lines);
        Alignment.AlignComments(lines);
        return Print(lines, tree.Source.Content);
    }

    private static string Print(List<LayoutLine> lines, string original)
    {
        var lineEnd = DominantLineEnd(original);
        var text = new StringBuilder(original.Length + (original.Length / 4));
        if (original.StartsWith('\uFEFF'))
        {
            text.Append('\uFEFF');
        }
        else if (lines.Count > 0 && lines[0].StartsWithMark)
        {
            // A mark inside the file is a space; at its very start it would be the mark of the file.
            text.Append(lineEnd);
        }
        foreach (var line in lines)
        {
            if (line.BlankBefore)
            {
                text.Append(lineEnd);
            }
            line.AppendTo(text);
            text.Append(lineEnd);
        }
        return text.ToString();
    }

    private static string DominantLineEnd(string text)
    {
        var windows = 0;
        var unix = 0;
        for (var at = text.IndexOf('\n'); at >= 0; at = text.IndexOf('\n', at + 1))
        {
            if (at > 0 && text[at - 1] == '\r')
            {
                windows++;
            }
            else
            {
                unix++;
            }
        }
        return windows > unix ? "\r\n" : "\n";
    }
}
