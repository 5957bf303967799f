// A browser, the built page on this machine, and the same answers from the native kernel.
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before } from "node:test";
import assert from "node:assert/strict";
import { chromium } from "playwright-core";
import { serve } from "../serve.mjs";

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const ROOT = here("../../..");
const SHOTS = here("../shots");
/** Pictures are kept where they are asked for: they check nothing, and there are some two hundred. */
const KEEPS_SHOTS = Boolean(process.env.LASHWORK_SHOTS);
/** What the console says where the service worker is kept off. */
const KEPT_OFF = "Service Worker registration blocked by Playwright";
/** Long enough for a machine that does other work besides; nothing waits for it to pass. */
const PATIENCE_MS = 90_000;
const FLAGS =
  "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking --disable-component-update --disable-sync";

export const PHONE = {
  viewport: { width: 360, height: 640 },
  hasTouch: true,
  isMobile: true,
  deviceScaleFactor: 2,
};
export const TABLET = { viewport: { width: 1180, height: 820 }, hasTouch: true };
export const DESKTOP = { viewport: { width: 1440, height: 900 } };

/** The browser and the server of one test file. */
export function setUp() {
  const shared = {};
  before(async () => {
    shared.server = await serve(here("../dist"));
    shared.browser = await chromium.launch({
      executablePath: process.env.LASHWORK_BROWSER ?? "/usr/bin/chromium-headless-shell",
      args: FLAGS.split(" "),
      timeout: 2 * PATIENCE_MS,
    });
  });
  after(async () => {
    await shared.browser?.close();
    await shared.server?.close();
  });

  /**
   * Runs a test on a fresh page with nothing saved. Whatever the console or the policy complains
   * about fails it. The service worker, which fetches every file again for its cache, is for the tests of it.
   */
  shared.on =
    (device, work, { site, worker = false, ...options } = {}) =>
    async (t) => {
      const serviceWorkers = worker ? "allow" : "block";
      const context = await shared.browser.newContext({
        ...device,
        acceptDownloads: true,
        serviceWorkers,
        ...options,
      });
      const complaints = [];
      await context.addInitScript(() => {
        addEventListener("securitypolicyviolation", (e) =>
          console.error(`policy: ${e.violatedDirective} ${e.blockedURI}`),
        );
      });
      const page = await context.newPage();
      const { origin } = new URL(site ?? shared.server.address);
      page.on("console", (m) => {
        if (!["error", "warning"].includes(m.type()) || (!worker && m.text() === KEPT_OFF)) return;
        complaints.push(m.text());
      });
      page.on("pageerror", (why) => complaints.push(String(why)));
      page.on("request", (r) => {
        if (!r.url().startsWith(origin) && !r.url().startsWith("blob:"))
          complaints.push(`foreign: ${r.url()}`);
      });
      page.setDefaultTimeout(PATIENCE_MS);
      const open = async (view = "") => {
        await page.goto(`${shared.server.address}#${view}`);
        await page.locator("main h1").waitFor();
      };
      try {
        await work({ page, context, open, complaints, t, address: shared.server.address });
        assert.deepEqual(complaints, []);
      } finally {
        await context.close();
      }
    };
  return shared;
}

/** An example document of the repository. */
export const example = (name) =>
  JSON.parse(readFileSync(join(ROOT, "examples/data", `${name}.json`), "utf8"));

/** An invented engine with every section of a document, each of them full. */
export function everySection() {
  const { valves: _, ...condition } = example("inline-four-condition").condition;
  const { valves: __, ...ignition } = example("opposed-four-ignition").ignition;
  const { valves: ___, timing: ____, ...mixture } = example("four-carburettors-at-altitude").mixture;
  const log = [
    { step: "head", did: "set" },
    { step: "valves", did: "set", lash: "0.05 mm" },
    { step: "contacts", did: "set", dwell: "-4 deg" },
    { step: "timing", did: "read" },
  ];
  const history = example("inline-four-with-history");
  const { causes, engine } = example("inline-four-condition");
  return {
    ...history,
    engine: { ...history.engine, machine: "vehicle", ignition: "battery", crank: engine.crank },
    condition,
    ignition,
    mixture,
    causes,
    log,
  };
}

/** How many sides of paper the page prints: of A4, or of what is asked for. */
export async function sides(page, paper = { preferCSSPageSize: true }) {
  const pdf = await page.pdf(paper);
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;
}

/** The native kernel's report of a document, or its problems. */
export const native = (document) => asked("report", document);

/** The native kernel's answer to questions of the ignition that need no engine. */
export const nativeFigures = (check) => asked("ignition", check).ignition;

