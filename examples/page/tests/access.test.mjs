// Every view and state: no violations found by axe, nothing wider than the screen, large targets, keys alone.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import test from "node:test";
import { DESKTOP, example, PHONE, setUp, shot, TABLET } from "./support.mjs";

const { on } = setUp();
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const TARGET = 48;

const openText = async (page, document) => {
  await page.getByLabel("or paste its text").fill(JSON.stringify(document));
  await page.getByRole("button", { name: "Open this text" }).click();
};
const stage = (page, name) =>
  page.getByRole("navigation", { name: "Stages" }).getByRole("button", { name }).click();
const tap = (page, id) => page.locator(`label[for="${id}"]`).click();

/** States of the page, each reached from a fresh start. */
const STATES = {
  "check-empty": ["", async () => {}],
  "check-answer": [
    "",
    async (page) => {
      await tap(page, "quick.goes.leaf.0.12 mm");
      await tap(page, "quick.refuses.leaf.0.15 mm");
      await page.locator(".answer").waitFor();
    },
  ],
  "check-open-end": ["", async (page) => tap(page, "quick.goes.leaf.0.25 mm")],
  "check-fault": [
    "",
    async (page) => {
      await tap(page, "quick.goes.leaf.0.30 mm");
      await tap(page, "quick.refuses.leaf.0.15 mm");
      await page.locator(".faults").first().waitFor();
    },
  ],
  "check-against": [
    "",
    async (page) => {
      await page.getByText("Checked against:").click();
      await page.getByLabel("Take engine, bands and screw from").waitFor();
    },
  ],
  "job-new": ["job", async () => {}],
  "job-torn": ["job", async (page) => openText(page, "torn").then(() => page.locator(".problems").waitFor())],
  "job-describe": [
    "job",
    async (page) => page.getByRole("button", { name: example("inline-four").title }).click(),
  ],
  "job-blank": ["job", async (page) => page.getByRole("button", { name: "New engine" }).click()],
  "job-cautions": ["job", async (page) => openText(page, example("inline-four"))],
  "job-turn": [
    "job",
    async (page) => {
      await openText(page, example("inline-four"));
      await page.getByRole("checkbox").check();
      await stage(page, "Readings");
      await page.locator(".valve-head").first().click();
    },
  ],
  "job-turn-radial": [
    "job",
    async (page) => {
      await openText(page, example("radial-nine"));
      await page.getByRole("checkbox").check();
      await stage(page, "Readings");
    },
  ],
  "job-report": [
    "job",
    async (page) => {
      await openText(page, example("inline-four"));
      await stage(page, "Report");
    },
  ],
  "job-report-two-books": [
    "job",
    async (page) => {
      await openText(page, example("upright-twin-warm"));
      await stage(page, "Report");
    },
  ],
  "charts-empty": ["charts", async () => {}],
  charts: [
    "job",
    async (page) => {
      await openText(page, example("inline-four"));
      await page.getByRole("link", { name: "Charts" }).click();
      await page.getByRole("heading", { name: "Charts" }).waitFor();
    },
  ],
  settings: ["settings", async () => {}],
};

/** Names of the things on the page that are smaller than a finger in a glove, or outside the screen. */
function tooSmall(target) {
  const controls = "button, select, textarea, summary, .button, input[type=text], .chip label, .check, nav a";
  const seen = [...document.querySelectorAll(controls)].filter((e) => e.checkVisibility());
  const small = seen.filter((e) => {
    const { width, height } = e.getBoundingClientRect();
    return width < target - 0.5 || height < target - 0.5;
  });
  return small.map(
    (e) => `${e.tagName} ${e.textContent.slice(0, 30)} ${JSON.stringify(e.getBoundingClientRect())}`,
  );
}

async function look(page, name) {
  assert.deepEqual(await page.evaluate(tooSmall, TARGET), [], `${name}: small targets`);
  const [wide, room] = await page.evaluate(() => [document.scrollingElement.scrollWidth, innerWidth]);
  assert.ok(wide <= room, `${name}: ${wide} px wide on ${room}`);
}

async function axe(page, name) {
  await page.evaluate(AXE);
  const violations = await page.evaluate(async (tags) => {
    const found = await window.axe.run(document, { runOnly: tags });
    return found.violations.map(
      (v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.failureSummary}`).join(" | ")}`,
    );
  }, TAGS);
  assert.deepEqual(violations, [], name);
}

for (const [name, [view, reach]] of Object.entries(STATES)) {
  for (const colorScheme of ["light", "dark"]) {
    const work = async ({ page, open }) => {
      await open(view);
      await reach(page);
      await shot(page, `${name}-360-${colorScheme}`, { whole: true });
      await axe(page, name);
      await look(page, name);
    };
    test(`${name} on a phone, ${colorScheme}`, on(PHONE, work, { colorScheme, reducedMotion: "reduce" }));
  }
  const wide = async ({ page, open }) => {
    await open(view);
    await reach(page);
    await shot(page, `${name}-tablet`);
    await axe(page, name);
    await look(page, name);
    await page.setViewportSize(DESKTOP.viewport);
    await look(page, name);
    await shot(page, `${name}-desktop`);
  };
  test(`${name} on a tablet and a desktop`, on(TABLET, wide, { reducedMotion: "reduce" }));
}

// A window of 640 px at 200 % has room for 320 px of the page, as the guideline on reflow wants.
for (const name of ["check-answer", "job-turn", "job-report", "job-describe", "charts", "settings"]) {
  const [view, reach] = STATES[name];
  const zoomed = async ({ page, open }) => {
    await open(view);
    await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
    await reach(page);
    await shot(page, `${name}-200`, { whole: true });
    const [wide, room] = await page.evaluate(() => [document.scrollingElement.scrollWidth, innerWidth]);
    assert.ok(wide <= room, `${wide} px wide on ${room}`);
  };
  const window = { viewport: { width: 640, height: 900 } };
  test(`${name} with text at 200 %`, on(window, zoomed, { reducedMotion: "reduce" }));
}

test(
  "forced colours keep what a colour says",
  on(
    PHONE,
    async ({ page, open }) => {
      await open();
      await STATES["check-answer"][1](page);
      await shot(page, "check-answer-forced", { whole: true });
      await axe(page, "forced colours");
    },
    { forcedColors: "active", reducedMotion: "reduce" },
  ),
);

test(
  "a picture of both for the read-me",
  on({ ...TABLET, reducedMotion: "reduce", deviceScaleFactor: 1.25 }, async ({ page, context, open }) => {
    await open();
    await page.setViewportSize(PHONE.viewport);
    await STATES["check-answer"][1](page);
    await page.evaluate(() => scrollTo(0, 0));
    const asked = await page.screenshot();
    await page.locator(".peek button").first().click();
    await page.locator(".answer").scrollIntoViewIfNeeded();
    const told = await page.screenshot();
    await page.setViewportSize({ width: 1180, height: 820 });
    await page.getByRole("link", { name: "Whole job" }).click();
    await STATES["job-turn"][1](page);
    await page.evaluate(() => scrollTo(0, 0));
    const tablet = await page.screenshot();
    const sheet = await context.newPage();
    const picture = (png, width) =>
      `<img width="${width}" src="data:image/png;base64,${png.toString("base64")}">`;
    await sheet.setViewportSize({ width: 1479, height: 620 });
    await sheet.setContent(
      `<body style="margin:20px;display:flex;gap:20px;background:#888;align-items:start">${picture(asked, 282)}${picture(told, 282)}${picture(tablet, 835)}`,
    );
    await shot(sheet, "page");
  }),
);
