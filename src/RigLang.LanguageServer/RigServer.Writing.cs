using System.Text.Json;
using RigLang.Editing;
using RigLang.Flow.Ground;
using RigLang.LanguageServer.Protocol;
using RigLang.Text;

namespace RigLang.LanguageServer;

internal sealed partial class RigServer
{
    private const int PlainText = 1;
    private const int SnippetText = 2;

    /// <summary>LSP 3.17, CodeActionTriggerKind: the caret moved, and the editor wants to know whether to show a mark.</summary>
    private const int Automatic = 2;

    private EditorStyle Style => new(IsMarkdown(_client.TextDocument?.Hover?.ContentFormat), _settings.InFeet);

    private EditorStyle CompletionStyle => new(IsMarkdown(_client.TextDocument?.Completion?.CompletionItem?.DocumentationFormat), _settings.InFeet);

    private bool TakesSnippets => _client.TextDocument?.Completion?.CompletionItem?.SnippetSupport == true;

    private static bool IsMarkdown(IReadOnlyList<string>? formats) => formats is [.., _] && formats.Contains("markdown");

    private static MarkupContent Markup(EditorStyle style, string text) => new(style.Markdown ? "markdown" : "plaintext", VisibleText.Of(text, keepLines: true));

    public Task<CompletionList?> CompletionAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer<CompletionList?>(request, token, null, (view, offset) => new CompletionList(false,
        [
            .. CompletionFinder.At(view, offset, CompletionStyle, IsOnImport(view, offset) ? PathsSeenFrom(view.Source.Path) : [])
                .Where(s => TakesSnippets || !s.IsSnippet)
                .Select(s => new CompletionItem(
                    VisibleText.Of(s.Label),
                    null,
                    KindOf(s.Kind),
                    s.Detail.Length > 0 ? VisibleText.Of(s.Detail) : null,
                    SortText: s.SortKey,
                    FilterText: s.Label,
                    InsertTextFormat: s.IsSnippet ? SnippetText : PlainText,
                    TextEdit: new Protocol.TextEdit(RangeOf(view.Source, s.Replace), s.Insert),
                    Data: s.Key is { } key ? Packed(view.Source.Path, key) : null)),
        ]));

    public Task<CompletionItem> ResolveCompletionAsync(CompletionItem request, CancellationToken token)
    {
        Guard();
        var (path, key) = Unpacked(request.Data);
        var style = CompletionStyle;
        return Task.FromResult(key.Length > 0 && _workspace.ViewOf(path) is { } view && CompletionFinder.Documentation(view, key, style) is { } text
            ? request with { Documentation = Markup(style, text) }
            : request);
    }

    /// <summary>Numbers of LSP 3.17, CompletionItemKind.</summary>
    private static int KindOf(SuggestionKind kind) => kind switch
    {
        SuggestionKind.Keyword => 14,
        SuggestionKind.Device => 6,
        SuggestionKind.Port => 10,
        SuggestionKind.Gear => 7,
        SuggestionKind.Lead => 22,
        SuggestionKind.Part => 3,
        SuggestionKind.Track => 23,
        SuggestionKind.Channel => 12,
        SuggestionKind.Unit => 11,
        SuggestionKind.File => 17,
        SuggestionKind.Import => 9,
        SuggestionKind.Snippet => 15,
        SuggestionKind.Colour => 16,
        _ => 20,
    };

    /// <summary>Only there is it asked which files may be imported, which takes looking at the disk.</summary>
    private static bool IsOnImport(RigView view, int offset) =>
        view.Source.Slice(view.Source.LineSpan(view.Source.PositionOf(offset).Line)).AsSpan().TrimStart().StartsWith("import", StringComparison.Ordinal);

    /// <summary>The other rig files of the workspace that this one may import, as it would write them.</summary>
    private List<string> PathsSeenFrom(string path)
    {
        var folder = path.LastIndexOf('/') is >= 0 and var slash ? path[..(slash + 1)] : "";
        var paths = new List<string>();
        foreach (var other in _workspace.Paths)
        {
            if (other != path && other.StartsWith('/') && folder.Length > 0 && _workspace.MayImport(path, other))
            {
                paths.Add(other.StartsWith(folder, StringComparison.Ordinal) ? other[folder.Length..] : Path.GetRelativePath(folder, other).Replace('\\', '/'));
            }
        }
        return paths;
    }

