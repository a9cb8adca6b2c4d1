// Lists what is shipped, and checks it: licence and notices are in it, symbol files and paths of this machine are not.
//
//   node eng/check-shipped.mjs THING...     each a folder, or a zip such as a .nupkg or .vsix
//
// Needs npm ci in editors/vscode, which brings the zip reader.
import { readFileSync, readdirSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { homedir } from "node:os";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const { unzipSync } = createRequire(join(root, "editors/vscode/package.json"))("fflate");
const notices = readFileSync(join(root, "src/RigLang.Cli/NOTICES.txt"));
const license = readFileSync(join(root, "LICENSE"));
const places = [root.replace(/[\\/]$/, ""), process.env.NUGET_PACKAGES || join(homedir(), ".nuget")];

if (process.argv.length < 3) {
  fail("nothing to check was named");
}
for (const thing of process.argv.slice(2)) {
  const files = statSync(thing).isDirectory() ? filesIn(thing) : zip(thing);
  console.log(`${basename(thing)}:`);
  for (const [name, content] of files) {
    console.log(`  ${String(content.length).padStart(9)}  ${name}`);
  }
  holds(thing, files, "NOTICES.txt", notices);
  holds(thing, files, "LICENSE", license);
  for (const [name, content] of files) {
    if (/\.(pdb|dbg|map)$/i.test(name)) {
      fail(`${thing}: ${name} is a file of symbols`);
    }
    for (const place of places) {
      // Programs hold text in one byte a letter or in two.
      if (content.includes(place) || content.includes(Buffer.from(place, "utf16le"))) {
        fail(`${thing}: ${name} names the folder ${place}`);
      }
    }
  }
}

function holds(thing, files, name, wanted) {
  if (!files.some(([path, content]) => basename(path) === name && content.equals(wanted))) {
    fail(`${thing}: there is no ${name} in it, or another one`);
  }
}

function zip(path) {
  return Object.entries(unzipSync(readFileSync(path))).map(([name, content]) => [name, Buffer.from(content)]);
}

function filesIn(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter(file => file.isFile())
    .map(file => join(file.parentPath, file.name))
    .map(path => [path.slice(folder.length + 1), readFileSync(path)]);
}

function fail(message) {
  console.error(message);
  process.exitCode = 1;
}
