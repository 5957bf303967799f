// Every view and state: no violations found by axe, nothing wider than the screen, large targets, keys alone.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import test from "node:test";
import {
  DESKTOP,
  everySection,
  example,
  firstCheck,
  openText,
  PHONE,
  setUp,
  shot,
  stage,
  TABLET,
  takeDemo,
  tapLeaf,
} from "./support.mjs";

const { on } = setUp();
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
/** The rules among them that look at colours. */
const COLOURS = { type: "rule", values: ["color-contrast", "link-in-text-block"] };
const TARGET = 56;
const APART = 8;

const BOOK = { to: "0.20 mm", from: "0.18", until: "0.22" };

/** The check of one valve with a book of one's own, and some leaves. */
const leaves =
  (...taps) =>
  async (page) => {
    await firstCheck(page, "Intake", BOOK);
    for (const [side, leaf] of taps) await tapLeaf(page, "quick", side, leaf);
  };

/** A job at its first stop. */
const atStop = (name) => async (page) => {
  await openText(page, example(name));
  await page.getByRole("checkbox").check();
  await page.getByRole("button", { name: "Go to the first stop" }).click();
  await page.locator(".turn").waitFor();
};

const unread = (name) => {
  const document = example(name);
  return { ...document, clearance: { ...document.clearance, readings: [] } };
};

/** The second step of a job at one of its parts, the contacts read and the spark late. */
const ignition = (part) => async (page) => {
  const running = { speed: "800 rpm", vacuum_hose: "plugged" };
  await openText(page, {
    ...unread("inline-four"),
    ignition: {
      valves: "settled",
      distributor: { rotor: "anticlockwise" },
      contacts: {
        dwell: { shows: "54 deg" },
        dwell_limits: { from: "57 deg", to: "63 deg" },
        pair: { gap: "0.40 mm", dwell: "60 deg" },
      },
      leads: {
        looks: [{ lead: { tower_of: "1", goes_to: "3" } }, { runs: { cylinder: "4", does: "dead" } }],
      },
      evenness: {
        timing: {
          readings: ["6", "10.5", "14", "9.5"].map((deg, i) => ({
            cylinder: example("inline-four").engine.firing_order[i],
            reads: `${deg} deg BTDC`,
          })),
          book: "10 deg BTDC",
        },
      },
      point: { wheel: true },
      electrics: {
        resistors: [{ name: "coil primary", of: "copper", reads: "1.4 ohm", uncertainty: "0.02 ohm" }],
        plug: { gap: "1.0 mm", uncertainty: "0.02 mm", limits: { from: "0.6 mm", to: "0.7 mm" } },
      },
      timing: {
        limits: { from: "8 deg BTDC", to: "12 deg BTDC" },
        reading: { read: "4 deg BTDC", running },
        curve: [
          { read: "4 deg BTDC", running },
          { read: "20 deg BTDC", running: { ...running, speed: "2600 rpm" } },
        ],
        centrifugal: {
          distributor: [
            { speed: "500 rpm", least: "0 deg", most: "0 deg" },
            { speed: "1100 rpm", least: "9 deg", most: "11 deg" },
          ],
          ends: true,
        },
      },
    },
  });
  await page.getByRole("link", { name: "Ignition" }).click();
  const read = page.getByRole("button", { name: "I have read this and made the engine safe" });
  await read.waitFor();
  if (!part) return;
  await read.click();
  const parts = page.getByRole("navigation", { name: "Parts of the ignition" });
  await parts.getByRole("button", { name: part }).click();
};

/** The third step of an invented engine at one of its parts. */
const mixture = (part) => async (page) => {
  await openText(page, example("four-carburettors-at-altitude"));
  const read = page.getByRole("button", { name: "I have read this and made the engine safe" });
  await read.waitFor();
  if (!part) return;
  await read.click();
  const parts = page.getByRole("navigation", { name: "Parts of the mixture" });
  await parts.getByRole("button", { name: part }).click();
  const closed = page.locator(".card details:not([open]) > summary");
  while ((await closed.count()) > 0) await closed.first().click();
};

/** The condition of an invented engine at one of its parts, all that is folded open. */
const condition = (part) => async (page) => {
  await openText(page, example("inline-four-condition"));
  await page.getByRole("button", { name: "I have read this and made the engine safe" }).click();
  const parts = page.getByRole("navigation", { name: "Parts of the condition" });
  await parts.getByRole("button", { name: part }).click();
  const closed = page.locator(".card details:not([open]) > summary");
  while ((await closed.count()) > 0) await closed.first().click();
};

/** The job of an engine with past services, and a view of it. */
const past = (view) => async (page) => {
  await openText(page, example("inline-four-with-history"));
  await page.getByRole("link", { name: view }).click();
  await page.getByRole("heading", { name: /What the years say|Steps in their order/ }).waitFor();
};

