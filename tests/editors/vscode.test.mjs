// The parts of the VS Code extension that need no VS Code.
import assert from "node:assert/strict";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { after, before, test } from "node:test";
import { build } from "esbuild";
import { root } from "./sources.mjs";

let folder;
let findServer, statusText, statusDetails;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "rig-"));
  for (const name of ["findServer", "statusText"]) {
    await build({
      entryPoints: [fileURLToPath(new URL(`editors/vscode/src/${name}.ts`, root))],
      outfile: join(folder, name + ".mjs"),
      bundle: true,
      platform: "node",
      format: "esm",
    });
  }
  ({ findServer } = await import(pathToFileURL(join(folder, "findServer.mjs"))));
  ({ statusText, statusDetails } = await import(pathToFileURL(join(folder, "statusText.mjs"))));
});

after(() => rmSync(folder, { recursive: true }));

function programIn(name) {
  const place = join(folder, name);
  mkdirSync(place, { recursive: true });
  writeFileSync(join(place, "rig"), "#!/bin/sh\n");
  chmodSync(join(place, "rig"), 0o755);
  return place;
}

test("the server named in the settings comes first", () => {
  const set = programIn("set");
  assert.deepEqual(findServer(join(set, "rig"), programIn("bundled"), programIn("path"), "linux"), { command: join(set, "rig") });
});

test("the server in the extension comes before the one on the PATH", () => {
  const bundled = programIn("bundled");
  assert.deepEqual(findServer("", bundled, programIn("path"), "linux"), { command: join(bundled, "rig") });
});

test("the server on the PATH is found, past folders without one", () => {
  const path = programIn("path");
  assert.deepEqual(findServer(" ", join(folder, "none"), [join(folder, "gone"), path].join(delimiter), "linux"), { command: join(path, "rig") });
});

test("a path in the settings that leads nowhere is told, though another server is there", () => {
  const { command, problem } = findServer(join(folder, "gone/rig"), programIn("bundled"), "", "linux");
  assert.equal(command, undefined);
  assert.match(problem, /There is no program at .*gone.rig\. Correct the setting rig-lang\.server\.path/);
});

test("a file that cannot be run, or a folder, is no server", () => {
  const place = join(folder, "plain");
  mkdirSync(join(place, "inner/rig"), { recursive: true });
  writeFileSync(join(place, "rig"), "", { mode: 0o644 });
  assert.ok("problem" in findServer("", place, join(place, "inner"), "linux"));
});

test("no server at all: the message says where it was sought and what to do", () => {
  const { problem } = findServer("", join(folder, "none"), "", "linux");
  assert.match(problem, /came without it/);
  assert.match(problem, /PATH/);
  assert.match(problem, /rig-lang\.server\.path/);
});

const status = { uri: "file:///tour.rig", facts: 92, errors: 0, warnings: 0, hints: 0, passes: true, verified: ["46 devices"] };

test("the status counts the facts", () => {
  assert.equal(statusText(status), "rig: 92 facts");
  assert.equal(statusText({ ...status, facts: 1 }), "rig: 1 fact");
  assert.equal(statusText({ ...status, facts: 0 }), "rig: 0 facts");
});

test("a rig that passes with warnings says both", () => {
  assert.equal(statusText({ ...status, warnings: 1, hints: 2 }), "rig: 92 facts, 1 warning, 2 hints");
});

test("a rig that does not pass says so in a word", () => {
  assert.equal(statusText({ ...status, errors: 2, warnings: 1, passes: false }), "rig: fails, 2 errors, 1 warning");
});

test("the details say what was verified", () => {
  assert.equal(statusDetails(status), "Verified:\n  46 devices");
  assert.equal(statusDetails({ ...status, verified: [] }), "Nothing to verify yet.");
});
