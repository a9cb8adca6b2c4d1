using RigLang.Findings;
using RigLang.Flow;
using RigLang.Symbols;
using RigLang.Syntax;
using RigLang.Text;
using RigLang.Connectors;
using RigLang.Wiring;

namespace RigLang.Checks;

/// <summary>Edits that fixes of findings and actions of an editor both make: lines put in, a name that is free, leads that go.</summary>
internal static class SharedEdits
{
    /// <summary>Where boxes and adapters are taken from.</summary>
    public const string GearLibrary = "shared/gear.rig";

    /// <summary>A statement of its own on the lines behind an offset, whatever else stands on its line.</summary>
    public static TextEdit LineAfter(SourceText source, int offset, string text) =>
        new(source, new TextSpan(source.LineSpan(source.PositionOf(offset).Line).End, 0), source.LineEnd + text.ReplaceLineEndings(source.LineEnd));

    /// <summary>The line that imports a file, at the top and behind a byte order mark; null when the rig has the file already.</summary>
    public static TextEdit? Import(Rig rig, SourceText source, string path) =>
        rig.Names.Files.Any(f => f.Source.Path == path)
            ? null
            : new(source, new TextSpan(source.Content.StartsWith('\uFEFF') ? 1 : 0, 0), $"import \"{path}\"{source.LineEnd}");

    /// <summary>A device behind the last one of the file, and connections behind the one given.</summary>
    public static IEnumerable<TextEdit> Device(Rig rig, ConnectionSymbol connection, string device, params string[] connections)
    {
        var source = connection.At.Source;
        var tree = rig.Names.Files.First(f => f.Source == source).Tree;
        var lines = string.Join('\n', connections);
        if (tree.Statements.OfType<DeviceStatement>().LastOrDefault() is { } last)
        {
            yield return LineAfter(source, tree.WholeSpan(last).End, $"device {device}");
        }
        else
        {
            lines += $"\ndevice {device}";
        }
        yield return LineAfter(source, connection.Statement.Span.End, lines);
    }

    /// <summary>The named leads go; the length of a single one stays. Null when the connection names none.</summary>
    public static TextEdit? WithoutLeads(ConnectionSymbol connection)
    {
        var statement = connection.Statement;
        if (statement.Leads.Count == 0)
        {
            return null;
        }
        var source = connection.At.Source;
        var length = statement.Leads is [{ Length: { } only }] ? $" with {source.Slice(only.Span)}" : "";
        return new(source, TextSpan.Between(statement.To[^1].Span.End, statement.Leads[^1].Span.End), length);
    }

    /// <summary>True when the leads that a connection names, in their order, also fit between these jacks.</summary>
    public static bool Fits(IReadOnlyList<JackSymbol> from, IReadOnlyList<JackSymbol> to, Hookup hookup) =>
        hookup.Connection.Leads.All(l => l.Lead is not null) && hookup.Connection.Leads.Count > 0
        && Harness.Assemble(from, to, hookup.Leads).Fault == HarnessFault.None;
}
