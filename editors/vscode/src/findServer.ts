import { accessSync, constants, statSync } from "node:fs";
import { homedir } from "node:os";
import { delimiter, join } from "node:path";

export type Server = { command: string } | { problem: string };

/**
 * The `rig` program: the one from the settings, else the one in the extension's folder, else the one on the PATH. A path in the settings
 * that leads nowhere is told, not passed over.
 */
export function findServer(configured: string, bundled: string, path = process.env.PATH ?? "", platform = process.platform): Server {
  const name = platform === "win32" ? "rig.exe" : "rig";
  if (configured.trim() !== "") {
    const command = configured.trim().replace(/^~(?=[\\/])/, homedir());
    return isProgram(command)
      ? { command }
      : { problem: `There is no program at ${command}. Correct the setting rig-lang.server.path, or clear it to use the rig on your PATH.` };
  }
  for (const folder of [bundled, ...path.split(delimiter).filter(part => part !== "")]) {
    const command = join(folder, name);
    if (isProgram(command)) {
      return { command };
    }
  }
  return {
    problem:
      "The rig program was not found: this extension came without it, and it is not on your PATH. " +
      "Install it, or say where it is in the setting rig-lang.server.path. Colours and snippets work without it; checks do not.",
  };
}

function isProgram(file: string): boolean {
  try {
    accessSync(file, constants.X_OK);
    return statSync(file).isFile();
  } catch {
    return false;
  }
}
