// The whole service: condition, history and the order of all steps, with the same answers as the native kernel.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import {
  kept,
  has,
  settle,
  shown,
  type,
  pick,
  told,
  hasMeasured,
  corners,
  straight,
} from "./mixture-support.mjs";
import { everySection, example, openText, PHONE, saved, setUp, shot, sides, stage } from "./support.mjs";

const { on } = setUp();

const CONDITION = "inline-four-condition";
const HISTORY = "inline-four-with-history";
const YEARS = "[aria-label='What the years say']";
const parts = (page, name) =>
  page.getByRole("navigation", { name: "Parts of the condition" }).getByRole("button", { name }).click();

test(
  "the whole service stands in its order, leads to each step, and tells what is to be read again",
  on(PHONE, async ({ page, open }) => {
    await open("job");
    await openText(page, example(CONDITION));
    await page.getByRole("button", { name: settle }).click();
    await page.getByRole("link", { name: "Whole service" }).click();
    const check = async () => {
      await page.getByRole("heading", { name: "Steps in their order" }).waitFor();
      const { service } = told({ ...(await kept(page)), ignition: {}, mixture: {} });
      const text = await shown(page);
      for (const one of service.steps) {
        if (one.state !== "not_begun") has(text, one.text);
        assert.equal(await page.locator(`ol a[href$="/${one.step}"]`).count(), 1, one.name);
      }
      assert.equal(await page.locator("ol[aria-label=Steps] li").count(), service.steps.length);
      has(await shown(page, ".peek"), service.next.text);
      has(await shown(page, "li[aria-current]"), service.next.name);
      return service;
    };
    await check();
    await shot(page, "service-360", { whole: true });
    // What was read before a step on which it stands was set again is stale, until it is read again.
    const state = async (name) => (await check()).steps.find(({ step }) => step === name).state;
    await page.getByRole("button", { name: "Head bolts: set again now" }).click();
    assert.equal(await state("compression"), "stale");
    assert.deepEqual((await saved(page, "job")).document.log.at(-1), { step: "head", did: "set" });
    await page.getByRole("button", { name: "Compression: read again now" }).click();
    assert.notEqual(await state("compression"), "stale");
    await page.getByRole("button", { name: /^Undo: compression/ }).click();
    await page.getByRole("button", { name: /^Undo: head bolts/ }).click();
    assert.equal(await state("compression"), "open");
    assert.equal((await saved(page, "job")).document.log, undefined);
    // By keys, and to the card of the step itself.
    await page.locator('ol a[href$="/leak"]').focus();
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Leak-down" }).waitFor();
  }),
);

