using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace RigLang.Benchmarks;

/// <summary>
/// A real `rig server` over standard input and output, as an editor drives it: the time from a keystroke to the diagnostics that know of
/// it, hover and completion, the start, and memory over a long run of edits. Beside it in the same run stands an echo: a
/// process that sends each message back, so that figures can be compared between machines.
/// </summary>
public static class ServerBenchmark
{
    private const string Uri = "file:///bench/rig.rig";

    /// <summary>Between two keys: fifty a second, several times what anybody types.</summary>
    private static readonly TimeSpan BetweenKeys = TimeSpan.FromMilliseconds(20);

    /// <summary>False when an aim is missed.</summary>
    /// <param name="edits">How many random edits the memory is watched over.</param>
    public static bool Run(TextWriter output, string rig, int edits, bool isQuick)
    {
        var rounds = isQuick ? 60 : 300;
        var echo = EchoTime(rounds);
        output.WriteLine("                                      median        p95   times the echo");
        Row(output, "echo of a hover", echo, echo);
        var isMet = true;
        foreach (var (lines, keystroke, hover, completion) in new[] { (1_000, 5.0, 1.0, 5.0), (10_000, 20.0, 1.0, 5.0) })
        {
            using var server = Speaker.Server(rig);
            var text = RigGenerator.Rig(lines);
            server.Introduce();
            server.Open(text);
            var typing = Typing(server, text, rounds);
            Row(output, $"keystroke to diagnostics, {lines:N0} lines", typing, echo);
            var hovering = Asking(server, text, "textDocument/hover", rounds);
            Row(output, $"hover, {lines:N0} lines", hovering, echo);
            var completing = Asking(server, text, "textDocument/completion", rounds);
            Row(output, $"completion, {lines:N0} lines", completing, echo);
            isMet &= Aim(output, $"keystroke at {lines:N0} lines, p95 under {keystroke} ms", Percentile(typing, 0.95), keystroke);
            isMet &= Aim(output, $"hover at {lines:N0} lines, p95 under {hover} ms", Percentile(hovering, 0.95), hover);
            isMet &= Aim(output, $"completion at {lines:N0} lines, p95 under {completion} ms", Percentile(completing, 0.95), completion);
        }
        var starts = Enumerable.Range(0, isQuick ? 10 : 40).Select(_ => StartTime(rig)).ToList();
        Row(output, "start to initialize answered", starts, echo);
        isMet &= Aim(output, "start to initialize under 25 ms", Percentile(starts, 0.5), 25);
        return Memory(output, rig, edits) && isMet;
    }

    /// <summary>The other end of the comparison: every message goes back as it came.</summary>
    public static void Echo(Stream input, Stream output)
    {
        while (Frames.Read(input) is { } message)
        {
            Frames.Write(output, message);
        }
    }

    private static List<double> EchoTime(int rounds)
    {
        using var echo = Speaker.Echo();
        var times = new List<double>();
        for (var i = -10; i < rounds; i++)
        {
            var start = Stopwatch.GetTimestamp();
            echo.Send("textDocument/hover", i + 100, w => Speaker.Place(w, i & 7, 3));
            echo.Receive();
            Keep(times, i, start);
        }
        return times;
    }

    /// <summary>A letter typed into a comment in the middle of the rig, then another, and every third time one taken out.</summary>
    private static List<double> Typing(Speaker server, string text, int rounds)
    {
        var line = text.AsSpan(0, text.Length / 2).Count('\n');
        server.Change(line, 0, 0, "// \n");
        server.AwaitDiagnostics();
        var column = 3;
        var times = new List<double>();
        for (var i = -10; i < rounds; i++)
        {
            Thread.Sleep(BetweenKeys);
            var start = Stopwatch.GetTimestamp();
            if (i % 3 == 2)
            {
                server.Change(line, column - 1, 1, "");
                column--;
            }
            else
            {
                server.Change(line, column, 0, "a");
                column++;
            }
            server.AwaitDiagnostics();
            Keep(times, i, start);
        }
        return times;
    }

