using System.Globalization;
using RigLang.Cli.Files;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>
/// Findings for reading. Each begins with its place, then the line, then what, why and what to do, in one column:
/// <code>
/// trio.rig:14:9  error  polarity-reversed
///
///     14  connect supply.out1 to bass.power with Barrel 1 m
///                 ~~~~~~~~~~~
///   What  …
///   Why   …
///   Do    …
///   See   trio.rig:3:6  the jack is described here
///      3  gear Tern {
///              ~~~~
///   Fix   …
/// </code>
/// </summary>
internal sealed class TextReport(Host host, Terminal terminal, FindingSort sort = FindingSort.Harm) : CheckReport
{
    /// <summary>Where the text column begins: six for a line number or a label, two for air.</summary>
    private const int Gutter = 8;
    private const int WidestExcerpt = 100;

    private readonly TextWriter _out = host.Out;
    /// <summary>With fewer than this the eye finds what matters by itself.</summary>
    private const int ManyFindings = 4;
    private const int MendFirst = 3;

    private readonly Paint _paint = terminal.Paint;
    private readonly List<string> _cautions = [];
    private List<Finding> _worst = [];
    private int _told;
    private SourceText? _onlyFile;

    public override void Add(Compilation rig, IReadOnlyList<Finding> findings)
    {
        if (rig.Findings.IsEmpty)
        {
            WriteFacts(rig);
        }
        WriteAccepted(rig);
        foreach (var finding in sort == FindingSort.Harm ? FindingOrder.ByHarm(findings) : findings)
        {
            Write(finding);
        }
        Remember(findings);
    }

    /// <summary>Of all that was told, what the end speaks of.</summary>
    private void Remember(IReadOnlyList<Finding> findings)
    {
        foreach (var finding in findings)
        {
            _onlyFile = _told++ == 0 || finding.Location.Source == _onlyFile ? finding.Location.Source : null;
            if (finding.Check.Caution is { } caution && !_cautions.Contains(caution))
            {
                _cautions.Add(caution);
            }
        }
        _worst = [.. FindingOrder.ByHarm(_worst.Concat(findings)).Take(MendFirst)];
    }

    public override void Add(FileProblem problem)
        => host.Error.WriteLine($"rig: {Cells.Safe(problem.Path)}: {Cells.Safe(problem.Message)}");

    public override void End(Tally tally)
    {
        if (tally.Rigs == 0)
        {
            return;
        }
        var rigs = Plural.Of(tally.Rigs, "file", "files");
        if (tally.Findings == 0)
        {
            _out.WriteLine(_paint.Good($"Nothing wrong found in {rigs}.") + Unread(tally));
            return;
        }
        var parts = new List<string>(3);
        AddCount(tally.Errors, Severity.Error, "error", "errors");
        AddCount(tally.Warnings, Severity.Warning, "warning", "warnings");
        AddCount(tally.Hints, Severity.Hint, "hint", "hints");
        foreach (var caution in _cautions)
        {
            WriteLabelled("Care", caution);
            _out.WriteLine();
        }
        _out.WriteLine($"{string.Join(", ", parts)} in {rigs}.{Unread(tally)}");
        if (_told >= ManyFindings)
        {
            WriteProse("Mend first: " + string.Join(", ", _worst.Select(f => $"{f.Check.Name} at {Line(f.Location, _onlyFile)}")) + ".");
        }

        void AddCount(int count, Severity severity, string one, string many)
        {
            if (count > 0)
            {
                parts.Add(_paint.Severity(severity, Plural.Of(count, one, many)));
            }
        }
    }

    private static string Unread(Tally tally) =>
        tally.Problems == 0 ? "" : $" {Plural.Of(tally.Problems, "file or folder was", "files or folders were")} not checked.";

    private void WriteFacts(Compilation rig)
    {
        var path = rig.Files.IsEmpty ? "" : Cells.Safe(rig.Files[0].Path);
        if (rig.Facts.IsEmpty)
        {
            _out.WriteLine($"{_paint.Strong(path)}: nothing wrong found");
            _out.WriteLine();
            return;
        }
        _out.WriteLine($"{_paint.Strong(path)} holds:");
        var width = 0;
        foreach (var fact in rig.Facts)
        {
            width = Math.Max(width, Number(fact.Count).Length);
        }
        foreach (var fact in rig.Facts)
        {
            _out.WriteLine($"  {Number(fact.Count).PadLeft(width)}  {Cells.Safe(fact.Text)}");
        }
        _out.WriteLine();
        WriteNotChecked(rig);
        WriteChosenLeads(rig);
    }

    /// <summary>What the player knows of and leaves as it is, with the reason, so that it is read again before the next evening.</summary>
    private void WriteAccepted(Compilation rig)
    {
        if (rig.Accepted.IsEmpty)
        {
            return;
        }
        _out.WriteLine("Accepted:");
        foreach (var finding in rig.Accepted)
        {
            _out.WriteLine($"  {Line(finding.Location, rig.Files[0])}  {Cells.Safe(finding.Check.Name)}: {Cells.Safe(finding.AcceptedBecause!)}");
        }
        _out.WriteLine();
    }

