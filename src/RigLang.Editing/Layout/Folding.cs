using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

public enum FoldKind
{
    Block,
    Comment,
    Imports,
}

/// <summary>Lines that can be folded away, both ends included, from 0.</summary>
public sealed record Fold(int FirstLine, int LastLine, FoldKind Kind);

/// <summary>Blocks, runs of comment lines, and the imports at the top.</summary>
public static class Folding
{
    public static IReadOnlyList<Fold> Of(RigView view)
    {
        var folds = new List<Fold>();
        foreach (var line in view.Tree.Outline.Lines)
        {
            if (line.Block is { Close: >= 0 } block)
            {
                Add(LineOf(view, view.Tree.Tokens[block.Open].Start), LineOf(view, view.Tree.Tokens[block.Close].Start) - 1, FoldKind.Block);
            }
        }
        AddRuns(text => text.StartsWith("//", StringComparison.Ordinal), FoldKind.Comment);
        AddRuns(text => text.StartsWith("import ", StringComparison.Ordinal), FoldKind.Imports);
        return [.. folds.OrderBy(f => f.FirstLine)];

        void AddRuns(Func<string, bool> belongs, FoldKind kind)
        {
            var first = -1;
            for (var line = 0; line <= view.Source.LineCount; line++)
            {
                var isPart = line < view.Source.LineCount && belongs(view.Source.Slice(view.Source.LineSpan(line)).TrimStart());
                if (isPart && first < 0)
                {
                    first = line;
                }
                else if (!isPart && first >= 0)
                {
                    Add(first, line - 1, kind);
                    first = -1;
                }
            }
        }

        void Add(int first, int last, FoldKind kind)
        {
            if (last > first)
            {
                folds.Add(new Fold(first, last, kind));
            }
        }
    }

    private static int LineOf(RigView view, int offset) => view.Source.PositionOf(offset).Line;
}
