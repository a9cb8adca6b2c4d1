using System.Text.Json;
using RigLang.Editing;
using RigLang.LanguageServer.Protocol;
using RigLang.Text;

namespace RigLang.LanguageServer;

internal sealed partial class RigServer
{
    public Task<IReadOnlyList<Protocol.Location>> DefinitionAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer(request, token, [], (view, offset) => One(Navigation.DefinitionOf(view, offset)));

    public Task<IReadOnlyList<Protocol.Location>> TypeDefinitionAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer(request, token, [], (view, offset) => One(Navigation.TypeDefinitionOf(view, offset)));

    public Task<IReadOnlyList<Protocol.Location>> ImplementationAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer(request, token, [], (view, offset) => Many(_workspace.ViewsOf(view.Source.Path).SelectMany(v => Navigation.ImplementationsOf(v, offset))));

    public Task<IReadOnlyList<Protocol.Location>> ReferencesAsync(ReferenceParams request, CancellationToken token) =>
        Answer(new TextDocumentPositionParams(request.TextDocument, request.Position), token, [], (view, offset) => view.NameAt(offset) is { } at
            ? Many(Navigation.ReferencesTo(at.Of, AllViews(), request.Context?.IncludeDeclaration ?? true))
            : []);

    public Task<IReadOnlyList<DocumentHighlight>> DocumentHighlightAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer<IReadOnlyList<DocumentHighlight>>(request, token, [], (view, offset) =>
            [.. Navigation.HighlightsAt(view, offset).Select(h => new DocumentHighlight(RangeOf(view.Source, h.Span), h.IsDeclaration ? 3 : 2))]);

    public Task<PrepareRenameResult?> PrepareRenameAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer<PrepareRenameResult?>(request, token, null, (view, offset) =>
        {
            var (at, refusal) = Renaming.Prepare(view, offset);
            return refusal is not null ? throw Refusal((StreamJsonRpc.Protocol.JsonRpcErrorCode)RequestFailed, refusal)
                : at is null ? null
                : new PrepareRenameResult(RangeOf(view.Source, at.Span), at.Of.Name);
        });

    public Task<WorkspaceEdit?> RenameAsync(RenameParams request, CancellationToken token) =>
        Answer<WorkspaceEdit?>(new TextDocumentPositionParams(request.TextDocument, request.Position), token, null, (view, offset) =>
        {
            var (edits, refusal) = Renaming.Rename(view, offset, request.NewName, [.. AllViews()]);
            return refusal is null ? EditOf(edits, null) : throw Refusal((StreamJsonRpc.Protocol.JsonRpcErrorCode)RequestFailed, refusal);
        });

    private const int RequestFailed = -32803;

    public Task<IReadOnlyList<DocumentSymbol>> DocumentSymbolAsync(TextDocumentParams request, CancellationToken token) =>
        Answer<IReadOnlyList<DocumentSymbol>>(request.TextDocument, token, [], view => [.. SymbolFinder.In(view).Select(s => SymbolOf(view.Source, s))]);

    private DocumentSymbol SymbolOf(SourceText source, Symbol symbol) => new(
        symbol.Name.Length > 0 ? VisibleText.Of(symbol.Name) : symbol.Kind.ToString(),
        symbol.Detail.Length > 0 ? VisibleText.Of(symbol.Detail) : null,
        KindOf(symbol.Kind),
        RangeOf(source, symbol.Whole),
        RangeOf(source, symbol.Span),
        symbol.Children.Count > 0 ? [.. symbol.Children.Select(c => SymbolOf(source, c))] : null);

    /// <summary>Numbers of LSP 3.17, SymbolKind.</summary>
    private static int KindOf(SymbolKind kind) => kind switch
    {
        SymbolKind.Rig => 4,
        SymbolKind.Import => 2,
        SymbolKind.Gear => 5,
        SymbolKind.Lead => 23,
        SymbolKind.Device => 13,
        SymbolKind.Connection => 24,
        SymbolKind.Stock => 18,
        SymbolKind.Expectation => 17,
        SymbolKind.Acceptance => 15,
        SymbolKind.Port => 8,
        SymbolKind.Part => 12,
        SymbolKind.Track => 9,
        _ => 7,
    };

