using RigLang.LanguageServer.Protocol;

namespace RigLang.LanguageServer;

/// <summary>What the server tells a client that it can do.</summary>
internal static class Capabilities
{
    public const string FixAll = "source.fixAll.rig";

    public const string TraceCommand = "rig.trace";
    public const string ChannelsCommand = "rig.channels";
    public const string AudioCommand = "rig.audio";
    public const string PowerCommand = "rig.power";
    public const string GroundCommand = "rig.ground";
    public const string HumCommand = "rig.hum";

    public static IReadOnlyList<string> Commands { get; } = [TraceCommand, ChannelsCommand, AudioCommand, PowerCommand, GroundCommand, HumCommand];

    public static ServerCapabilities Of(PositionEncoding encoding, bool isPulled) => new(
        Positions.NameOf(encoding),
        new TextDocumentSyncOptions(OpenClose: true, Change: 2, Save: true),
        HoverProvider: true,
        new CompletionOptions(ResolveProvider: true, [".", " ", "\"", "/"]),
        new SignatureHelpOptions([" "]),
        DefinitionProvider: true,
        TypeDefinitionProvider: true,
        ImplementationProvider: true,
        ReferencesProvider: true,
        DocumentHighlightProvider: true,
        DocumentSymbolProvider: true,
        new CodeActionOptions(["quickfix", "refactor", "refactor.extract", "refactor.rewrite", FixAll]),
        new CodeLensOptions(ResolveProvider: false),
        new DocumentLinkOptions(ResolveProvider: false),
        ColorProvider: true,
        DocumentFormattingProvider: true,
        DocumentRangeFormattingProvider: true,
        new DocumentOnTypeFormattingOptions("\n", ["}"]),
        new RenameOptions(PrepareProvider: true),
        FoldingRangeProvider: true,
        SelectionRangeProvider: true,
        LinkedEditingRangeProvider: true,
        CallHierarchyProvider: true,
        new SemanticTokensOptions(
            new SemanticTokensLegend(Editing.TokenPainter.Types, Editing.TokenPainter.Modifiers), Range: true, new SemanticTokensFullOptions(Delta: true)),
        InlayHintProvider: true,
        isPulled ? new DiagnosticOptions("rig", InterFileDependencies: true, WorkspaceDiagnostics: true) : null,
        WorkspaceSymbolProvider: true,
        new ExecuteCommandOptions(Commands),
        new WorkspaceServerCapabilities(new WorkspaceFoldersServerCapabilities(Supported: true, ChangeNotifications: true)));
}
