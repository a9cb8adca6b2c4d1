// Writes src/RigLang.Cli/NOTICES.txt: the licences of everything by others that is shipped.
//
//   node eng/notices.mjs           writes the file
//   node eng/notices.mjs --check   fails when the file is not what would be written
//
// Needs the NuGet packages of the native build (dotnet restore src/RigLang.Cli -r linux-x64 -p:PublishAot=true) and
// those of the extension (npm ci in editors/vscode). Names and versions come from the lock files, texts from the packages.
import { existsSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { homedir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { bundle } from "../editors/vscode/bundle.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));
const cache = process.env.NUGET_PACKAGES || join(homedir(), ".nuget/packages");
const extension = join(root, "editors/vscode");
const target = join(root, "src/RigLang.Cli/NOTICES.txt");

// Tools of the build, of which nothing is in what it makes. NoticesTests names the same.
const buildOnly = ["Microsoft.NET.ILLink.Tasks", "Microsoft.DotNet.ILCompiler"];
const runtime = "runtime.linux-x64.Microsoft.DotNet.ILCompiler";
const rule = "=".repeat(80);

const text = [
  "NOTICES\n\nRigLang is under the MIT licence (see LICENSE). It contains the work of others, named here with their licences.\n"
    + "A package's own list of what its repository uses to build and test itself is left out.\n",
  part("In the rig program"),
  ...nugetPackages().map(nuget),
  part("In the extension for VS Code"),
  ...(await npmPackages()).map(npm),
].join("\n");

if (process.argv.includes("--check")) {
  if (!existsSync(target) || readFileSync(target, "utf8") !== text) {
    console.error("src/RigLang.Cli/NOTICES.txt is not current; run: node eng/notices.mjs");
    process.exitCode = 1;
  }
} else {
  writeFileSync(target, text);
}

function part(title) {
  return `${rule}\n${title}\n${rule}\n`;
}

function entry(name, version, license, lines) {
  return [`--- ${name} ${version} (${license})`, ...lines.map(clean)].join("\n\n") + "\n";
}

function clean(lines) {
  return lines.replace(/^\uFEFF/, "").replace(/\r\n?/g, "\n").replace(/[ \t]+$/gm, "").trim();
}

/** What the lock file of the native build names; the runtime stands under the name of the package it comes in. */
function nugetPackages() {
  const locked = JSON.parse(readFileSync(join(root, "src/RigLang.Cli/packages.native.lock.json"), "utf8")).dependencies;
  const versions = new Map(Object.values(locked)
    .flatMap(Object.entries)
    .filter(([name, { type }]) => type !== "Project" && !buildOnly.includes(name))
    .map(([name, { resolved }]) => [name, resolved]));
  return [...versions].sort(([a], [b]) => (a === runtime ? -1 : b === runtime ? 1 : a.localeCompare(b, "en")));
}

function nuget([name, version]) {
  const folder = join(cache, name.toLowerCase(), version);
  const spec = readFileSync(join(folder, name.toLowerCase() + ".nuspec"), "utf8");
  const field = tag => spec.match(new RegExp(`<${tag}(?: [^>]*)?>([^<]*)</${tag}>`))?.[1] ?? "";
  const license = spec.match(/<license type="expression">([^<]+)/)?.[1];
  if (license !== "MIT") {
    throw new Error(`${name} ${version} is under ${license}: look at it, and put its text here.`);
  }
  const own = files(folder, /^licen[cs]e/i);
  const copyright = field("copyright");
  const holder = name === runtime ? "Copyright (c) .NET Foundation and Contributors"
    : /[a-z]/i.test(copyright) ? copyright : `Copyright (c) ${copyright} ${field("authors")}`.replace("  ", " ");
  const notices = [folder, join(folder, "notices")].filter(existsSync)
    .flatMap(place => files(place, /^(third-?party-?)?notices?(\.|$)/i)).filter(notice => !isListOfTheRepository(notice));
  const title = name === runtime ? [`The .NET runtime, compiled into the native program. The portable tool brings none.`] : [];
  const terms = own.length > 0 ? own : [`${holder}\n\n${mit()}`];
  return entry(name, version, license, [...title, field("projectUrl"), ...terms, ...notices]);
}

/** A tool's list of all that a repository restores, tests and analysers included: "Name 1.2.3 - LICENCE" under dashes. */
function isListOfTheRepository(notice) {
  return /^-{20,}\r?\n\r?\n\S+ [0-9][\w.-]* - /m.test(notice);
}

async function npmPackages() {
  const { build } = createRequire(join(extension, "package.json"))("esbuild");
  const { metafile } = await build({ ...bundle, absWorkingDir: extension, write: false, metafile: true });
  const inputs = Object.keys(metafile.inputs).map(path => path.match(/^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//)?.[1]);
  const locked = JSON.parse(readFileSync(join(extension, "package-lock.json"), "utf8")).packages;
  return [...new Set(inputs.filter(Boolean))].map(path => ({ path, ...locked[path] })).sort((a, b) => (a.path < b.path ? -1 : 1));
}

function npm({ path, version, license }) {
  const folder = join(extension, path);
  const texts = files(folder, /^(licen[cs]e|third-?party-?notices?)/i);
  if (texts.length === 0) {
    throw new Error(`${path} has no licence file: look at it, and put its text here.`);
  }
  return entry(path.split("node_modules/").at(-1), version, license, texts);
}

function files(folder, pattern) {
  const found = readdirSync(folder, { withFileTypes: true }).filter(file => file.isFile() && pattern.test(file.name));
  return found.map(file => file.name).sort().map(name => readFileSync(join(folder, name), "utf8"));
}

/** The terms of the MIT licence, as they stand in ours. */
function mit() {
  const own = readFileSync(join(root, "LICENSE"), "utf8");
  return own.slice(own.indexOf("Permission is hereby granted"));
}
