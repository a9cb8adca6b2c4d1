using RigLang.Connectors;
using RigLang.Parsing;
using RigLang.Syntax;
using RigLang.Text;

namespace RigLang.Symbols;

/// <summary>
/// The gear and leads of a library file: found by their first lines, and read when they are first asked for. A rig uses a few of
/// them, and reading all would take most of the time of a check. Relies on the library being formatted: a declaration starts
/// and its block ends at the left margin. A test holds that it finds what the parser finds.
/// </summary>
public sealed class LibraryFile
{
    private readonly SourceText _source;
    private readonly Reading _reading;
    private readonly NameTable _words = new();
    private readonly Dictionary<string, Declared> _gear = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Declared> _leads = new(StringComparer.Ordinal);

    public LibraryFile(SourceText source)
    {
        _source = source;
        _reading = new Reading(source, []);
        FindDeclarations();
    }

    public IReadOnlyCollection<string> GearNames => _gear.Keys;

    public IReadOnlyCollection<string> LeadNames => _leads.Keys;

    /// <summary>Where the gear of that name is declared; null when it is not here.</summary>
    public Location? GearAt(string name) => _gear.TryGetValue(name, out var declared) ? _reading.At(declared.Name) : null;

    /// <inheritdoc cref="GearAt"/>
    public Location? LeadAt(string name) => _leads.TryGetValue(name, out var declared) ? _reading.At(declared.Name) : null;

    public GearSymbol? FindGear(string name) => (GearSymbol?)Find(_gear, name);

    public LeadSymbol? FindLead(string name) => (LeadSymbol?)Find(_leads, name);

    /// <summary>The leads whose first line names a plug of each of two sets; the others are not read for it.</summary>
    public IEnumerable<LeadSymbol> LeadsBetween(IReadOnlyList<Form> one, IReadOnlyList<Form> other)
    {
        foreach (var (name, declared) in _leads)
        {
            if (Names(declared, one) && Names(declared, other))
            {
                yield return FindLead(name)!;
            }
        }

        bool Names(Declared lead, IReadOnlyList<Form> forms)
        {
            var line = _source.Content.AsSpan(lead.Name.End, lead.LineEnd - lead.Name.End);
            foreach (var form in forms)
            {
                if (line.Contains(form.Name, StringComparison.Ordinal))
                {
                    return true;
                }
            }
            return false;
        }
    }

    internal GatheredList<GearSymbol> AllGear() => [.. _gear.Keys.Select(name => FindGear(name)!)];

    internal GatheredList<LeadSymbol> AllLeads() => [.. _leads.Keys.Select(name => FindLead(name)!)];

    /// <summary>One symbol a name for the life of the process, whoever asks.</summary>
    private object? Find(Dictionary<string, Declared> table, string name)
    {
        if (!table.TryGetValue(name, out var declared))
        {
            return null;
        }
        lock (_words)
        {
            return declared.Symbol ??= Read(declared.All);
        }
    }

    private object Read(TextSpan declaration) =>
        RigParser.Parse(_source, Lexer.Lex(_source, declaration, _words)).Statements[0] switch
        {
            GearStatement gear => GearReader.Read(gear, _reading),
            LeadStatement lead => LeadReader.Read(lead, _reading),
            var other => throw new InvalidOperationException($"{_source.Path} has a {other.GetType().Name} where a declaration should be."),
        };

    private void FindDeclarations()
    {
        var text = _source.Content;
        for (var line = 0; line < text.Length; line = NextLine(line))
        {
            var rest = text.AsSpan(line);
            var table = rest.StartsWith("gear ") ? _gear : rest.StartsWith("lead ") ? _leads : null;
            if (table is null)
            {
                continue;
            }
            var start = line + "gear ".Length;
            var name = new TextSpan(start, text.AsSpan(start).IndexOfAny(" \r\n"));
            var lineEnd = NextLine(line);
            var end = lineEnd;
            if (text.AsSpan(line, end - line).TrimEnd().EndsWith('{'))
            {
                end += text.AsSpan(end).IndexOf("\n}") + 2;
            }
            table.TryAdd(_source.Slice(name), new Declared(name, lineEnd, TextSpan.Between(line, end)));
        }

        int NextLine(int from) => text.IndexOf('\n', from) is >= 0 and var end ? end + 1 : text.Length;
    }

    private sealed class Declared(TextSpan name, int lineEnd, TextSpan all)
    {
        public TextSpan Name { get; } = name;
        public int LineEnd { get; } = lineEnd;
        public TextSpan All { get; } = all;
        public object? Symbol { get; set; }
    }
}