    /// <summary>Gear, leads and devices of every rig whose name has the letters of the query in their order.</summary>
    public Task<IReadOnlyList<SymbolInformation>> WorkspaceSymbolAsync(WorkspaceSymbolParams request, CancellationToken token)
    {
        Guard();
        var found = new List<SymbolInformation>();
        var seen = new HashSet<(string, TextSpan)>();
        foreach (var view in AllViews())
        {
            token.ThrowIfCancellationRequested();
            foreach (var symbol in SymbolFinder.In(view))
            {
                if (symbol.Kind is SymbolKind.Gear or SymbolKind.Lead or SymbolKind.Device && Matches(symbol.Name, request.Query) && seen.Add((view.Source.Path, symbol.Span)))
                {
                    found.Add(new SymbolInformation(VisibleText.Of(symbol.Name), KindOf(symbol.Kind), LocationOf(new Text.Location(view.Source, symbol.Span)), VisibleText.Of(symbol.Detail)));
                }
            }
        }
        return Task.FromResult<IReadOnlyList<SymbolInformation>>(found);
    }

    private static bool Matches(string name, string query)
    {
        var at = 0;
        foreach (var letter in query)
        {
            at = name.IndexOf(letter.ToString(), at, StringComparison.OrdinalIgnoreCase) + 1;
            if (at == 0)
            {
                return false;
            }
        }
        return true;
    }

    public Task<IReadOnlyList<FoldingRange>> FoldingRangeAsync(TextDocumentParams request, CancellationToken token) =>
        Answer<IReadOnlyList<FoldingRange>>(request.TextDocument, token, [], view =>
        [
            .. Folding.Of(view).Select(f => new FoldingRange(f.FirstLine, f.LastLine, f.Kind switch
            {
                FoldKind.Comment => "comment",
                FoldKind.Imports => "imports",
                _ => "region",
            })),
        ]);

    public Task<IReadOnlyList<SelectionRange>> SelectionRangeAsync(SelectionRangeParams request, CancellationToken token) =>
        Answer<IReadOnlyList<SelectionRange>>(request.TextDocument, token, [], view =>
            [.. request.Positions.Select(p => SelectionAt(view, Positions.OffsetOf(view.Source, p, _encoding)))]);

    private SelectionRange SelectionAt(RigView view, int offset)
    {
        SelectionRange? outer = null;
        foreach (var span in Selections.Around(view, offset).Reverse())
        {
            outer = new SelectionRange(RangeOf(view.Source, span), outer);
        }
        return outer ?? new SelectionRange(RangeOf(view.Source, new TextSpan(offset, 0)), null);
    }

    public Task<IReadOnlyList<DocumentLink>> DocumentLinkAsync(TextDocumentParams request, CancellationToken token) =>
        Answer<IReadOnlyList<DocumentLink>>(request.TextDocument, token, [], view =>
            [.. Links.In(view).Select(l => new DocumentLink(RangeOf(view.Source, l.Span), UriOf(l.Target), null))]);

    public Task<IReadOnlyList<CallHierarchyItem>?> PrepareCallHierarchyAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer<IReadOnlyList<CallHierarchyItem>?>(request, token, null, (view, offset) =>
            SignalHierarchy.Prepare(view, offset) is { Count: > 0 } nodes ? [.. nodes.Select(n => ItemOf(view, n))] : null);

    public Task<IReadOnlyList<CallHierarchyIncomingCall>> IncomingCallsAsync(CallHierarchyParams request, CancellationToken token) =>
        Calls<CallHierarchyIncomingCall>(request, token, SignalHierarchy.Incoming, (view, call) => new(ItemOf(view, call.Other), RangesOf(call)));

    public Task<IReadOnlyList<CallHierarchyOutgoingCall>> OutgoingCallsAsync(CallHierarchyParams request, CancellationToken token) =>
        Calls<CallHierarchyOutgoingCall>(request, token, SignalHierarchy.Outgoing, (view, call) => new(ItemOf(view, call.Other), RangesOf(call)));

