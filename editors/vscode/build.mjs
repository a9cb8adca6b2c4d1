// Bundles the extension into dist/, with the grammar that all editors share.
import { copyFileSync, mkdirSync } from "node:fs";
import { build } from "esbuild";

mkdirSync("dist", { recursive: true });
copyFileSync("../textmate/rig.tmLanguage.json", "dist/rig.tmLanguage.json");
await build({
  entryPoints: ["src/extension.ts"],
  outfile: "dist/extension.js",
  bundle: true,
  minify: true,
  platform: "node",
  format: "cjs",
  target: "node18",
  external: ["vscode"],
});
