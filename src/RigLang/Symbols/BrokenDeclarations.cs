using RigLang.Syntax;

namespace RigLang.Symbols;

/// <summary>What lines that could not be read seem to declare: it is not told a second time where it is used.</summary>
internal sealed class BrokenDeclarations(IReadOnlyList<FileSymbols> files)
{
    private HashSet<string> Names => field ??= Find();

    public bool Declares(string name) => Names.Contains(name);

    private HashSet<string> Find()
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (var file in files)
        {
            foreach (var broken in file.Statements.OfType<BrokenLine>())
            {
                var words = file.Tree.TokensIn(broken.Span);
                if (words.Length > 1 && words[0].Keyword is Keyword.Gear or Keyword.Lead or Keyword.Device && words[1].IsName)
                {
                    names.Add(words[1].Text!);
                }
            }
        }
        return names;
    }
}
