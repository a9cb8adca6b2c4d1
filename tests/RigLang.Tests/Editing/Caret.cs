using RigLang.Editing;
using RigLang.Tests.Support;

namespace RigLang.Tests.Editing;

/// <summary>A rig text with a caret in it, written <c>$0</c>, as an editor sees it.</summary>
internal sealed record Caret(RigView View, int Offset)
{
    public static Caret In(string text)
    {
        var offset = text.IndexOf("$0", StringComparison.Ordinal);
        return new Caret(ViewOf(text.Remove(offset, 2)), offset);
    }

    public static RigView ViewOf(string text) => RigView.Of(Rigs.Compile(text), "example.rig")!;
}
