using RigLang.Cli.Files;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>Findings for other programs. Each is listed under the file it is in, an import's under the import.</summary>
internal sealed class JsonReport(Host host) : CheckReport
{
    private readonly List<FileEntry> _files = [];
    private readonly Dictionary<string, FileEntry> _byPath = new(StringComparer.Ordinal);
    private readonly List<ProblemEntry> _problems = [];

    public override void Add(Compilation rig, IReadOnlyList<Finding> findings)
    {
        if (!rig.Files.IsEmpty)
        {
            var facts = FileOf(rig.Files[0].Path).Facts;
            foreach (var fact in rig.Facts)
            {
                facts.Add(new(fact.Count, fact.Text));
            }
            var notChecked = FileOf(rig.Files[0].Path).NotChecked;
            foreach (var figures in rig.NotChecked)
            {
                var first = figures.First;
                notChecked.Add(new(figures.Count, figures.Text, first.Source.Path, PlaceOf(first.Source, first.Span.Start)));
            }
        }
        foreach (var chosen in rig.ChosenLeads)
        {
            var (start, end) = Ends(chosen.At.Source, chosen.At.Span);
            FileOf(chosen.At.Source.Path).ChosenLeads.Add(new(start, end, chosen.Connection, chosen.Lead, chosen.Count));
        }
        foreach (var finding in rig.Accepted)
        {
            var (start, end) = Ends(finding.Location.Source, finding.Location.Span);
            FileOf(finding.Location.Source.Path).Accepted.Add(new(finding.Check.Name, start, end, finding.What, finding.AcceptedBecause!));
        }
        foreach (var finding in findings)
        {
            FileOf(finding.Location.Source.Path).Findings.Add(Entry(finding));
        }
    }

    public override void Add(FileProblem problem) => _problems.Add(new(problem.Path, problem.Message));

    public override void End(Tally tally) => JsonOut.Write(
        host,
        new CheckDocument(
            CheckDocument.CurrentVersion, _files, new(tally.Errors, tally.Warnings, tally.Hints), _problems),
        DocumentContext.Default.CheckDocument);

    private FileEntry FileOf(string path)
    {
        if (!_byPath.TryGetValue(path, out var file))
        {
            _byPath[path] = file = new(path, [], [], [], [], []);
            _files.Add(file);
        }
        return file;
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
