// The second step: what stops the work and the order of it, the cards, and the same answers as the native kernel.
import assert from "node:assert/strict";
import test from "node:test";
import { DESKTOP, example, native, openText, PHONE, saved, setUp, shot } from "./support.mjs";

const { on } = setUp();

/** An invented four whose valves are read elsewhere. */
const unread = () => {
  const document = example("inline-four");
  return { ...document, clearance: { ...document.clearance, readings: [] } };
};

/** The same with an ignition part. */
const with_ = (ignition) => ({ ...unread(), ignition });

/** What the page asks of such a document: nothing is read of its valves, so that part has nothing to say. */
const told = ({ clearance: _, ...document }) => {
  const { report, problems } = native({ lashwork: 1, ignition: {}, ...document });
  assert.equal(problems, undefined, JSON.stringify(problems));
  return report;
};

const squeezed = (text) => text.replace(/\s+/g, " ").toLowerCase();
const shown = async (page, where = "main") => squeezed(await page.locator(where).innerText());
const has = (text, words) => assert.ok(text.includes(squeezed(words)), `${words} in ${text}`);

/** Opens a document, and its ignition with the cautions read. */
async function openIgnition(page, open, document) {
  await open("job");
  await openText(page, document);
  await page.getByRole("link", { name: "Ignition" }).click();
  await page.getByRole("button", { name: "I have read this and made the engine safe" }).click();
  await page.getByRole("heading", { name: "Order of work" }).waitFor();
}

const part = (page, name) =>
  page.getByRole("navigation", { name: "Parts of the ignition" }).getByRole("button", { name }).click();

async function type(page, label, text, { nth = 0 } = {}) {
  const field = page.getByLabel(label).nth(nth);
  await field.fill(text);
  await field.press("Tab");
}

/** Advice of the report stands in the text, in its order: what must be sure before the amount. */
function hasAdvice(text, { first = [], text: what, then_reads, causes = [] }) {
  for (const one of [...first, what, ...(then_reads ? [then_reads] : []), ...causes]) has(text, one);
  for (const one of first) assert.ok(text.indexOf(squeezed(one)) < text.indexOf(squeezed(what)), one);
}

function hasMeasured(text, { found, limits, verdict_text }) {
  for (const words of [found, limits, verdict_text]) has(text, words);
}

test(
  "the second step is fetched when it is wanted, and begins with the cautions of the kernel",
  on(PHONE, async ({ page, open }) => {
    const fetched = () =>
      performance.getEntriesByType("resource").filter(({ name }) => /lashwork_ignition/.test(name)).length;
    await open("job");
    await openText(page, unread());
    await page.getByRole("link", { name: "Ignition" }).waitFor();
    assert.equal(await page.evaluate(fetched), 0);
    await page.getByRole("link", { name: "Ignition" }).click();
    await page.locator(".cautions li", { hasText: "High voltage" }).first().waitFor();
    assert.equal(await page.evaluate(fetched), 1);
    const { cautions } = told(unread());
    assert.ok(cautions.some((caution) => caution.startsWith("High voltage")));
    assert.deepEqual(await page.locator(".cautions li").allTextContents(), cautions);
    assert.equal(await page.getByRole("navigation", { name: "Parts of the ignition" }).count(), 0);
    await page.getByRole("button", { name: "I have read this and made the engine safe" }).click();
    await page.reload();
    await page.getByRole("heading", { name: "Order of work" }).waitFor();
    assert.equal(await page.locator(".card h2").last().textContent(), "To begin", "what is next");
  }),
);

