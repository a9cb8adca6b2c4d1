// What a server sends, method by method. generate.mjs makes one definition of each line: "textDocument/hover" under Results
// becomes TextDocumentHoverResult, "window/showMessage" under Params becomes WindowShowMessageParams.
import * as lsp from "vscode-languageserver-protocol";

/** The results of the requests that a client sends. */
export interface Results {
  "initialize": lsp.InitializeResult;
  "shutdown": null;

  "textDocument/willSaveWaitUntil": lsp.TextEdit[] | null;
  "textDocument/declaration": lsp.Declaration | lsp.DeclarationLink[] | null;
  "textDocument/definition": lsp.Definition | lsp.DefinitionLink[] | null;
  "textDocument/typeDefinition": lsp.Definition | lsp.DefinitionLink[] | null;
  "textDocument/implementation": lsp.Definition | lsp.DefinitionLink[] | null;
  "textDocument/references": lsp.Location[] | null;
  "textDocument/documentHighlight": lsp.DocumentHighlight[] | null;
  "textDocument/documentSymbol": lsp.DocumentSymbol[] | lsp.SymbolInformation[] | null;
  "textDocument/hover": lsp.Hover | null;
  "textDocument/completion": lsp.CompletionItem[] | lsp.CompletionList | null;
  "completionItem/resolve": lsp.CompletionItem;
  "textDocument/signatureHelp": lsp.SignatureHelp | null;
  "textDocument/codeAction": (lsp.Command | lsp.CodeAction)[] | null;
  "codeAction/resolve": lsp.CodeAction;
  "textDocument/codeLens": lsp.CodeLens[] | null;
  "codeLens/resolve": lsp.CodeLens;
  "textDocument/documentLink": lsp.DocumentLink[] | null;
  "documentLink/resolve": lsp.DocumentLink;
  "textDocument/documentColor": lsp.ColorInformation[];
  "textDocument/colorPresentation": lsp.ColorPresentation[];
  "textDocument/formatting": lsp.TextEdit[] | null;
  "textDocument/rangeFormatting": lsp.TextEdit[] | null;
  "textDocument/onTypeFormatting": lsp.TextEdit[] | null;
  "textDocument/prepareRename": lsp.PrepareRenameResult | null;
  "textDocument/rename": lsp.WorkspaceEdit | null;
  "textDocument/foldingRange": lsp.FoldingRange[] | null;
  "textDocument/selectionRange": lsp.SelectionRange[] | null;
  "textDocument/linkedEditingRange": lsp.LinkedEditingRanges | null;
  "textDocument/prepareCallHierarchy": lsp.CallHierarchyItem[] | null;
  "callHierarchy/incomingCalls": lsp.CallHierarchyIncomingCall[] | null;
  "callHierarchy/outgoingCalls": lsp.CallHierarchyOutgoingCall[] | null;
  "textDocument/prepareTypeHierarchy": lsp.TypeHierarchyItem[] | null;
  "typeHierarchy/supertypes": lsp.TypeHierarchyItem[] | null;
  "typeHierarchy/subtypes": lsp.TypeHierarchyItem[] | null;
  "textDocument/semanticTokens/full": lsp.SemanticTokens | null;
  "textDocument/semanticTokens/full/delta": lsp.SemanticTokens | lsp.SemanticTokensDelta | null;
  "textDocument/semanticTokens/range": lsp.SemanticTokens | null;
  "textDocument/inlayHint": lsp.InlayHint[] | null;
  "inlayHint/resolve": lsp.InlayHint;
  "textDocument/inlineValue": lsp.InlineValue[] | null;
  "textDocument/moniker": lsp.Moniker[] | null;
  "textDocument/diagnostic": lsp.DocumentDiagnosticReport;

  "workspace/diagnostic": lsp.WorkspaceDiagnosticReport;
  "workspace/symbol": lsp.SymbolInformation[] | lsp.WorkspaceSymbol[] | null;
  "workspaceSymbol/resolve": lsp.WorkspaceSymbol;
  "workspace/executeCommand": lsp.LSPAny;
  "workspace/willCreateFiles": lsp.WorkspaceEdit | null;
  "workspace/willRenameFiles": lsp.WorkspaceEdit | null;
  "workspace/willDeleteFiles": lsp.WorkspaceEdit | null;
}

/** The parameters of the requests and notifications that the server sends of its own accord. */
export interface Params {
  "textDocument/publishDiagnostics": lsp.PublishDiagnosticsParams;

  "window/showMessage": lsp.ShowMessageParams;
  "window/showMessageRequest": lsp.ShowMessageRequestParams;
  "window/showDocument": lsp.ShowDocumentParams;
  "window/logMessage": lsp.LogMessageParams;
  "window/workDoneProgress/create": lsp.WorkDoneProgressCreateParams;
  "telemetry/event": lsp.LSPAny;
  "$/progress": Progress;
  "$/logTrace": lsp.LogTraceParams;
  "$/cancelRequest": { id: lsp.integer | string };

  "client/registerCapability": lsp.RegistrationParams;
  "client/unregisterCapability": lsp.UnregistrationParams;
  "workspace/applyEdit": lsp.ApplyWorkspaceEditParams;
  "workspace/configuration": lsp.ConfigurationParams;
}

/** The token is from the client or from window/workDoneProgress/create; what is not work done is a partial result. */
interface Progress {
  token: lsp.ProgressToken;
  value: lsp.WorkDoneProgressBegin | lsp.WorkDoneProgressReport | lsp.WorkDoneProgressEnd | lsp.LSPAny[] | PartialReport;
}

type PartialReport = lsp.DocumentDiagnosticReportPartialResult | lsp.WorkspaceDiagnosticReportPartialResult;

/** The error of a response. */
export interface ResponseError {
  code: lsp.integer;
  message: string;
  data?: lsp.LSPAny;
}

/** The options of what is registered while the server runs, method by method: registerOptions says only "anything". */
export interface RegisterOptions {
  "workspace/didChangeWatchedFiles": lsp.DidChangeWatchedFilesRegistrationOptions;
  "workspace/didChangeConfiguration": lsp.DidChangeConfigurationRegistrationOptions;
}
