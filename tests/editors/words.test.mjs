// The words that the editors colour are the words of the language, no more and no fewer.
import assert from "node:assert/strict";
import { test } from "node:test";
import * as language from "./sources.mjs";
import * as editors from "./wordlists.mjs";

test("the compiler's tables are found", () => {
  assert.ok(language.keywords.includes("device") && language.keywords.length >= 40);
  assert.ok(language.units.includes("ppqn") && language.units.length >= 30);
  assert.ok(language.colours.includes("turquoise") && language.colours.length >= 14);
  assert.ok(language.signalWords.includes("xlr-3") && language.signalWords.includes("phantom"));
  assert.deepEqual([language.openers.at(0), language.openers.at(-1)], ["rig", "accept"]);
});

for (const [editor, listsOf] of Object.entries(editors)) {
  const lists = listsOf();
  for (const kind of ["keywords", "openers", "units", "colours", "messages", "signalWords"]) {
    test(`${editor}: ${kind} are those of the language`, () => {
      assert.deepEqual(lists[kind].toSorted(), [...language[kind]].sort());
    });
  }
}