test(
  "dwell and gap typed on a phone are judged as by the native kernel",
  on(PHONE, async ({ page, open }) => {
    await openIgnition(page, open, unread());
    await page.getByLabel("Valve clearances").selectOption("settled");
    await page.getByLabel("The cam turns").selectOption("half_crank");
    await part(page, "Contacts");
    await page.getByLabel("Faces of the contacts").selectOption("worn_flat");
    await type(page, "Meter shows at idle", "54");
    await type(page, "±", "0.5");
    await type(page, "Book, min", "57");
    await type(page, "Book, max", "63");
    await type(page, "Gap in mm", "0.40");
    await type(page, "Dwell in deg", "60");
    const ignition = {
      valves: "settled",
      distributor: { cam: "half_crank" },
      contacts: {
        look: "worn_flat",
        dwell: { shows: "54 deg", uncertainty: "0.5 deg" },
        dwell_limits: { from: "57 deg", to: "63 deg" },
        pair: { gap: "0.40 mm", dwell: "60 deg" },
      },
    };
    assert.deepEqual((await saved(page, "job")).document.ignition, ignition);
    const report = told(with_(ignition));
    const { contacts, steps } = report.ignition;
    assert.equal(contacts.advice.action, "set");
    assert.equal(contacts.dwell.verdict, "below");
    const answer = await shown(page, ".answer");
    hasMeasured(answer, contacts.dwell);
    hasAdvice(answer, contacts.advice);
    has(answer, contacts.spark.text);
    const order = await shown(page, '[aria-label="Order of work"]');
    for (const step of steps) has(order, step.text);
    assert.equal(steps.find(({ standing }) => standing !== "settled").step, "contacts");
    assert.equal(await page.getByRole("button", { name: /^Next: / }).count(), 0, "one is there");
    await part(page, "Timing");
    await page.getByRole("button", { name: "Next: contacts" }).press("Enter");
    assert.equal(await page.evaluate(() => document.activeElement.textContent), "Contacts", "for keys");
    // Leaves, too, and a reading of one side.
    await type(page, "Thickest leaf that goes in", "0.35");
    assert.equal((await saved(page, "job")).document.ignition.contacts.gap, "0.35 mm goes");
    await type(page, "Thinnest that does not", "0,40");
    await type(page, "Book, min", "0.35", { nth: 1 });
    await type(page, "Book, max", "0.45", { nth: 1 });
    const { document } = await saved(page, "job");
    assert.equal(document.ignition.contacts.gap, "0.35 mm goes, 0,40 mm does not");
    hasMeasured(await shown(page, ".answer"), told(document).ignition.contacts.gap);
    await shot(page, "ignition-contacts-360", { whole: true });
  }),
);

const BOOK = {
  limits: { from: "8 deg BTDC", to: "12 deg BTDC" },
  centrifugal: {
    distributor: [
      { speed: "500 rpm", least: "0 deg", most: "0 deg" },
      { speed: "1100 rpm", least: "9 deg", most: "11 deg" },
    ],
    ends: true,
  },
  vacuum: {
    distributor: [
      { vacuum: "5 inHg", least: "0 deg", most: "0 deg" },
      { vacuum: "20 inHg", least: "10 deg", most: "12 deg" },
    ],
    ends: true,
  },
};
const SETTLED = {
  valves: "settled",
  distributor: { rotor: "anticlockwise", clamp: "60 mm" },
  contacts: {
    dwell: { shows: "60 deg", uncertainty: "0.5 deg" },
    dwell_limits: { from: "57 deg", to: "63 deg" },
  },
};

test(
  "a late spark is turned as by the native kernel; a hose that is not spoken of is asked for",
  on(DESKTOP, async ({ page, open }) => {
    await openIgnition(page, open, with_({ ...SETTLED, timing: BOOK }));
    await part(page, "Timing");
    await type(page, "Read in", "4");
    await page.getByLabel("It was read").selectOption("runs");
    await type(page, "Speed in rpm", "800");
    await page.getByText(/Still needed: .*vacuum hose/).waitFor();
    assert.equal(await page.locator(".answer").count(), 0, "nothing is told before that");
    await page.getByLabel("Vacuum hose").selectOption("plugged");
    await page.locator(".answer").waitFor();
    const { ignition } = (await saved(page, "job")).document;
    const running = { speed: "800 rpm", vacuum_hose: "plugged" };
    assert.deepEqual(ignition.timing.reading, { read: "4 deg BTDC", running });
    const { timing } = told(with_(ignition)).ignition;
    assert.equal(timing.advice.action, "set");
    const answer = await shown(page, ".answer");
    hasMeasured(answer, timing.found);
    hasAdvice(answer, timing.advice);
    await shot(page, "ignition-timing-desktop");
  }),
);

