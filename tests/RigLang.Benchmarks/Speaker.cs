using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace RigLang.Benchmarks;

/// <summary>One process that is spoken with.</summary>
internal sealed class Speaker : IDisposable
{
    private readonly Process _process;
    private int _version = 1;
    private int _id;

    private Speaker(string uri, string program, params string[] arguments)
    {
        Uri = uri;
        _process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true })
            ?? throw new InvalidOperationException($"{program} does not start.");
    }

    /// <summary>Of the one document that is open.</summary>
    public string Uri { get; }

    public static Speaker Server(string rig, string uri = "file:///bench/rig.rig") => new(uri, rig, "server");

    public static Speaker Echo() => new("file:///bench/rig.rig", Environment.ProcessPath!, "--echo");

    public static void Capabilities(Utf8JsonWriter json)
    {
        json.WriteNull("processId");
        json.WriteNull("rootUri");
        json.WritePropertyName("capabilities");
        json.WriteRawValue("""{"textDocument":{"publishDiagnostics":{"versionSupport":true},"hover":{"contentFormat":["markdown","plaintext"]}}}""");
    }

    public void Place(Utf8JsonWriter json, int line, int character)
    {
        WriteDocument(json);
        WritePosition(json, "position", line, character);
    }

    public void Introduce()
    {
        Ask("initialize", Capabilities);
        Send("initialized", null, _ => { });
    }

    public void Open(string text)
    {
        Send("textDocument/didOpen", null, json =>
        {
            json.WriteStartObject("textDocument");
            json.WriteString("uri", Uri);
            json.WriteString("languageId", "rig");
            json.WriteNumber("version", _version);
            json.WriteString("text", text);
            json.WriteEndObject();
        });
        AwaitDiagnostics();
    }

    public void Change(int line, int character, int takenOut, string piece) => Change(line, character, line, character + takenOut, piece);

    /// <summary>Takes out a piece that was put in at the start of a line.</summary>
    public void TakeOut(int line, string piece)
    {
        var lines = piece.AsSpan().Count('\n');
        Change(line, 0, line + lines, lines > 0 ? 0 : piece.Length, "");
    }

    private void Change(int line, int character, int lastLine, int lastCharacter, string piece) => Send("textDocument/didChange", null, json =>
    {
        json.WriteStartObject("textDocument");
        json.WriteString("uri", Uri);
        json.WriteNumber("version", ++_version);
        json.WriteEndObject();
        json.WriteStartArray("contentChanges");
        json.WriteStartObject();
        json.WriteStartObject("range");
        WritePosition(json, "start", line, character);
        WritePosition(json, "end", lastLine, lastCharacter);
        json.WriteEndObject();
        json.WriteString("text", piece);
        json.WriteEndObject();
        json.WriteEndArray();
    });

    /// <summary>Until the diagnostics of the newest version have come.</summary>
    public void AwaitDiagnostics()
    {
        while (true)
        {
            using var message = JsonDocument.Parse(Receive());
            if (message.RootElement.TryGetProperty("method", out var method) && method.ValueEquals("textDocument/publishDiagnostics")
                && message.RootElement.GetProperty("params").GetProperty("version").GetInt32() == _version)
            {
                return;
            }
        }
    }

    public void Ask(string method, Action<Utf8JsonWriter> parameters)
    {
        var id = ++_id;
        Send(method, id, parameters);
        while (true)
        {
            using var message = JsonDocument.Parse(Receive());
            if (message.RootElement.TryGetProperty("id", out var answered) && answered.ValueKind == JsonValueKind.Number && answered.GetInt32() == id)
            {
                if (message.RootElement.TryGetProperty("error", out var error))
                {
                    throw new InvalidOperationException($"{method}: {error}");
                }
                return;
            }
        }
    }

    public void Send(string method, int? id, Action<Utf8JsonWriter> parameters)
    {
        using var body = new MemoryStream();
        using (var json = new Utf8JsonWriter(body))
        {
            json.WriteStartObject();
            json.WriteString("jsonrpc", "2.0");
            if (id is { } number)
            {
                json.WriteNumber("id", number);
            }
            json.WriteString("method", method);
            json.WriteStartObject("params");
            parameters(json);
            json.WriteEndObject();
            json.WriteEndObject();
        }
        Frames.Write(_process.StandardInput.BaseStream, body.ToArray());
    }

    /// <summary>The next message; null when the other side has hung up.</summary>
    public byte[]? TryReceive() => Frames.Read(_process.StandardOutput.BaseStream);

    public byte[] Receive() => TryReceive() ?? throw new InvalidOperationException("The other side has hung up.");

    /// <summary>What the process has used of the processors since it began.</summary>
    public TimeSpan ProcessorTime()
    {
        _process.Refresh();
        return _process.TotalProcessorTime;
    }

    /// <summary>Bytes of the process in memory.</summary>
    public long Memory()
    {
        _process.Refresh();
        return _process.WorkingSet64;
    }

    private void WriteDocument(Utf8JsonWriter json)
    {
        json.WriteStartObject("textDocument");
        json.WriteString("uri", Uri);
        json.WriteEndObject();
    }

    private static void WritePosition(Utf8JsonWriter json, string name, int line, int character)
    {
        json.WriteStartObject(name);
        json.WriteNumber("line", line);
        json.WriteNumber("character", character);
        json.WriteEndObject();
    }

    public void Dispose()
    {
        _process.StandardInput.Close();
        if (!_process.WaitForExit(5_000))
        {
            _process.Kill();
        }
        _process.Dispose();
    }
}

internal static class Frames
{
    public static void Write(Stream stream, byte[] body)
    {
        stream.Write([.. Encoding.ASCII.GetBytes($"Content-Length: {body.Length}\r\n\r\n"), .. body]);
        stream.Flush();
    }

    public static byte[]? Read(Stream stream)
    {
        var header = new StringBuilder();
        while (!header.ToString().EndsWith("\r\n\r\n", StringComparison.Ordinal))
        {
            var next = stream.ReadByte();
            if (next < 0)
            {
                return null;
            }
            header.Append((char)next);
        }
        var body = new byte[int.Parse(header.ToString()["Content-Length: ".Length..], CultureInfo.InvariantCulture)];
        stream.ReadExactly(body);
        return body;
    }
}
