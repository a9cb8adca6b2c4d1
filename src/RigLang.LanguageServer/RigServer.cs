using System.Diagnostics.CodeAnalysis;
using System.IO.Pipelines;
using System.Runtime.CompilerServices;
using System.Text.Json;
using Microsoft.VisualStudio.Threading;
using PolyType;
using RigLang.Editing;
using RigLang.LanguageServer.Protocol;
using RigLang.Text;
using StreamJsonRpc;
using StreamJsonRpc.Protocol;
using Range = RigLang.LanguageServer.Protocol.Range;

namespace RigLang.LanguageServer;

/// <summary>
/// One session with one client. Its duties: keep the documents as the client has them, answer each request from the newest state, and
/// tell what is wrong as soon as the client pauses. Messages are taken one after the other, in the order in which they
/// came; what they see never changes while they look. All thinking is done by the compiler and RigLang.Editing.
/// </summary>
internal sealed partial class RigServer : IRigProtocol, IDisposable
{
    private const int NotInitialized = -32002;

    private readonly ServerHost _host;
    private readonly Workspace _workspace;
    private readonly NonConcurrentSynchronizationContext _queue = new(sticky: false);
    private readonly Library _library;
    private readonly Pace _pace;
    private readonly IdleTidying _tidying;
    private readonly TaskCompletionSource _exit = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly HashSet<string> _said = new(StringComparer.Ordinal);
    private ClientSide _toClient = null!;
    private ClientWatch? _watch;
    private ClientCapabilities _client = new();
    private PositionEncoding _encoding = PositionEncoding.Utf16;
    private Settings _settings = Settings.Default;
    private Phase _phase = Phase.Created;
    private bool _wantsStatus;
    private bool _isPulled;
    private IReadOnlyList<string> _folders = [];

    private enum Phase
    {
        Created,
        Running,
        ShutDown,
    }

    private RigServer(ServerHost host)
    {
        _host = host;
        _workspace = new Workspace(host.Disk);
        _library = new Library(host.Disk);
        _tidying = new IdleTidying(_queue);
        _pace = new Pace(_queue, _tidying.WorkDone);
    }

    /// <inheritdoc cref="Session.RunAsync"/>
    public static async Task<int> RunAsync(PipeReader input, PipeWriter output, ServerHost host)
    {
        using var server = new RigServer(host);
        var framing = new Framing(output, input, NewFormatter(), server._pace, why => server.Log(why));
        using var rpc = new QuietRpc(framing) { SynchronizationContext = server._queue };
        rpc.AddLocalRpcTarget(RpcTargetMetadata.FromShape<IRigProtocol>(), (IRigProtocol)server, null);
        server._toClient = new ClientSide(rpc);
        rpc.StartListening();
        try
        {
            // The connection ends by itself when the client hangs up; a read that waits for more cannot be called off when it says exit.
            await (await Task.WhenAny(rpc.Completion, server._exit.Task).ConfigureAwait(false)).ConfigureAwait(false);
            await framing.AllAnsweredAsync().ConfigureAwait(false);
        }
        catch (Exception e) when (e is ConnectionLostException or IOException or OperationCanceledException or ObjectDisposedException)
        {
            // The client went away without a word: nothing is left to be said.
        }
        return server._phase == Phase.ShutDown ? 0 : 1;
    }

    [UnconditionalSuppressMessage("Trimming", "IL2026", Justification = NoReflection)]
    [UnconditionalSuppressMessage("AOT", "IL3050", Justification = NoReflection)]
    private static SystemTextJsonFormatter NewFormatter() => new() { JsonSerializerOptions = new JsonSerializerOptions(ProtocolJson.Default.Options) };

    private const string NoReflection = "Every shape comes from ProtocolJson; a test of the native program calls the server.";

    public void Dispose()
    {
        _watch?.Dispose();
        _tidying.Dispose();

    }

    // Life.

    public Task<InitializeResult> InitializeAsync(InitializeParams request, CancellationToken token)
    {
        if (_phase != Phase.Created)
        {
            throw Refusal(JsonRpcErrorCode.InvalidRequest, "The server is initialized already.");
        }
        _phase = Phase.Running;
        _client = request.Capabilities ?? new ClientCapabilities();
        _encoding = Positions.Negotiate(_client.General?.PositionEncodings);
        _settings = Settings.Read(request.InitializationOptions);
        _wantsStatus = Flag(request.InitializationOptions, "status");
        // A client that can do both gets diagnostics pushed: they come with a version, and without being asked for.
        _isPulled = _client.TextDocument is { Diagnostic: not null, PublishDiagnostics: null } || Flag(request.InitializationOptions, "pullDiagnostics");
        _folders = request.WorkspaceFolders is { } folders ? [.. folders.Select(f => f.Uri)] : request.RootUri is { } root ? [root] : [];
        _watch = ClientWatch.Of(request.ProcessId, () => _exit.TrySetResult());
        return Task.FromResult(new InitializeResult(Capabilities.Of(_encoding, _isPulled), new ServerInfo("rig", _host.Version)));
    }

