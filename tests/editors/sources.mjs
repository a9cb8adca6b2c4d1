// The words of the language, read from the compiler's own tables and the reference.
import { readFileSync } from "node:fs";

export const root = new URL("../../", import.meta.url);

export function read(path) {
  return readFileSync(new URL(path, root), "utf8");
}

export const keywords = stringsIn(between(read("src/RigLang/Syntax/Keyword.cs"), "string[] Spellings =", "];")).filter(word => word !== "");

export const units = [...between(read("src/RigLang/Trade/Units.cs"), "Table { get; }", "}.ToDictionary").matchAll(/new\("([^"]+)", Dimension/g)].map(m => m[1]);

export const colours = stringsIn(between(read("src/RigLang/Syntax/Vocabulary.cs"), "Colours { get; } =", "];"));

export const openers = (() => {
  // "keyword is >= Keyword.Rig and <= Keyword.Never"
  const [, first, last] = read("src/RigLang/Syntax/Keyword.cs").match(/keyword is >= Keyword\.(\w+) and <= Keyword\.(\w+)/);
  return keywords.slice(keywords.indexOf(first.toLowerCase()), keywords.indexOf(last.toLowerCase()) + 1);
})();

/** The words of the signals from the table of the reference, those of the connectors from the compiler's. */
export const signalWords = [...new Set([
  ...wordsInCode(between(read("grammar/README.md"), "## Signals", "A mono line")),
  ...[...read("src/RigLang/Connectors/Form.cs").matchAll(/(?:PhoneForm|Straight)\("([a-z][a-z0-9-]*) ?([a-z]+)?/g)].flatMap(m => [m[1], m[2]]).filter(Boolean),
  // Ends of leads and ways to build a jack in; the reference names them in its text.
  ...["captive", "socket", "left", "right"],
])];

/** What must and never can speak of: the messages, and what is no message. */
export const messages = [...stringsIn(between(read("src/RigLang/Trade/MessageKinds.cs"), "new Dictionary<string, MessageKinds>", "};")), "audio", "power"];

function between(text, from, to) {
  const start = text.indexOf(from);
  const end = text.indexOf(to, start + from.length);
  if (start < 0 || end < 0) {
    throw new Error(`the source no longer has ${JSON.stringify(from)} ... ${JSON.stringify(to)}: correct tests/editors/sources.mjs`);
  }
  return text.slice(start + from.length, end);
}

function stringsIn(text) {
  return [...text.matchAll(/"([^"]*)"/g)].map(m => m[1]);
}

// `2 ppqn` and `9..12 V` are examples, not words.
function wordsInCode(markdown) {
  const code = [...markdown.matchAll(/`([^`]+)`/g)].map(m => m[1]).filter(text => !/\d/.test(text));
  return code.flatMap(text => text.split(" ")).filter(word => word !== "");
}
