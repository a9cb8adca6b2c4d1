using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using RigLang.Checks;
using RigLang.Editing;
using RigLang.Findings;
using RigLang.LanguageServer.Protocol;
using RigLang.Symbols;

namespace RigLang.LanguageServer;

internal sealed partial class RigServer
{
    /// <summary>What was last published for each open document.</summary>
    private readonly Dictionary<string, (int Version, IReadOnlyList<Diagnostic> Diagnostics)> _published = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _pages = new(StringComparer.Ordinal);
    private int _generation;

    /// <summary>
    /// Something changed that findings may depend on. They are told when all edits that came in the meantime are taken in: each
    /// edit queues its telling behind those that wait already, and only the newest is carried out.
    /// </summary>
    private void Changed()
    {
        var generation = ++_generation;
        _queue.Post(
            _ =>
            {
                if (generation == _generation && _phase == Phase.Running)
                {
                    TellWhenHeard();
                }
            },
            null);
    }

    /// <summary>A client that has not taken in what it was told last is told the newest when it has, and nothing in between.</summary>
    private void TellWhenHeard()
    {
        if (!_told.IsCompleted)
        {
            if (!_waitsToTell)
            {
                _waitsToTell = true;
                _ = _told.ContinueWith(
                    _ => _queue.Post(
                        _ =>
                        {
                            _waitsToTell = false;
                            Changed();
                        },
                        null),
                    TaskScheduler.Default);
            }
            return;
        }
        try
        {
            Tell();
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            SayFailed("Checking", fault);
        }
    }

    private Task _told = Task.CompletedTask;
    private bool _waitsToTell;

    private void Tell()
    {
        if (_isPulled)
        {
            if (_client.Workspace?.Diagnostics?.IsSupported == true)
            {
                _told = _toClient.AskAsync("workspace/diagnostic/refresh", new Nothing(), ProtocolJson.Default.Nothing);
            }
            return;
        }
        var sent = new List<Task>();
        foreach (var document in _workspace.Open.ToList())
        {
            var path = document.Text.Path;
            var diagnostics = DiagnosticsOf(path);
            // What other documents are told changes only when it changes; the edited one learns that its version has been read.
            if (_published.TryGetValue(path, out var before) && before.Version == document.Version && IsSame(before.Diagnostics, diagnostics))
            {
                continue;
            }
            _published[path] = (document.Version, diagnostics);
            sent.Add(_toClient.NotifyAsync("textDocument/publishDiagnostics", new PublishDiagnosticsParams(document.Uri, document.Version, diagnostics), ProtocolJson.Default.PublishDiagnosticsParams));
            if (_wantsStatus && _workspace.RootsOf(path) is [var root, ..] && _workspace.CompilationOf(root) is { } compilation)
            {
                sent.Add(_toClient.NotifyAsync("rig/status", StatusOf(document.Uri, compilation), ProtocolJson.Default.StatusParams));
            }
        }
        _told = Task.WhenAll(sent);
    }

    private StatusParams StatusOf(string uri, Compilation compilation)
    {
        return new StatusParams(
            uri,
            compilation.Facts.Sum(f => f.Count),
            Count(Severity.Error),
            Count(Severity.Warning),
            Count(Severity.Hint),
            !compilation.Findings.Any(f => f.Severity >= _settings.FailOn),
            [.. compilation.Facts.Select(f => $"{f.Count} {f.Text}")]);

        int Count(Severity severity) => compilation.Findings.Sum(f => f.Severity == severity ? f.Count : 0);
    }

    private IReadOnlyList<Diagnostic> DiagnosticsOf(string path)
    {
        if (SharedLibrary.IsShared(path) || _workspace.Document(path) is { IsOutOfStep: true })
        {
            return [];
        }
        var told = new HashSet<(string, Text.TextSpan, string)>();
        var diagnostics = new List<Diagnostic>();
        // A file in two rigs has the findings of both, each once.
        foreach (var finding in FindingsIn(path))
        {
            if (told.Add((finding.Check.Name, finding.Location.Span, finding.What)))
            {
                diagnostics.Add(DiagnosticOf(finding));
            }
        }
        return diagnostics;
    }

