import { basename } from "node:path";
import * as vscode from "vscode";
import { LanguageClient, State } from "vscode-languageclient/node";
import { Answers } from "./answers";
import { findServer } from "./findServer";
import { StatusItem } from "./statusItem";
import { RigStatus } from "./statusText";

let client: LanguageClient | undefined;

/** Starts the server for the first rig file that is opened, and offers what only this editor can ask for. */
export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const status = new StatusItem();
  const answers = new Answers();
  context.subscriptions.push(
    status,
    answers,
    vscode.commands.registerCommand("rig-lang.trace", () => ask("rig.trace", askForQuestion)),
    vscode.commands.registerCommand("rig-lang.channels", () => ask("rig.channels")),
    vscode.commands.registerCommand("rig-lang.audio", () => ask("rig.audio")),
    vscode.commands.registerCommand("rig-lang.power", () => ask("rig.power")),
    vscode.commands.registerCommand("rig-lang.ground", () => ask("rig.ground")),
    vscode.commands.registerCommand("rig-lang.hum", () => ask("rig.hum", askForSound)),
    vscode.commands.registerCommand("rig-lang.restart", restart),
    vscode.workspace.onDidChangeConfiguration(change => {
      if (change.affectsConfiguration("rig-lang.server.path")) {
        void restart();
      }
    }),
  );
  await start();

  async function start(): Promise<void> {
    const configured = vscode.workspace.getConfiguration("rig-lang").get<string>("server.path", "");
    const server = findServer(configured, context.asAbsolutePath("server"));
    if ("problem" in server) {
      status.showStopped(server.problem);
      void tellNotFound(server.problem);
      return;
    }
    client = new LanguageClient(
      "rig-lang",
      "Rig",
      { command: server.command, args: ["server"] },
      {
        documentSelector: [{ language: "rig", scheme: "file" }, { language: "rig", scheme: "untitled" }],
        initializationOptions: { status: true },
        synchronize: { configurationSection: "rig-lang" },
      },
    );
    client.onNotification("rig/status", (params: RigStatus) => status.update(params));
    client.onDidChangeState(change => {
      if (change.newState === State.Stopped) {
        status.showStopped("The rig server is not running.");
      } else if (change.newState === State.Running) {
        status.showRunning();
      }
    });
    try {
      await client.start();
    } catch (error) {
      status.showStopped(`${server.command} does not answer.`);
      void tellNotFound(`${server.command} was started, but does not answer as a rig server: ${String(error)}`);
    }
  }

  async function restart(): Promise<void> {
    const old = client;
    client = undefined;
    if (old?.isRunning()) {
      await old.dispose();
    }
    await start();
  }

  async function ask(command: string, question?: () => Thenable<string | undefined>): Promise<void> {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== "rig") {
      void vscode.window.showInformationMessage("Open a rig file first: the question is about the rig in the active editor.");
      return;
    }
    if (!client?.isRunning()) {
      void tellNotFound("The rig server is not running, so nobody can answer.");
      return;
    }
    const asked = question && (await question());
    if (question && !asked) {
      return;
    }
    const uri = client.code2ProtocolConverter.asUri(document.uri);
    try {
      const text = await client.sendRequest<unknown>("workspace/executeCommand", { command, arguments: asked ? [uri, asked] : [uri] });
      await answers.show(`${asked ?? command.slice("rig.".length)} (${basename(document.uri.path)})`, String(text ?? ""));
    } catch (error) {
      void vscode.window.showErrorMessage(error instanceof Error ? error.message : String(error));
    }
  }
}

export async function deactivate(): Promise<void> {
  await client?.stop();
}

function askForQuestion(): Thenable<string | undefined> {
  return vscode.window.showInputBox({
    title: "Trace a message",
    prompt: "notes from seq.a · what reaches bass · why not clock from drums to bass",
    placeHolder: "clock from drums",
    ignoreFocusOut: true,
  });
}

async function askForSound(): Promise<string | undefined> {
  const sounds = [
    { label: "hum", description: "low and even" },
    { label: "buzz", description: "harsher, an octave up" },
    { label: "whine", description: "high, and changing with what a computer or screen does" },
  ];
  const chosen = await vscode.window.showQuickPick(sounds, { title: "What is heard?", matchOnDescription: true, ignoreFocusOut: true });
  return chosen?.label;
}

async function tellNotFound(problem: string): Promise<void> {
  const choice = await vscode.window.showErrorMessage(problem, "Open Settings", "Try Again");
  if (choice === "Open Settings") {
    await vscode.commands.executeCommand("workbench.action.openSettings", "rig-lang.server.path");
  } else if (choice === "Try Again") {
    await vscode.commands.executeCommand("rig-lang.restart");
  }
}