test(
  "what is not settled before stops the work, and no amount is shown",
  on(PHONE, async ({ page, open }) => {
    const reading = { read: "10 deg BTDC", running: { speed: "800 rpm", vacuum_hose: "connected" } };
    const ignition = { ...SETTLED, timing: { ...BOOK, reading } };
    await openIgnition(page, open, with_(ignition));
    await part(page, "Timing");
    const { stop_work, timing } = told(with_(ignition)).ignition;
    assert.ok(stop_work.length > 0 && timing.advice.action === "settle_first");
    const stop = page.locator('[aria-label="Stop work"]');
    for (const { text } of stop_work) has(squeezed(await stop.innerText()), text);
    const tops = await page.evaluate(() =>
      ["Stop work", "Order of work", "Timing"].map(
        (name) => document.querySelector(`section[aria-label="${name}"]`).getBoundingClientRect().top,
      ),
    );
    assert.deepEqual(
      tops,
      [...tops].sort((a, b) => a - b),
    );
    hasAdvice(await shown(page, ".answer"), timing.advice);
    assert.doesNotMatch(await shown(page, ".answer"), /then it reads/);
    await shot(page, "ignition-stop-360", { whole: true });
  }),
);

test(
  "advance read at several speeds: rows, causes and advice of the native kernel",
  on(PHONE, async ({ page, open }) => {
    const rows = [
      ["800", "10"],
      ["1400", "10"],
      ["1800", "14"],
      ["2600", "22"],
    ];
    await openIgnition(page, open, with_({ ...SETTLED, timing: BOOK }));
    await part(page, "Advance");
    for (const [i, [speed, read]] of rows.entries()) {
      await page.getByRole("button", { name: "Add a reading, hose off and plugged" }).click();
      await type(page, `Reading ${i + 1}, at`, speed);
      await type(page, "Read in", read, { nth: i });
    }
    await page.locator(".answer").waitFor();
    const { ignition } = (await saved(page, "job")).document;
    assert.equal(ignition.timing.curve.length, rows.length);
    const { curve } = told(with_(ignition)).ignition.timing;
    const answer = await shown(page, ".answer");
    has(answer, curve.summary);
    hasAdvice(answer, curve.advice);
    curve.rows.forEach(({ judged }) => hasMeasured(answer, judged));
    curve.causes.forEach(({ text }) => has(answer, text));
    await shot(page, "ignition-advance-360", { whole: true });
    await page.getByRole("button", { name: "Take out reading 4" }).click();
    assert.equal((await saved(page, "job")).document.ignition.timing.curve.length, 3);
    await page.getByRole("button", { name: /^Undo/ }).click();
    assert.equal((await saved(page, "job")).document.ignition.timing.curve.length, 4);
  }),
);

test(
  "what is typed in a field the moment it is there is kept, however late the frames come",
  on(PHONE, async ({ page, context, open }) => {
    // Frames, and what waits for them, a third of a second late, as on a phone with its hands full.
    await context.addInitScript(() => {
      const later = setTimeout;
      window.requestAnimationFrame = (draw) => later(() => draw(performance.now()), 300);
      window.setTimeout = (work, wait = 0, ...rest) => later(work, Math.max(wait, 300), ...rest);
    });
    await openIgnition(page, open, with_({ ...SETTLED, timing: BOOK }));
    await part(page, "Advance");
    await page.getByRole("button", { name: "Add a reading, hose off and plugged" }).click();
    await type(page, "Reading 1, at", "800");
    await type(page, "Read in", "10");
    const { ignition } = (await saved(page, "job")).document;
    assert.deepEqual(ignition.timing.curve, [
      { read: "10 deg BTDC", running: { speed: "800 rpm", vacuum_hose: "plugged" } },
    ]);
  }),
);

