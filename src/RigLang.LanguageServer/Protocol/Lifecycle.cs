using System.Text.Json;

namespace RigLang.LanguageServer.Protocol;

internal sealed record InitializeParams(
    int? ProcessId = null,
    string? RootUri = null,
    string? RootPath = null,
    ClientCapabilities? Capabilities = null,
    JsonElement? InitializationOptions = null,
    IReadOnlyList<WorkspaceFolder>? WorkspaceFolders = null,
    JsonElement? WorkDoneToken = null)
{
    public IReadOnlyList<WorkspaceFolder>? WorkspaceFolders { get; init; } = WorkspaceFolders is null ? null : Lists.WithoutNull(WorkspaceFolders);
}

internal sealed record ClientCapabilities(
    WorkspaceClientCapabilities? Workspace = null,
    TextDocumentClientCapabilities? TextDocument = null,
    WindowClientCapabilities? Window = null,
    GeneralClientCapabilities? General = null);

internal sealed record WorkspaceClientCapabilities(
    bool? ApplyEdit = null,
    WorkspaceEditClientCapabilities? WorkspaceEdit = null,
    DynamicRegistration? DidChangeWatchedFiles = null,
    DynamicRegistration? DidChangeConfiguration = null,
    bool? Configuration = null,
    bool? WorkspaceFolders = null,
    RefreshSupport? CodeLens = null,
    RefreshSupport? InlayHint = null,
    RefreshSupport? SemanticTokens = null,
    RefreshSupport? Diagnostics = null);

internal sealed record WorkspaceEditClientCapabilities(bool? DocumentChanges = null, IReadOnlyList<string>? ResourceOperations = null);

internal sealed record DynamicRegistration([property: System.Text.Json.Serialization.JsonPropertyName("dynamicRegistration")] bool? IsSupported = null);

internal sealed record RefreshSupport([property: System.Text.Json.Serialization.JsonPropertyName("refreshSupport")] bool? IsSupported = null);

internal sealed record TextDocumentClientCapabilities(
    HoverClientCapabilities? Hover = null,
    CompletionClientCapabilities? Completion = null,
    PublishDiagnosticsClientCapabilities? PublishDiagnostics = null,
    DocumentSymbolClientCapabilities? DocumentSymbol = null,
    JsonElement? Diagnostic = null);

internal sealed record HoverClientCapabilities(IReadOnlyList<string>? ContentFormat = null);

internal sealed record CompletionClientCapabilities(CompletionItemClientCapabilities? CompletionItem = null);

internal sealed record CompletionItemClientCapabilities(bool? SnippetSupport = null, IReadOnlyList<string>? DocumentationFormat = null);

internal sealed record PublishDiagnosticsClientCapabilities(bool? RelatedInformation = null, bool? VersionSupport = null, bool? CodeDescriptionSupport = null);

internal sealed record DocumentSymbolClientCapabilities(bool? HierarchicalDocumentSymbolSupport = null);

internal sealed record WindowClientCapabilities(bool? WorkDoneProgress = null);

internal sealed record GeneralClientCapabilities(IReadOnlyList<string>? PositionEncodings = null);

internal sealed record InitializeResult(ServerCapabilities Capabilities, ServerInfo ServerInfo);

internal sealed record ServerInfo(string Name, string Version);

internal sealed record ServerCapabilities(
    string PositionEncoding,
    TextDocumentSyncOptions TextDocumentSync,
    bool HoverProvider,
    CompletionOptions CompletionProvider,
    SignatureHelpOptions SignatureHelpProvider,
    bool DefinitionProvider,
    bool TypeDefinitionProvider,
    bool ImplementationProvider,
    bool ReferencesProvider,
    bool DocumentHighlightProvider,
    bool DocumentSymbolProvider,
    CodeActionOptions CodeActionProvider,
    CodeLensOptions CodeLensProvider,
    DocumentLinkOptions DocumentLinkProvider,
    bool ColorProvider,
    bool DocumentFormattingProvider,
    bool DocumentRangeFormattingProvider,
    DocumentOnTypeFormattingOptions DocumentOnTypeFormattingProvider,
    RenameOptions RenameProvider,
    bool FoldingRangeProvider,
    bool SelectionRangeProvider,
    bool LinkedEditingRangeProvider,
    bool CallHierarchyProvider,
    SemanticTokensOptions SemanticTokensProvider,
    bool InlayHintProvider,
    DiagnosticOptions? DiagnosticProvider,
    bool WorkspaceSymbolProvider,
    ExecuteCommandOptions ExecuteCommandProvider,
    WorkspaceServerCapabilities Workspace);

/// <param name="Change">2: incremental.</param>
internal sealed record TextDocumentSyncOptions(bool OpenClose, int Change, bool Save);

internal sealed record CompletionOptions(bool ResolveProvider, IReadOnlyList<string> TriggerCharacters);

internal sealed record SignatureHelpOptions(IReadOnlyList<string> TriggerCharacters);

internal sealed record CodeActionOptions(IReadOnlyList<string> CodeActionKinds, bool ResolveProvider = false);

internal sealed record CodeLensOptions(bool ResolveProvider);

internal sealed record DocumentLinkOptions(bool ResolveProvider);

internal sealed record DocumentOnTypeFormattingOptions(string FirstTriggerCharacter, IReadOnlyList<string> MoreTriggerCharacter);

internal sealed record RenameOptions(bool PrepareProvider);

internal sealed record SemanticTokensOptions(SemanticTokensLegend Legend, bool Range, SemanticTokensFullOptions Full);

internal sealed record SemanticTokensLegend(IReadOnlyList<string> TokenTypes, IReadOnlyList<string> TokenModifiers);

internal sealed record SemanticTokensFullOptions(bool Delta);

internal sealed record DiagnosticOptions(string Identifier, bool InterFileDependencies, bool WorkspaceDiagnostics);

internal sealed record ExecuteCommandOptions(IReadOnlyList<string> Commands);

internal sealed record WorkspaceServerCapabilities(WorkspaceFoldersServerCapabilities WorkspaceFolders);

internal sealed record WorkspaceFoldersServerCapabilities(bool Supported, bool ChangeNotifications);

internal sealed record Registration(string Id, string Method, JsonElement? RegisterOptions);

internal sealed record RegistrationParams(IReadOnlyList<Registration> Registrations);

internal sealed record DidChangeWatchedFilesRegistrationOptions(IReadOnlyList<FileSystemWatcher> Watchers);

internal sealed record FileSystemWatcher(string GlobPattern);

internal sealed record SetTraceParams(string? Value = null);

/// <param name="Type">1 error, 2 warning, 3 information.</param>
internal sealed record MessageParams(int Type, string Message);

internal sealed record ConfigurationItem(string? ScopeUri, string Section);

internal sealed record ConfigurationParams(IReadOnlyList<ConfigurationItem> Items);

internal sealed record WorkDoneProgressCreateParams(string Token);

internal sealed record WorkDoneProgressBegin(string Title, bool Cancellable, int Percentage, string Kind = "begin");

internal sealed record WorkDoneProgressReport(string Message, int Percentage, string Kind = "report");

internal sealed record WorkDoneProgressEnd(string? Message, string Kind = "end");

internal sealed record ProgressParams(string Token, JsonElement Value);
