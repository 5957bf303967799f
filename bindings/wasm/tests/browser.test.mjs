// The same bytes in a browser, in a page, in a worker and from a bundle, under a strict policy.

import assert from "node:assert/strict";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { chromium } from "playwright-core";
import { SWITCHES, answers, browser as executablePath, output, pkg, projectWithPackage, root, tool } from "./support.mjs";
import { POLICY, serve } from "./server.mjs";

/** Long enough for a machine that does other work besides; nothing waits for it to pass. */
const PATIENCE_MS = 120_000;

/** Runs every job and quick check, and gives what differs. */
const COMPARE = `
  export async function differences(lashwork) {
    const answers = await (await fetch("/answers/answers.json")).json();
    const found = [];
    for (const { id, request, answer } of answers.jobs) {
      if (lashwork.runJson(request) !== answer) found.push(id);
    }
    for (const { id, request, answer } of answers.checks) {
      const { quick, problems } = JSON.parse(answer);
      const got = (() => { try { return lashwork.quickCheck(request); } catch (why) { return why.problems; } })();
      if (JSON.stringify(got) !== JSON.stringify(quick ?? problems)) found.push(id + " quick");
    }
    return { asked: answers.jobs.length + answers.checks.length, found };
  }`;
const PAGES = {
  "/page.html": `<!doctype html><script type="module" src="/page.js"></script>`,
  "/page.js": `
    import * as lashwork from "/pkg/web.js";
    import { differences } from "/compare.js";
    const early = (() => { try { lashwork.run("{}"); } catch (why) { return why.code; } })();
    await lashwork.init("/missing.wasm").catch(() => {});
    await Promise.all([lashwork.init(undefined, []), lashwork.init(undefined, [])]);
    const ignition = { engine: { cylinders: [1] }, ignition: {} };
    const lacking = (() => { try { lashwork.run(ignition); } catch (why) { return why.code; } })();
    const fetched = () => performance.getEntriesByType("resource").map(({ name }) => name.split("/").at(-1))
      .filter((name) => name.endsWith(".wasm") && name !== "missing.wasm").sort();
    const first = fetched();
    await lashwork.bring(ignition);
    const second = fetched();
    await Promise.all([lashwork.init(), lashwork.init()]);
    window.result = { early, lacking, first, second, ...(await differences(lashwork)) };`,
  "/compare.js": COMPARE,
  "/worker.html": `<!doctype html><script type="module" src="/starts-worker.js"></script>`,
  "/starts-worker.js": `
    const worker = new Worker("/worker.js", { type: "module" });
    worker.onmessage = ({ data }) => { window.result = data; };`,
  "/worker.js": `
    import * as lashwork from "/pkg/web.js";
    import { differences } from "/compare.js";
    await lashwork.init();
    postMessage(await differences(lashwork));`,
};
const ASKED = answers.jobs.length + answers.checks.length;

let chrome;
before(async () => {
  chrome = await chromium.launch({ executablePath, args: SWITCHES });
});
after(() => chrome.close());

/** Opens a page and gives what it leaves in \`window.result\`, and what it complains of. */
async function open(address) {
  const page = await (await chrome.newContext()).newPage();
  const complaints = [];
  page.on("console", (message) => message.type() === "error" && complaints.push(message.text()));
  page.on("pageerror", (why) => complaints.push(String(why)));
  await page.goto(address);
  const handle = await page.waitForFunction(() => window.result, null, { timeout: PATIENCE_MS });
  const result = await handle.jsonValue();
  await page.context().close();
  return { result, complaints };
}

test("a page answers every vector with the bytes of Rust", async () => {
  const server = await serve({ "/pkg/": pkg, "/answers/": join(root, "target-wasm") }, PAGES);
  try {
    const { result, complaints } = await open(`${server.address}/page.html`);
    const main = "lashwork_bg.wasm";
    assert.deepEqual(result, {
      early: "package.not-ready",
      lacking: "package.part-missing",
      first: [main],
      second: [main, "lashwork_ignition.wasm"],
      asked: ASKED,
      found: [],
    });
    // The file that was asked for in vain, and nothing else.
    assert.deepEqual(complaints.filter((text) => !text.includes("404")), []);
  } finally {
    await server.close();
  }
});

test("so does a worker", async () => {
  const server = await serve({ "/pkg/": pkg, "/answers/": join(root, "target-wasm") }, PAGES);
  try {
    const { result } = await open(`${server.address}/worker.html`);
    assert.deepEqual(result, { asked: ASKED, found: [] });
  } finally {
    await server.close();
  }
});

test("without 'wasm-unsafe-eval' in the policy the page is told why nothing loads", async () => {
  const pages = {
    "/page.html": PAGES["/page.html"],
    "/page.js": `
      import { init } from "/pkg/web.js";
      await init().then(() => { window.result = "loaded"; }, (why) => { window.result = String(why); });`,
  };
  const server = await serve({ "/pkg/": pkg }, pages, POLICY.replace(" 'wasm-unsafe-eval'", ""));
  try {
    assert.match((await open(`${server.address}/page.html`)).result, /Content Security Policy|unsafe-eval/);
  } finally {
    await server.close();
  }
});

test("a Vite project that installed the package builds, and its bundle answers", async () => {
  const project = projectWithPackage();
  const { folder } = project;
  mkdirSync(join(folder, "src"));
  writeFileSync(join(folder, "index.html"), `<!doctype html><script type="module" src="/src/main.js"></script>`);
  writeFileSync(join(folder, "src/main.js"), `
    import * as lashwork from "lashwork";
    import { differences } from "./compare.js";
    await lashwork.init();
    window.result = await differences(lashwork);`);
  writeFileSync(join(folder, "src/compare.js"), COMPARE);
  output(tool("vite"), ["build", "--logLevel", "warn"], { cwd: folder });
  const server = await serve({ "/answers/": join(root, "target-wasm"), "/": join(folder, "dist") });
  try {
    const { result, complaints } = await open(`${server.address}/index.html`);
    assert.deepEqual(result, { asked: ASKED, found: [] });
    assert.deepEqual(complaints.filter((text) => !text.includes("favicon") && !text.includes("404")), []);
  } finally {
    await server.close();
    project.remove();
  }
});
