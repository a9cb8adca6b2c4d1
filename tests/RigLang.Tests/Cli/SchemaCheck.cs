using System.Text.Json.Nodes;
using System.Text.Json;
using Json.Schema;

namespace RigLang.Tests.Cli;

internal static class SchemaCheck
{
    /// <summary>What of a document a schema refuses, a line each; empty when it fits.</summary>
    public static string Refusals(this JsonSchema schema, JsonNode document)
    {
        using var parsed = JsonDocument.Parse(document.ToJsonString());
        var result = schema.Evaluate(parsed.RootElement, new() { OutputFormat = OutputFormat.List });
        if (result.IsValid)
        {
            return "";
        }
        var lines = (result.Details ?? [])
            .Where(d => d.Errors is { Count: > 0 })
            .SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}"));
        return "refused\n" + string.Join('\n', lines);
    }
}
