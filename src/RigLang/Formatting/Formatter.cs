using RigLang.Text;

namespace RigLang.Formatting;

public static class Formatter
{
    /// <summary>The canonical layout of a file.</summary>
    public static string Format(SourceText source) => source.Content;
}
