// What the TextMate grammar makes of a text, by the engine that editors use.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

const grammarFile = new URL("../../../editors/textmate/rig.tmLanguage.json", import.meta.url);

export async function loadGrammar() {
  const wasm = readFileSync(createRequire(import.meta.url).resolve("vscode-oniguruma/release/onig.wasm"));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: patterns => new oniguruma.OnigScanner(patterns),
      createOnigString: text => new oniguruma.OnigString(text),
    }),
    loadGrammar: async scope =>
      scope === "source.rig" ? textmate.parseRawGrammar(readFileSync(grammarFile, "utf8"), grammarFile.pathname) : null,
  });
  return registry.loadGrammar("source.rig");
}

/** Line by line: each stretch of text that has a scope, with the innermost one. */
export function scopesOf(grammar, text) {
  let stack = null;
  return text.split("\n").map(line => {
    const result = grammar.tokenizeLine(line, stack);
    stack = result.ruleStack;
    return result.tokens
      .map(token => ({ text: line.slice(token.startIndex, token.endIndex), scope: token.scopes.at(-1) }))
      .filter(token => token.scope !== "source.rig" && token.text.trim() !== "");
  });
}

/** The sample under its lines, for people who read a difference. */
export function snapshotOf(grammar, text) {
  const lines = text.split("\n");
  return scopesOf(grammar, text)
    .map((tokens, i) => [lines[i], ...tokens.map(token => `    ${token.text.padEnd(20)} ${token.scope}`)].join("\n"))
    .join("\n");
}
