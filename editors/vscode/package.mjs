// Packs rig-lang.vsix: a zip of the extension with the two files that VS Code asks for, the manifest and the content types.
import { readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { extname } from "node:path";
import { zipSync } from "fflate";

const shipped = [
  "package.json", "README.md", "LICENSE", "NOTICES.txt", "language-configuration.json", "snippets", "dist", "server",
];
const types = {
  ".css": "text/css", ".js": "application/javascript", ".json": "application/json", ".md": "text/markdown", ".txt": "text/plain",
  ".vsixmanifest": "text/xml",
};
const binary = "application/octet-stream";
const manifest = JSON.parse(readFileSync("package.json", "utf8"));
const names = shipped.flatMap(name => filesIn(name));

writeFileSync("rig-lang.vsix", zipSync({
  "extension.vsixmanifest": entry(vsixManifest()),
  "[Content_Types].xml": entry(contentTypes()),
  ...Object.fromEntries(names.map(name => [`extension/${name}`, entry(readFileSync(name), statSync(name).mode & 0o111)])),
}));
console.log(names.join("\n"));

/** The files below a name; none where a folder that need not be there (server) is not. */
function filesIn(name) {
  const status = statSync(name, { throwIfNoEntry: name !== "server" });
  if (!status?.isDirectory()) {
    return status ? [name] : [];
  }
  return readdirSync(name).sort().flatMap(inner => filesIn(`${name}/${inner}`));
}

// One time for all entries, so that the same files give the same package; 3 is Unix, where the server has to be executable.
function entry(content, executable = 0) {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return [bytes, { mtime: new Date(2026, 0, 1), os: 3, attrs: (0o100000 | (executable ? 0o755 : 0o644)) << 16 >>> 0 }];
}

function vsixManifest() {
  const { name, publisher, version, displayName, description, engines, categories, extensionKind } = manifest;
  const properties = {
    "Microsoft.VisualStudio.Code.Engine": engines.vscode,
    "Microsoft.VisualStudio.Code.ExtensionDependencies": "",
    "Microsoft.VisualStudio.Code.ExtensionPack": "",
    "Microsoft.VisualStudio.Code.ExtensionKind": extensionKind.join(","),
  };
  return `<?xml version="1.0" encoding="utf-8"?>
<PackageManifest Version="2.0.0" xmlns="http://schemas.microsoft.com/developer/vsx-schema/2011"
    xmlns:d="http://schemas.microsoft.com/developer/vsx-schema-design/2011">
  <Metadata>
    <Identity Language="en-US" Id="${escape(name)}" Version="${escape(version)}" Publisher="${escape(publisher)}" />
    <DisplayName>${escape(displayName)}</DisplayName>
    <Description xml:space="preserve">${escape(description)}</Description>
    <Tags>rig,snippet,__ext_rig</Tags>
    <Categories>${escape(categories.join(","))}</Categories>
    <GalleryFlags>Public</GalleryFlags>
    <Properties>
${Object.entries(properties).map(([id, value]) => `      <Property Id="${id}" Value="${escape(value)}" />`).join("\n")}
    </Properties>
    <License>extension/LICENSE</License>
  </Metadata>
  <Installation>
    <InstallationTarget Id="Microsoft.VisualStudio.Code" />
  </Installation>
  <Dependencies />
  <Assets>
    <Asset Type="Microsoft.VisualStudio.Code.Manifest" Path="extension/package.json" Addressable="true" />
    <Asset Type="Microsoft.VisualStudio.Services.Content.Details" Path="extension/README.md" Addressable="true" />
    <Asset Type="Microsoft.VisualStudio.Services.Content.License" Path="extension/LICENSE" Addressable="true" />
  </Assets>
</PackageManifest>
`;
}

/** Every ending has a type; a file without one (LICENSE, the server) is named. */
function contentTypes() {
  const endings = [...new Set([".vsixmanifest", ...names.map(name => extname(name))])].filter(ending => ending !== "");
  const defaults = endings.map(ending => `<Default Extension="${ending}" ContentType="${types[ending] ?? binary}" />`);
  const bare = names.filter(name => extname(name) === "")
    .map(name => `<Override PartName="/extension/${name}" ContentType="${name === "LICENSE" ? "text/plain" : binary}" />`);
  return `<?xml version="1.0" encoding="utf-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">${[...defaults, ...bare].join("")}</Types>
`;
}

function escape(text) {
  return text.replace(/[&<>"]/g, c => `&#${c.charCodeAt(0)};`);
}
