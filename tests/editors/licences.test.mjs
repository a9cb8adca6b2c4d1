// What the extension and the tests are made with is permissively licensed, and what is bundled stands in the notices.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { test } from "node:test";
import { build } from "esbuild";
import { bundle } from "../../editors/vscode/bundle.mjs";

const root = new URL("../../", import.meta.url);
const read = path => readFileSync(new URL(path, root), "utf8");

// Licences by which a package may be used, changed and passed on, closed or open, for a notice (SPDX identifiers).
const permissive = ["0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "BlueOak-1.0.0", "ISC", "MIT"];

for (const folder of ["editors/vscode", "tests/editors", "tests/protocol-schema"]) {
  test(`${folder} uses permissively licensed packages only`, () => {
    const packages = Object.entries(JSON.parse(read(`${folder}/package-lock.json`)).packages);
    assert.ok(packages.length > 3);
    const others = packages.filter(([, { license }]) => !permissive.includes(license));
    assert.deepEqual(others.map(([name, { license }]) => `${name}: ${license}`), []);
  });
}

test("the notices name the packages that are bundled into the extension, and no others", async () => {
  const extension = fileURLToPath(new URL("editors/vscode", root));
  const { metafile } = await build({ ...bundle, absWorkingDir: extension, write: false, metafile: true });
  const locked = JSON.parse(read("editors/vscode/package-lock.json")).packages;
  const folders = Object.keys(metafile.inputs).map(path => path.match(/^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//)?.[1]);
  const bundled = [...new Set(folders.filter(Boolean))]
    .map(path => `${path.split("node_modules/").at(-1)} ${locked[path].version} (${locked[path].license})`);
  const part = read("src/RigLang.Cli/NOTICES.txt").split("In the extension for VS Code")[1];
  assert.ok(bundled.length > 3);
  assert.deepEqual([...part.matchAll(/^--- (\S+ [0-9]\S* \(\S+\))$/gm)].map(m => m[1]).sort(), bundled.sort());
});

test("the notices beside the protocol's schema name the typings that it is made from", () => {
  const locked = JSON.parse(read("tests/protocol-schema/package-lock.json")).packages;
  const typings = Object.entries(locked).filter(([path]) => path.startsWith("node_modules/vscode-"));
  assert.equal(typings.length, 3);
  const named = [...read("tests/protocol-schema/NOTICES.txt").matchAll(/^--- (\S+ \S+) /gm)].map(m => m[1]);
  assert.deepEqual(named.sort(), typings.map(([path, { version }]) => `${path.slice("node_modules/".length)} ${version}`).sort());
});
