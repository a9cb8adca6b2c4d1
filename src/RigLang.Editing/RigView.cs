using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Editing;

/// <summary>
/// One file of a compiled rig, as an editor asks about it: what stands where, and what each name means. Offsets are UTF-16 units from
/// the start of the file. Immutable; everything is made when it is first asked for, on one thread.
/// </summary>
public sealed class RigView
{
    private readonly FileSymbols _file;

    private RigView(Compilation compilation, FileSymbols file)
    {
        Compilation = compilation;
        _file = file;
    }

    public Compilation Compilation { get; }

    public SourceText Source => _file.Source;

    internal FileSymbols File => _file;

    /// <summary>What a name means in this file; null for one that means nothing.</summary>
    internal DeviceSymbol? DeviceCalled(string name) => Rig.Names.FindDevice(_file, name);

    /// <inheritdoc cref="DeviceCalled"/>
    internal GearSymbol? GearCalled(string name) => Rig.Names.FindGear(_file, name);

    /// <inheritdoc cref="DeviceCalled"/>
    internal LeadSymbol? LeadCalled(string name) => Rig.Names.FindLead(_file, name);

    /// <summary>The names of this file's imports: the first name of a path that is one of them is no device.</summary>
    internal IReadOnlyList<string> Prefixes => field ??= [.. NamesOfFile.PrefixesOf(_file).Select(p => p.Text).Distinct()];

    /// <summary>The devices that this file can name, as it writes them, in the order of the rig.</summary>
    internal IReadOnlyList<(WrittenName Name, DeviceSymbol Device)> NamedDevices =>
        field ??= [.. from device in Rig.Names.Devices let name = Rig.Names.NameOf(_file, device) where name is not null select (name, device)];

    public SyntaxTree Tree => _file.Tree;

    public Flow.Rig Rig => Compilation.Rig;

    /// <summary>Every name in the file that means something, in its order.</summary>
    public IReadOnlyList<Occurrence> Occurrences => field ??= OccurrenceFinder.In(Rig.Names, _file);

    /// <summary>The file of that path in a compiled rig; null when the rig has no such file.</summary>
    public static RigView? Of(Compilation compilation, string path) =>
        compilation.Rig.Names.Files.FirstOrDefault(f => f.Source.Path == path) is { } file ? new RigView(compilation, file) : null;

    /// <summary>Every file of the rig.</summary>
    public static IEnumerable<RigView> AllOf(Compilation compilation) =>
        compilation.Rig.Names.Files.Select(file => new RigView(compilation, file));

    /// <summary>The name at an offset; just behind its last letter counts, as a caret stands there.</summary>
    public Occurrence? NameAt(int offset)
    {
        if (NearestStatement(offset) is not { } statement)
        {
            return null;
        }
        // The smallest wins: a range out1..out5 covers the names of all its ports.
        Occurrence? found = null;
        foreach (var occurrence in OccurrenceFinder.In(Rig.Names, _file, statement))
        {
            if (occurrence.Span.Start <= offset && occurrence.Span.End >= offset
                && (found is null || occurrence.Span.Length < found.Span.Length || (found.Span.End == offset && occurrence.Span.Start == offset)))
            {
                found = occurrence;
            }
        }
        return found;
    }

    /// <summary>The statement of the file whose line or block an offset is in.</summary>
    public Statement? StatementAt(int offset) => NearestStatement(offset) is { } found && offset <= Tree.WholeSpan(found).End ? found : null;

    /// <summary>The last statement that starts at or before an offset.</summary>
    private Statement? NearestStatement(int offset)
    {
        var statements = Tree.Statements;
        var (low, high) = (0, statements.Count);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (statements[middle].Span.Start <= offset)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }
        return low > 0 ? statements[low - 1] : null;
    }

    /// <summary>The line of a block that an offset is in.</summary>
    public static Statement? LineAt(Statement statement, int offset) =>
        statement.Body.FirstOrDefault(line => line.Span.Start <= offset && offset <= line.Span.End);

    /// <inheritdoc cref="SyntaxTree.WholeSpan"/>
    public TextSpan WholeSpan(Statement statement) => Tree.WholeSpan(statement);
}
