using System.Buffers;
using System.Collections.Concurrent;
using System.Globalization;
using System.IO.Pipelines;
using System.Text;
using System.Text.Json.Nodes;
using RigLang.LanguageServer;
using RigLang.Text;
using Xunit;

namespace RigLang.Tests.LanguageServer;

/// <summary>
/// A client that speaks with a real server over pipes in memory, byte for byte as an editor does. Every message that comes is held
/// against the protocol's schema.
/// </summary>
internal sealed class Client : IAsyncDisposable
{
    private readonly Pipe _toServer = new();
    private readonly Pipe _toClient = new();
    private readonly Dictionary<string, string> _files = [];
    private readonly ConcurrentDictionary<int, TaskCompletionSource<JsonObject>> _waiting = new();
    private readonly List<JsonObject> _received = [];
    private readonly SemaphoreSlim _arrived = new(0);
    private readonly Task<int> _server;
    private readonly Task _reading;
    private readonly List<string> _refused = [];
    private int _lastId;
    private bool _isHungUp;

    /// <summary>Long enough for a busy machine; no test waits for it unless something is wrong.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private Client(Func<ServerHost, ServerHost> with)
    {
        var disk = new Disk(
            path => _files.GetValueOrDefault(path),
            folder => [.. _files.Keys.Where(f => f.StartsWith(folder.TrimEnd('/') + "/", StringComparison.Ordinal)).Order(StringComparer.Ordinal)],
            (name, _) => "/library/" + name)
        {
            RealPath = path => Links.Aggregate(path, (at, link) => at == link.Key || at.StartsWith(link.Key + "/", StringComparison.Ordinal) ? link.Value + at[link.Key.Length..] : at),
            WhyUnreadable = path => Unreadable.GetValueOrDefault(path),
            RepositoryOf = folder => Repositories.Find(r => folder == r || folder.StartsWith(r + "/", StringComparison.Ordinal)),
        };
        _server = Task.Run(() => Session.RunAsync(_toServer.Reader, _toClient.Writer, with(new ServerHost(
            "1.2.3", disk, (_, question) => $"answer to {question}", _ => "the chart", _ => "the audio", _ => "the power", _ => "the ground", (_, sound) => $"suspects of a {sound}"))));
        _reading = Task.Run(ReadAsync);
    }

    /// <summary>What the client answers to requests of the server, by method; null where it is not there.</summary>
    public Dictionary<string, JsonNode?> Answers { get; } = [];

    /// <summary>Links of the disk: a file or folder, and where it leads.</summary>
    public Dictionary<string, string> Links { get; } = [];

    /// <summary>Files that cannot be read, and why.</summary>
    public Dictionary<string, string> Unreadable { get; } = [];

    /// <summary>The folders of the disk that are repositories.</summary>
    public List<string> Repositories { get; } = [];

    /// <summary>The exit code of the server, once it has ended.</summary>
    public Task<int> Exit => _server;

    public static Client Raw() => new(host => host);

    /// <summary>A client past its introduction, of a server that differs from the usual.</summary>
    public static async Task<Client> StartWithAsync(Func<ServerHost, ServerHost> with)
    {
        var client = new Client(with);
        await client.InitializeAsync();
        return client;
    }

    /// <summary>A client past its introduction.</summary>
    public static async Task<Client> StartAsync(JsonObject? capabilities = null, JsonObject? options = null, string? folder = null, params (string Path, string Text)[] files)
    {
        var client = new Client(host => host);
        foreach (var (path, text) in files)
        {
            client._files[path] = text;
        }
        await client.InitializeAsync(capabilities, options, folder);
        return client;
    }

    public async Task<JsonNode> InitializeAsync(JsonObject? capabilities = null, JsonObject? options = null, string? folder = null)
    {
        var result = await ResultAsync("initialize", new JsonObject
        {
            ["processId"] = null,
            ["rootUri"] = null,
            ["capabilities"] = capabilities ?? Modern(),
            ["initializationOptions"] = options,
            ["workspaceFolders"] = folder is null ? null : new JsonArray(new JsonObject { ["uri"] = "file://" + folder, ["name"] = "rigs" }),
        });
        Notify("initialized", new JsonObject());
        return result!;
    }

