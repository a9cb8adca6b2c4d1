import * as vscode from "vscode";
import { RigStatus, statusDetails, statusText } from "./statusText";

/** The item in the status bar: how much of the rig in the active editor was verified. */
export class StatusItem implements vscode.Disposable {
  private readonly item = vscode.window.createStatusBarItem("rig-lang.status", vscode.StatusBarAlignment.Left, 10);
  private readonly latest = new Map<string, RigStatus>();
  private readonly subscriptions: vscode.Disposable[];
  private stopped: string | undefined;

  constructor() {
    this.item.name = "Rig";
    this.subscriptions = [
      this.item,
      vscode.window.onDidChangeActiveTextEditor(() => this.refresh()),
      vscode.workspace.onDidCloseTextDocument(document => this.latest.delete(document.uri.toString())),
    ];
  }

  update(status: RigStatus): void {
    this.latest.set(vscode.Uri.parse(status.uri).toString(), status);
    this.refresh();
  }

  showStopped(why: string): void {
    this.stopped = why;
    this.latest.clear();
    this.refresh();
  }

  showRunning(): void {
    this.stopped = undefined;
    this.refresh();
  }

  dispose(): void {
    vscode.Disposable.from(...this.subscriptions).dispose();
  }

  private refresh(): void {
    const document = vscode.window.activeTextEditor?.document;
    const status = document && this.latest.get(document.uri.toString());
    if (document?.languageId !== "rig" || (!status && !this.stopped)) {
      this.item.hide();
      return;
    }
    const fails = status ? !status.passes : true;
    this.item.text = status ? statusText(status) : "rig: no server";
    this.item.tooltip = status ? statusDetails(status) : this.stopped;
    this.item.backgroundColor = fails ? new vscode.ThemeColor("statusBarItem.warningBackground") : undefined;
    this.item.command = status ? "workbench.actions.view.problems" : "rig-lang.restart";
    this.item.show();
  }
}
