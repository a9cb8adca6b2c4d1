using System.Buffers;
using System.Collections.Concurrent;
using System.IO.Pipelines;
using System.Text;
using System.Text.Json;
using StreamJsonRpc;
using StreamJsonRpc.Protocol;

namespace RigLang.LanguageServer;

/// <summary>
/// Messages with a Content-Length header, as the protocol's base part says. What is no message is answered by the error the specification
/// has for it, and reading goes on at the next header: a client's slip must not end the player's session.
/// </summary>
/// <param name="pace">Lets no more messages in than can be worked off.</param>
/// <param name="passedOver">Told what was passed over, and why.</param>
internal sealed class Framing(PipeWriter writer, PipeReader reader, SystemTextJsonFormatter formatter, Pace pace, Action<string> passedOver)
    : MessageHandlerBase(formatter)
{
    private const int LongestHeader = 4096;
    private const int LongestMessage = 256 * 1024 * 1024;

    private static readonly byte[] HeaderEnd = "\r\n\r\n"u8.ToArray();

    public override bool CanRead => true;

    public override bool CanWrite => true;

    protected override async ValueTask<JsonRpcMessage?> ReadCoreAsync(CancellationToken cancellationToken)
    {
        pace.HandedOver();
        while (true)
        {
            await pace.MayReadAsync(_unanswered.Count, cancellationToken).ConfigureAwait(false);
            if (await ReadHeaderAsync(cancellationToken).ConfigureAwait(false) is not { } length)
            {
                // The end of the input ends the connection at once: what was asked before it is still answered.
                await AllAnsweredAsync().ConfigureAwait(false);
                return null;
            }
            if (length < 0)
            {
                await RefuseAsync(JsonRpcErrorCode.InvalidRequest, "The header has no Content-Length that can be used.", default, cancellationToken).ConfigureAwait(false);
                continue;
            }
            var content = ReadOnlySequence<byte>.Empty;
            if (length > 0)
            {
                var result = await reader.ReadAtLeastAsync(length, cancellationToken).ConfigureAwait(false);
                if (result.Buffer.Length < length)
                {
                    return null;
                }
                content = result.Buffer.Slice(0, length);
            }
            var (message, error) = Parse(content);
            if (length > 0)
            {
                reader.AdvanceTo(content.End);
            }
            if (error.Code == Unreadable)
            {
                passedOver(NotAsked);
                continue;
            }
            switch (message)
            {
                case JsonRpcRequest { IsResponseExpected: true, RequestId: var id, Method: var method } when !_unanswered.TryAdd(id, true):
                    await RefuseAsync(JsonRpcErrorCode.InvalidRequest, $"{method} comes under an id whose request is not answered yet.", id, cancellationToken).ConfigureAwait(false);
                    continue;
                case JsonRpcResult { RequestId: var answered } when !_asked.TryRemove(answered, out _):
                case JsonRpcError { RequestId: var refused } when !_asked.TryRemove(refused, out _):
                    // The library would end the connection over it.
                    passedOver(NotAsked);
                    continue;
                case not null:
                    return message;
            }
            await RefuseAsync(error.Code, error.What, error.Id, cancellationToken).ConfigureAwait(false);
        }
    }

    /// <summary>The length that a header gives; -1 for a header without one; null at the end of the stream.</summary>
    private async ValueTask<int?> ReadHeaderAsync(CancellationToken cancellationToken)
    {
        while (true)
        {
            var result = await reader.ReadAsync(cancellationToken).ConfigureAwait(false);
            var (length, consumed) = FindHeader(result.Buffer);
            if (consumed is { } end)
            {
                reader.AdvanceTo(end);
                return length;
            }
            if (result.IsCompleted)
            {
                return null;
            }
            reader.AdvanceTo(result.Buffer.Start, result.Buffer.End);
        }
    }

    private static (int Length, SequencePosition? Consumed) FindHeader(ReadOnlySequence<byte> buffer)
    {
        var head = buffer.Slice(0, Math.Min(buffer.Length, LongestHeader));
        var bytes = head.ToArray();
        var end = bytes.AsSpan().IndexOf(HeaderEnd);
        if (end < 0)
        {
            // A header that never ends is rubbish; so much of it is passed over.
            return head.Length < LongestHeader ? (-1, null) : (-1, buffer.GetPosition(head.Length - HeaderEnd.Length + 1));
        }
        return (LengthIn(Encoding.ASCII.GetString(bytes, 0, end)), buffer.GetPosition(end + HeaderEnd.Length));
    }

    private static int LengthIn(string header)
    {
        // Behind the rest of a message that was longer than its header said, the header still stands at the end of its line.
        var at = header.LastIndexOf("Content-Length:", StringComparison.OrdinalIgnoreCase);
        if (at < 0)
        {
            return -1;
        }
        var line = header[(at + "Content-Length:".Length)..].Split("\r\n")[0];
        return int.TryParse(line.Trim(), System.Globalization.CultureInfo.InvariantCulture, out var length) && length is >= 0 and <= LongestMessage ? length : -1;
    }

    private (JsonRpcMessage? Message, (JsonRpcErrorCode Code, string What, RequestId Id) Error) Parse(ReadOnlySequence<byte> content)
    {
        JsonDocument document;
        try
        {
            document = JsonDocument.Parse(content);
        }
        catch (JsonException)
        {
            return (null, (ParseError, "The message is not JSON.", default));
        }
        using (document)
        {
            var id = IdOf(document.RootElement);
            if (document.RootElement.ValueKind != JsonValueKind.Object)
            {
                return (null, (JsonRpcErrorCode.InvalidRequest, "A message is one JSON object.", id));
            }
            var hasMethod = document.RootElement.TryGetProperty("method", out var method);
            if (hasMethod && method.ValueKind != JsonValueKind.String)
            {
                return (null, (JsonRpcErrorCode.InvalidRequest, "The method of a message is a string.", id));
            }
            try
            {
                return (Formatter.Deserialize(document.RootElement.TryGetProperty("params", out var parameters) && parameters.ValueKind == JsonValueKind.Null
                    ? WithoutParams(document.RootElement)
                    : content), default);
            }
            catch (Exception e) when (e is JsonException or InvalidOperationException or NotSupportedException or KeyNotFoundException or ArgumentException or FormatException)
            {
                // What was to be an answer is not answered: under its id the client would take that for the answer to a request of its own.
                var isAnswer = !hasMethod && (document.RootElement.TryGetProperty("result", out _) || document.RootElement.TryGetProperty("error", out _));
                return (null, (isAnswer ? Unreadable : JsonRpcErrorCode.InvalidRequest, "The message is not a JSON-RPC 2.0 request, notification or response.", id));
            }
        }
    }

    /// <summary>Some clients write <c>"params": null</c> where there are none; JSON-RPC 2.0 wants it left out.</summary>
    private static ReadOnlySequence<byte> WithoutParams(JsonElement message)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
        {
            json.WriteStartObject();
            foreach (var property in message.EnumerateObject().Where(p => p.Name != "params"))
            {
                property.WriteTo(json);
            }
            json.WriteEndObject();
        }
        return new ReadOnlySequence<byte>(buffer.WrittenMemory);
    }

    private const JsonRpcErrorCode ParseError = (JsonRpcErrorCode)(-32700);

    /// <summary>Stands for an answer that is none; it is never sent.</summary>
    private const JsonRpcErrorCode Unreadable = (JsonRpcErrorCode)(-1);

    private const string NotAsked = "The editor answered a request that was not made, or not in a form that can be read; the answer is passed over.";

    private static RequestId IdOf(JsonElement message) =>
        message.ValueKind != JsonValueKind.Object || !message.TryGetProperty("id", out var id) ? default
            : id.ValueKind == JsonValueKind.String ? new RequestId(id.GetString())
            : id.ValueKind == JsonValueKind.Number && id.TryGetInt64(out var number) ? new RequestId(number)
            : default;

    private ValueTask RefuseAsync(JsonRpcErrorCode code, string what, RequestId id, CancellationToken cancellationToken)
    {
        var refusal = new JsonRpcError
        {
            RequestId = id.IsEmpty ? RequestId.Null : id,
            Error = new JsonRpcError.ErrorDetail { Code = code, Message = what },
        };
        _refusals[refusal] = true;
        return WriteAsync(refusal, cancellationToken);
    }

    protected override ValueTask WriteCoreAsync(JsonRpcMessage content, CancellationToken cancellationToken)
    {
        _body.ResetWrittenCount();
        Formatter.Serialize(_body, content);
        var header = writer.GetSpan(64);
        System.Text.Unicode.Utf8.TryWrite(header, $"Content-Length: {_body.WrittenCount}\r\n\r\n", out var length);
        writer.Advance(length);
        writer.Write(_body.WrittenSpan);
        if (content is JsonRpcRequest { IsResponseExpected: true, RequestId: var asked })
        {
            _asked[asked] = true;
        }
        if (content is JsonRpcResult or JsonRpcError && !_refusals.TryRemove(content, out _))
        {
            _written.Enqueue(content is JsonRpcResult result ? result.RequestId : ((JsonRpcError)content).RequestId);
        }
        return default;
    }

    private readonly ArrayBufferWriter<byte> _body = new(4096);

    /// <summary>The requests of the server that the client has not answered.</summary>
    private readonly ConcurrentDictionary<RequestId, bool> _asked = new();

    protected override async ValueTask FlushAsync(CancellationToken cancellationToken)
    {
        await pace.WriteAsync(writer.FlushAsync(cancellationToken)).ConfigureAwait(false);
        while (_written.TryDequeue(out var answered))
        {
            _unanswered.TryRemove(answered, out _);
        }
    }

    /// <summary>The requests of the client that are not answered, and of these the ones whose answer waits to be sent.</summary>
    private readonly ConcurrentDictionary<RequestId, bool> _unanswered = new();
    private readonly ConcurrentQueue<RequestId> _written = new();

    /// <summary>Refusals of what never became a request: they answer none.</summary>
    private readonly ConcurrentDictionary<JsonRpcMessage, bool> _refusals = new(ReferenceEqualityComparer.Instance);

    /// <summary>Until every request that was read has its answer on the way; not longer than a moment.</summary>
    public async Task AllAnsweredAsync()
    {
        for (var waited = 0; waited < 2_000 && !_unanswered.IsEmpty; waited += 5)
        {
            await Task.Delay(5).ConfigureAwait(false);
        }
    }

    protected override void DisposeReader()
    {
        reader.Complete();
        base.DisposeReader();
    }

    protected override void DisposeWriter()
    {
        writer.Complete();
        base.DisposeWriter();
    }
}
