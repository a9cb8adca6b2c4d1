// Writes the TextMate grammar as an XML property list: node make.mjs FILE
import { readFileSync, writeFileSync } from "node:fs";

const target = process.argv[2];
if (!target) {
  console.error("say where to write it: node make.mjs Rig.tmLanguage");
  process.exit(2);
}
const grammar = JSON.parse(readFileSync(new URL("../textmate/rig.tmLanguage.json", import.meta.url), "utf8"));
writeFileSync(target, `<?xml version="1.0" encoding="UTF-8"?>\n<plist version="1.0">\n${toPlist(grammar)}\n</plist>\n`);

function toPlist(value) {
  if (typeof value === "string") {
    return `<string>${escape(value)}</string>`;
  }
  if (Array.isArray(value)) {
    return `<array>\n${value.map(toPlist).join("\n")}\n</array>`;
  }
  const entries = Object.entries(value).map(([key, inner]) => `<key>${escape(key)}</key>\n${toPlist(inner)}`);
  return `<dict>\n${entries.join("\n")}\n</dict>`;
}

function escape(text) {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}
