using System.Text.Json;
using System.Text.Json.Serialization;

namespace RigLang.LanguageServer.Protocol;

// The shapes of the Language Server Protocol 3.17 that the server reads and writes, by the names of the specification. Tests hold every
// message that is sent against a schema made from the official typings.

internal sealed record Position(int Line, int Character);

internal sealed record Range(Position Start, Position End);

internal sealed record Location(string Uri, Range Range);

internal sealed record TextDocumentIdentifier(string Uri);

internal sealed record VersionedTextDocumentIdentifier(string Uri, int Version);

internal sealed record OptionalVersionedTextDocumentIdentifier(string Uri, [property: JsonIgnore(Condition = JsonIgnoreCondition.Never)] int? Version);

internal sealed record TextDocumentItem(string Uri, string LanguageId, int Version, string Text);

internal sealed record TextEdit(Range Range, string NewText);

internal sealed record TextDocumentEdit(OptionalVersionedTextDocumentIdentifier TextDocument, IReadOnlyList<TextEdit> Edits);

internal sealed record CreateFile(string Uri, string Kind = "create");

/// <param name="DocumentChanges">Each a <see cref="TextDocumentEdit"/> or a <see cref="CreateFile"/>, as JSON.</param>
internal sealed record WorkspaceEdit(IReadOnlyDictionary<string, IReadOnlyList<TextEdit>>? Changes = null, IReadOnlyList<JsonElement>? DocumentChanges = null);

internal sealed record MarkupContent(string Kind, string Value);

internal sealed record Command(string Title, [property: JsonPropertyName("command")] string Name, IReadOnlyList<JsonElement>? Arguments = null);

internal sealed record WorkspaceFolder(string Uri, string Name);

internal sealed record TextDocumentPositionParams(TextDocumentIdentifier TextDocument, Position Position);

internal sealed record TextDocumentParams(TextDocumentIdentifier TextDocument);

internal sealed record TextDocumentRangeParams(TextDocumentIdentifier TextDocument, Range Range);
