// node drive.cjs URL FOLDER: drives the workbench at URL as a player would; a picture after each step goes into FOLDER.
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { chromium } = require("playwright-core");

const [url, shots] = process.argv.slice(2);
const patience = 45_000;
let passed = 0;
let failed = 0;

async function main() {
  const profile = fs.mkdtempSync(path.join(os.tmpdir(), "rig-profile-"));
  const browser = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    headless: true,
    viewport: { width: 1600, height: 1000 },
    args: [
      "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync",
    ],
  });
  try {
    const page = browser.pages()[0] ?? (await browser.newPage());
    await arrive(page);
    await tests(page);
  } finally {
    await browser.close();
    fs.rmSync(profile, { recursive: true, force: true });
  }
  console.log(`${passed} passed, ${failed} failed`);
  process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
}

async function tests(page) {
  await test(page, "a sound rig: the status counts the facts, in words", async () => {
    await open(page, "pantile-yard.rig");
    return waitForStatus(page, /^rig: \d\d+ facts$/);
  });
  await test(page, "a rig file is coloured", async () => {
    const colours = await page.$$eval(".monaco-editor .view-line span[class^=mtk]", spans => new Set(spans.map(s => s.className)).size);
    return colours >= 4 && `${colours} colours`;
  });
  await test(page, "Rig: Show the Channel Chart answers beside the rig", async () => {
    await command(page, "Rig: Show the Channel Chart");
    return textInEditors(page, /drums/, "channels (pantile-yard.rig).txt");
  });
  await test(page, "Rig: Find a Hum lets choose a sound, and answers beside the rig", async () => {
    await focusTab(page, "pantile-yard.rig");
    await command(page, "Rig: Find a Hum");
    await page.waitForSelector(".quick-input-widget .quick-input-list .monaco-list-row[aria-label^='whine']", { timeout: patience });
    await page.keyboard.type("whine");
    await page.keyboard.press("Enter");
    return textInEditors(page, /protective\searth/, "whine (pantile-yard.rig).txt");
  });
  await test(page, "Rig: Trace a Message asks, and answers beside the rig", async () => {
    await focusTab(page, "pantile-yard.rig");
    await command(page, "Rig: Trace a Message");
    await page.waitForSelector('.quick-input-widget input[placeholder="clock from drums"]', { timeout: patience });
    await page.keyboard.type("clock from seq");
    await page.keyboard.press("Enter");
    return textInEditors(page, /bass/, "clock from seq (pantile-yard.rig).txt");
  });
  await test(page, "a rig with mistakes: the status says in a word that it fails", async () => {
    await open(page, "mistakes/pantile-yard.rig");
    return waitForStatus(page, /^rig: fails, \d+ errors, \d+ warnings/);
  });
  await test(page, "the mistakes are underlined, and stand in the Problems panel by name", async () => {
    await page.waitForSelector(".monaco-editor .squiggly-error", { timeout: patience });
    await page.keyboard.press("Control+Shift+M");
    return waitFor(async () => {
      const rows = await page.$$eval(".markers-panel .monaco-list-row", all => all.map(row => row.textContent ?? ""));
      return ["import-not-found", "wrong-dimension"].every(check => rows.some(row => row.includes(check)));
    });
  });
  await test(page, "pointing at a cable tells its signal and how many channels it has", async () => {
    await goTo(page, 204, 2);
    await command(page, "Show or Focus Hover");
    return waitFor(async () => {
      const hovers = await page.$$eval(".monaco-hover", all => all.map(hover => hover.textContent ?? ""));
      return hovers.find(text => /audio/i.test(text) && /1 channel/.test(text));
    });
  });
  await test(page, "behind connect the devices are offered", async () => {
    await page.keyboard.press("Escape");
    await goTo(page, 300, 1);
    await page.keyboard.type("connect ");
    return waitFor(async () => {
      await page.keyboard.press("Control+Space");
      const rows = await page.$$eval(".suggest-widget .monaco-list-row", all => all.map(row => row.getAttribute("aria-label") ?? ""));
      return rows.some(row => row.startsWith("desk")) && `${rows.length} rows`;
    });
  });
  await test(page, "a fix is offered for a misspelt jack, and takes its squiggle away", async () => {
    await page.keyboard.press("Escape");
    await command(page, "Undo");
    await goTo(page, 223, 16);
    await page.keyboard.press("Control+.");
    await page.waitForSelector(".action-widget .monaco-list-row", { timeout: patience });
    await page.waitForTimeout(300);
    await page.keyboard.press("Enter");
    return waitFor(async () => {
      const text = await page.$$eval(".editor-instance .view-lines", all => all.map(lines => lines.textContent ?? "").join(""));
      return /desk\.phones\s+to\s+cans/.test(text.replaceAll("\u00a0", " "));
    });
  });
}