    /// <summary>What a current editor can do.</summary>
    public static JsonObject Modern() => JsonNode.Parse("""
        {
          "general": { "positionEncodings": ["utf-16"] },
          "workspace": { "workspaceEdit": { "documentChanges": true, "resourceOperations": ["create"] } },
          "textDocument": {
            "publishDiagnostics": { "relatedInformation": true, "versionSupport": true },
            "hover": { "contentFormat": ["markdown", "plaintext"] },
            "completion": { "completionItem": { "snippetSupport": true, "documentationFormat": ["markdown"] } }
          }
        }
        """)!.AsObject();

    public void SetFile(string path, string? text)
    {
        if (text is null)
        {
            _files.Remove(path);
        }
        else
        {
            _files[path] = text;
        }
    }

    public void Open(string path, string text, int version = 1) => Notify("textDocument/didOpen", new JsonObject
    {
        ["textDocument"] = new JsonObject { ["uri"] = "file://" + path, ["languageId"] = "rig", ["version"] = version, ["text"] = text },
    });

    public void Close(string path) => Notify("textDocument/didClose", new JsonObject { ["textDocument"] = Document(path) });

    public void Change(string path, int version, params JsonObject[] changes) => Notify("textDocument/didChange", new JsonObject
    {
        ["textDocument"] = new JsonObject { ["uri"] = "file://" + path, ["version"] = version },
        ["contentChanges"] = new JsonArray([.. changes]),
    });

    public static JsonObject Replace((int Line, int Character) start, (int Line, int Character) end, string text) => new()
    {
        ["range"] = Range(start, end),
        ["text"] = text,
    };

    public static JsonObject Whole(string text) => new() { ["text"] = text };

    public static JsonObject Document(string path) => new() { ["uri"] = "file://" + path };

    public static JsonObject Range((int Line, int Character) start, (int Line, int Character) end) =>
        new() { ["start"] = At(start.Line, start.Character), ["end"] = At(end.Line, end.Character) };

    public static JsonObject At(int line, int character) => new() { ["line"] = line, ["character"] = character };

    /// <summary>Parameters of a request about the place where a text has <paramref name="words"/>, some characters into them.</summary>
    public static JsonObject Place(string path, string text, string words, int into = 0)
    {
        var offset = text.IndexOf(words, StringComparison.Ordinal);
        Assert.True(offset >= 0, $"the text has no {words}");
        var (line, column) = new SourceText(path, text).PositionOf(offset + into);
        return new JsonObject { ["textDocument"] = Document(path), ["position"] = At(line, column) };
    }

    public async Task<JsonNode?> ResultAsync(string method, JsonNode? parameters = null)
    {
        var answer = await AnswerAsync(method, parameters);
        Assert.True(answer["error"] is null, $"{method}: {answer["error"]?.ToJsonString()}");
        if (ProtocolSchema.Refusals(method, "Result", answer["result"]) is { Length: > 0 } refused)
        {
            Assert.Fail(refused);
        }
        return answer["result"];
    }

    /// <summary>The code and sentence of a request that is refused.</summary>
    public async Task<(int Code, string Message)> ErrorAsync(string method, JsonNode? parameters = null)
    {
        var answer = await AnswerAsync(method, parameters);
        var error = answer["error"] ?? throw new Xunit.Sdk.XunitException($"{method} was not refused: {answer.ToJsonString()}");
        return (error["code"]!.GetValue<int>(), error["message"]!.GetValue<string>());
    }

    public Task<JsonObject> AnswerAsync(string method, JsonNode? parameters = null)
    {
        var id = Interlocked.Increment(ref _lastId);
        var answer = _waiting[id] = new TaskCompletionSource<JsonObject>(TaskCreationOptions.RunContinuationsAsynchronously);
        Send(new JsonObject { ["jsonrpc"] = "2.0", ["id"] = id, ["method"] = method, ["params"] = parameters });
        return answer.Task.WaitAsync(Patience);
    }

