namespace RigLang.LanguageServer.Protocol;

/// <param name="Severity">1 error, 2 warning, 3 information, 4 hint.</param>
/// <param name="Tags">1 unnecessary, 2 deprecated.</param>
internal sealed record Diagnostic(
    Range Range,
    int Severity,
    string Code,
    CodeDescription? CodeDescription,
    string Source,
    string Message,
    IReadOnlyList<int>? Tags,
    IReadOnlyList<DiagnosticRelatedInformation>? RelatedInformation);

internal sealed record CodeDescription(string Href);

internal sealed record DiagnosticRelatedInformation(Location Location, string Message);

internal sealed record PublishDiagnosticsParams(string Uri, int? Version, IReadOnlyList<Diagnostic> Diagnostics);

internal sealed record DocumentDiagnosticParams(TextDocumentIdentifier TextDocument, string? Identifier = null, string? PreviousResultId = null);

/// <param name="Kind"><c>full</c>, or <c>unchanged</c> without items.</param>
internal sealed record DocumentDiagnosticReport(string Kind, string ResultId, IReadOnlyList<Diagnostic>? Items);

internal sealed record PreviousResultId(string Uri, string Value);

internal sealed record WorkspaceDiagnosticParams(IReadOnlyList<PreviousResultId> PreviousResultIds, string? Identifier = null)
{
    public IReadOnlyList<PreviousResultId> PreviousResultIds { get; init; } = Lists.WithoutNull(PreviousResultIds);
}

internal sealed record WorkspaceDocumentDiagnosticReport(
    string Kind,
    string Uri,
    [property: System.Text.Json.Serialization.JsonIgnore(Condition = System.Text.Json.Serialization.JsonIgnoreCondition.Never)] int? Version,
    string ResultId,
    IReadOnlyList<Diagnostic>? Items);

internal sealed record WorkspaceDiagnosticReport(IReadOnlyList<WorkspaceDocumentDiagnosticReport> Items);

/// <summary>Our own notification rig/status, for editors that ask for it: what was verified, and whether rig check would pass.</summary>
internal sealed record StatusParams(string Uri, int Facts, int Errors, int Warnings, int Hints, bool Passes, IReadOnlyList<string> Verified);