    public Task<IReadOnlyList<CodeAction>> CodeActionAsync(CodeActionParams request, CancellationToken token) =>
        Answer<IReadOnlyList<CodeAction>>(request.TextDocument, token, [], view =>
        {
            var span = Positions.SpanOf(view.Source, request.Range, _encoding);
            var actions = new List<CodeAction>();
            if (Wanted("quickfix") || Wanted("refactor"))
            {
                actions.AddRange(ActionFinder.In(view, span, isPassing: request.Context is { TriggerKind: Automatic, Only: null })
                    .Where(a => Wanted(a.Kind) && (a.NewFile is null || CanCreateFiles))
                    .Select(a => new CodeAction(
                        VisibleText.Of(a.Title),
                        a.Kind,
                        a.Mends is { } finding ? [DiagnosticOf(finding)] : null,
                        a.IsPreferred ? true : null,
                        EditOf(a.Edits, a.NewFile))));
            }
            // What changes a whole file is offered when it is asked for, as on save.
            if (request.Context?.Only is not null && Wanted(Capabilities.FixAll) && ActionFinder.FixAll(view) is { Count: > 0 } all)
            {
                actions.Add(new CodeAction("Mend all that can be mended safely", Capabilities.FixAll, null, null, EditOf(all, null)));
            }
            return actions;

            bool Wanted(string kind) => request.Context?.Only is not { } only
                || only.Any(o => kind == o || kind.StartsWith(o + ".", StringComparison.Ordinal) || o.StartsWith(kind + ".", StringComparison.Ordinal));
        });

    private bool CanCreateFiles => _client.Workspace?.WorkspaceEdit is { DocumentChanges: true, ResourceOperations: { } operations } && operations.Contains("create");

    public Task<LinkedEditingRanges?> LinkedEditingRangeAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer<LinkedEditingRanges?>(request, token, null, (view, offset) => LinkedSides.At(view, offset) is { Count: > 1 } spans
            ? new LinkedEditingRanges([.. spans.Select(s => RangeOf(view.Source, s))], null)
            : null);

    public Task<IReadOnlyList<Protocol.TextEdit>> FormattingAsync(DocumentFormattingParams request, CancellationToken token) =>
        Answer(request.TextDocument, token, [], view => Edits(LayoutEdits.Document(view)));

    public Task<IReadOnlyList<Protocol.TextEdit>> RangeFormattingAsync(DocumentRangeFormattingParams request, CancellationToken token) =>
        Answer(request.TextDocument, token, [], view => Edits(LayoutEdits.Range(view, Positions.SpanOf(view.Source, request.Range, _encoding))));

    public Task<IReadOnlyList<Protocol.TextEdit>> OnTypeFormattingAsync(DocumentOnTypeFormattingParams request, CancellationToken token) =>
        Answer(request.TextDocument, token, [], view => Edits(LayoutEdits.OnType(view, Positions.OffsetOf(view.Source, request.Position, _encoding), request.Ch)));

    private IReadOnlyList<Protocol.TextEdit> Edits(IReadOnlyList<Findings.TextEdit> edits) => [.. edits.Select(EditOf)];

    public Task<JsonElement?> ExecuteCommandAsync(ExecuteCommandParams request, CancellationToken token)
    {
        Guard();
        token.ThrowIfCancellationRequested();
        var arguments = (request.Arguments ?? []).Select(a => a.ValueKind == JsonValueKind.String ? a.GetString()! : "").ToList();
        var text = (request.Name, arguments) switch
        {
            (Capabilities.TraceCommand, [var uri, var question, ..]) => _host.Trace(RigAt(uri), question),
            (Capabilities.ChannelsCommand, [var uri, ..]) => _host.Channels(RigAt(uri)),
            (Capabilities.AudioCommand, [var uri, ..]) => _host.Audio(RigAt(uri)),
            (Capabilities.PowerCommand, [var uri, ..]) => _host.Power(RigAt(uri)),
            (Capabilities.GroundCommand, [var uri, ..]) => _host.Ground(RigAt(uri)),
            (Capabilities.HumCommand, [var uri, var sound, ..]) => _host.Hum(RigAt(uri), SoundNamed(sound)),
            (Capabilities.TraceCommand, _) => throw Invalid($"{request.Name} wants the URI of a rig and a question."),
            (Capabilities.HumCommand, _) => throw Invalid($"{request.Name} wants the URI of a rig and what is heard: {Listed(HumSounds.Words)}."),
            (Capabilities.ChannelsCommand or Capabilities.AudioCommand or Capabilities.PowerCommand or Capabilities.GroundCommand, _) => throw Invalid($"{request.Name} wants the URI of a rig."),
            _ => throw Invalid($"There is no command {request.Name}; there are {Listed(Capabilities.Commands)}."),
        };
        return Task.FromResult<JsonElement?>(JsonSerializer.SerializeToElement(text, ProtocolJson.Default.String));
    }

    private static HumSound SoundNamed(string word) => HumSounds.Named(word)
        ?? throw Invalid($"{Capabilities.HumCommand} does not know the sound \"{word}\"; it takes {Listed(HumSounds.Words)}.");

    private static string Listed(IEnumerable<string> words) => string.Join(", ", words);

    private static Exception Invalid(string message) => Refusal(StreamJsonRpc.Protocol.JsonRpcErrorCode.InvalidParams, message);

    private Compilation RigAt(string uri) => _workspace.RootsOf(PathOf(uri)) is [var root, ..] && _workspace.CompilationOf(root) is { } compilation
        ? compilation
        : !_workspace.IsOurs(PathOf(uri))
        ? throw Invalid($"{VisibleText.Of(uri)} is neither open nor in a folder of the workspace, so it was not read; open it in the editor first.")
        : throw Refusal((StreamJsonRpc.Protocol.JsonRpcErrorCode)RequestFailed, $"There is no rig at {uri}.");
}