    public void Notify(string method, JsonNode? parameters = null) =>
        Send(new JsonObject { ["jsonrpc"] = "2.0", ["method"] = method, ["params"] = parameters });

    /// <summary>The next message of a method, of those that came and are not taken yet.</summary>
    public async Task<JsonNode> NextAsync(string method, Func<JsonNode, bool>? wanted = null)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (true)
        {
            lock (_received)
            {
                var at = _received.FindIndex(m => m["method"]?.GetValue<string>() == method && (wanted is null || wanted(m["params"]!)));
                if (at >= 0)
                {
                    var found = _received[at]["params"]!;
                    _received.RemoveAt(at);
                    return found;
                }
            }
            await _arrived.WaitAsync(patience.Token);
        }
    }

    /// <summary>Whether a message of a method has come that is not taken yet.</summary>
    public bool Has(string method)
    {
        lock (_received)
        {
            return _received.Exists(m => m["method"]?.GetValue<string>() == method);
        }
    }

    /// <summary>The diagnostics of a document as of a version.</summary>
    public Task<JsonNode> DiagnosticsAsync(string path, int version) => NextAsync("textDocument/publishDiagnostics",
        p => p["uri"]!.GetValue<string>() == "file://" + path && p["version"]?.GetValue<int>() == version);

    /// <summary>Answers without a request: the replies to what was no message.</summary>
    public async Task<JsonNode> StrayErrorAsync()
    {
        using var patience = new CancellationTokenSource(Patience);
        while (true)
        {
            lock (_received)
            {
                var at = _received.FindIndex(m => m["method"] is null && m["error"] is not null);
                if (at >= 0)
                {
                    var found = _received[at];
                    _received.RemoveAt(at);
                    return found;
                }
            }
            await _arrived.WaitAsync(patience.Token);
        }
    }

    public void SendBytes(ReadOnlySpan<byte> bytes)
    {
        _toServer.Writer.Write(bytes);
        _toServer.Writer.FlushAsync().AsTask().Wait(Patience);
    }

    public void HangUp()
    {
        lock (_toServer)
        {
            _isHungUp = true;
            _toServer.Writer.Complete();
        }
    }

    private void Send(JsonObject message)
    {
        if (message["params"] is null)
        {
            message.Remove("params");
        }
        var body = Encoding.UTF8.GetBytes(message.ToJsonString());
        lock (_toServer)
        {
            if (_isHungUp)
            {
                return;
            }
            SendBytes([.. Encoding.ASCII.GetBytes($"Content-Length: {body.Length}\r\n\r\n"), .. body]);
        }
    }

    private async Task ReadAsync()
    {
        var stream = _toClient.Reader.AsStream();
        using var reader = new BinaryReader(stream);
        while (await Wire.BodyAsync(stream) is { } body)
        {
            Take(JsonNode.Parse(body)!.AsObject());
        }
    }

    private void Take(JsonObject message)
    {
        var method = message["method"]?.GetValue<string>();
        if (method is null && message["id"] is JsonValue id && id.TryGetValue<int>(out var number) && _waiting.TryRemove(number, out var answer))
        {
            answer.SetResult(message);
            return;
        }
        if (method is not null && ProtocolSchema.Refusals(method, "Params", message["params"]?.DeepClone()) is { Length: > 0 } refused)
        {
            lock (_refused)
            {
                _refused.Add(refused);
            }
        }
        lock (_received)
        {
            _received.Add(message);
        }
        _arrived.Release();
        if (method is not null && message["id"] is { } request)
        {
            Send(new JsonObject { ["jsonrpc"] = "2.0", ["id"] = request.DeepClone(), ["result"] = Answers.GetValueOrDefault(method)?.DeepClone() });
        }
    }

    public async ValueTask DisposeAsync()
    {
        HangUp();
        await _server.WaitAsync(Patience);
        await _toClient.Writer.CompleteAsync();
        await _reading.WaitAsync(Patience);
        _arrived.Dispose();
        Assert.Empty(_refused);
    }
}
