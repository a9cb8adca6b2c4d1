using System.Collections;
using System.Globalization;
using System.Reflection;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using CsCheck;
using RigLang.LanguageServer;
using RigLang.LanguageServer.Protocol;
using StreamJsonRpc;

namespace RigLang.Fuzz.Parts;

/// <summary>
/// Wrong messages of every kind, made from the methods that the server has. A case is a message a line: an object or anything else is sent as a
/// body with the right header, a JSON string as the bytes that it spells. The words <c>initialize</c> and <c>shutdown</c> on a line of their own stand
/// for doing so rightly.
/// </summary>
internal sealed class Protocol : Part
{
    private const string Initialize = "initialize";
    private const string Shutdown = "shutdown";
    private const string Text = "device bass : Nothing\n";
    private const string Folder = "file:///FOLDER/";
    private const string Document = Folder + "case.rig";

    /// <summary>What ends the server or changes its phase has its own place in a case.</summary>
    private static readonly string[] NotByChance = ["exit", "shutdown"];

    private static readonly (string Name, Type? Parameters)[] Methods =
        [.. typeof(IRigProtocol).GetMethods().Select(m => (
                m.GetCustomAttribute<JsonRpcMethodAttribute>()!.Name!,
                m.GetParameters().Select(p => p.ParameterType).FirstOrDefault(t => t != typeof(CancellationToken))))
            .Where(m => !NotByChance.Contains(m.Item1)).OrderBy(m => m.Item1, StringComparer.Ordinal)];

    private static readonly Gen<string> Odd = Gen.OneOf(
        "null", "true", "0", "-1", "1.5", "4294967296", "1e308", "99999999999999999999999", "[]", "{}", "[[]]", "[null]", "\"\"", "\"x\"", "\"\\u0000\"", "\"\\ud800\"",
        "{\"uri\":42}", "[1,2,3,4,5]", "\"file:///FOLDER/case.rig\"", new string('[', 60) + new string(']', 60), "\"" + new string('x', 5_000) + "\"");

    private static readonly Gen<string> Uri = Gen.Frequency(
        (8, Gen.Const(Document)),
        (3, Gen.OneOf(Folder + "other.rig", Folder, "untitled:Untitled-1", "untitled:", "", "x", "file:", "http://h/x.rig", "file://host/share/x.rig", "file:///FOLDER/a%2Fb%00.rig", "file:///FOLDER/%E0%A4%A.rig", "file:///FOLDER/../x.rig", "FILE:///FOLDER/case.rig", "git:/case.rig?x#y")));

    private static readonly Gen<string> Number = Gen.OneOf("0", "1", "2", "5", "7", "40", "-1", "2147483647", "-2147483648");

    private static readonly Gen<string> Word = Gen.OneOf<string>([
        "", "x", "\n", "}", "bass", "Nothing", "a b", "\"", "device x : Y\n", "notes from bass", "why not", "hum", "{\n", "\u202E", "on",
        .. Capabilities.Commands, .. CodeActionKinds]);

    private static string[] CodeActionKinds => ["quickfix", "refactor", "source.fixAll.rig"];

    /// <summary>Parameters as the method wants them, with what is wrong here and there.</summary>
    private static Gen<string> JsonOf(Type type, string name = "") => Gen.Frequency((12, RightOf(type, name)), (1, Odd));

    private static Gen<string> RightOf(Type type, string name)
    {
        if (Nullable.GetUnderlyingType(type) is { } inner)
        {
            return Gen.Frequency((3, RightOf(inner, name)), (1, Gen.Const("null")));
        }
        return type == typeof(string) ? (name.EndsWith("Uri", StringComparison.OrdinalIgnoreCase) ? Uri : Word).Select(word => JsonSerializer.Serialize(word))
            // A client that is not there any more rightly ends a server.
            : name == "processId" ? Gen.Const("null")
            : type == typeof(int) || type == typeof(uint) || type == typeof(long) || type == typeof(double) ? Number
            : type == typeof(bool) ? Gen.OneOf("true", "false")
            : type == typeof(JsonElement) ? Gen.OneOf(Odd, Uri.Select(uri => JsonSerializer.Serialize(uri)), Word.Select(word => JsonSerializer.Serialize(word)))
            : type.IsGenericType && typeof(IEnumerable).IsAssignableFrom(type) && type.GetGenericArguments() is [var item] ? JsonOf(item, name).Array[0, 3].Select(items => $"[{string.Join(',', items)}]")
            : type.IsGenericType ? Gen.Const("{}")
            : ObjectOf(type);
    }

