using System.Text.Json;
using PolyType;
using RigLang.LanguageServer.Protocol;
using StreamJsonRpc;

namespace RigLang.LanguageServer;

/// <summary>Every message that a client can send, by its name in LSP 3.17.</summary>
[JsonRpcContract]
[GenerateShape(IncludeMethods = MethodShapeFlags.PublicInstance)]
internal partial interface IRigProtocol
{
    // Life.

    [JsonRpcMethod("initialize", UseSingleObjectParameterDeserialization = true)]
    Task<InitializeResult> InitializeAsync(InitializeParams request, CancellationToken token);

    [JsonRpcMethod("initialized", UseSingleObjectParameterDeserialization = true)]
    Task InitializedAsync(Nothing request);

    [JsonRpcMethod("shutdown")]
    Task<object?> ShutdownAsync();

    [JsonRpcMethod("exit")]
    Task ExitAsync();

    [JsonRpcMethod("$/setTrace", UseSingleObjectParameterDeserialization = true)]
    Task SetTraceAsync(SetTraceParams request);

    [JsonRpcMethod("window/workDoneProgress/cancel", UseSingleObjectParameterDeserialization = true)]
    Task CancelProgressAsync(Nothing request);

    // Documents.

    [JsonRpcMethod("textDocument/didOpen", UseSingleObjectParameterDeserialization = true)]
    Task DidOpenAsync(JsonElement request);

    // Parameters as JSON: an edit that cannot be read must not be lost without a word, as a notification is.
    [JsonRpcMethod("textDocument/didChange", UseSingleObjectParameterDeserialization = true)]
    Task DidChangeAsync(JsonElement request);

    [JsonRpcMethod("textDocument/didSave", UseSingleObjectParameterDeserialization = true)]
    Task DidSaveAsync(DidSaveTextDocumentParams request);

    [JsonRpcMethod("textDocument/didClose", UseSingleObjectParameterDeserialization = true)]
    Task DidCloseAsync(DidCloseTextDocumentParams request);

    [JsonRpcMethod("workspace/didChangeWatchedFiles", UseSingleObjectParameterDeserialization = true)]
    Task DidChangeWatchedFilesAsync(DidChangeWatchedFilesParams request);

    [JsonRpcMethod("workspace/didChangeWorkspaceFolders", UseSingleObjectParameterDeserialization = true)]
    Task DidChangeWorkspaceFoldersAsync(DidChangeWorkspaceFoldersParams request);

    [JsonRpcMethod("workspace/didChangeConfiguration", UseSingleObjectParameterDeserialization = true)]
    Task DidChangeConfigurationAsync(DidChangeConfigurationParams request);

    // What is wrong.

    [JsonRpcMethod("textDocument/diagnostic", UseSingleObjectParameterDeserialization = true)]
    Task<DocumentDiagnosticReport> DiagnosticAsync(DocumentDiagnosticParams request, CancellationToken token);

    [JsonRpcMethod("workspace/diagnostic", UseSingleObjectParameterDeserialization = true)]
    Task<WorkspaceDiagnosticReport> WorkspaceDiagnosticAsync(WorkspaceDiagnosticParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/codeAction", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<CodeAction>> CodeActionAsync(CodeActionParams request, CancellationToken token);

    // What is this.

    [JsonRpcMethod("textDocument/hover", UseSingleObjectParameterDeserialization = true)]
    Task<Hover?> HoverAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/signatureHelp", UseSingleObjectParameterDeserialization = true)]
    Task<SignatureHelp?> SignatureHelpAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/codeLens", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<CodeLens>> CodeLensAsync(TextDocumentParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/inlayHint", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<InlayHint>> InlayHintAsync(TextDocumentRangeParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/documentColor", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<ColorInformation>> DocumentColorAsync(TextDocumentParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/colorPresentation", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<ColorPresentation>> ColorPresentationAsync(ColorPresentationParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/semanticTokens/full", UseSingleObjectParameterDeserialization = true)]
    Task<SemanticTokens?> SemanticTokensAsync(TextDocumentParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/semanticTokens/full/delta", UseSingleObjectParameterDeserialization = true)]
    Task<SemanticTokensDelta?> SemanticTokensDeltaAsync(SemanticTokensDeltaParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/semanticTokens/range", UseSingleObjectParameterDeserialization = true)]
    Task<SemanticTokens?> SemanticTokensRangeAsync(TextDocumentRangeParams request, CancellationToken token);

    // Writing.

    [JsonRpcMethod("textDocument/completion", UseSingleObjectParameterDeserialization = true)]
    Task<CompletionList?> CompletionAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("completionItem/resolve", UseSingleObjectParameterDeserialization = true)]
    Task<CompletionItem> ResolveCompletionAsync(CompletionItem request, CancellationToken token);

    [JsonRpcMethod("textDocument/linkedEditingRange", UseSingleObjectParameterDeserialization = true)]
    Task<LinkedEditingRanges?> LinkedEditingRangeAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/prepareRename", UseSingleObjectParameterDeserialization = true)]
    Task<PrepareRenameResult?> PrepareRenameAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/rename", UseSingleObjectParameterDeserialization = true)]
    Task<WorkspaceEdit?> RenameAsync(RenameParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/formatting", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<TextEdit>> FormattingAsync(DocumentFormattingParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/rangeFormatting", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<TextEdit>> RangeFormattingAsync(DocumentRangeFormattingParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/onTypeFormatting", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<TextEdit>> OnTypeFormattingAsync(DocumentOnTypeFormattingParams request, CancellationToken token);

    // Finding the way.

    [JsonRpcMethod("textDocument/definition", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<Location>> DefinitionAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/typeDefinition", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<Location>> TypeDefinitionAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/implementation", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<Location>> ImplementationAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/references", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<Location>> ReferencesAsync(ReferenceParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/documentHighlight", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<DocumentHighlight>> DocumentHighlightAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/documentSymbol", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<DocumentSymbol>> DocumentSymbolAsync(TextDocumentParams request, CancellationToken token);

    [JsonRpcMethod("workspace/symbol", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<SymbolInformation>> WorkspaceSymbolAsync(WorkspaceSymbolParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/foldingRange", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<FoldingRange>> FoldingRangeAsync(TextDocumentParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/selectionRange", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<SelectionRange>> SelectionRangeAsync(SelectionRangeParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/documentLink", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<DocumentLink>> DocumentLinkAsync(TextDocumentParams request, CancellationToken token);

    [JsonRpcMethod("textDocument/prepareCallHierarchy", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<CallHierarchyItem>?> PrepareCallHierarchyAsync(TextDocumentPositionParams request, CancellationToken token);

    [JsonRpcMethod("callHierarchy/incomingCalls", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<CallHierarchyIncomingCall>> IncomingCallsAsync(CallHierarchyParams request, CancellationToken token);

    [JsonRpcMethod("callHierarchy/outgoingCalls", UseSingleObjectParameterDeserialization = true)]
    Task<IReadOnlyList<CallHierarchyOutgoingCall>> OutgoingCallsAsync(CallHierarchyParams request, CancellationToken token);

    [JsonRpcMethod("workspace/executeCommand", UseSingleObjectParameterDeserialization = true)]
    Task<JsonElement?> ExecuteCommandAsync(ExecuteCommandParams request, CancellationToken token);
}
