using System.Globalization;
using System.IO.Pipelines;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using RigLang.Cli;

namespace RigLang.Fuzz;

/// <summary>
/// A client of <c>rig server</c> in this process that sends what it is told to, right or wrong, byte for byte, and keeps every answer.
/// </summary>
internal sealed class Wire : IAsyncDisposable
{
    /// <summary>Only to call a server dead that never answers; nothing that works takes a hundredth of it.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(60);

    private readonly RigRun _run = new();
    private readonly Pipe _toServer = new(new PipeOptions(pauseWriterThreshold: 0));
    private readonly Pipe _toClient = new();
    private readonly Task<int> _server;
    private readonly Task _reading;
    private readonly List<JsonObject> _received = [];
    private readonly SemaphoreSlim _arrived = new(0);
    private int _lastId;

    public Wire()
    {
        var host = _run.HostOn(_toClient.Writer.AsStream(), new MemoryStream(), () => _toServer.Reader.AsStream());
        _server = Task.Factory.StartNew(() => RigCommand.Run(["server"], host), CancellationToken.None, TaskCreationOptions.LongRunning, TaskScheduler.Default);
        _reading = Task.Run(ReadAsync);
    }

    public bool HasEnded => _server.IsCompleted;

    /// <summary>The folder of the server's own.</summary>
    public string Folder => _run.Folder;

    public RigRun Run => _run;

    public string UriOf(string name) => "file://" + _run.PathOf(name);

    public async Task<JsonObject?> InitializeAsync(string encoding = "utf-16")
    {
        var answer = await AskAsync("initialize", new JsonObject
        {
            ["processId"] = null,
            ["rootUri"] = null,
            ["capabilities"] = new JsonObject
            {
                ["general"] = new JsonObject { ["positionEncodings"] = new JsonArray(encoding) },
                ["textDocument"] = new JsonObject
                {
                    ["publishDiagnostics"] = new JsonObject { ["relatedInformation"] = true, ["versionSupport"] = true },
                    ["hover"] = new JsonObject { ["contentFormat"] = new JsonArray("markdown") },
                },
            },
        });
        await NotifyAsync("initialized", new JsonObject());
        return answer;
    }

    public Task OpenAsync(string uri, string text, int version) => NotifyAsync("textDocument/didOpen", new JsonObject
    {
        ["textDocument"] = new JsonObject { ["uri"] = uri, ["languageId"] = "rig", ["version"] = version, ["text"] = text },
    });

    public Task CloseAsync(string uri) => NotifyAsync("textDocument/didClose", new JsonObject { ["textDocument"] = new JsonObject { ["uri"] = uri } });

    public static JsonObject Place(string uri, int line, int character) => new()
    {
        ["textDocument"] = new JsonObject { ["uri"] = uri },
        ["position"] = new JsonObject { ["line"] = line, ["character"] = character },
    };

    public Task NotifyAsync(string method, JsonNode parameters) => SendAsync(new JsonObject { ["jsonrpc"] = "2.0", ["method"] = method, ["params"] = parameters }.ToJsonString());

    /// <summary>Null when no answer ever comes.</summary>
    public async Task<JsonObject?> AskAsync(string method, JsonNode? parameters)
    {
        var id = string.Create(CultureInfo.InvariantCulture, $"wire-{++_lastId}");
        var request = new JsonObject { ["jsonrpc"] = "2.0", ["id"] = id, ["method"] = method };
        if (parameters is not null)
        {
            request["params"] = parameters;
        }
        await SendAsync(request.ToJsonString());
        return await FirstAsync(m => m["method"] is null && m["id"] is JsonValue value && value.TryGetValue<string>(out var own) && own == id);
    }

    /// <summary>The diagnostics of a document as of a version, without its name; null when they never come.</summary>
    public async Task<string?> DiagnosticsAsync(string uri, int version) =>
        (await FirstAsync(m => m["method"]?.ToString() == "textDocument/publishDiagnostics"
            && m["params"]!["uri"]!.ToString() == uri && m["params"]!["version"]?.GetValue<int>() == version))?["params"]!["diagnostics"]!.ToJsonString().Replace(Folder, "", StringComparison.Ordinal);

    /// <summary>Every answer so far, by its id as JSON.</summary>
    public List<(string Id, JsonObject Answer)> Answers()
    {
        lock (_received)
        {
            return [.. _received.Where(m => m["method"] is null).Select(m => (m["id"]?.ToJsonString() ?? "null", m))];
        }
    }

    public Task SendAsync(string body)
    {
        var bytes = Encoding.UTF8.GetBytes(body);
        return SendBytesAsync([.. Encoding.ASCII.GetBytes(string.Create(CultureInfo.InvariantCulture, $"Content-Length: {bytes.Length}\r\n\r\n")), .. bytes]);
    }

    public async Task SendBytesAsync(byte[] bytes) => await _toServer.Writer.WriteAsync(bytes);

    /// <summary>The first message, of those that came or come, that is wanted; null when the server ends or says nothing for a long time.</summary>
    private async Task<JsonObject?> FirstAsync(Func<JsonObject, bool> wanted)
    {
        for (var seen = 0; ;)
        {
            lock (_received)
            {
                for (; seen < _received.Count; seen++)
                {
                    if (wanted(_received[seen]))
                    {
                        return _received[seen];
                    }
                }
            }
            if (_reading.IsCompleted || !await _arrived.WaitAsync(Patience))
            {
                return null;
            }
        }
    }

    private async Task ReadAsync()
    {
        try
        {
            using var stream = _toClient.Reader.AsStream();
            while (await BodyAsync(stream) is { } body)
            {
                var message = JsonNode.Parse(body, documentOptions: new JsonDocumentOptions { MaxDepth = 2_000 })!.AsObject();
                if (message["method"] is not null && message["id"] is { } asked)
                {
                    await SendAsync(new JsonObject { ["jsonrpc"] = "2.0", ["id"] = asked.DeepClone(), ["result"] = null }.ToJsonString());
                }
                lock (_received)
                {
                    _received.Add(message);
                }
                _arrived.Release();
            }
        }
        finally
        {
            // Who waits is told that nothing more will come.
            _arrived.Release(1_000);
        }
    }

    /// <summary>The body of the next message behind its header; null at the end.</summary>
    internal static async Task<byte[]?> BodyAsync(Stream stream)
    {
        var header = new StringBuilder();
        var one = new byte[1];
        while (!header.ToString().EndsWith("\r\n\r\n", StringComparison.Ordinal))
        {
            if (await stream.ReadAsync(one) == 0)
            {
                return null;
            }
            header.Append((char)one[0]);
        }
        var body = new byte[int.Parse(header.ToString()["Content-Length: ".Length..].Trim(), CultureInfo.InvariantCulture)];
        await stream.ReadExactlyAsync(body);
        return body;
    }

    /// <summary>Hangs up.</summary>
    /// <returns>The server's exit code; null when it does not end.</returns>
    public async Task<int?> EndAsync()
    {
        await _toServer.Writer.CompleteAsync();
        try
        {
            return await _server.WaitAsync(Patience);
        }
        catch (TimeoutException)
        {
            return null;
        }
    }

    public async ValueTask DisposeAsync()
    {
        await EndAsync();
        await _toClient.Writer.CompleteAsync();
        await _reading.WaitAsync(Patience);
        _arrived.Dispose();
        _run.Dispose();
    }
}