/** Questions without an engine, each with enough to be answered. */
const QUESTIONS = {
  dwell: [
    "Dwell",
    { "Lobes of the cam": "4", "Meter shows": "56 %", "±": "1", "Book, min": "46", "Book, max": "52" },
  ],
  point: [
    "Point",
    { "Ignition point": "7.5", "Rim with the mark": "155", "The mark on the rim": "true", "Turns of": "2" },
  ],
  winding: [
    "Winding, lead",
    {
      "Made of": "copper",
      Reads: "4.1",
      "± reading": "0.02",
      "Measured at": "80",
      "± temperature": "5",
      "Book holds": "20",
    },
  ],
  coil: ["Coil at speed", { "Supply, contacts": "13" }],
  advance: ["Strobe reading", { Read: "10", "Vacuum hose": "plugged" }],
};

async function askFigures(page, title, fields) {
  const questions = page.getByRole("navigation", { name: "Questions" });
  await questions.getByRole("button", { name: title }).click();
  for (const [label, value] of Object.entries(fields)) {
    const field = page.locator(".card").getByLabel(label).first();
    if (await field.evaluate((e) => e.tagName === "SELECT")) await field.selectOption(value);
    else {
      await field.fill(value);
      await field.press("Tab");
    }
  }
}

/** States of the page, each reached from a fresh start. */
const STATES = {
  "check-empty": ["", async () => {}],
  "check-book": ["", async (page) => page.getByText("Intake", { exact: true }).first().click()],
  "check-cautions": [
    "",
    async (page) => {
      await page.getByText("Intake", { exact: true }).first().click();
      await page.locator('label[for="figure.intake.0.20 mm"]').click();
      await page.getByRole("button", { name: "I have read this and made the engine safe" }).waitFor();
    },
  ],
  "check-leaves": ["", leaves()],
  "check-half": ["", leaves(["goes", "0.12 mm"])],
  "check-answer": ["", leaves(["goes", "0.12 mm"], ["refuses", "0.15 mm"])],
  "check-nothing-goes": ["", leaves(["goes", "none"])],
  "check-demo": [
    "",
    async (page) => {
      await takeDemo(page, example("inline-four").title);
      await page.locator('label[for="quick.valve.intake"]').click();
      await page.getByRole("button", { name: "I have read this and made the engine safe" }).click();
      await tapLeaf(page, "quick", "goes", "0.12 mm");
      await tapLeaf(page, "quick", "refuses", "0.15 mm");
      await page.locator(".answer").waitFor();
    },
  ],
  "check-against": [
    "",
    async (page) => {
      await page.getByText("Book and adjuster:").click();
      await page.getByLabel("Take book and adjuster from").waitFor();
    },
  ],
  "job-new": ["job", async () => {}],
  "job-torn": ["job", async (page) => openText(page, "torn").then(() => page.locator(".problems").waitFor())],
  "job-layouts": ["job", async (page) => page.getByRole("button", { name: "New engine" }).click()],
  "job-flat-four": [
    "job",
    async (page) => {
      await page.getByRole("button", { name: "New engine" }).click();
      await page.getByRole("button", { name: "Flat four" }).click();
      await page.locator('label[for="adjuster.valve_side"]').click();
    },
  ],
  "job-needed": [
    "job",
    async (page) => {
      await page.getByRole("button", { name: "New engine" }).click();
      await page.getByRole("button", { name: "V-twin" }).click();
      await page.getByRole("button", { name: "Cautions, then stop 1" }).click();
      await page.getByText(/Still needed/).waitFor();
    },
  ],
  "job-describe": [
    "job",
    async (page) => {
      await page.getByRole("button", { name: example("inline-four").title }).click();
      await page.getByText("Book prints more").click();
    },
  ],
  "job-cautions": ["job", async (page) => openText(page, example("inline-four"))],
  "job-stop": [
    "job",
    async (page) => {
      await openText(page, unread("inline-four"));
      await page.getByRole("checkbox").check();
      await page.getByRole("button", { name: "Go to the first stop" }).click();
      await page.locator(".peek").waitFor();
    },
  ],
  "job-turn": ["job", atStop("inline-four")],
  "job-finding": ["job", atStop("exchanged-four")],
  "job-turn-radial": ["job", atStop("radial-nine")],
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
  "job-list": [
    "job",
    async (page) => {
      await openText(page, example("inline-four"));
      await page.getByRole("button", { name: "Save and close" }).click();
      await page.getByRole("heading", { name: "Jobs on this device" }).waitFor();
    },
  ],
  "charts-empty": ["charts", async () => {}],
  charts: [
    "job",
    async (page) => {
      await openText(page, example("inline-four"));
      await stage(page, "Report");
      await page.getByRole("link", { name: "Charts" }).click();
      await page.getByRole("heading", { name: "Charts" }).waitFor();
    },
  ],
  "ignition-empty": ["ignition", async () => {}],
  "ignition-cautions": ["job", ignition("")],
  "ignition-before": ["job", ignition("To begin")],
  "ignition-leads": ["job", ignition("Leads")],
  "ignition-contacts": ["job", ignition("Contacts")],
  "ignition-timing": ["job", ignition("Timing")],
  "ignition-advance": ["job", ignition("Advance")],
  "ignition-evenness": ["job", ignition("Even sparks")],
  "ignition-electrics": ["job", ignition("Coil, plugs")],
  "ignition-point": ["job", ignition("Point")],
  "ignition-magnetos": [
    "ignition",
    async (page) => {
      await page.getByRole("button", { name: "Invented opposed four, two magnetos" }).click();
      await page.getByRole("button", { name: "I have read this and made the engine safe" }).click();
      const parts = page.getByRole("navigation", { name: "Parts of the ignition" });
      await parts.getByRole("button", { name: "Magneto" }).click();
    },
  ],
  service: ["job", past("Whole service")],
  "service-done": [
    "job",
    async (page) => {
      await openText(page, everySection());
      await page.getByRole("link", { name: "Whole service" }).click();
      await page.getByRole("region", { name: "What was done" }).waitFor();
    },
  ],
  history: ["job", past("History")],
  "history-services": [
    "job",
    async (page) => {
      await past("History")(page);
      const services = page.locator("[aria-label=Services]");
      // A service with all of its valves and meters, of which one was set, and what stands below the services.
      const third = services.locator("details").filter({ has: page.getByLabel("Service 3: date") });
      await third.locator("summary").first().click();
      await third.getByText("Dwell, timing, compression, leaks").click();
      await third.getByText("Dwell: left was read later").click();
      await services.getByText("The record as it was last seen").click();
      await services.getByText("How time is counted").click();
    },
  ],
  causes: [
    "job",
    async (page) => {
      await openText(page, example("inline-four-condition"));
      await page.getByRole("button", { name: "I have read this and made the engine safe" }).waitFor();
      await page.goto(`${new URL(page.url()).origin}/#causes`);
      await page.getByRole("heading", { name: "What to measure next" }).waitFor();
    },
  ],
  "condition-before": ["job", condition("To begin")],
  "condition-head": ["job", condition("Head bolts")],
  "condition-compression": ["job", condition("Compression")],
  "condition-leak": ["job", condition("Leak-down")],
  "mixture-empty": ["mixture", async () => {}],
  "mixture-cautions": ["job", mixture("")],
  "mixture-before": ["job", mixture("To begin")],
  "mixture-air": ["job", mixture("Air")],
  "mixture-gauge": ["job", mixture("Vacuum gauge")],
  "mixture-float": ["job", mixture("Fuel level")],
  "mixture-balance": ["job", mixture("Balance")],
  "mixture-idle": ["job", mixture("Idle")],
  "mixture-gas": ["job", mixture("Exhaust gas")],
  "mixture-jets": ["job", mixture("Jets")],
  "figures-empty": ["figures", async () => {}],
  ...Object.fromEntries(
    Object.entries(QUESTIONS).map(([name, [title]]) => [
      `figures-${name}`,
      ["figures", async (page) => askFigures(page, title, QUESTIONS[name][1])],
    ]),
  ),
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

/** Pairs of leaves that are so near that a glove would take both. */
function tooNear(apart) {
  const chips = [...document.querySelectorAll(".chip label, .valves button")].filter((e) =>
    e.checkVisibility(),
  );
  const boxes = chips.map((e) => [e, e.getBoundingClientRect()]);
  const near = (a, b) =>
    a.left < b.right + apart - 0.5 &&
    b.left < a.right + apart - 0.5 &&
    a.top < b.bottom + apart - 0.5 &&
    b.top < a.bottom + apart - 0.5;
  return boxes.flatMap(([one, a], i) =>
    boxes
      .slice(i + 1)
      .flatMap(([other, b]) => (near(a, b) ? [`${one.textContent} | ${other.textContent}`] : [])),
  );
}

async function look(page, name) {
  assert.deepEqual(await page.evaluate(tooSmall, TARGET), [], `${name}: small targets`);
  assert.deepEqual(await page.evaluate(tooNear, APART), [], `${name}: too near`);
  await fits(page, name);
}

/** Nothing has to be scrolled sideways, and nothing that is fixed hangs over an edge. */
async function fits(page, name) {
  // A phone widens its window to what does not fit, so the width of the screen is compared.
  const { width: room } = page.viewportSize();
  const [wide, over] = await page.evaluate((room) => {
    const all = [...document.querySelectorAll("button, .button, input, .chip label, nav a")];
    const seen = all.filter((e) => e.checkVisibility() && !e.closest(".scroll"));
    const out = seen.filter(
      (e) => !e.matches(".sr, .skip, .chip input") && e.getBoundingClientRect().right > room + 0.5,
    );
    return [document.scrollingElement.scrollWidth, out.map((e) => e.textContent || e.id)];
  }, room);
  assert.ok(wide <= room, `${name}: ${wide} px wide on ${room}`);
  assert.deepEqual(over, [], `${name}: over the edge`);
}

/** Looks for violations: of all rules, or of those on colours alone where nothing but these has changed. */
async function axe(page, name, runOnly = TAGS) {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(AXE);
  const violations = await page.evaluate(async (runOnly) => {
    const found = await window.axe.run(document, { runOnly });
    return found.violations.map(
      (v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.failureSummary}`).join(" | ")}`,
    );
  }, runOnly);
  assert.deepEqual(violations, [], name);
}

/** A phone whose pictures are small: nothing that is checked depends on how many dots they have. */
const SMALL = { ...PHONE, deviceScaleFactor: 1 };

// Each state is reached once; all that is checked of it, on every screen, follows there.
for (const [name, [view, reach]] of Object.entries(STATES)) {
  const every = async ({ page, open, t }) => {
    await open(view);
    await reach(page);
    for (const colorScheme of ["light", "dark"]) {
      await t.test(`${name} on a phone, ${colorScheme}`, async () => {
        await page.emulateMedia({ colorScheme });
        await shot(page, `${name}-360-${colorScheme}`, { whole: true });
        await axe(page, name, colorScheme === "dark" ? COLOURS : TAGS);
        await look(page, name);
      });
    }
    await page.emulateMedia({ colorScheme: "light" });
    // With a valve open and without.
    if (!/torn|empty/.test(name)) {
      await t.test(`${name} with text at 200 %`, async () => {
        await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
        await shot(page, `${name}-200`, { whole: true });
        await fits(page, name);
        await page.evaluate(() => (document.documentElement.style.fontSize = ""));
      });
    }
    await t.test(`${name} on a tablet and a desktop`, async () => {
      await page.setViewportSize(TABLET.viewport);
      await shot(page, `${name}-tablet`);
      await axe(page, name);
      await look(page, name);
      await page.setViewportSize(DESKTOP.viewport);
      await look(page, name);
      await shot(page, `${name}-desktop`);
    });
  };
  test(name, on(SMALL, every, { reducedMotion: "reduce" }));
}

for (const name of ["check-answer", "job-stop", "job-flat-four", "job-report"]) {
  const [view, reach] = STATES[name];
  const lying = async ({ page, open }) => {
    await open(view);
    await reach(page);
    await shot(page, `${name}-landscape`);
    await fits(page, name);
    if (name !== "job-stop") return;
    const seen = await page.evaluate(() =>
      [".where h2", ".valves button", ".reading .chip label"].map((which) => {
        const { top, bottom } = document.querySelector(which).getBoundingClientRect();
        return top >= 0 && bottom <= document.querySelector(".peek").getBoundingClientRect().top;
      }),
    );
    assert.deepEqual(seen, [true, true, true], "stop, valves and leaves together");
  };
  const laid = { ...SMALL, viewport: { width: 740, height: 360 } };
  test(`${name} on a phone laid on its side`, on(laid, lying, { reducedMotion: "reduce" }));
}

test(
  "leaves, answers and corrections are named with their valve for those who hear the page",
  on(PHONE, async ({ page, open }) => {
    await open("job");
    await STATES["job-stop"][1](page);
    const open1 = await page.locator('.valves [aria-pressed="true"]').textContent();
    const [, cylinder, kind] = /^(\S+) (in|ex)/.exec(open1);
    const valve = `${cylinder} ${{ in: "intake", ex: "exhaust" }[kind]}`;
    const side = page.getByRole("group", { name: `${valve}, goes in: leaf in mm` });
    await side.getByRole("radio", { name: "0.15" }).waitFor();
    await page.getByRole("button", { name: new RegExp(`^Show the answer for ${valve}: `) }).waitFor();
    const tree = await page.evaluate(() => document.body.innerText);
    assert.doesNotMatch(tree, /free_end|output_end| in in\b|readings ›/);
  }),
);

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
    await STATES["check-half"][1](page);
    await page.evaluate(() => scrollTo(0, 0));
    const asked = await page.screenshot();
    await page.locator('label[for="quick.refuses.leaf.0.15 mm"]').click();
    await page.locator(".peek button").first().click();
    await page.locator(".answer").scrollIntoViewIfNeeded();
    const told = await page.screenshot();
    await page.setViewportSize({ width: 1180, height: 820 });
    await page.getByRole("link", { name: "Whole engine" }).click();
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