test(
  "condition typed on a phone is judged as by the native kernel",
  on(PHONE, async ({ page, open }) => {
    const asked = [];
    page.on("request", (request) => /lashwork_condition/.test(request.url()) && asked.push(request.url()));
    const document = example(CONDITION);
    const { compression: _, leak: __, ...condition } = document.condition;
    await open("job");
    assert.deepEqual(asked, []);
    await openText(page, { ...document, condition });
    await page.locator(".cautions li").first().waitFor();
    assert.equal(asked.length, 1);
    assert.deepEqual(
      await page.locator(".cautions li").allTextContents(),
      told({ ...document, condition }).cautions,
    );
    await page.getByRole("button", { name: settle }).click();
    await parts(page, "Head bolts");
    const { head } = told(await kept(page)).condition;
    for (const text of [head.verdict_text, head.order_text, ...head.torque_texts, head.lash_text])
      has(await shown(page, ".card .answer"), text);
    await shot(page, "condition-head-360", { whole: true });

    await parts(page, "Compression");
    await pick(page, "Gauge is marked in", "psi");
    const read = { 1: ["148", "157"], 2: ["96", "102"], 3: ["99", "104"], 4: ["151", "159"] };
    for (const [cylinder, [dry, wet]] of Object.entries(read)) {
      await type(page, new RegExp(`^Cylinder ${cylinder} in`), dry);
      await type(page, `Cylinder ${cylinder} with oil`, wet);
    }
    await pick(page, "Cylinder 2: the gauge rose", "stays_low");
    await type(page, "Oil in each", "3");
    await type(page, "in % of the highest", "75");
    await type(page, "Apart by at most", "20");
    const { rules, readings } = (await kept(page)).condition.compression;
    assert.deepEqual(rules, [{ percent_of_highest: 75 }, { most_between: "20 psi" }]);
    assert.deepEqual(readings[1], { cylinder: "2", dry: "96 psi", wet: "102 psi", build_up: "stays_low" });
    const compression = told(await kept(page)).condition.compression;
    const text = await shown(page, ".card .answer");
    for (const one of [...compression.cylinders, ...compression.gaskets]) has(text, one.text);
    for (const words of [compression.verdict_text, compression.level_text]) has(text, words);
    for (const { judged } of compression.rules) hasMeasured(text, judged);
    has(text, compression.advice.text);
    await shot(page, "condition-compression-360", { whole: true });

    await parts(page, "Leak-down");
    await pick(page, "Gauges are marked in", "psi");
    await type(page, "Supply", "80");
    await type(page, "Orifice, across", "1.0 mm");
    await type(page, /^Cylinder 2 in/, "41");
    await pick(page, "Cylinder 2: held", "true");
    await page.getByText("Cylinder 2: where it hisses").click();
    await page.getByLabel("plug hole of cylinder 3").check();
    assert.deepEqual((await kept(page)).condition.leak.readings, [
      { cylinder: "2", shows: "41 psi", held: true, plug_holes: ["3"] },
    ]);
    const { leak } = told(await kept(page)).condition;
    const leaks = await shown(page, ".card .answer");
    for (const words of [leak.verdict_text, leak.turning_text, leak.cylinders[0].text, leak.advice.text])
      has(leaks, words);
    await shot(page, "condition-leak-360", { whole: true });
    // What is taken out goes with its row.
    await type(page, /^Cylinder 2 in/, "");
    await pick(page, "Cylinder 2: held", "");
    await page.getByLabel("plug hole of cylinder 3").click();
    assert.equal((await kept(page)).condition.leak.readings, undefined);
  }),
);

test(
  "services over the years are told and drawn as the native kernel has them",
  on(PHONE, async ({ page, open }) => {
    const document = example(HISTORY);
    await open("job");
    await openText(page, document);
    await page.getByRole("link", { name: "History" }).click();
    await page.getByRole("heading", { name: "What the years say" }).waitFor();
    const { history } = told(document);
    const { lash } = history;
    const text = await shown(page, YEARS);
    for (const words of [lash.next, ...lash.kinds.map(({ text }) => text), history.present]) has(text, words);
    const [odd, ...others] = lash.subjects.filter(({ odd }) => odd?.is_odd);
    assert.equal(others.length, 0);
    assert.equal(odd.name, "cylinder 3 exhaust");
    has(await shown(page, `${YEARS} .problems`), odd.odd.text);
    await shot(page, "history-360", { whole: true });

    const opened = page.locator(`${YEARS} details[open]`).filter({ has: page.locator("svg") });
    assert.equal(await opened.count(), 1);
    for (const words of [
      odd.rate_text,
      odd.forecast_text,
      odd.advice.text,
      ...odd.looks.map(({ text }) => text),
    ])
      has(await shown(page, `${YEARS} details[open]`), words);
    const [line] = odd.chart.lines;
    const drawn = corners(await opened.locator("path.set").first().getAttribute("d"));
    assert.equal(drawn.length, line.length);
    straight(
      drawn.map(([x]) => x),
      line.map(({ at }) => at),
      "time",
    );
    straight(
      drawn.map(([, y]) => y),
      line.map(({ line }) => line.value),
      "lash",
    );
    assert.equal(await opened.locator("path.limit").count(), 2);

    // One more service, typed, and taken back.
    const services = page.locator("[aria-label=Services]");
    await services.getByRole("button", { name: "Add a service" }).click();
    const typed = async (label, text) => {
      await services.getByLabel(label).last().fill(text);
      await page.keyboard.press("Tab");
    };
    await typed(/date$/, "2024-05-01");
    await typed(/^Distance run/, "56000");
    await typed(/^3 exhaust, found/, "0.19");
    const last = (await saved(page, "job")).document.history.services.at(-1);
    assert.deepEqual(last, {
      date: "2024-05-01",
      distance: "56000 km",
      lash: [{ cylinder: "3", valve: "exhaust", found: { lash: "0.19 mm" } }],
    });
    await typed(/^3 exhaust, left in/, "0.30");
    await services.getByText("3 exhaust: left was read later").last().click();
    await typed("3 exhaust, left read on", "2024-05-09");
    await typed(/^3 exhaust, left read at distance/, "56300");
    const [{ left_at }] = (await saved(page, "job")).document.history.services.at(-1).lash;
    assert.deepEqual(left_at, { date: "2024-05-09", distance: "56300 km" });
    const more = told((await saved(page, "job")).document).history.lash;
    has(await shown(page, YEARS), more.next);
    for (let i = 0; i < 7; i += 1) await page.getByRole("button", { name: /^Undo/ }).click();
    assert.deepEqual((await saved(page, "job")).document, document);
  }),
);

