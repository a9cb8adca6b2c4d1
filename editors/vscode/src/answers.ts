import * as vscode from "vscode";

const scheme = "rig-answer";

/** The server's answers, each in a document that nobody can change by mistake. */
export class Answers implements vscode.Disposable, vscode.TextDocumentContentProvider {
  private readonly texts = new Map<string, string>();
  private readonly changed = new vscode.EventEmitter<vscode.Uri>();
  private readonly subscriptions = [
    this.changed,
    vscode.workspace.registerTextDocumentContentProvider(scheme, this),
    vscode.workspace.onDidCloseTextDocument(document => this.texts.delete(document.uri.toString())),
  ];

  readonly onDidChange = this.changed.event;

  provideTextDocumentContent(uri: vscode.Uri): string {
    return this.texts.get(uri.toString()) ?? "";
  }

  /** @param title What was asked; the same question asked again takes the place of the old answer. */
  async show(title: string, text: string): Promise<void> {
    const uri = vscode.Uri.from({ scheme, path: title.replace(/[\\/]/g, " ") + ".txt" });
    this.texts.set(uri.toString(), text);
    this.changed.fire(uri);
    const document = await vscode.workspace.openTextDocument(uri);
    await vscode.window.showTextDocument(document, { viewColumn: vscode.ViewColumn.Beside, preview: true, preserveFocus: true });
  }

  dispose(): void {
    vscode.Disposable.from(...this.subscriptions).dispose();
  }
}
