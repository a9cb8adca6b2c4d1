using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>
/// The two jacks of a stereo pair in one `connect` line, <c>desk.ch34.left, desk.ch34.right</c>: whoever changes the port of
/// one means the other too.
/// </summary>
public static class LinkedSides
{
    public static IReadOnlyList<TextSpan> At(RigView view, int offset)
    {
        if (view.StatementAt(offset) is not ConnectStatement connect)
        {
            return [];
        }
        foreach (var ends in (IReadOnlyList<PathNode>[])[connect.From, connect.To])
        {
            var sides = ends.Where(e => e.Parts is [_, _, { Text: "left" or "right" }] && e.Last is null).ToList();
            foreach (var side in sides)
            {
                for (var part = 0; part < 2; part++)
                {
                    var name = side.Parts[part];
                    if (name.Span.Start > offset || offset > name.Span.End)
                    {
                        continue;
                    }
                    var same = sides.Where(s => s.Parts[0].Text == side.Parts[0].Text && s.Parts[1].Text == side.Parts[1].Text).Select(s => s.Parts[part].Span).ToList();
                    return same.Count > 1 ? same : [];
                }
            }
        }
        return [];
    }
}
