// Bundles the extension into dist/, with the grammar that all editors share, and puts the notices beside it.
import { copyFileSync, mkdirSync } from "node:fs";
import { build } from "esbuild";
import { bundle } from "./bundle.mjs";

mkdirSync("dist", { recursive: true });
copyFileSync("../textmate/rig.tmLanguage.json", "dist/rig.tmLanguage.json");
copyFileSync("../../src/RigLang.Cli/NOTICES.txt", "NOTICES.txt");
await build(bundle);
