using System.Text.Json;
using RigLang.Checks;
using RigLang.Cli.Files;
using RigLang.Findings;
using RigLang.Text;

namespace RigLang.Cli.Output;

/// <summary>Findings as OASIS SARIF 2.1.0, which code hosts and editors read.</summary>
internal sealed class SarifReport : CheckReport
{
    private const string SchemaUri =
        "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    private readonly Host _host;
    private Utf8JsonWriter? _out;
    private readonly List<SarifRule> _rules = [];
    private readonly Dictionary<string, int> _ruleIndex = new(StringComparer.Ordinal);
    private readonly List<SarifNotification> _notifications = [];

    public SarifReport(Host host)
    {
        _host = host;
        foreach (var check in CheckList.All)
        {
            RuleIndexOf(check);
        }
    }

    public override void Add(Compilation rig, IReadOnlyList<Finding> findings)
    {
        foreach (var finding in findings.Concat(rig.Accepted))
        {
            JsonSerializer.Serialize(Out, Result(finding), SarifContext.Default.SarifResult);
            JsonOut.Pass(Out);
        }
    }

    public override void Add(FileProblem problem) => _notifications.Add(new(
        "error",
        Plain($"{problem.Path}: {problem.Message}"),
        [new(new(ArtifactAt(problem.Path)))]));

    /// <summary>What holds of the whole run stands behind its results, since it is known last.</summary>
    public override void End(Tally tally)
    {
        var json = Out;
        json.WriteEndArray();
        json.WritePropertyName("tool");
        JsonSerializer.Serialize(json, new SarifTool(new("rig", ToolVersion.Number, ToolVersion.Number, _rules)), SarifContext.Default.SarifTool);
        json.WriteStartArray("invocations");
        JsonSerializer.Serialize(json, new SarifInvocation(_notifications.Count == 0, _notifications), SarifContext.Default.SarifInvocation);
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndArray();
        json.WriteEndObject();
        JsonOut.End(json, _host);
    }

    /// <summary>The log, begun with the first result.</summary>
    private Utf8JsonWriter Out
    {
        get
        {
            if (_out is null)
            {
                _out = JsonOut.Begin(_host);
                _out.WriteStartObject();
                _out.WriteString("$schema", SchemaUri);
                _out.WriteString("version", "2.1.0");
                _out.WriteStartArray("runs");
                _out.WriteStartObject();
                _out.WriteString("columnKind", "utf16CodeUnits");
                _out.WriteStartArray("newlineSequences");
                foreach (var newLine in (string[])["\r\n", "\n", "\r"])
                {
                    _out.WriteStringValue(newLine);
                }
                _out.WriteEndArray();
                _out.WriteStartArray("results");
            }
            return _out;
        }
    }

    private int RuleIndexOf(Check check)
    {
        if (!_ruleIndex.TryGetValue(check.Name, out var index))
        {
            _ruleIndex[check.Name] = index = _rules.Count;
            _rules.Add(new(
                check.Name,
                Plain(check.Title),
                Plain(check.Why),
                Plain(CheckPage.PlainText(check)),
                new(Level(check.Severity))));
        }
        return index;
    }

    private SarifResult Result(Finding finding)
    {
        var related = new List<SarifLocation>();
        foreach (var place in finding.Related)
        {
            related.Add(At(place.Location) with { Id = related.Count + 1, Message = Plain(place.Message) });
        }
        foreach (var promise in finding.Breaks)
        {
            related.Add(At(promise.At) with { Id = related.Count + 1, Message = Plain($"{promise.Line} fails") });
        }
        var fixes = new List<SarifFix>();
        foreach (var fix in finding.Fixes)
        {
            fixes.Add(FixOf(fix));
        }
        return new(
            finding.Check.Name,
            RuleIndexOf(finding.Check),
            Level(finding.Severity),
            Plain(FindingText.Of(finding)),
            [At(finding.Location)],
            related.Count == 0 ? null : related,
            fixes.Count == 0 ? null : fixes,
            finding.AcceptedBecause is { } reason ? [new("inSource", reason)] : null);
    }

    private static SarifFix FixOf(Fix fix)
    {
        var changes = new List<SarifArtifactChange>();
        foreach (var edits in fix.Edits.GroupBy(e => e.Source.Path, StringComparer.Ordinal))
        {
            changes.Add(new(
                ArtifactAt(edits.Key),
                [.. edits.Select(e => new SarifReplacement(RegionOf(e.Source, e.Span), new(e.NewText)))]));
        }
        return new(Plain(fix.Title), changes);
    }

    private static SarifLocation At(Location location)
        => new(new(ArtifactAt(location.Source.Path), RegionOf(location.Source, location.Span)));

    private static SarifRegion RegionOf(SourceText source, TextSpan span)
    {
        var start = Math.Clamp(span.Start, 0, source.Length);
        var end = Math.Clamp(span.End, start, source.Length);
        var (startLine, startColumn) = source.PositionOf(start);
        var (endLine, endColumn) = source.PositionOf(end);
        return new(startLine + 1, startColumn + 1, endLine + 1, endColumn + 1, start, end - start);
    }

    private static SarifArtifactLocation ArtifactAt(string path) => new(UriOf(path));

    /// <summary>RFC 3986: a relative path stays relative, each part percent-encoded; an absolute one becomes a file URI.</summary>
    internal static string UriOf(string path)
    {
        var isDrive = path.Length >= 3 && char.IsAsciiLetter(path[0]) && path[1] == ':' && path[2] == '/';
        var parts = path.Split('/');
        for (var i = 0; i < parts.Length; i++)
        {
            // Lone surrogates have no UTF-8 form; they become U+FFFD.
            parts[i] = isDrive && i == 0 ? parts[i] : Uri.EscapeDataString(Host.Utf8.GetString(Host.Utf8.GetBytes(parts[i])));
        }
        var encoded = string.Join('/', parts);
        return isDrive ? "file:///" + encoded
            : path.StartsWith('/') ? "file://" + encoded
            : encoded;
    }

    private static SarifMessage Plain(string text) => new(Escape(text));

    /// <summary>
    /// 3.11.5: braces mark placeholders, so a literal one is doubled. 3.11.6: brackets mark links, and a rig may come from a stranger, so
    /// that a literal one and the backslash itself get a backslash.
    /// </summary>
    private static string Escape(string text) =>
        text.Replace("{", "{{").Replace("}", "}}").Replace("\\", "\\\\").Replace("[", "\\[").Replace("]", "\\]");

    private static string Level(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "note",
    };
}