    private void WriteNotChecked(Compilation rig)
    {
        if (rig.NotChecked.IsEmpty)
        {
            return;
        }
        _out.WriteLine("Read, but not checked:");
        var width = rig.NotChecked.Max(f => Number(f.Count).Length);
        foreach (var figures in rig.NotChecked)
        {
            var (line, _) = figures.First.Source.PositionOf(figures.First.Span.Start);
            var place = $"{Cells.Safe(figures.First.Source.Path)}:{line + 1}";
            _out.WriteLine($"  {Number(figures.Count).PadLeft(width)}  {figures.Text} ({(figures.Count == 1 ? "" : "the first at ")}{place})");
        }
        _out.WriteLine();
    }

    /// <summary>A longer list than this is not read; the count stands among the facts.</summary>
    private const int MostChosenLeads = 24;

    private void WriteChosenLeads(Compilation rig)
    {
        if (rig.ChosenLeads.IsEmpty)
        {
            return;
        }
        _out.WriteLine("Where no lead was named:");
        foreach (var chosen in rig.ChosenLeads.Take(MostChosenLeads))
        {
            var count = chosen.Count == 1 ? "" : Number(chosen.Count) + " ";
            _out.WriteLine($"  line {Number(chosen.At.Source.PositionOf(chosen.At.Span.Start).Line + 1)}  {Cells.Safe(chosen.Connection)}: {count}{Cells.Safe(chosen.Lead)}");
        }
        if (rig.ChosenLeads.Length > MostChosenLeads)
        {
            _out.WriteLine($"  and {Number(rig.ChosenLeads.Length - MostChosenLeads)} more");
        }
        _out.WriteLine();
    }

    private void Write(Finding finding)
    {
        var severity = _paint.Severity(finding.Severity, SeverityWord.Of(finding.Severity));
        _out.WriteLine($"{_paint.Strong(Place(finding.Location))}  {severity}  {Cells.Safe(finding.Check.Name)}");
        _out.WriteLine();
        WriteExcerpt(finding.Location, finding.Severity);
        WriteLabelled("What", finding.What);
        WriteLabelled("Why", finding.Why);
        WriteLabelled("Do", finding.Advice);
        foreach (var promise in finding.Breaks)
        {
            WriteLabelled("Fails", $"{promise.Line} ({Line(promise.At, finding.Location.Source)})");
        }
        foreach (var related in finding.Related)
        {
            WriteLabelled("See", $"{Place(related.Location)}  {Cells.Safe(related.Message)}", keepSpaces: true);
            WriteExcerpt(related.Location, null);
        }
        foreach (var fix in finding.Fixes)
        {
            WriteLabelled("Fix", fix.Title);
        }
        _out.WriteLine();
    }

    private void WriteExcerpt(Location location, Severity? severity)
    {
        var excerpt = Excerpt.Of(location.Source, location.Span, Math.Min(WidestExcerpt, terminal.Width - Gutter));
        _out.WriteLine($"{_paint.Faint(Number(excerpt.Line).PadLeft(Gutter - 2))}  {excerpt.Text}".TrimEnd());

        var underline = new string('~', excerpt.MarkWidth);
        _out.Write(new string(' ', Gutter + excerpt.MarkColumn));
        _out.Write(severity is { } s ? _paint.Severity(s, underline) : underline);
        _out.WriteLine(excerpt.LastLine > excerpt.Line ? $" … to line {Number(excerpt.LastLine)}" : "");
    }

    /// <param name="label">At most five letters.</param>
    /// <param name="text">Prose.</param>
    /// <param name="keepSpaces">The text is laid out already and goes on one line as it is.</param>
    private void WriteLabelled(string label, string text, bool keepSpaces = false)
    {
        var head = _paint.Faint($"  {label}".PadRight(Gutter));
        foreach (var line in keepSpaces ? [text] : Wrap.Lines(text, terminal.Width - Gutter))
        {
            _out.WriteLine(head + line);
            head = new string(' ', Gutter);
        }
    }

    private void WriteProse(string text)
    {
        foreach (var line in Wrap.Lines(text, terminal.Width))
        {
            _out.WriteLine(line);
        }
    }

    /// <summary>"line 12" of the file that is spoken of, "trio.rig:12" of another.</summary>
    private static string Line(Location at, SourceText? of)
    {
        var line = Number(at.Source.PositionOf(at.Span.Start).Line + 1);
        return ReferenceEquals(at.Source, of) ? $"line {line}" : $"{Cells.Safe(at.Source.Path)}:{line}";
    }

    private static string Place(Location location)
    {
        var (line, column) = location.Source.PositionOf(location.Span.Start);
        return $"{Cells.Safe(location.Source.Path)}:{Number(line + 1)}:{Number(column + 1)}";
    }

    private static string Number(int value) => value.ToString(CultureInfo.InvariantCulture);
}
