using RigLang.Parsing;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>What a file imports, without reading the rest of it.</summary>
public static class RigImports
{
    /// <summary>The paths of its imports, as the compiler asks for them; those of the library are left out.</summary>
    public static IReadOnlyList<string> Of(SourceText source)
    {
        var paths = new List<string>();
        for (var line = 0; line < source.LineCount; line++)
        {
            var span = source.LineSpan(line);
            if (!source.Content.AsSpan(span.Start, span.Length).TrimStart().StartsWith("import", StringComparison.Ordinal))
            {
                continue;
            }
            if (RigParser.Parse(new SourceText(source.Path, source.Slice(span))).Statements is [ImportStatement import, ..]
                && Imports.Resolve(source.Path, import.Path.Text) is { } path && !SharedLibrary.IsShared(path))
            {
                paths.Add(path);
            }
        }
        return paths;
    }
}
