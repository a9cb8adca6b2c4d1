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
            await pace.MayReadAsync(Volatile.Read(ref _unanswered), cancellationToken).ConfigureAwait(false);
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
            switch (message)
            {
                case JsonRpcRequest { IsResponseExpected: true }:
                    Interlocked.Increment(ref _unanswered);
                    return message;
                case JsonRpcResult { RequestId: var answered } when !_asked.TryRemove(answered, out _):
                case JsonRpcError { RequestId: var refused } when !_asked.TryRemove(refused, out _):
                    // The library would end the connection over it.
                    passedOver("The editor answered a request that was not made; the answer is passed over.");
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
            try
            {
                return (Formatter.Deserialize(document.RootElement.TryGetProperty("params", out var parameters) && parameters.ValueKind == JsonValueKind.Null
                    ? WithoutParams(document.RootElement)
                    : content), default);
            }
            catch (Exception e) when (e is JsonException or InvalidOperationException or NotSupportedException or KeyNotFoundException or ArgumentException or FormatException)
            {
                return (null, (JsonRpcErrorCode.InvalidRequest, "The message is not a JSON-RPC 2.0 request, notification or response.", id));
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

    private static RequestId IdOf(JsonElement message) =>
        message.ValueKind != JsonValueKind.Object || !message.TryGetProperty("id", out var id) ? default
            : id.ValueKind == JsonValueKind.String ? new RequestId(id.GetString())
            : id.ValueKind == JsonValueKind.Number && id.TryGetInt64(out var number) ? new RequestId(number)
            : default;

    private ValueTask RefuseAsync(JsonRpcErrorCode code, string what, RequestId id, CancellationToken cancellationToken) => WriteAsync(
        new JsonRpcError
        {
            RequestId = id.IsEmpty ? RequestId.Null : id,
            Error = new JsonRpcError.ErrorDetail { Code = code, Message = what },
        },
        cancellationToken);

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
        if (content is JsonRpcResult or JsonRpcError { RequestId.IsNull: false })
        {
            Interlocked.Increment(ref _answersInBuffer);
        }
        return default;
    }

    private readonly ArrayBufferWriter<byte> _body = new(4096);

    /// <summary>The requests of the server that the client has not answered.</summary>
    private readonly ConcurrentDictionary<RequestId, bool> _asked = new();

    protected override async ValueTask FlushAsync(CancellationToken cancellationToken)
    {
        await pace.WriteAsync(writer.FlushAsync(cancellationToken)).ConfigureAwait(false);
        Interlocked.Add(ref _unanswered, -Interlocked.Exchange(ref _answersInBuffer, 0));
    }

    private int _unanswered;
    private int _answersInBuffer;

    /// <summary>Until every request that was read has its answer on the way; not longer than a moment.</summary>
    public async Task AllAnsweredAsync()
    {
        for (var waited = 0; waited < 2_000 && Volatile.Read(ref _unanswered) > 0; waited += 5)
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
