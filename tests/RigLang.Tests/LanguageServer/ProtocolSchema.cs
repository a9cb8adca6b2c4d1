using System.Collections.Concurrent;
using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using RigLang.Tests.Cli;
using RigLang.Tests.Support;

namespace RigLang.Tests.LanguageServer;

/// <summary>The schema made from the official typings of the protocol: what of a message it refuses.</summary>
internal static class ProtocolSchema
{
    private static readonly JsonObject Definitions =
        JsonNode.Parse(File.ReadAllText(Path.Combine(Repository.Root, "tests/protocol-schema/protocol.schema.json")))!["definitions"]!.AsObject();

    private static readonly ConcurrentDictionary<string, JsonSchema> Schemas = new();

    /// <summary>Our own notification, which is not in the protocol.</summary>
    private const string Own = "rig/status";

    /// <param name="method">For example <c>textDocument/hover</c>.</param>
    /// <param name="what"><c>Result</c> or <c>Params</c>.</param>
    public static string Refusals(string method, string what, JsonNode? message)
    {
        var name = string.Concat(method.TrimStart('$', '/').Split('/').Select(part => char.ToUpperInvariant(part[0]) + part[1..])) + what;
        if (method == Own || message is null)
        {
            return "";
        }
        if (!Definitions.ContainsKey(name))
        {
            // Results that the typings give as null have no definition of their own.
            return method == "initialize" ? Refused("InitializeResult", message) : $"the protocol has no {name}";
        }
        return Refused(name, message);
    }

    private static string Refused(string definition, JsonNode message)
    {
        var schema = Schemas.GetOrAdd(definition, name => JsonSchema.FromText(
            new JsonObject { ["$schema"] = "http://json-schema.org/draft-07/schema#", ["$ref"] = $"#/definitions/{name}", ["definitions"] = Definitions.DeepClone() }.ToJsonString()));
        return schema.Refusals(message) is { Length: > 0 } why ? $"{definition}: {why}\n{message.ToJsonString()}" : "";
    }
}