    private static Gen<string> ObjectOf(Type type)
    {
        var properties = type.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.CanWrite).ToArray();
        return Gen.Int[0, 9].Array[properties.Length].SelectMany(chances => properties
            .Select((property, i) => (Name: JsonNamingPolicy.CamelCase.ConvertName(property.Name), property.PropertyType, Is: chances[i] > 0))
            .Where(p => p.Is)
            // Deep shapes (a completion item's edits) stop where they repeat.
            .Select(p => (p.Name == "processId" ? Gen.Const("null") : JsonOf(p.PropertyType, p.Name)).Select(value => $"\"{p.Name}\":{value}"))
            .Aggregate(Gen.Const(""), (all, one) => Gen.Select(all, one, (a, b) => a.Length == 0 ? b : $"{a},{b}"))
            .Select(inside => $"{{{inside}}}"));
    }

    private static readonly Gen<string> Id = Gen.Frequency(
        (6, Gen.Int[1, 5].Select(i => i.ToString(CultureInfo.InvariantCulture))),
        (2, Gen.OneOf("\"a\"", "\"\"", "\"1\"", "-7", "0", "9007199254740993", "\"\\u00e9\"")),
        (1, Gen.OneOf("null", "1.5", "true", "[]", "{}")));

    private static readonly Gen<(string Name, Gen<string> Parameters)> Method = Gen.Frequency(
        (10, Gen.OneOf(Methods).Select(m => (m.Name, m.Parameters is { } type ? JsonOf(type) : Odd))),
        (1, Gen.OneOf("textDocument/nonsense", "$/nonsense", "", "rpc.x", "$/cancelRequest", "textDocument/Hover").Select(name => (name, Odd))));

    private static readonly Gen<string> Request = Method.SelectMany(method => Gen.Select(Id, Gen.Frequency((9, method.Parameters), (1, Odd)),
        (id, parameters) => $"{{\"jsonrpc\":\"2.0\",\"id\":{id},\"method\":\"{method.Name}\",\"params\":{parameters}}}"));

    private static readonly Gen<string> Notification = Method.SelectMany(method => Gen.Frequency((9, method.Parameters), (1, Odd)).Select(
        parameters => $"{{\"jsonrpc\":\"2.0\",\"method\":\"{method.Name}\",\"params\":{parameters}}}"));

    private static readonly Gen<string> Cancellation = Gen.OneOf(Id, Odd).Select(id => $"{{\"jsonrpc\":\"2.0\",\"method\":\"$/cancelRequest\",\"params\":{{\"id\":{id}}}}}");

    private static readonly Gen<string> NoMessage = Gen.OneOf<string>([
        "{}", "[]", "42", "null", "{\"jsonrpc\":\"2.0\"}", "{\"jsonrpc\":\"2.0\",\"id\":7}", "{\"jsonrpc\":\"2.0\",\"method\":42}", "{\"jsonrpc\":\"2.0\",\"id\":3,\"method\":null}",
        "{\"jsonrpc\":\"1.0\",\"id\":3,\"method\":\"textDocument/hover\"}", "{\"id\":3,\"method\":\"textDocument/hover\",\"params\":{}}", "{bad}",
        "[{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"x\"},{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":\"y\"}]", new string('[', 200), new string('{', 2_000)]);

    /// <summary>Answers to nothing that the server asked.</summary>
    private static readonly Gen<string> Unasked = Gen.Select(Id, Gen.OneOf("\"result\":1", "\"result\":null", "\"error\":{\"code\":-32603,\"message\":\"x\"}", "\"error\":null", "\"error\":[]"),
        (id, told) => $"{{\"jsonrpc\":\"2.0\",\"id\":{id},{told}}}");

    private static readonly Gen<string> Raw = Gen.OneOf<string>([
        "Foo: 1\r\n\r\n", "Content-Length: many\r\n\r\n", "Content-Length: -5\r\n\r\n", "Content-Length: 99999999999999\r\n\r\n", "Content-Length: 0\r\n\r\n",
        "content-length: 2\r\nContent-Type: application/vscode-jsonrpc; charset=utf-8\r\n\r\n{}", "Content-Length: 3\r\n\r\n\u00ff\u00fe\u00fd", "\r\n\r\n", "Content-Length: 2\r\nContent-Length: 2\r\n\r\n{}",
        "Content-Length: 10\r\n\r\n{\"jsonrpc\":\"2.0\",\"id\":\"cut\",\"method\":\"x\"}"]).Select(bytes => JsonSerializer.Serialize(bytes));

    private static readonly Gen<string> Message = Gen.Frequency((10, Request), (4, Notification), (2, Cancellation), (2, NoMessage), (1, Unasked), (1, Raw));

    public override string Name => "protocol";

    public override string About => "whatever a client sends, each request is answered once, none fails inside the server, and it goes on";

    public override int CasesIn(int runs) => Math.Max(1, runs / 50);

    public override Gen<string> Cases { get; } = Gen.Select(
        Gen.Frequency((4, Message.Array[0, 0]), (1, Message.Array[1, 3])), Message.Array[1, 9], Gen.Frequency((5, Message.Array[0, 0]), (1, Message.Array[1, 3])),
        (before, during, after) => string.Join('\n', [.. before, Initialize, .. during, .. after.Length > 0 ? [Shutdown, .. after] : Array.Empty<string>()]));

    private int _sent;

    public override IEnumerable<string> Summary => [string.Create(CultureInfo.InvariantCulture, $"{_sent} messages")];

    public override async Task<string?> JudgeAsync(string written)
    {
        await using var wire = new Wire();
        var expected = new Dictionary<string, int>(StringComparer.Ordinal);
        var lines = written.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        if (lines.Any(line => line.Contains("\"exit\"", StringComparison.Ordinal) || line.Contains("\"shutdown\"", StringComparison.Ordinal)))
        {
            return null;
        }
        if (!lines.Contains(Initialize))
        {
            await BeginAsync(wire);
        }
        foreach (var line in lines)
        {
            _sent++;
            switch (line)
            {
                case Initialize:
                    await BeginAsync(wire);
                    break;
                case Shutdown:
                    await wire.AskAsync(Shutdown, null);
                    break;
                default:
                    if (IdToAnswer(line) is { } id)
                    {
                        expected[id] = expected.GetValueOrDefault(id) + 1;
                    }
                    await SendAsync(wire, line.Replace("file:///FOLDER", "file://" + wire.Folder, StringComparison.Ordinal));
                    break;
            }
            if (wire.HasEnded)
            {
                return $"the server ends: {line}";
            }
        }
        return await LivesAsync(wire, lines.Contains(Shutdown)) ?? await AnsweredAsync(wire, expected);
    }

    private static async Task BeginAsync(Wire wire)
    {
        await wire.InitializeAsync();
        await wire.OpenAsync(wire.UriOf("case.rig"), Text, 1);
    }

    private static Task SendAsync(Wire wire, string line)
    {
        if (line.StartsWith('"'))
        {
            try
            {
                return wire.SendBytesAsync(Encoding.Latin1.GetBytes(JsonSerializer.Deserialize<string>(line)!));
            }
            catch (JsonException)
            {
                // A piece of a case, while it is made smaller.
                return Task.CompletedTask;
            }
        }
        return wire.SendAsync(line);
    }

    /// <summary>The id of what has to be answered: a request, or what can only be a broken one.</summary>
    private static string? IdToAnswer(string line)
    {
        try
        {
            return JsonNode.Parse(line) is JsonObject message && message["id"] is JsonValue id && !message.ContainsKey("result") && !message.ContainsKey("error")
                && (id.TryGetValue<string>(out _) || id.TryGetValue<long>(out _)) ? id.ToJsonString() : null;
        }
        catch (Exception e) when (e is JsonException or ArgumentException or InvalidOperationException)
        {
            return null;
        }
    }

    /// <summary>Opened anew, a text is hovered over as if nothing had been; after a shutdown that is refused.</summary>
    private static async Task<string?> LivesAsync(Wire wire, bool isShutDown)
    {
        await wire.CloseAsync(wire.UriOf("case.rig"));
        await wire.OpenAsync(wire.UriOf("case.rig"), Text, 1_000);
        var hover = await wire.AskAsync("textDocument/hover", Wire.Place(wire.UriOf("case.rig"), 0, 2));
        return hover is null ? "the server answers no hover afterwards: it " + (wire.HasEnded ? "has ended" : "is silent")
            : isShutDown ? hover["error"] is null ? "after shutdown a hover is not refused: " + hover.ToJsonString() : null
            : hover["result"]?["contents"] is null ? "the server knows nothing of a hover afterwards: " + hover.ToJsonString() : null;
    }

    private static async Task<string?> AnsweredAsync(Wire wire, Dictionary<string, int> expected)
    {
        // Answers may overtake each other; a hover's tells that the others are on their way.
        for (var waited = 0; waited < 400 && Missing(wire, expected) is not null; waited++)
        {
            await Task.Delay(5);
        }
        await wire.EndAsync();
        if (Missing(wire, expected) is { } missing)
        {
            return missing;
        }
        foreach (var (id, answer) in wire.Answers())
        {
            var message = answer["error"]?["message"]?.ToString() ?? "";
            if (message.Contains("failed inside the server", StringComparison.Ordinal) || message.Contains("   at ", StringComparison.Ordinal))
            {
                return $"{message.Split(' ')[0]} fails inside the server: {answer.ToJsonString()}";
            }
            if (expected.TryGetValue(id, out var times) && wire.Answers().Count(a => a.Id == id) > times)
            {
                return $"a request is answered more than once: {id}";
            }
        }
        return null;
    }

    private static string? Missing(Wire wire, Dictionary<string, int> expected)
    {
        var answers = wire.Answers().CountBy(a => a.Id).ToDictionary();
        return expected.Where(e => answers.GetValueOrDefault(e.Key) < e.Value).Select(e => $"a request is never answered: {e.Key}").FirstOrDefault();
    }
}
