using System.Text.Json;

namespace RigLang.LanguageServer.Protocol;

internal sealed record Hover(MarkupContent Contents, Range? Range);

internal sealed record CompletionItem(
    string Label,
    CompletionItemLabelDetails? LabelDetails = null,
    int? Kind = null,
    string? Detail = null,
    MarkupContent? Documentation = null,
    bool? Preselect = null,
    string? SortText = null,
    string? FilterText = null,
    int? InsertTextFormat = null,
    TextEdit? TextEdit = null,
    IReadOnlyList<TextEdit>? AdditionalTextEdits = null,
    JsonElement? Data = null);

internal sealed record CompletionItemLabelDetails(string? Detail = null, string? Description = null);

internal sealed record CompletionList(bool IsIncomplete, IReadOnlyList<CompletionItem> Items);

internal sealed record SignatureHelp(IReadOnlyList<SignatureInformation> Signatures, int ActiveSignature, int? ActiveParameter);

internal sealed record SignatureInformation(string Label, MarkupContent? Documentation, IReadOnlyList<ParameterInformation> Parameters);

/// <param name="Label">Start and end offsets within the signature's label.</param>
internal sealed record ParameterInformation(IReadOnlyList<int> Label, MarkupContent? Documentation);

internal sealed record ReferenceContext(bool IncludeDeclaration);

internal sealed record ReferenceParams(TextDocumentIdentifier TextDocument, Position Position, ReferenceContext? Context = null);

/// <param name="Kind">1 text, 2 read, 3 write.</param>
internal sealed record DocumentHighlight(Range Range, int Kind);

internal sealed record DocumentSymbol(string Name, string? Detail, int Kind, Range Range, Range SelectionRange, IReadOnlyList<DocumentSymbol>? Children);

internal sealed record SymbolInformation(string Name, int Kind, Location Location, string? ContainerName);

internal sealed record WorkspaceSymbolParams(string Query);

internal sealed record CodeActionParams(TextDocumentIdentifier TextDocument, Range Range, CodeActionContext? Context = null);

internal sealed record CodeActionContext(IReadOnlyList<DiagnosticRef>? Diagnostics = null, IReadOnlyList<string>? Only = null, int? TriggerKind = null)
{
    public IReadOnlyList<string>? Only { get; init; } = Only is null ? null : Lists.WithoutNull(Only);
}

/// <summary>Of a diagnostic that a client sends back, what the server needs to know it again.</summary>
internal sealed record DiagnosticRef(Range Range, JsonElement? Code = null, string? Message = null, string? Source = null);

internal sealed record CodeAction(string Title, string Kind, IReadOnlyList<Diagnostic>? Diagnostics, bool? IsPreferred, WorkspaceEdit? Edit, Command? Command = null);

internal sealed record CodeLens(Range Range, Command? Command);

internal sealed record DocumentLink(Range Range, string? Target, string? Tooltip);

internal sealed record Color(double Red, double Green, double Blue, double Alpha);

internal sealed record ColorInformation(Range Range, Color Color);

internal sealed record ColorPresentationParams(TextDocumentIdentifier TextDocument, Color Color, Range Range);

internal sealed record ColorPresentation(string Label, TextEdit? TextEdit);

internal sealed record FormattingOptions(int TabSize = 2, bool InsertSpaces = true);

internal sealed record DocumentFormattingParams(TextDocumentIdentifier TextDocument, FormattingOptions? Options = null);

internal sealed record DocumentRangeFormattingParams(TextDocumentIdentifier TextDocument, Range Range, FormattingOptions? Options = null);

internal sealed record DocumentOnTypeFormattingParams(TextDocumentIdentifier TextDocument, Position Position, string Ch, FormattingOptions? Options = null);

internal sealed record RenameParams(TextDocumentIdentifier TextDocument, Position Position, string NewName);

internal sealed record PrepareRenameResult(Range Range, string Placeholder);

internal sealed record FoldingRange(int StartLine, int EndLine, string? Kind);

internal sealed record SelectionRangeParams(TextDocumentIdentifier TextDocument, IReadOnlyList<Position> Positions)
{
    public IReadOnlyList<Position> Positions { get; init; } = Lists.WithoutNull(Positions);
}

internal sealed record SelectionRange(Range Range, SelectionRange? Parent);

internal sealed record LinkedEditingRanges(IReadOnlyList<Range> Ranges, string? WordPattern);

internal sealed record SemanticTokens(string? ResultId, IReadOnlyList<int> Data);

internal sealed record SemanticTokensDeltaParams(TextDocumentIdentifier TextDocument, string PreviousResultId);

internal sealed record SemanticTokensEdit(int Start, int DeleteCount, IReadOnlyList<int>? Data);

/// <summary>Either the tokens anew (<see cref="Data"/>) or what changed (<see cref="Edits"/>).</summary>
internal sealed record SemanticTokensDelta(string? ResultId, IReadOnlyList<int>? Data, IReadOnlyList<SemanticTokensEdit>? Edits);

internal sealed record InlayHint(Position Position, string Label, int? Kind, MarkupContent? Tooltip, bool? PaddingLeft, bool? PaddingRight);

internal sealed record CallHierarchyItem(string Name, int Kind, string Uri, Range Range, Range SelectionRange, string? Detail = null, JsonElement? Data = null);

internal sealed record CallHierarchyParams(CallHierarchyItem Item);

internal sealed record CallHierarchyIncomingCall(CallHierarchyItem From, IReadOnlyList<Range> FromRanges);

internal sealed record CallHierarchyOutgoingCall(CallHierarchyItem To, IReadOnlyList<Range> FromRanges);

internal sealed record ExecuteCommandParams([property: System.Text.Json.Serialization.JsonPropertyName("command")] string Name, IReadOnlyList<JsonElement>? Arguments = null);
