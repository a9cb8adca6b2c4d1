// What the TextMate grammar makes of rig files. RIG_UPDATE=1 writes the golden file anew.
import assert from "node:assert/strict";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { test } from "node:test";
import { loadGrammar, scopesOf, snapshotOf } from "./grammar/tokens.mjs";
import { keywords, root } from "./sources.mjs";

const grammar = await loadGrammar();
const sample = readFileSync(new URL("grammar/sample.rig", import.meta.url), "utf8");
const golden = new URL("grammar/sample.scopes.txt", import.meta.url);

function scopesIn(line, word) {
  return scopesOf(grammar, line).flat().filter(token => token.text === word).map(token => token.scope);
}

test("the sample has the scopes of the golden file", () => {
  const now = snapshotOf(grammar, sample);
  if (process.env.RIG_UPDATE === "1") {
    writeFileSync(golden, now);
  }
  assert.equal(now, readFileSync(golden, "utf8"));
});

test("the sample has every keyword in its place", () => {
  const coloured = new Set(scopesOf(grammar, sample).flat().filter(token => /^keyword\.(control|declaration|operator\.word)/.test(token.scope)).map(token => token.text));
  assert.deepEqual(keywords.filter(word => !coloured.has(word)), []);
});

test("a device may be called like a keyword", () => {
  assert.deepEqual(scopesIn("device must : Plover", "must"), ["entity.name.function.device.rig"]);
  assert.deepEqual(scopesIn("connect to.from to from.to", "to"), ["variable.other.object.rig", "keyword.operator.word.rig", "variable.other.member.port.rig"]);
  assert.deepEqual(scopesIn("  in drops start", "in"), ["variable.other.rig"]);
});

test("a word with a hyphen is one word", () => {
  assert.deepEqual(scopesIn("connect mic-on.out to desk.in", "mic-on"), ["variable.other.object.rig"]);
  assert.deepEqual(scopesIn("part on-off receives midi", "on-off"), ["variable.other.rig"]);
});

test("a port may be called like a colour", () => {
  assert.deepEqual(scopesIn("connect seq.red to desk.in red", "red"), ["variable.other.member.port.rig", "constant.other.colour.rig"]);
});

test("a statement goes on after a comma", () => {
  const lines = "connect a.left, a.right to\n  b.in1,\n  b.in2 with Breakout 1 m red\ndevice c : D";
  assert.ok(scopesOf(grammar, "connect a.out to b.in1,\n  b.in2 red")[1].some(token => token.scope === "constant.other.colour.rig"));
  assert.equal(scopesOf(grammar, lines)[3][0].scope, "keyword.control.rig");
});

test("a string that is not closed ends with its line", () => {
  assert.deepEqual(scopesIn('rig "Tide', '"Tide'), ["invalid.illegal.unclosed-string.rig"]);
  assert.equal(scopesOf(grammar, 'rig "Tide\ndevice a : B')[1][0].scope, "keyword.control.rig");
});

test("a link in a string is no comment", () => {
  assert.deepEqual(scopesIn('rig "a // b" // c', "// c"), ["comment.line.double-slash.rig"]);
});

const files = [...readdirSync(new URL("examples/", root)).map(f => "examples/" + f), ...readdirSync(new URL("shared/", root)).map(f => "shared/" + f)]
  .filter(file => file.endsWith(".rig"));
for (const file of files) {
  test(`${file}: every statement opens with a keyword, and nothing is marked wrong`, () => {
    const text = readFileSync(new URL(file, root), "utf8");
    const scopes = scopesOf(grammar, text);
    assert.deepEqual(scopes.flat().filter(token => token.scope.startsWith("invalid")), []);
    text.split("\n").forEach((line, i) => {
      if (/^[a-z]/.test(line)) {
        assert.equal(scopes[i][0].scope, "keyword.control.rig", `${file}:${i + 1}: ${line}`);
      }
    });
  });
}
