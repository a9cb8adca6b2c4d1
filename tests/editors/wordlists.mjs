// The word lists of each editor, read back out of its own files.
import { read } from "./sources.mjs";

/** @returns {{keywords: string[], openers: string[], units: string[], colours: string[], messages: string[], signalWords: string[]}} */
export function textmate() {
  const grammar = JSON.parse(read("editors/textmate/rig.tmLanguage.json"));
  const scoped = scope => unique(captures(grammar).filter(c => scope.test(c.scope)).flatMap(c => alternatives(c.pattern)));
  return {
    keywords: scoped(/^keyword\.(control|declaration|operator\.word)/),
    openers: scoped(/^keyword\.control/),
    units: scoped(/^keyword\.other\.unit/),
    colours: scoped(/^constant\.other\.colour/),
    messages: scoped(/^constant\.language\.message/),
    signalWords: scoped(/^(storage\.(type|modifier)\.signal|support\.constant\.connector)/),
  };
}

export function vim() {
  const text = read("editors/vim/syntax/rig.vim");
  const groups = name => [...text.matchAll(new RegExp(`^syn (\\w+)\\s+(${name})\\s.*$`, "gm"))].map(m => m[0]);
  const listed = name => groups(name).flatMap(line =>
    line.startsWith("syn keyword")
      ? line.split(/\s+/).slice(3).filter(word => word !== "contained")
      : alternatives(line.replace(/\\\(/g, "(").replace(/\\\)/g, ")").replace(/\\\|/g, "|")));
  const regions = [...text.matchAll(/matchgroup=rig(Statement|Line|Word)\b(.*?) end=/g)].map(m => ({
    group: m[1],
    words: m[2].match(/(?<=\\\(|\\\||\\s\*|\\<)[a-z]+(?=\\\)|\\\||\\>)/g),
  }));
  const inRegions = group => regions.filter(r => r.group === group).flatMap(r => r.words);
  return {
    keywords: unique([...listed("rigStatement"), ...listed("rigLine"), ...listed("rigWord"), ...regions.flatMap(r => r.words)]),
    openers: unique([...listed("rigStatement"), ...inRegions("Statement")]),
    units: unique(listed("rigUnit")),
    colours: unique(listed("rigColour")),
    messages: unique(listed("rigMessage")),
    signalWords: unique([...listed("rigSignal"), ...listed("rigDetail"), ...listed("rigPlug")]),
  };
}

export function kate() {
  const text = read("editors/kate/rig.xml");
  const list = name => [...text.match(new RegExp(`<list name="${name}">([^]*?)</list>`))[1].matchAll(/<item>(.*?)<\/item>/g)].map(m => m[1]);
  const twoWords = text.match(/String="\(\?:(program[^)]*)\)&end;"/)[1].split("|").map(words => words.replace("\\s+", " "));
  return {
    keywords: [...list("statements"), ...list("lines"), ...list("words")],
    openers: list("statements"),
    units: list("units"),
    colours: list("colours"),
    messages: [...list("messages"), ...twoWords],
    signalWords: unique([...list("signals"), ...list("details")]),
  };
}

export function emacs() {
  const text = read("editors/emacs/rig-mode.el");
  const list = name => [...text.match(new RegExp(`\\(defconst rig-${name}\\s+'\\(([^)]*)\\)`))[1].matchAll(/"([^"]+)"/g)].map(m => m[1]);
  return {
    keywords: [...list("statement-keywords"), ...list("line-keywords"), ...list("word-keywords")],
    openers: list("statement-keywords"),
    units: list("units"),
    colours: list("colours"),
    messages: list("messages"),
    signalWords: unique([...list("signals"), ...list("details")]),
  };
}

// Every scope of the grammar with the pattern of what gets it: a whole match, or one group of it.
function captures(rule) {
  const found = [];
  if (Array.isArray(rule)) {
    return rule.flatMap(captures);
  }
  if (rule === null || typeof rule !== "object") {
    return [];
  }
  if (rule.match && rule.name) {
    found.push({ scope: rule.name, pattern: rule.match });
  }
  for (const [pattern, names] of [[rule.match, rule.captures], [rule.begin, rule.beginCaptures]]) {
    for (const [number, { name }] of Object.entries(names ?? {})) {
      found.push({ scope: name, pattern: number === "0" ? pattern : groupsOf(pattern)[Number(number) - 1] });
    }
  }
  return [...found, ...Object.values(rule).flatMap(captures)];
}

function groupsOf(pattern) {
  const groups = [];
  const open = [];
  for (let i = 0; i < pattern.length; i++) {
    if (pattern[i] === "\\") {
      i++;
    } else if (pattern[i] === "(") {
      open.push(pattern[i + 1] === "?" ? null : groups.push("") - 1);
      if (open.at(-1) !== null) {
        groups[open.at(-1)] = i + 1;
      }
    } else if (pattern[i] === ")") {
      const group = open.pop();
      if (group !== null) {
        groups[group] = pattern.slice(groups[group], i);
      }
    }
  }
  return groups;
}

// "a|b c" and "(a|b)" to the words a, b and "b c"; look-around is not what is matched.
function alternatives(pattern) {
  const words = pattern
    .replace(/\(\?<?[!=](?:[^()]|\([^()]*\))*\)/g, "")
    .replace(/\(\^?[^()]*(?:\([^()]*\)[^()]*)*\)\\@<=/g, "")
    .replace(/\\ze.*$/, "")
    .replace(/\\s\\?\+/g, " ");
  return (words.match(/(?<=^|[(|/<])[A-Za-z][A-Za-z0-9-]*(?: [a-z]+)*(?=$|[)|\\])/g) ?? []).map(word => word.trim());
}

function unique(words) {
  return [...new Set(words)];
}