/** Sheets that people print on; the page asks for A4, which a printer with letter paper sets smaller. */
const PAPERS = {
  A4: { preferCSSPageSize: true },
  letter: { format: "Letter", margin: { top: "10mm", bottom: "10mm", left: "10mm", right: "10mm" } },
};

test(
  "all steps stand in one record of two sides at the most, and in one file that opens as it was kept",
  on(PHONE, async ({ page, open }) => {
    const document = everySection();
    await open("job");
    await openText(page, document);
    await stage(page, "Report");
    for (const part of ["Condition", "Ignition", "Mixture"])
      await page.getByRole("heading", { name: `${part}: order of work` }).waitFor({ state: "attached" });
    await page.getByRole("heading", { name: "History", exact: true }).waitFor();
    for (const [paper, options] of Object.entries(PAPERS)) {
      const count = await sides(page, options);
      assert.ok(count <= 2, `${count} sides of ${paper}`);
    }
    await page.emulateMedia({ media: "print" });
    const text = await shown(page, ".sheet");
    const report = told(document);
    const { service, history, clearance, condition, ignition, mixture } = report;
    const all = [
      service.next.text,
      condition.compression.verdict_text,
      condition.leak.verdict_text,
      condition.head.order_text,
      ignition.contacts.advice.text,
      ignition.timing.advice.text,
      mixture.idle.verdict_text,
      mixture.gas.verdict_text,
      ...mixture.balance.turns.map(({ text }) => text),
      history.lash.kinds[0].text,
      ...[clearance, condition, ignition, mixture].flatMap((part) => part.stop_work.map(({ text }) => text)),
      ...clearance.valves.map(({ judged: [{ advice }] }) => advice.text),
      ...report.cautions,
      ...report.assumptions.map(({ text }) => text),
    ];
    for (const words of all) has(text, words);
    await page.emulateMedia({ media: null });
    const waiting = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as a file" }).click();
    const file = readFileSync(await (await waiting).path(), "utf8");
    assert.deepEqual(JSON.parse(file), document);
    await page.reload();
    assert.deepEqual((await saved(page, "job")).document, document);
    await page.getByRole("button", { name: "Save and close" }).click();
    await openText(page, file);
    assert.deepEqual((await saved(page, "job")).document, document);
  }),
);

test(
  "what was done is told with how far it was moved, and what that takes back",
  on(PHONE, async ({ page, open }) => {
    const document = everySection();
    await open("job");
    await openText(page, { ...document, log: undefined });
    await page.getByRole("link", { name: "Whole service" }).click();
    await page.getByRole("heading", { name: "Steps in their order" }).waitFor();
    const { service } = told(document);
    for (const { step, name, can_be_set, state } of service.steps) {
      const again = page.getByRole("button", { name: new RegExp(`^${name}: set again now`, "i") });
      const isBegun = state !== "not_begun" && state !== "not_known";
      assert.equal(await again.count(), isBegun && can_be_set ? 1 : 0, step);
    }
    const done = page.getByRole("region", { name: "What was done" });
    assert.equal(await done.count(), 0);
    await page.getByRole("button", { name: "Timing: set again now" }).click();
    await page.getByRole("button", { name: "Contacts: set again now" }).click();
    const entries = done.locator("li");
    const typed = async (step, label, text) => {
      const field = entries.filter({ hasText: new RegExp(`^${step}: set`) }).getByLabel(label);
      await field.fill(text);
      await field.press("Tab");
    };
    await typed("Timing", "The spark comes earlier by", "2");
    await typed("Contacts", "More dwell by", "1");
    const { log } = (await saved(page, "job")).document;
    assert.deepEqual(
      log.filter(({ did }) => did === "set"),
      [
        { step: "timing", did: "set", spark: "2 deg" },
        { step: "contacts", did: "set", dwell: "1 deg" },
      ],
    );
    const timing = told((await saved(page, "job")).document).service.steps.find(
      ({ step }) => step === "timing",
    );
    assert.equal(timing.state, "stale");
    assert.match(timing.text, /1\.0 deg more dwell/);
    has(await shown(page, "ol[aria-label=Steps]"), timing.text);
    await shot(page, "service-done-360", { whole: true });
    // What is wrong is told at its field, and the entry can be taken out.
    await typed("Contacts", "More dwell by", "much");
    await entries.locator(".faults p").first().waitFor();
    await done.getByRole("button", { name: `Take out entry ${log.length}` }).click();
    assert.equal(await done.locator(".faults p").count(), 0);
    assert.deepEqual((await saved(page, "job")).document.log, log.slice(0, -1));
    await page.getByRole("heading", { name: "Steps in their order" }).waitFor();
  }),
);

