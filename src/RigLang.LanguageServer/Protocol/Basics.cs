using System.Text.Json;
using System.Text.Json.Serialization;

namespace RigLang.LanguageServer.Protocol;

// The shapes of the Language Server Protocol 3.17 that the server reads and writes, by the names of the specification. Tests hold every
// message that is sent against a schema made from the official typings.

internal sealed record Position(
    [property: JsonConverter(typeof(Count))] int Line,
    [property: JsonConverter(typeof(Count))] int Character);

/// <summary>A number of the protocol, at most 2^31 - 1: what is beyond is taken for the nearest that can be, as with any place outside of a text.</summary>
internal sealed class Count : JsonConverter<int>
{
    public override int Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
        reader.TryGetInt32(out var number) ? number : (int)Math.Clamp(reader.GetDouble(), 0, int.MaxValue);

    public override void Write(Utf8JsonWriter writer, int value, JsonSerializerOptions options) => writer.WriteNumberValue(value);
}

internal static class Lists
{
    /// <summary>A list in which every element is there, as the protocol has it; the serializer would let null pass.</summary>
    public static IReadOnlyList<T> WithoutNull<T>(IReadOnlyList<T> list)
        where T : class
    {
        foreach (var element in list)
        {
            if (element is null)
            {
                throw new JsonException("An element of a list is null.");
            }
        }
        return list;
    }
}

internal sealed record Range(Position Start, Position End);

internal sealed record Location(string Uri, Range Range);

internal sealed record TextDocumentIdentifier(string Uri);

/// <param name="Version">Null from clients of older versions of the protocol: not known.</param>
internal sealed record VersionedTextDocumentIdentifier(string Uri, int? Version = null);

internal sealed record OptionalVersionedTextDocumentIdentifier(string Uri, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] int? Version);

internal sealed record TextDocumentItem(string Uri, string Text, int Version = 0, string? LanguageId = null);

internal sealed record TextEdit(Range Range, string NewText);

internal sealed record TextDocumentEdit(OptionalVersionedTextDocumentIdentifier TextDocument, IReadOnlyList<TextEdit> Edits);

internal sealed record CreateFile(string Uri, string Kind = "create");

/// <param name="DocumentChanges">Each a <see cref="TextDocumentEdit"/> or a <see cref="CreateFile"/>, as JSON.</param>
internal sealed record WorkspaceEdit(IReadOnlyDictionary<string, IReadOnlyList<TextEdit>>? Changes = null, IReadOnlyList<JsonElement>? DocumentChanges = null);

internal sealed record MarkupContent(string Kind, string Value);

internal sealed record Command(string Title, [property: JsonPropertyName("command")] string Name, IReadOnlyList<JsonElement>? Arguments = null);

internal sealed record WorkspaceFolder(string Uri, string? Name = null);

internal sealed record TextDocumentPositionParams(TextDocumentIdentifier TextDocument, Position Position);

internal sealed record TextDocumentParams(TextDocumentIdentifier TextDocument);

internal sealed record TextDocumentRangeParams(TextDocumentIdentifier TextDocument, Range Range);