    private IEnumerable<Finding> FindingsIn(string path) => _workspace.RootsOf(path)
        .Select(_workspace.CompilationOf)
        .SelectMany(c => c is null ? [] : c.Findings.Concat(c.Accepted).Where(f => f.Location.Source.Path == path));

    private Diagnostic DiagnosticOf(Finding finding) => new(
        RangeOf(finding.Location.Source, finding.Location.Span),
        finding.AcceptedBecause is not null ? 4 : finding.Severity switch { Severity.Error => 1, Severity.Warning => 2, _ => 4 },
        finding.Check.Name,
        PageOf(finding.Check) is { } page ? new CodeDescription(page) : null,
        "rig",
        FindingText.Of(finding),
        finding.AcceptedBecause is not null || finding.Check is Checks.Midi.IdleFilter ? [1] : null,
        finding.Related.IsEmpty && finding.Breaks.IsEmpty ? null
            : [
                .. finding.Breaks.Select(p => new DiagnosticRelatedInformation(LocationOf(p.At), $"{p.Line} fails")),
                .. finding.Related.Select(r => new DiagnosticRelatedInformation(LocationOf(r.Location), r.Message)),
            ]);

    /// <summary>The page of a check as a file, so that the link behind its name works without a network.</summary>
    private string? PageOf(Check check)
    {
        if (!_pages.TryGetValue(check.Name, out var page))
        {
            page = _library.Copy($"checks/{check.Name}.md", CheckText.Markdown(check)) is { } path ? FileUri.FromPath(path) : "";
            _pages[check.Name] = page;
        }
        return page.Length == 0 ? null : page;
    }

    private static bool IsSame(IReadOnlyList<Diagnostic> one, IReadOnlyList<Diagnostic> other) => one.Count == other.Count
        && JsonSerializer.SerializeToUtf8Bytes(new PublishDiagnosticsParams("", null, one), ProtocolJson.Default.PublishDiagnosticsParams).AsSpan()
            .SequenceEqual(JsonSerializer.SerializeToUtf8Bytes(new PublishDiagnosticsParams("", null, other), ProtocolJson.Default.PublishDiagnosticsParams));

    public Task<DocumentDiagnosticReport> DiagnosticAsync(DocumentDiagnosticParams request, CancellationToken token)
    {
        Guard();
        token.ThrowIfCancellationRequested();
        var diagnostics = DiagnosticsOf(PathOf(request.TextDocument.Uri));
        var id = ResultIdOf(diagnostics);
        return Task.FromResult(request.PreviousResultId == id
            ? new DocumentDiagnosticReport("unchanged", id, null)
            : new DocumentDiagnosticReport("full", id, diagnostics));
    }

    public Task<WorkspaceDiagnosticReport> WorkspaceDiagnosticAsync(WorkspaceDiagnosticParams request, CancellationToken token)
    {
        Guard();
        token.ThrowIfCancellationRequested();
        var before = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var known in request.PreviousResultIds)
        {
            before[PathOf(known.Uri)] = known.Value;
        }
        var items = new List<WorkspaceDocumentDiagnosticReport>();
        foreach (var path in _workspace.Paths)
        {
            token.ThrowIfCancellationRequested();
            var document = _workspace.Document(path);
            var diagnostics = DiagnosticsOf(path);
            var id = ResultIdOf(diagnostics);
            var isSame = before.TryGetValue(path, out var previous) && previous == id;
            items.Add(new WorkspaceDocumentDiagnosticReport(
                isSame ? "unchanged" : "full", document?.Uri ?? FileUri.FromPath(path), document?.Version, id, isSame ? null : diagnostics));
        }
        return Task.FromResult(new WorkspaceDiagnosticReport(items));
    }

    /// <summary>The same findings have the same id, in this process and the next.</summary>
    private static string ResultIdOf(IReadOnlyList<Diagnostic> diagnostics) => Convert.ToHexStringLower(SHA256.HashData(
        JsonSerializer.SerializeToUtf8Bytes(new PublishDiagnosticsParams("", null, diagnostics), ProtocolJson.Default.PublishDiagnosticsParams)).AsSpan(0, 8));
}
