using System.Text.Json;

namespace RigLang.LanguageServer.Protocol;

internal sealed record DidOpenTextDocumentParams(TextDocumentItem TextDocument);

internal sealed record DidChangeTextDocumentParams(VersionedTextDocumentIdentifier TextDocument, IReadOnlyList<TextDocumentContentChangeEvent> ContentChanges)
{
    public IReadOnlyList<TextDocumentContentChangeEvent> ContentChanges { get; init; } = Lists.WithoutNull(ContentChanges);
}

/// <param name="Range">Null: the text is the whole document.</param>
internal sealed record TextDocumentContentChangeEvent(string Text, Range? Range = null);

internal sealed record DidCloseTextDocumentParams(TextDocumentIdentifier TextDocument);

internal sealed record DidSaveTextDocumentParams(TextDocumentIdentifier TextDocument, string? Text = null);

internal sealed record DidChangeConfigurationParams(JsonElement? Settings = null);

/// <param name="Type">1 created, 2 changed, 3 deleted.</param>
internal sealed record FileEvent(string Uri, int Type);

internal sealed record DidChangeWatchedFilesParams(IReadOnlyList<FileEvent> Changes)
{
    public IReadOnlyList<FileEvent> Changes { get; init; } = Lists.WithoutNull(Changes);
}

internal sealed record WorkspaceFoldersChangeEvent(IReadOnlyList<WorkspaceFolder> Added, IReadOnlyList<WorkspaceFolder> Removed)
{
    public IReadOnlyList<WorkspaceFolder> Added { get; init; } = Lists.WithoutNull(Added);
    public IReadOnlyList<WorkspaceFolder> Removed { get; init; } = Lists.WithoutNull(Removed);
}

internal sealed record DidChangeWorkspaceFoldersParams(WorkspaceFoldersChangeEvent Event);