test(
  "what the book prints by speed and by vacuum is typed point by point",
  on(PHONE, async ({ page, open }) => {
    await openIgnition(page, open, with_({ ...SETTLED, timing: { limits: BOOK.limits } }));
    await part(page, "Advance");
    for (const [by, points] of [
      ["speed", BOOK.centrifugal.distributor],
      ["vacuum", BOOK.vacuum.distributor],
    ]) {
      const group = page.locator("fieldset.group").filter({ hasText: `What the book prints, by ${by}` });
      for (const [i, point] of points.entries()) {
        await group.getByRole("button", { name: `Add a point by ${by}, at the distributor` }).click();
        const row = group.locator(".part").nth(i);
        for (const [label, value] of [
          ["distributor at", point[by]],
          ["Least", point.least],
          ["Most", point.most],
        ]) {
          await row.getByLabel(label).fill(value.split(" ")[0]);
          await row.getByLabel(label).press("Tab");
        }
      }
      await page.getByText(/Still needed: .*ends/).waitFor();
      await group.getByLabel("Beyond the last point").selectOption("true");
    }
    assert.deepEqual((await saved(page, "job")).document.ignition.timing, BOOK);
    assert.equal(await page.locator(".problems, .faults").count(), 0);
  }),
);

test(
  "a winding, a condenser and plugs are judged as by the native kernel",
  on(PHONE, async ({ page, open }) => {
    await openIgnition(page, open, with_(SETTLED));
    await part(page, "Coil, plugs");
    await page.getByRole("button", { name: "Add a resistance" }).click();
    await type(page, "Resistance 1: name", "coil primary");
    await page.getByLabel("Made of").selectOption("copper");
    const groups = page.locator("fieldset.group");
    const fill = async (group, fields) => {
      for (const [label, value] of Object.entries(fields)) {
        const field = groups.filter({ hasText: group }).getByLabel(label);
        await field.fill(value);
        await field.press("Tab");
      }
    };
    const band = (from, to) => ({ "Book, min": from, "Book, max": to });
    await fill("Windings", { Reads: "2.4", "±": "0.01", "Measured at": "80", ...band("1.3", "1.5") });
    await page.getByLabel("In the primary circuit").selectOption("true");
    await fill("Condenser", { Reads: "0.22", "±": "0.005", ...band("0.18", "0.25") });
    await fill("Plugs", { "Plug gap": "1.0", "±": "0.02", ...band("0.6", "0.7") });
    const { ignition } = (await saved(page, "job")).document;
    assert.equal(ignition.electrics.resistors[0].primary, true);
    const { electrics } = told(with_(ignition)).ignition;
    const answer = await shown(page, ".answer");
    hasMeasured(answer, electrics.resistors[0].judged);
    hasMeasured(answer, electrics.condenser.judged);
    hasMeasured(answer, electrics.plug.gap);
    assert.ok(electrics.advice.length > 1);
    electrics.advice.forEach((advice) => hasAdvice(answer, advice));
    for (const text of electrics.plug.text) has(answer, text);
    await shot(page, "ignition-electrics-360", { whole: true });
  }),
);

test(
  "valves that are read go before the ignition; a fault in it stops no valve",
  on(DESKTOP, async ({ page, open }) => {
    const document = {
      ...example("inline-four"),
      ignition: { ...SETTLED, contacts: { dwell: { shows: "many" } } },
    };
    await openIgnitionFaulty(page, open, document);
    const field = page.getByLabel("Meter shows at idle");
    assert.equal(await field.getAttribute("aria-invalid"), "true");
    await type(page, "Meter shows at idle", "60");
    await type(page, "Book, min", "57");
    await type(page, "Book, max", "63");
    await page.locator(".answer").waitFor();
    const job = (await saved(page, "job")).document;
    const { report } = native(job);
    const { steps, contacts } = report.ignition;
    assert.equal(steps[0].standing, "not_settled");
    has(await shown(page, '[aria-label="Order of work"]'), steps[0].text);
    hasAdvice(await shown(page, ".answer"), contacts.advice);
  }),
);

/** The same where something is wrong in it. */
async function openIgnitionFaulty(page, open, document) {
  await open("job");
  await openText(page, document);
  const stages = page.getByRole("navigation", { name: "Stages" });
  assert.equal(await stages.getByRole("button", { name: "Report" }).isEnabled(), true);
  await page.getByRole("link", { name: "Ignition" }).click();
  await page.getByText(/^High voltage/).waitFor();
  assert.equal(await page.locator(".problems").count(), 0, "cautions first");
  await page.getByRole("button", { name: "I have read this and made the engine safe" }).click();
  await page.locator(".problems").waitFor();
  await part(page, "Contacts");
}