    /// <summary>At places all over the rig where something stands.</summary>
    private static List<double> Asking(Speaker server, string text, string method, int rounds)
    {
        var lines = text.Split('\n');
        var places = Enumerable.Range(0, lines.Length).Where(l => lines[l].StartsWith("connect ", StringComparison.Ordinal) || lines[l].StartsWith("device ", StringComparison.Ordinal)).ToList();
        var times = new List<double>();
        for (var i = -10; i < rounds; i++)
        {
            var line = places[(i + 10) * 7919 % places.Count];
            var start = Stopwatch.GetTimestamp();
            server.Ask(method, w => Speaker.Place(w, line, 10));
            Keep(times, i, start);
        }
        return times;
    }

    private static double StartTime(string rig)
    {
        var start = Stopwatch.GetTimestamp();
        using var server = Speaker.Server(rig);
        server.Ask("initialize", Speaker.Capabilities);
        return Stopwatch.GetElapsedTime(start).TotalMilliseconds;
    }

    /// <summary>
    /// Pieces put in at random and taken out again, so that the text stays of one size: what the server holds after the second half must not
    /// be more than after the first.
    /// </summary>
    private static bool Memory(TextWriter output, string rig, int edits)
    {
        using var server = Speaker.Server(rig);
        server.Introduce();
        var text = RigGenerator.Rig(1_000);
        var count = text.AsSpan().Count('\n');
        server.Open(text);
        var random = new Random(1);
        string[] pieces = ["x", "connect ", "}", "\"", "device a : B {\n}\n", "// é\n"];
        var half = 0L;
        for (var i = 0; i < edits; i++)
        {
            var line = random.Next(count);
            var piece = pieces[random.Next(pieces.Length)];
            server.Change(line, 0, 0, piece);
            server.TakeOut(line, piece);
            if (i % 16 == 15)
            {
                server.AwaitDiagnostics();
            }
            if (i == edits / 2)
            {
                half = server.Memory();
            }
        }
        var end = server.Memory();
        var growth = (double)end / half;
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"memory: {half / 1e6:0.0} MB after {edits / 2:N0} edits, {end / 1e6:0.0} MB after {edits:N0}"));
        return Aim(output, "memory flat: second half at most 1.15 times the first", growth, 1.15);
    }

    private static void Keep(List<double> times, int round, long start)
    {
        if (round >= 0)
        {
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
    }

    private static void Row(TextWriter output, string what, List<double> times, List<double> echo) => output.WriteLine(string.Create(CultureInfo.InvariantCulture,
        $"{what,-36} {Percentile(times, 0.5),7:0.00} ms {Percentile(times, 0.95),7:0.00} ms   {Percentile(times, 0.5) / Percentile(echo, 0.5),8:0.0}"));

    private static bool Aim(TextWriter output, string what, double value, double most)
    {
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{(value <= most ? "met    " : "NOT MET")}  {what}: {value:0.00}"));
        return value <= most;
    }

    private static double Percentile(List<double> times, double share) => times.Order().ElementAt((int)Math.Min(times.Count - 1, Math.Ceiling(times.Count * share) - 1));

    /// <summary>One process that is spoken with.</summary>
    private sealed class Speaker : IDisposable
    {
        private readonly Process _process;
        private int _version = 1;
        private int _id;

        private Speaker(string program, params string[] arguments)
        {
            _process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardInput = true, RedirectStandardOutput = true })
                ?? throw new InvalidOperationException($"{program} does not start.");
        }

        public static Speaker Server(string rig) => new(rig, "server");

        public static Speaker Echo() => new(Environment.ProcessPath!, "--echo");

        public static void Capabilities(Utf8JsonWriter json)
        {
            json.WriteNull("processId");
            json.WriteNull("rootUri");
            json.WritePropertyName("capabilities");
            json.WriteRawValue("""{"textDocument":{"publishDiagnostics":{"versionSupport":true},"hover":{"contentFormat":["markdown","plaintext"]}}}""");
        }

        public static void Place(Utf8JsonWriter json, int line, int character)
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

        public byte[] Receive() => Frames.Read(_process.StandardOutput.BaseStream) ?? throw new InvalidOperationException("The other side has hung up.");

        /// <summary>Bytes of the process in memory.</summary>
        public long Memory()
        {
            _process.Refresh();
            return _process.WorkingSet64;
        }

        private static void WriteDocument(Utf8JsonWriter json)
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

    private static class Frames
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
}