    [System.Diagnostics.CodeAnalysis.SuppressMessage("Design", "CA1068", Justification = AnswerLast)]
    private Task<IReadOnlyList<T>> Calls<T>(CallHierarchyParams request, CancellationToken token, Func<RigView, string, IReadOnlyList<SignalCall>> find, Func<RigView, SignalCall, T> shape)
    {
        // The key says which rig the signal is followed in: a gear file is part of several.
        var (path, key) = Unpacked(request.Item.Data);
        return Answer<IReadOnlyList<T>>(new TextDocumentIdentifier(path.Length > 0 ? FileUri.FromPath(path) : request.Item.Uri), token, [], view => [.. find(view, key).Select(c => shape(view, c))]);
    }

    private CallHierarchyItem ItemOf(RigView view, SignalNode node) => new(
        VisibleText.Of(node.Title), KindOf(SymbolKind.Device), UriOf(node.Name.Source), RangeOf(node.Whole.Source, node.Whole.Span),
        RangeOf(node.Name.Source, node.Name.Span), VisibleText.Of(node.Detail), Packed(view.Source.Path, node.Key));

    private IReadOnlyList<Protocol.Range> RangesOf(SignalCall call) => [.. call.Connections.Select(c => RangeOf(c.Source, c.Span))];

    private static JsonElement Packed(params string[] parts) =>
        JsonSerializer.SerializeToElement([.. parts.Select(p => JsonSerializer.SerializeToElement(p, ProtocolJson.Default.String))], ProtocolJson.Default.IReadOnlyListJsonElement);

    private static (string First, string Second) Unpacked(JsonElement? data) =>
        data is { ValueKind: JsonValueKind.Array } array && array.GetArrayLength() == 2 && array[0].ValueKind == JsonValueKind.String && array[1].ValueKind == JsonValueKind.String
            ? (array[0].GetString()!, array[1].GetString()!)
            : ("", "");

    private IEnumerable<RigView> AllViews() => _workspace.AllRigs().SelectMany(RigView.AllOf);

    private IReadOnlyList<Protocol.Location> One(Text.Location? at) => at is { } place ? [LocationOf(place)] : [];

    private IReadOnlyList<Protocol.Location> Many(IEnumerable<Text.Location> places) => [.. places.Select(LocationOf).Distinct()];

    /// <summary>Edits by document; as versioned document changes where the client takes them, so that it can refuse what is out of date.</summary>
    private WorkspaceEdit EditOf(IReadOnlyList<Findings.TextEdit> edits, (string Path, string Content)? newFile)
    {
        var byFile = edits.GroupBy(e => e.Source.Path).ToList();
        if (_client.Workspace?.WorkspaceEdit?.DocumentChanges != true)
        {
            return new WorkspaceEdit(byFile.ToDictionary(g => UriOf(g.First().Source), g => (IReadOnlyList<Protocol.TextEdit>)[.. g.Select(EditOf)]));
        }
        var changes = new List<JsonElement>();
        if (newFile is { } file)
        {
            var uri = FileUri.FromPath(file.Path);
            changes.Add(JsonSerializer.SerializeToElement(new CreateFile(uri), ProtocolJson.Default.CreateFile));
            changes.Add(Change(uri, null, [new Protocol.TextEdit(new Protocol.Range(new Position(0, 0), new Position(0, 0)), file.Content)]));
        }
        changes.AddRange(byFile.Select(g => Change(UriOf(g.First().Source), _workspace.Document(g.Key)?.Version, [.. g.Select(EditOf)])));
        return new WorkspaceEdit(DocumentChanges: changes);

        static JsonElement Change(string uri, int? version, IReadOnlyList<Protocol.TextEdit> edits) => JsonSerializer.SerializeToElement(
            new TextDocumentEdit(new OptionalVersionedTextDocumentIdentifier(uri, version), edits), ProtocolJson.Default.TextDocumentEdit);
    }
}
