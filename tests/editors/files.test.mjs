// The rest of what the editors are given: files that parse, documents that tell the truth, git that names blocks.
import assert from "node:assert/strict";
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { test } from "node:test";
import { keywords, read, root } from "./sources.mjs";

const here = path => fileURLToPath(new URL(path, root));

function run(command, ...args) {
  const { status, stdout, stderr, error } = spawnSync(command, args, { encoding: "utf8" });
  return { status, output: error ? String(error) : stdout + stderr };
}

function inTemporaryFolder(work) {
  const folder = mkdtempSync(join(tmpdir(), "rig-"));
  try {
    work(folder);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const manifest = JSON.parse(read("editors/vscode/package.json"));

test("git diff names the block that a change is in", () => {
  const { status, output } = run("sh", here("editors/git/check.sh"));
  assert.equal(status, 0, output);
  assert.equal(output.match(/^ok - /gm)?.length, 4, output);
});

test("git diff is checked against the attributes of this repository", () => {
  inTemporaryFolder(folder => {
    mkdirSync(join(folder, "a"));
    // Without the attribute, the same check fails: it is the attribute that does it.
    assert.equal(run("cp", "-r", here("editors/git"), join(folder, "a")).status, 0);
    writeFileSync(join(folder, ".gitattributes"), "*.rig text eol=lf\n");
    const { status, output } = run("sh", join(folder, "a/git/check.sh"));
    assert.equal(status, 1);
    assert.match(output, /not ok - git diff does not name device left/);
  });
});

test("Sublime Text's grammar says what the JSON says", () => {
  inTemporaryFolder(folder => {
    const file = join(folder, "Rig.tmLanguage");
    const { status, output } = run(process.execPath, here("editors/sublime/make.mjs"), file);
    assert.equal(status, 0, output);
    assert.deepEqual(fromPlist(readFileSync(file, "utf8")), JSON.parse(read("editors/textmate/rig.tmLanguage.json")));
  });
});

test("VS Code's settings are the ones that the server reads", () => {
  const settings = read("src/RigLang.LanguageServer/Settings.cs");
  const section = settings.match(/Section = "([^"]+)"/)[1];
  const readByServer = [...settings.matchAll(/section\.TryGetProperty\("([^"]+)"/g)].map(m => `${section}.${m[1]}`);
  const ofEditor = [`${section}.server.path`, `${section}.trace.server`];
  assert.ok(readByServer.length >= 2);
  assert.deepEqual(Object.keys(manifest.contributes.configuration.properties).sort(), [...readByServer, ...ofEditor].sort());
});

test("every setting of VS Code is described", () => {
  for (const [name, setting] of Object.entries(manifest.contributes.configuration.properties)) {
    assert.ok((setting.description ?? setting.markdownDescription ?? "").length > 20, name);
  }
});

test("the editors' commands are the ones that the server has", () => {
  const capabilities = read("src/RigLang.LanguageServer/Capabilities.cs");
  const commands = [...capabilities.matchAll(/"(rig\.[a-z]+)"/g)].map(m => m[1]).sort();
  assert.deepEqual(commands, ["rig.audio", "rig.channels", "rig.ground", "rig.hum", "rig.power", "rig.trace"]);
  for (const file of ["editors/vscode/src/extension.ts", "editors/neovim/lua/riglang.lua", "editors/emacs/rig-mode.el"]) {
    assert.deepEqual([...new Set([...read(file).matchAll(/"(rig\.[a-z]+)"/g)].map(m => m[1]))].sort(), commands, file);
  }
});

test("every command of the palette is carried out, and there are no others", () => {
  const registered = [...read("editors/vscode/src/extension.ts").matchAll(/registerCommand\("([^"]+)"/g)].map(m => m[1]);
  assert.ok(registered.length > 5);
  assert.deepEqual(manifest.contributes.commands.map(c => c.command), registered);
});

test("the sounds that the editors offer are those that the server knows", () => {
  const words = read("src/RigLang/Flow/Ground/HumSuspects.cs").match(/Words \{ get; \} = \[(.*)\];/)[1].match(/\w+/g);
  assert.equal(words.length, 3);
  const offered = {
    "editors/vscode/src/extension.ts": /const sounds = \[([^]*?)\];/,
    "editors/neovim/lua/riglang.lua": /local sounds = \{(.*)\}/,
    "editors/emacs/rig-mode.el": /completing-read "What is heard: " '\((.*?)\)/,
  };
  for (const [file, list] of Object.entries(offered)) {
    const labels = read(file).match(list)[1].replace(/description: "[^"]*"/g, "").match(/"\w+"/g);
    assert.deepEqual(labels, words.map(word => `"${word}"`), file);
  }
});

test("VS Code takes a name with a hyphen as one word", () => {
  const { pattern, flags } = JSON.parse(read("editors/vscode/language-configuration.json")).wordPattern;
  const words = text => text.match(new RegExp(pattern, flags + "g"));
  assert.deepEqual(words("connect mic-pre.out1 to ベース.in"), ["connect", "mic-pre", "out1", "to", "ベース", "in"]);
  assert.deepEqual(words("250mA -10 dBV 5.5x2.1 mm"), ["250", "mA", "-10", "dBV", "5.5x2.1", "mm"]);
});

test("VS Code indents what follows an opening brace, and not a brace in a comment", () => {
  const { increaseIndentPattern, decreaseIndentPattern } = JSON.parse(read("editors/vscode/language-configuration.json")).indentationRules;
  const increases = line => new RegExp(increaseIndentPattern).test(line);
  assert.ok(increases("device a : B at (1 m, 2 m) {"));
  assert.ok(increases('gear "A/B { C" {  // mistake'));
  assert.ok(!increases("// device a : B {"));
  assert.ok(!increases("connect a.b to c.d // {"));
  assert.ok(!increases('rig "Tide {'));
  assert.ok(new RegExp(decreaseIndentPattern).test("}"));
});

test("every snippet opens with its statement", () => {
  for (const [name, snippet] of Object.entries(JSON.parse(read("editors/vscode/snippets/rig.json")))) {
    const first = snippet.body.find(line => !line.startsWith("///"));
    assert.ok(keywords.includes(first.split(" ")[0]), name);
    assert.equal(first.split(" ")[0], snippet.prefix.split(" ")[0], name);
  }
});

test("Kate's file is well-formed, and its rules lead to contexts and styles that exist", () => {
  const xml = read("editors/kate/rig.xml").replace(/<!--[^]*?-->/g, "");
  const all = (pattern) => [...xml.matchAll(pattern)].map(m => m[1]);
  const contexts = new Set(all(/<context name="([^"]+)"/g));
  const styles = new Set(all(/<itemData name="([^"]+)"/g));
  const targets = [...all(/<[A-Z]\w+ [^>]*?context="([^"]+)"/g), ...all(/<keyword [^>]*?context="([^"]+)"/g), ...all(/fallthroughContext="([^"]+)"/g)];
  assert.ok(contexts.size > 10 && targets.length > 40);
  assert.deepEqual(targets.map(t => t.replace(/^#pop!?/, "").replace("#stay", "")).filter(t => t !== "" && !contexts.has(t)), []);
  assert.deepEqual(all(/ attribute="([^"]+)"/g).filter(style => !styles.has(style)), []);
  const lists = new Set(all(/<list name="([^"]+)"/g));
  assert.deepEqual(all(/<keyword [^>]*?String="([^"]+)"/g).filter(list => !lists.has(list)), []);
  const { status, output } = run("python3", "-c", "import sys, xml.dom.minidom; xml.dom.minidom.parse(sys.argv[1])", here("editors/kate/rig.xml"));
  assert.equal(status, 0, output);
});

function fromPlist(xml) {
  const parts = xml.slice(xml.indexOf("<dict>")).match(/<(?:dict|array)\/?>|<\/(?:dict|array)>|<(key|string)>([^]*?)<\/\1>/g);
  let at = 0;
  const text = part => part.replace(/^<\w+>|<\/\w+>$/g, "").replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&amp;", "&");
  return value();

  function value() {
    const part = parts[at++];
    if (part.startsWith("<string>")) {
      return text(part);
    }
    const isArray = part === "<array>";
    const whole = isArray ? [] : {};
    while (!parts[at].startsWith("</")) {
      if (isArray) {
        whole.push(value());
      } else {
        whole[text(parts[at++])] = value();
      }
    }
    at++;
    return whole;
  }
}