function asked(question, document) {
  const folder = mkdtempSync(join(tmpdir(), "lash-check-"));
  const file = join(folder, "document.json");
  writeFileSync(file, JSON.stringify(document));
  try {
    // The program, if it is built, so that cargo is not started for each answer.
    const built = process.env.LASHWORK_PROGRAM;
    const words = built ? [] : ["run", "--quiet", "--package", "lashwork-cli", "--"];
    const said = execFileSync(built ?? process.env.CARGO ?? "cargo", [...words, question, file], {
      cwd: ROOT,
      maxBuffer: 1 << 26,
    });
    return JSON.parse(said);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Keeps a picture for whoever asks for it; a whole one on a screen that is long enough for it. */
export async function shot(page, name, { whole = false } = {}) {
  if (!KEEPS_SHOTS) return;
  mkdirSync(SHOTS, { recursive: true });
  const size = page.viewportSize();
  if (whole) {
    const height = await page.evaluate(() => document.scrollingElement.scrollHeight);
    await page.setViewportSize({ ...size, height: Math.max(size.height, height) });
  }
  await page.screenshot({ path: join(SHOTS, `${name}.png`), animations: "disabled" });
  await page.setViewportSize(size);
}

/** What the page has saved for a slot, once what was typed is drawn: it saves after that. */
export const saved = (page, slot) =>
  page.evaluate(async (key) => {
    const drawn = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
    await drawn();
    await drawn();
    return JSON.parse(localStorage.getItem(key) ?? "null")?.value;
  }, `lash-check.${slot}`);

/** Starts the job of an invented engine and goes to its first stop. */
export async function startJob(page, title) {
  await page.getByRole("button", { name: title }).click();
  await page.getByRole("button", { name: "Cautions, then stop 1" }).click();
  await page.getByRole("checkbox", { name: /I have read this/ }).check();
  await page.getByRole("button", { name: "Go to the first stop" }).click();
}

/** Opens a document as text. */
export async function openText(page, document) {
  const text = typeof document === "string" ? document : JSON.stringify(document);
  await page.getByLabel("or paste its text").fill(text);
  await page.getByRole("button", { name: "Open this text" }).click();
}

/** Goes to a stage of the open job. */
export const stage = (page, name) =>
  page.getByRole("navigation", { name: "Stages" }).getByRole("button", { name }).click();

/** Chooses one of the orders of work by its name. */
export async function chooseWay(page, name) {
  await page.getByText("Crank, order of work, temperature").click();
  const option = page.locator("option", { hasText: name }).first();
  await page.getByLabel("Order of work").selectOption(await option.getAttribute("value"));
}

/** Taps a leaf on a side; the other side is turned to first where it is not asked for. */
export async function tapLeaf(page, name, side, leaf) {
  const chip = page.locator(`label[for="${name}.${side}.leaf.${leaf}"]`);
  if (!(await chip.isVisible())) {
    if (side === "drags") await page.getByRole("button", { name: "One drags lightly" }).click();
    else await page.locator(`[id="${name}.${side}"]`).click();
  }
  await chip.click();
}

/** Names of the buttons by which a reading of a document is entered. */
export function taps(reading) {
  if (reading.nothing_goes) return [["goes", "none"]];
  if (reading.everything_goes) return [["refuses", "none"]];
  if (reading.drags) return [["drags", reading.drags[0]]];
  return ["goes", "refuses"].filter((side) => reading[side]).map((side) => [side, reading[side][0]]);
}

/** Says at a first opening which valve is closed, what the book has for it, and that the cautions are read. */
export async function firstCheck(page, kind, { to, from, until } = {}) {
  await page.getByText(kind, { exact: true }).first().click();
  const field = (step) => page.locator(`[id="figure.at.specifications.0.${kind.toLowerCase()}.${step}"]`);
  if (from) {
    await field("set.from").fill(from);
    await field("set.to").fill(until);
    await page.keyboard.press("Tab");
  }
  await page.locator(`label[for="figure.${kind.toLowerCase()}.${to}"]`).click();
  const safe = page.getByRole("button", { name: "I have read this and made the engine safe" });
  // What comes next may be a frame late: it is waited for before it is asked which of them it is.
  await safe.or(page.locator('[id="quick.goes"]')).first().waitFor();
  if (await safe.isVisible()) await safe.click();
}

/** Takes the book and adjuster of an invented engine for the check of one valve. */
export async function takeDemo(page, title) {
  await page.getByText("Book and adjuster:").click();
  await page.getByLabel("Take book and adjuster from").selectOption({ label: `DEMO: ${title}` });
  await page.locator(".against-what summary").filter({ hasText: title }).waitFor();
  await page.getByText("Book and adjuster:").click();
}

/** Counts the taps of a finger on a page. */
export async function countTaps(page) {
  await page.evaluate(() => {
    window.taps = 0;
    addEventListener("pointerdown", () => (window.taps += 1), true);
  });
  return () => page.evaluate(() => window.taps);
}
