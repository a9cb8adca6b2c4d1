using RigLang.Symbols;
using RigLang.Text;

namespace RigLang.LanguageServer;

/// <summary>What comes with the tool is in no file; for an editor to open it, a copy is put on disk when it is first wanted.</summary>
internal sealed class Library(Disk disk)
{
    private readonly Dictionary<string, string> _copies = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _originals = new(StringComparer.Ordinal);

    /// <summary>The path under which an editor can open a source: its own, or that of a copy.</summary>
    public string CopyOf(SourceText source) => SharedLibrary.IsShared(source.Path) ? Copy(source.Path, source.Content) ?? source.Path : source.Path;

    /// <summary>The compiler's name of a file: of a copy, that of the original.</summary>
    public string PathOf(string path) => _originals.GetValueOrDefault(path, path);

    /// <summary>A page of the tool as a file; null when no copy can be made.</summary>
    public string? Copy(string name, string content)
    {
        if (!_copies.TryGetValue(name, out var copy))
        {
            copy = disk.CopyOfLibrary(name, content);
            if (copy is null)
            {
                return null;
            }
            _copies[name] = copy;
            _originals[copy] = name;
        }
        return copy;
    }
}
