using RigLang.Editing;
using RigLang.LanguageServer.Protocol;
using RigLang.Text;

namespace RigLang.LanguageServer;

internal sealed partial class RigServer
{
    /// <summary>The tokens that a client was last sent of each document, for telling only what changed.</summary>
    private readonly Dictionary<string, (string Id, int[] Data)> _tokens = new(StringComparer.Ordinal);
    private int _lastTokens;

    public Task<Hover?> HoverAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer<Hover?>(request, token, null, (view, offset) => HoverFinder.At(view, offset, Style) is { } hover
            ? new Hover(Markup(Style, hover.Text), RangeOf(view.Source, hover.Span))
            : null);

    public Task<SignatureHelp?> SignatureHelpAsync(TextDocumentPositionParams request, CancellationToken token) =>
        Answer<SignatureHelp?>(request, token, null, (view, offset) => SignatureFinder.At(view, offset) is { } signature
            ? new SignatureHelp(
                [
                    new SignatureInformation(signature.Label, Markup(Style, signature.Documentation),
                        [.. signature.Parameters.Select(p => new ParameterInformation([p.Start, p.End], Markup(Style, p.Documentation)))]),
                ],
                0,
                signature.Active)
            : null);

    public Task<IReadOnlyList<CodeLens>> CodeLensAsync(TextDocumentParams request, CancellationToken token) =>
        Answer<IReadOnlyList<CodeLens>>(request.TextDocument, token, [], view =>
            [.. LensFinder.In(view).Select(l => new CodeLens(RangeOf(view.Source, l.Span), new Command(VisibleText.Of(l.Title), "")))]);

    public Task<IReadOnlyList<InlayHint>> InlayHintAsync(TextDocumentRangeParams request, CancellationToken token) =>
        Answer<IReadOnlyList<InlayHint>>(request.TextDocument, token, [], view =>
        [
            .. HintFinder.In(view, Positions.SpanOf(view.Source, request.Range, _encoding), Style)
                .Select(h => new InlayHint(Positions.PositionOf(view.Source, h.Offset, _encoding), VisibleText.Of(h.Text), null,
                    h.Tooltip.Length > 0 ? Markup(Style, h.Tooltip) : null, h.IsBefore ? null : true, h.IsBefore ? true : null)),
        ]);

    public Task<IReadOnlyList<ColorInformation>> DocumentColorAsync(TextDocumentParams request, CancellationToken token) =>
        Answer<IReadOnlyList<ColorInformation>>(request.TextDocument, token, [], view =>
            [.. Colours.In(view).Select(c => new ColorInformation(RangeOf(view.Source, c.Span), new Color(c.Red, c.Green, c.Blue, 1)))]);

    public Task<IReadOnlyList<ColorPresentation>> ColorPresentationAsync(ColorPresentationParams request, CancellationToken token) =>
        Answer<IReadOnlyList<ColorPresentation>>(request.TextDocument, token, [], view =>
        {
            var range = RangeOf(view.Source, Positions.SpanOf(view.Source, request.Range, _encoding));
            return [.. Colours.Nearest(request.Color.Red, request.Color.Green, request.Color.Blue).Select(word => new ColorPresentation(word, new Protocol.TextEdit(range, word)))];
        });

    public Task<SemanticTokens?> SemanticTokensAsync(TextDocumentParams request, CancellationToken token) =>
        Answer<SemanticTokens?>(request.TextDocument, token, null, view => Remembered(view));

    public Task<SemanticTokens?> SemanticTokensRangeAsync(TextDocumentRangeParams request, CancellationToken token) =>
        Answer<SemanticTokens?>(request.TextDocument, token, null, view =>
        {
            var span = Positions.SpanOf(view.Source, request.Range, _encoding);
            return new SemanticTokens(null, Encoded(view.Source, TokenPainter.In(view).Where(p => p.Span.End > span.Start && p.Span.Start < span.End)));
        });

    public Task<SemanticTokensDelta?> SemanticTokensDeltaAsync(SemanticTokensDeltaParams request, CancellationToken token) =>
        Answer<SemanticTokensDelta?>(request.TextDocument, token, null, view =>
        {
            var isKnown = _tokens.TryGetValue(view.Source.Path, out var before) && before.Id == request.PreviousResultId;
            var now = Remembered(view);
            return isKnown
                ? new SemanticTokensDelta(now.ResultId, null, Differences(before.Data, [.. now.Data]))
                : new SemanticTokensDelta(now.ResultId, now.Data, null);
        });

    private SemanticTokens Remembered(RigView view)
    {
        var data = Encoded(view.Source, TokenPainter.In(view));
        var id = $"{++_lastTokens}";
        _tokens[view.Source.Path] = (id, data);
        return new SemanticTokens(id, data);
    }

    /// <summary>Five numbers a token, places counted from the token before. Source: LSP 3.17, semantic tokens.</summary>
    private int[] Encoded(SourceText source, IEnumerable<Paint> paints)
    {
        var data = new List<int>();
        var last = new Position(0, 0);
        foreach (var paint in paints)
        {
            var start = Positions.PositionOf(source, paint.Span.Start, _encoding);
            var end = Positions.PositionOf(source, paint.Span.End, _encoding);
            data.Add(start.Line - last.Line);
            data.Add(start.Line == last.Line ? start.Character - last.Character : start.Character);
            data.Add(end.Character - start.Character);
            data.Add(paint.Type);
            data.Add(paint.Modifiers);
            last = start;
        }
        return [.. data];
    }

    /// <summary>One edit: what lies between the numbers that are the same at the start and those that are the same at the end.</summary>
    private static IReadOnlyList<SemanticTokensEdit> Differences(int[] before, int[] now)
    {
        var start = before.AsSpan().CommonPrefixLength(now);
        var end = 0;
        while (end < Math.Min(before.Length, now.Length) - start && before[^(end + 1)] == now[^(end + 1)])
        {
            end++;
        }
        return start == before.Length && start == now.Length ? [] : [new SemanticTokensEdit(start, before.Length - start - end, [.. now[start..(now.Length - end)]])];
    }
}
