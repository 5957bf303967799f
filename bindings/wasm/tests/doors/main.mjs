// Takes the shared vectors through the package in node or in a browser: answers to OUT, judged elsewhere.

import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { chromium } from "playwright-core";
import * as lashwork from "../../pkg/node.js";
import { serve } from "../server.mjs";
import { SWITCHES, browser as executablePath, pkg, root } from "../support.mjs";
import { answers } from "./answers.mjs";

const [door, requests, out] = process.argv.slice(2);
const names = readFileSync(join(requests, "names.txt"), "utf8").trim().split("\n");
const direct = join(root, "tests/direct");
const cases = readdirSync(direct)
  .sort()
  .flatMap((name) => JSON.parse(readFileSync(join(direct, name), "utf8")).cases)
  .map(({ id, call, in: given }) => ({ id, call, in: given }));

async function inBrowser() {
  const page = `
    import * as lashwork from "/pkg/web.js";
    import { answers } from "/doors/answers.mjs";
    const read = async (name) => (await fetch("/requests/" + encodeURIComponent(name) + ".request")).text();
    window.ask = async (names, cases) => { await lashwork.init(); return answers(lashwork, names, read, cases); };`;
  const pages = { "/page.html": `<!doctype html><script type="module" src="/page.js"></script>`, "/page.js": page };
  const server = await serve({ "/pkg/": pkg, "/requests/": requests, "/doors/": import.meta.dirname }, pages);
  const chrome = await chromium.launch({ executablePath, args: SWITCHES });
  try {
    const tab = await chrome.newPage();
    await tab.goto(`${server.address}/page.html`);
    await tab.waitForFunction(() => window.ask);
    return await tab.evaluate(({ names, cases }) => window.ask(names, cases), { names, cases });
  } finally {
    await chrome.close();
    await server.close();
  }
}

const inNode = () => answers(lashwork, names, (name) => readFileSync(join(requests, `${name}.request`), "utf8"), cases);
const found = await { node: inNode, Chromium: inBrowser }[door]();
for (const [name, text] of Object.entries(found)) {
  writeFileSync(join(out, name), text);
}
console.log(`${door}: ${names.length} documents and ${cases.length} calls asked`);