    public async Task InitializedAsync(Nothing request)
    {
        if (_phase != Phase.Running)
        {
            return;
        }
        await LoadFoldersAsync([.. _folders.Select(FileUri.ToPath)]).ConfigureAwait(true);
        if (_client.Workspace?.DidChangeWatchedFiles?.IsSupported == true)
        {
            await WatchAsync().ConfigureAwait(true);
        }
        if (_client.Workspace?.Configuration == true)
        {
            await FetchSettingsAsync().ConfigureAwait(true);
        }
        Changed();
    }

    public Task<object?> ShutdownAsync()
    {
        Guard();
        _phase = Phase.ShutDown;
        return Task.FromResult<object?>(null);
    }

    public Task ExitAsync()
    {
        _exit.TrySetResult();
        return Task.CompletedTask;
    }

    public Task SetTraceAsync(SetTraceParams request) => Task.CompletedTask;

    public Task CancelProgressAsync(Nothing request) => Task.CompletedTask;

    /// <summary>Reads the folders' rigs, so that it is known who imports what, and says how far it is.</summary>
    private async Task LoadFoldersAsync(IReadOnlyList<string> folders)
    {
        if (folders.Count == 0)
        {
            return;
        }
        var progress = _client.Window?.WorkDoneProgress == true ? $"rig-load-{Guid.NewGuid():N}" : null;
        if (progress is not null)
        {
            await _toClient.AskAsync("window/workDoneProgress/create", new WorkDoneProgressCreateParams(progress), ProtocolJson.Default.WorkDoneProgressCreateParams).ConfigureAwait(true);
        }
        await ReportAsync(progress, new WorkDoneProgressBegin("Reading rigs", false, 0), ProtocolJson.Default.WorkDoneProgressBegin).ConfigureAwait(true);
        for (var i = 0; i < folders.Count; i++)
        {
            _workspace.AddFolder(folders[i]);
            await ReportAsync(progress, new WorkDoneProgressReport(folders[i], 100 * (i + 1) / folders.Count), ProtocolJson.Default.WorkDoneProgressReport).ConfigureAwait(true);
        }
        await ReportAsync(progress, new WorkDoneProgressEnd($"{_workspace.Paths.Count()} rig files"), ProtocolJson.Default.WorkDoneProgressEnd).ConfigureAwait(true);
    }

    private Task ReportAsync<T>(string? progress, T value, System.Text.Json.Serialization.Metadata.JsonTypeInfo<T> shape) => progress is null
        ? Task.CompletedTask
        : _toClient.NotifyAsync("$/progress", new ProgressParams(progress, JsonSerializer.SerializeToElement(value, shape)), ProtocolJson.Default.ProgressParams);

    /// <summary>A client that does not watch after all leaves a file to be read again when it is opened or closed.</summary>
    private Task WatchAsync()
    {
        var options = JsonSerializer.SerializeToElement(
            new DidChangeWatchedFilesRegistrationOptions([new Protocol.FileSystemWatcher("**/*.rig")]), ProtocolJson.Default.DidChangeWatchedFilesRegistrationOptions);
        return _toClient.AskAsync("client/registerCapability",
            new RegistrationParams([new Registration("rig-files", "workspace/didChangeWatchedFiles", options)]), ProtocolJson.Default.RegistrationParams);
    }

    private async Task FetchSettingsAsync()
    {
        var answer = await _toClient.AskAsync("workspace/configuration",
            new ConfigurationParams([new ConfigurationItem(null, Settings.Section)]), ProtocolJson.Default.ConfigurationParams).ConfigureAwait(true);
        if (answer is { ValueKind: JsonValueKind.Array } answers && answers.GetArrayLength() == 1)
        {
            Use(Settings.Read(answers[0]));
        }
    }

    /// <summary>With other settings the same findings may not pass any more: all that was told is told again.</summary>
    private void Use(Settings settings)
    {
        _settings = settings;
        _published.Clear();
    }

    // What the handlers have in common.

    /// <summary>Requests before initialize and after shutdown are refused, as the specification says.</summary>
    private void Guard()
    {
        switch (_phase)
        {
            case Phase.Created:
                throw Refusal((JsonRpcErrorCode)NotInitialized, "The server is not initialized yet.");
            case Phase.ShutDown:
                throw Refusal(JsonRpcErrorCode.InvalidRequest, "The server is shutting down.");
        }
    }

