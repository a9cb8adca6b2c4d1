using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using RigLang.Cli.Files;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>
/// Findings for other programs, see <see cref="CheckDocument"/>. Each is listed under the file it is in, an import's under the import. The entry of a file
/// that is checked itself is written at once; that of an import waits for its turn to be checked, or for the end.
/// </summary>
internal sealed class JsonReport(Host host) : CheckReport
{
    private readonly List<string> _waiting = [];
    private readonly Dictionary<string, FileEntry> _parts = new(StringComparer.Ordinal);
    private readonly List<ProblemEntry> _problems = [];
    private Utf8JsonWriter? _out;

    public override void Add(Compilation rig, IReadOnlyList<Finding> findings)
    {
        var root = rig.Files.IsEmpty ? null : rig.Files[0].Path;
        foreach (var chosen in rig.ChosenLeads)
        {
            PartsOf(chosen.At.Source.Path).ChosenLeads.Add(Entry(chosen));
        }
        foreach (var finding in rig.Accepted)
        {
            PartsOf(finding.Location.Source.Path).Accepted.Add(Accepted(finding));
        }
        foreach (var finding in findings)
        {
            if (finding.Location.Source.Path != root)
            {
                PartsOf(finding.Location.Source.Path).Findings.Add(Entry(finding));
            }
        }
        if (root is not null)
        {
            Write(PartsOf(root), findings.Where(finding => finding.Location.Source.Path == root), rig);
            _parts.Remove(root);
        }
    }

    /// <summary>What is known of a file and not yet written.</summary>
    private FileEntry PartsOf(string path)
    {
        if (!_parts.TryGetValue(path, out var file))
        {
            _parts[path] = file = new(path, [], [], [], [], []);
            _waiting.Add(path);
        }
        return file;
    }

    public override void Add(FileProblem problem) => _problems.Add(new(problem.Path, problem.Message));

    public override void End(Tally tally)
    {
        foreach (var path in _waiting)
        {
            if (_parts.Remove(path, out var file))
            {
                Write(file, [], null);
            }
        }
        var json = Out;
        json.WriteEndArray();
        json.WritePropertyName("summary");
        JsonSerializer.Serialize(json, new SummaryEntry(tally.Errors, tally.Warnings, tally.Hints), DocumentContext.Default.SummaryEntry);
        List("problems", _problems, DocumentContext.Default.ProblemEntry);
        json.WriteEndObject();
        JsonOut.End(json, host);
    }

    /// <summary>The document, begun with the first file.</summary>
    private Utf8JsonWriter Out
    {
        get
        {
            if (_out is null)
            {
                _out = JsonOut.Begin(host);
                _out.WriteStartObject();
                _out.WriteNumber("version", CheckDocument.CurrentVersion);
                _out.WriteStartArray("files");
            }
            return _out;
        }
    }

    /// <param name="findings">Besides those that the entry holds.</param>
    /// <param name="rig">The file's own rig, where it was checked itself.</param>
    private void Write(FileEntry file, IEnumerable<Finding> findings, Compilation? rig)
    {
        Out.WriteStartObject();
        Out.WriteString("path", file.Path);
        List("findings", file.Findings.Concat(findings.Select(Entry)), DocumentContext.Default.FindingEntry);
        List("facts", rig is null ? [] : rig.Facts.Select(fact => new FactEntry(fact.Count, fact.Text)), DocumentContext.Default.FactEntry);
        List("notChecked", rig is null ? [] : rig.NotChecked.Select(Entry), DocumentContext.Default.NotCheckedEntry);
        List("chosenLeads", file.ChosenLeads, DocumentContext.Default.ChosenLeadEntry);
        List("accepted", file.Accepted, DocumentContext.Default.AcceptedEntry);
        Out.WriteEndObject();
        Out.Flush();
    }

    /// <summary>One entry after the other, each handed over as it is made.</summary>
    private void List<T>(string name, IEnumerable<T> entries, JsonTypeInfo<T> shape)
    {
        Out.WriteStartArray(name);
        foreach (var entry in entries)
        {
            JsonSerializer.Serialize(Out, entry, shape);
            JsonOut.Pass(Out);
        }
        Out.WriteEndArray();
    }

    private static NotCheckedEntry Entry(UncheckedFigures figures) =>
        new(figures.Count, figures.Text, figures.First.Source.Path, PlaceOf(figures.First.Source, figures.First.Span.Start));

    private static ChosenLeadEntry Entry(ChosenLead chosen)
    {
        var (start, end) = Ends(chosen.At.Source, chosen.At.Span);
        return new(start, end, chosen.Connection, chosen.Lead, chosen.Count);
    }

    private static AcceptedEntry Accepted(Finding finding)
    {
        var (start, end) = Ends(finding.Location.Source, finding.Location.Span);
        return new(finding.Check.Name, start, end, finding.What, finding.AcceptedBecause!);
    }

    private static FindingEntry Entry(Finding finding)
    {
        var (start, end) = Ends(finding.Location.Source, finding.Location.Span);
        return new(
            finding.Check.Name,
            SeverityWord.Of(finding.Severity),
            start,
            end,
            finding.What,
            finding.Why,
            finding.Advice,
            HarmWord.Of(finding.Harm),
            finding.Check.Caution,
            [.. finding.Breaks.Select(Entry)],
            [.. finding.Related.Select(Entry)],
            [.. finding.Fixes.Select(Entry)]);
    }

    private static BrokenPromiseEntry Entry(BrokenPromise promise)
    {
        var (start, end) = Ends(promise.At.Source, promise.At.Span);
        return new(promise.At.Source.Path, start, end, promise.Text, promise.Must);
    }

    private static RelatedEntry Entry(RelatedPlace related)
    {
        var (start, end) = Ends(related.Location.Source, related.Location.Span);
        return new(related.Location.Source.Path, start, end, related.Message);
    }

    private static FixEntry Entry(Fix fix) => new(fix.Title, fix.IsSafe, [.. fix.Edits.Select(Entry)]);

    private static EditEntry Entry(TextEdit edit)
    {
        var (start, end) = Ends(edit.Source, edit.Span);
        return new(edit.Source.Path, start, end, edit.NewText);
    }

    private static (PlaceEntry Start, PlaceEntry End) Ends(SourceText source, TextSpan span)
        => (PlaceOf(source, span.Start), PlaceOf(source, span.End));

    private static PlaceEntry PlaceOf(SourceText source, int offset)
    {
        offset = Math.Clamp(offset, 0, source.Length);
        var (line, column) = source.PositionOf(offset);
        return new(line + 1, column + 1, offset);
    }
}