test(
  "the valves have what is next over the whole service at their foot, too",
  on(PHONE, async ({ page, open }) => {
    const document = example(HISTORY);
    await open("job");
    await openText(page, document);
    await stage(page, "Report");
    const bar = page.locator(".peek");
    const { next } = told({ ...document, condition: {}, ignition: {}, mixture: {} }).service;
    await bar.waitFor();
    has(await shown(page, ".peek"), `next: ${next.name}`);
    has(await shown(page, ".peek"), next.text);
    await shot(page, "job-report-next-360");
    await bar.getByRole("button").click();
    assert.match(page.url(), new RegExp(`/${next.step}$`));
    // Where it is the valves themselves, their stops are gone to, by way of their cautions.
    const unread = { ...document, condition: { head: { bolts_are: "settled" } } };
    unread.clearance = { ...document.clearance, readings: [] };
    await page.getByRole("button", { name: "Save and close" }).click();
    await page.goto(new URL("#job", page.url()).href);
    await openText(page, unread);
    await stage(page, "Engine");
    await bar.getByText("Next: valve clearances").click();
    await page.getByRole("checkbox", { name: /I have read this/ }).waitFor();
  }),
);

test(
  "cylinders stand as they do in the engine; exponent and a tester for one reading are asked for",
  on(PHONE, async ({ page, open }) => {
    const document = example(CONDITION);
    assert.notDeepEqual(
      document.engine.cylinders.map(({ label }) => label),
      document.engine.firing_order,
    );
    await open("job");
    await openText(page, document);
    await page.getByRole("button", { name: settle }).click();
    const order = async (pattern) =>
      (await page.locator(".card label").allTextContents()).flatMap((text) => pattern.exec(text)?.[1] ?? []);
    await parts(page, "Compression");
    assert.deepEqual(await order(/^Cylinder (\d) in psi/), ["1", "2", "3", "4"]);
    await page.getByText("± of the gauge; exponent").click();
    await type(page, "Exponent of compression, least", "1.2");
    await type(page, "Exponent of compression, most", "1.28");
    const { exponent } = (await kept(page)).condition.compression;
    assert.deepEqual(exponent, { from: 1.2, to: 1.28 });
    const before = told(document).condition.compression.level_text;
    const { level_text } = told(await kept(page)).condition.compression;
    assert.notEqual(level_text, before);
    has(await shown(page, ".card .answer"), level_text);

    await parts(page, "Leak-down");
    assert.deepEqual(await order(/^Cylinder (\d) in psi/), ["1", "2", "3", "4"]);
    await page.getByText("Cylinder 2: another tester").click();
    await type(page, /^Supply, cylinder 2/, "100");
    await type(page, /^Orifice, across, cylinder 2/, "1.5 mm");
    const { readings, tester } = (await kept(page)).condition.leak;
    assert.deepEqual(readings[1].tester, { supply: "100 psi", orifice: "1.5 mm" });
    assert.deepEqual(tester, document.condition.leak.tester);
    // What two testers show is not compared as it stands: that is told where it was typed, and the areas are.
    await page.locator(".card .part .faults").getByText("read with two testers").waitFor();
    await pick(page, "Held against", "");
    const { leak } = told(await kept(page)).condition;
    has(await shown(page, ".card .answer"), leak.cylinders[1].text);
    await shot(page, "condition-leak-tester-360", { whole: true });
  }),
);