async function goTo(page, line, column) {
  await page.click(".tab.active");
  await page.keyboard.press("Control+G");
  await page.waitForSelector(".quick-input-widget input", { timeout: patience });
  await page.keyboard.type(`${line}:${column}`);
  await page.keyboard.press("Enter");
  await page.waitForTimeout(400);
}

async function arrive(page) {
  await waitFor(async () => page.goto(url, { waitUntil: "domcontentloaded" }).then(() => true, () => false));
  await page.waitForSelector(".monaco-workbench .explorer-viewlet .monaco-list-row", { timeout: 90_000 });
}

async function test(page, what, run) {
  let seen;
  try {
    seen = await run();
  } catch (error) {
    console.log("  " + String(error).slice(0, 800).replaceAll("\n", "\n  "));
  }
  console.log(`${seen ? "ok" : "not ok"} - vscode: ${what}`);
  if (seen) {
    passed++;
  } else {
    failed++;
  }
  fs.mkdirSync(shots, { recursive: true });
  await page.screenshot({ path: path.join(shots, `${passed + failed} ${seen ? "ok" : "not ok"}.png`) }).catch(() => {});
}

/** Opens a file by Go to File; the pick is the one whose folder fits. */
async function open(page, file) {
  await page.keyboard.press("Control+P");
  await page.waitForSelector(".quick-input-widget:not([style*='display: none']) input", { timeout: patience });
  await page.keyboard.type(file);
  await page.waitForSelector(".quick-input-list .monaco-list-row", { timeout: patience });
  await page.waitForTimeout(700);
  const rows = await page.$$(".quick-input-list .monaco-list-row");
  for (const row of rows) {
    const label = (await row.getAttribute("aria-label")) ?? "";
    if (label.includes(path.basename(file)) && label.includes("mistakes") === file.includes("mistakes")) {
      await row.click();
      await page.waitForSelector(".monaco-editor .view-line", { timeout: patience });
      return;
    }
  }
  throw new Error(`${file} is not offered`);
}

async function command(page, title) {
  await page.keyboard.press("F1");
  await page.waitForSelector(".quick-input-widget input", { timeout: patience });
  await page.keyboard.type(title);
  await page.waitForSelector(`.quick-input-list .monaco-list-row[aria-label*="${title}"]`, { timeout: patience });
  await page.keyboard.press("Enter");
}

async function focusTab(page, name) {
  await page.click(`.tab[data-resource-name="${name}"]`);
}

function waitForStatus(page, pattern) {
  let last = "";
  return waitFor(async () => {
    const texts = await page.$$eval(".statusbar-item", items => items.map(item => item.textContent?.trim() ?? ""));
    last = texts.find(text => text.startsWith("rig:")) ?? last;
    return pattern.test(last) && last;
  }).then(found => {
    if (!found) {
      throw new Error(`the status says ${JSON.stringify(last)}`);
    }
    return found;
  });
}

async function textInEditors(page, pattern, tab) {
  await page.waitForSelector(`.tab[data-resource-name="${tab}"]`, { timeout: patience });
  return waitFor(async () => {
    const texts = await page.$$eval(".editor-instance .view-lines", all => all.map(lines => lines.textContent ?? ""));
    return texts.length > 1 && pattern.test(texts.at(-1)) && texts.at(-1);
  });
}

async function waitFor(holds) {
  const end = Date.now() + patience;
  for (;;) {
    const answer = await holds();
    if (answer || Date.now() > end) {
      return answer;
    }
    await new Promise(resolve => setTimeout(resolve, 250));
  }
}

main().catch(error => {
  console.error(error);
  process.exitCode = 1;
});