    private static LocalRpcException Refusal(JsonRpcErrorCode code, string why) => new(why) { ErrorCode = (int)code };

    /// <summary>
    /// Answers from the newest state of a document; the default where there is no such document. An answer that fails costs only
    /// itself. Most are asked for again at every move of the caret, so it is said once; what the player asks for by hand is refused
    /// each time.
    /// </summary>
    [SuppressMessage("Design", "CA1068", Justification = AnswerLast)]
    private Task<T> Answer<T>(TextDocumentIdentifier document, CancellationToken token, T none, Func<RigView, T> answer, [CallerMemberName] string what = "")
    {
        Guard();
        token.ThrowIfCancellationRequested();
        var path = PathOf(document.Uri);
        if (_workspace.Document(path) is { IsOutOfStep: true })
        {
            return Task.FromResult(none);
        }
        try
        {
            _host.BeforeAnswer(what);
            return Task.FromResult(_workspace.ViewOf(path) is { } view ? answer(view) : none);
        }
        catch (Exception fault) when (fault is not (LocalRpcException or OperationCanceledException)
            && what is not (nameof(RenameAsync) or nameof(PrepareRenameAsync) or nameof(FormattingAsync) or nameof(RangeFormattingAsync)))
        {
            SayFailed(what.Replace("Async", "", StringComparison.Ordinal), fault);
            return Task.FromResult(none);
        }
    }

    private const string AnswerLast = "What is done stands last, as it does in a loop.";

    [SuppressMessage("Design", "CA1068", Justification = AnswerLast)]
    private Task<T> Answer<T>(TextDocumentPositionParams at, CancellationToken token, T none, Func<RigView, int, T> answer, [CallerMemberName] string what = "") =>
        Answer(at.TextDocument, token, none, view => answer(view, Positions.OffsetOf(view.Source, at.Position, _encoding)), what);

    private void SayFailed(string what, Exception fault) => Say(
        $"failed: {what} {fault.GetType().Name}",
        $"{what} failed inside rig ({fault.GetType().Name}). Your text is safe, and the rest goes on; please report what you did.");

    /// <summary>Shows a sentence to the player, once in a session.</summary>
    private void Say(string key, string sentence)
    {
        if (_said.Add(key))
        {
            _ = _toClient.NotifyAsync("window/showMessage", new MessageParams(2, sentence), ProtocolJson.Default.MessageParams);
        }
    }

    /// <summary>Writes a sentence into the editor's log, once in a session. From any thread.</summary>
    private void Log(string sentence) => _queue.Post(
        _ =>
        {
            if (_said.Add(sentence))
            {
                _ = _toClient.NotifyAsync("window/logMessage", new MessageParams(2, sentence), ProtocolJson.Default.MessageParams);
            }
        },
        null);

    private string PathOf(string uri) => _library.PathOf(FileUri.ToPath(uri));

    /// <summary>A document under the name that its client gave it; what comes with the tool under that of a copy.</summary>
    private string UriOf(SourceText source) =>
        _workspace.Document(source.Path) is { } document ? document.Uri : FileUri.FromPath(_library.CopyOf(source));

    private Range RangeOf(SourceText source, TextSpan span) => Positions.RangeOf(source, span, _encoding);

    private Protocol.Location LocationOf(Text.Location at) => new(UriOf(at.Source), RangeOf(at.Source, at.Span));

    private Protocol.TextEdit EditOf(Findings.TextEdit edit) => new(RangeOf(edit.Source, edit.Span), edit.NewText);

    private static bool Flag(JsonElement? options, string name) =>
        options is { ValueKind: JsonValueKind.Object } given && given.TryGetProperty(name, out var value) && value.ValueKind == JsonValueKind.True;

    /// <summary>Errors go out as code and sentence; how the server looks inside is nobody's business.</summary>
    private sealed class QuietRpc(IJsonRpcMessageHandler handler) : JsonRpc(handler)
    {
        protected override JsonRpcError.ErrorDetail CreateErrorDetails(JsonRpcRequest request, Exception exception) => exception switch
        {
            JsonException or RpcArgumentDeserializationException => new JsonRpcError.ErrorDetail
            {
                Code = JsonRpcErrorCode.InvalidParams,
                Message = $"The parameters of {request.Method} do not have the shape that the protocol gives them.",
            },
            LocalRpcException known => new JsonRpcError.ErrorDetail { Code = (JsonRpcErrorCode)known.ErrorCode, Message = known.Message },
            _ => new JsonRpcError.ErrorDetail
            {
                Code = (JsonRpcErrorCode)(-32603),
                Message = $"{request.Method} failed inside the server ({exception.GetType().Name}). The document is safe; please report what you did.",
            },
        };
    }
}
