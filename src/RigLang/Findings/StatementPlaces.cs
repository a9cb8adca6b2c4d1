using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Wiring;

namespace RigLang.Findings;

/// <summary>Finds the statement that a place stands in, and what it declares. Made only where there is something to find.</summary>
internal sealed class StatementPlaces(Rig rig)
{
    private readonly Dictionary<SourceText, List<(TextSpan Whole, Statement Statement)>> _bySource = new(ReferenceEqualityComparer.Instance);

    private Dictionary<Statement, Hookup> Hookups => field ??= ByStatement(rig.Wiring.Hookups, h => h.Connection.Statement);

    private ILookup<Statement, DeviceSymbol> Devices => field ??= rig.Names.Devices.ToLookup(d => (Statement)d.Statement, ByReference);

    /// <summary>The top-level statement whose line or block a place is in; null in a line that could not be read, or in the library.</summary>
    public Statement? At(Location at)
    {
        var statements = StatementsOf(at.Source);
        var found = statements.BinarySearch((new TextSpan(at.Span.Start, 0), null!), Comparer<(TextSpan Whole, Statement)>.Create((a, b) => a.Whole.Start.CompareTo(b.Whole.Start)));
        var index = found >= 0 ? found : ~found - 1;
        return index >= 0 && statements[index] is var (whole, statement) && at.Span.Start <= whole.End && statement is not BrokenLine ? statement : null;
    }

    public Hookup? Hookup(ConnectStatement statement) => Hookups.GetValueOrDefault(statement);

    /// <summary>The devices that a statement declares: one, or those of a range.</summary>
    public IEnumerable<DeviceSymbol> DevicesOf(DeviceStatement statement) => Devices[statement];

    /// <summary>The device that a name means in the file of a connection.</summary>
    public DeviceSymbol? Device(ConnectionSymbol connection, string name) => rig.Names.FindDevice(rig.Names.FileAt(connection.At), name);

    private List<(TextSpan Whole, Statement Statement)> StatementsOf(SourceText source)
    {
        if (!_bySource.TryGetValue(source, out var statements))
        {
            var file = rig.Names.Files.FirstOrDefault(f => ReferenceEquals(f.Source, source));
            _bySource[source] = statements = [.. (file?.Statements ?? []).Select(s => (file!.Tree.WholeSpan(s), s))];
            statements.Sort((a, b) => a.Whole.Start.CompareTo(b.Whole.Start));
        }
        return statements;
    }

    private static readonly IEqualityComparer<Statement> ByReference = ReferenceEqualityComparer.Instance;

    private static Dictionary<Statement, T> ByStatement<T>(IEnumerable<T> symbols, Func<T, Statement> statementOf)
    {
        var byStatement = new Dictionary<Statement, T>(ByReference);
        foreach (var symbol in symbols)
        {
            byStatement.TryAdd(statementOf(symbol), symbol);
        }
        return byStatement;
    }
}
