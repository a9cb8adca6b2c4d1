// How the extension is bundled. The notices are made from the same bundle, so that they name what is in it.
export const bundle = {
  entryPoints: ["src/extension.ts"],
  outfile: "dist/extension.js",
  bundle: true,
  minify: true,
  platform: "node",
  format: "cjs",
  target: "node18",
  external: ["vscode"],
};
