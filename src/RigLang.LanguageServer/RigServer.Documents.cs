using System.Diagnostics.CodeAnalysis;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using RigLang.LanguageServer.Protocol;
using RigLang.Text;

namespace RigLang.LanguageServer;

internal sealed partial class RigServer
{
    public Task DidOpenAsync(JsonElement request)
    {
        if (_phase != Phase.Running || !TryRead(request, ProtocolJson.Default.DidOpenTextDocumentParams, out var opened))
        {
            return Task.CompletedTask;
        }
        // Opened twice: the newer text counts.
        var document = opened.TextDocument;
        var path = PathOf(document.Uri);
        Put(path, new OpenDocument(document.Uri, document.Version, new SourceText(path, document.Text)));
        return Task.CompletedTask;
    }

    public Task DidChangeAsync(JsonElement request)
    {
        if (_phase != Phase.Running)
        {
            return Task.CompletedTask;
        }
        if (!TryRead(request, ProtocolJson.Default.DidChangeTextDocumentParams, out var changed))
        {
            // Whose edit it was can mostly be read; of an edit to nobody knows what, all texts are in doubt.
            foreach (var document in UriIn(request) is { } uri ? [.. Opened(PathOf(uri))] : _workspace.Open.ToList())
            {
                LoseStep(document, "an edit of it could not be read");
            }
        }
        else if (_workspace.Document(PathOf(changed.TextDocument.Uri)) is { } document)
        {
            // A change to what is not open changes nothing: there is no text that it could apply to.
            Change(document with { Version = changed.TextDocument.Version ?? document.Version }, changed.ContentChanges);
        }
        return Task.CompletedTask;
    }

    private IEnumerable<OpenDocument> Opened(string path) => _workspace.Document(path) is { } document ? [document] : [];

    private void Change(OpenDocument document, IReadOnlyList<TextDocumentContentChangeEvent> changes)
    {
        // Before a whole text come only edits that it replaces.
        var whole = changes.ToList().FindLastIndex(c => c.Range is null);
        if (document.IsOutOfStep && whole < 0)
        {
            return;
        }
        var text = document.Text;
        foreach (var change in changes.Skip(Math.Max(0, whole)))
        {
            text = new SourceText(text.Path, change.Range is { } range ? Applied(text, Positions.SpanOf(text, range, _encoding), change.Text) : change.Text);
        }
        Put(text.Path, document with { Text = text, IsOutOfStep = false });
    }

    private static string Applied(SourceText text, TextSpan span, string inserted) =>
        string.Concat(text.Content.AsSpan(0, span.Start), inserted, text.Content.AsSpan(span.End));

    private void Put(string path, OpenDocument document)
    {
        if (IsTooLarge(document.Text))
        {
            LoseStep(document with { Text = new SourceText(path, "") }, $"it is larger than {_host.LargestText / (1024 * 1024.0):0} MB, which no rig is");
            return;
        }
        _workspace.Put(path, document);
        Changed();
    }

    private bool IsTooLarge(SourceText text) => text.Length > _host.LargestText
        || (text.Length > _host.LargestText / 3 && Encoding.UTF8.GetByteCount(text.Content) > _host.LargestText);

    /// <summary>
    /// From here on nobody knows what the editor shows. Findings and answers at wrong places would be worse than none, so there are none
    /// until the text comes as a whole again: by a change without a range, by being opened again, or by being saved.
    /// </summary>
    private void LoseStep(OpenDocument document, string why)
    {
        _workspace.Put(document.Text.Path, document with { IsOutOfStep = true });
        Say($"out of step: {document.Uri}",
            $"{document.Text.Path.Split('/')[^1]} is not checked any more: {why}. Save it, or close and open it again, and it is checked as before.");
        Changed();
    }

    public Task DidSaveAsync(DidSaveTextDocumentParams request)
    {
        var path = PathOf(request.TextDocument.Uri);
        if (_phase == Phase.Running && _workspace.Document(path) is { IsOutOfStep: true } document)
        {
            // What is on the disk now is what the editor shows.
            if ((request.Text ?? _host.Disk.Read(path)) is { } saved)
            {
                Put(path, document with { Text = new SourceText(path, saved), IsOutOfStep = false });
            }
        }
        return Task.CompletedTask;
    }

    public async Task DidCloseAsync(DidCloseTextDocumentParams request)
    {
        var path = PathOf(request.TextDocument.Uri);
        if (_phase != Phase.Running || _workspace.Document(path) is not { } document)
        {
            return;
        }
        _workspace.Close(path);
        _published.Remove(path);
        _tokens.Remove(path);
        if (!_isPulled)
        {
            await _toClient.NotifyAsync("textDocument/publishDiagnostics", new PublishDiagnosticsParams(document.Uri, null, []), ProtocolJson.Default.PublishDiagnosticsParams).ConfigureAwait(true);
        }
        _workspace.ForgetUnused();
        Changed();
    }

    public Task DidChangeWatchedFilesAsync(DidChangeWatchedFilesParams request)
    {
        foreach (var change in request.Changes)
        {
            _workspace.DiskChanged(PathOf(change.Uri), isDeleted: change.Type == 3);
        }
        Changed();
        return Task.CompletedTask;
    }

    public async Task DidChangeWorkspaceFoldersAsync(DidChangeWorkspaceFoldersParams request)
    {
        foreach (var removed in request.Event.Removed)
        {
            _workspace.RemoveFolder(FileUri.ToPath(removed.Uri));
        }
        await LoadFoldersAsync([.. request.Event.Added.Select(f => FileUri.ToPath(f.Uri))]).ConfigureAwait(true);
        Changed();
    }

    public async Task DidChangeConfigurationAsync(DidChangeConfigurationParams request)
    {
        if (_client.Workspace?.Configuration == true)
        {
            await FetchSettingsAsync().ConfigureAwait(true);
        }
        else
        {
            Use(Settings.Read(request.Settings));
        }
        Changed();
    }

    private static bool TryRead<T>(JsonElement json, JsonTypeInfo<T> shape, [NotNullWhen(true)] out T? read)
    {
        try
        {
            read = json.ValueKind == JsonValueKind.Object ? json.Deserialize(shape) : default;
        }
        catch (JsonException)
        {
            read = default;
        }
        return read is not null;
    }

    private static string? UriIn(JsonElement json) =>
        json.ValueKind == JsonValueKind.Object && json.TryGetProperty("textDocument", out var document)
        && document.ValueKind == JsonValueKind.Object && document.TryGetProperty("uri", out var uri) && uri.ValueKind == JsonValueKind.String
            ? uri.GetString()
            : null;
}
