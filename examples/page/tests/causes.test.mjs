// What may be the matter, with the same answers as the native kernel; and the forms of past services and heads.
import assert from "node:assert/strict";
import test from "node:test";
import { has, kept, pick, settle, shown, squeezed, told, type } from "./mixture-support.mjs";
import { everySection, example, openText, PHONE, saved, setUp, shot } from "./support.mjs";

const { on } = setUp();

const FOUND = "[aria-label='What may be the matter']";
const documentOf = async (page) => (await saved(page, "job")).document;

/** A probability as the page writes it. */
const portion = (p) => {
  if (p < 0.001) return "under 0.1 %";
  if (p > 0.999) return "over 99.9 %";
  return `${Number((100 * p).toFixed(1))} %`;
};

test(
  "causes bring their own part when they are opened, and are told as by the native kernel",
  on(PHONE, async ({ page, open }) => {
    const asked = [];
    page.on("request", (request) => asked.push(request.url()));
    const isAsked = () => asked.some((address) => address.includes("lashwork_causes"));
    const { causes: _, ...document } = everySection();
    await open("job");
    await openText(page, document);
    await page.getByRole("link", { name: "Causes" }).waitFor();
    assert.equal(isAsked(), false, "before it is opened");
    await page.getByRole("link", { name: "Causes" }).click();
    await page.locator(`${FOUND} .do`).waitFor();
    assert.equal(isAsked(), true);
    const check = async () => {
      const all = await documentOf(page);
      const { causes } = told({ ...all, causes: all.causes ?? {} });
      const text = await shown(page, FOUND);
      for (const words of [causes.verdict_text, causes.trust_text, ...causes.remarks]) has(text, words);
      for (const p of [causes.nothing, causes.passing, causes.something_else, causes.several])
        has(text, portion(p));
      const cards = page.locator(`${FOUND} .answer`);
      assert.equal(await cards.count(), causes.causes.length);
      for (const [i, one] of causes.causes.entries()) {
        // What says hardly anything is folded away.
        const card = squeezed(await cards.nth(i).textContent());
        for (const words of [one.text, one.probability_text, portion(one.probability)]) has(card, words);
        for (const { text } of [...one.places, ...one.speaks]) has(card, text);
      }
      // In the order of the report.
      assert.equal(await page.locator(`${FOUND} ol li`).count(), causes.next.length);
      for (const [i, { text }] of causes.next.entries())
        has(await shown(page, `${FOUND} ol li:nth-of-type(${i + 1})`), text);
      if (causes.not_looked_at_text) has(text, causes.not_looked_at_text);
      return causes;
    };
    const without = await check();
    // Plugs as seen, typed, weigh with the rest.
    const { plugs } = example("inline-four-condition").causes;
    for (const { cylinder, seen } of plugs) await pick(page, `Plug of ${cylinder}`, seen);
    assert.deepEqual((await documentOf(page)).causes, { plugs });
    const withPlugs = await check();
    assert.notDeepEqual(withPlugs.causes[0].speaks, without.causes[0].speaks);
    await shot(page, "causes-360", { whole: true });
    for (const { cylinder } of plugs) await pick(page, `Plug of ${cylinder}`, "");
    assert.deepEqual(await documentOf(page), document);
  }),
);

test(
  "past services: meters with when they were left, units, and the record as it was last seen",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four-with-history");
    await open("job");
    await openText(page, document);
    await page.getByRole("link", { name: "History" }).click();
    const services = page.locator("[aria-label=Services]");
    await services.getByText("The record as it was last seen (not kept)").click();
    await services.getByRole("button", { name: "Keep the services as they are now" }).click();
    const { services: before } = document.history;
    assert.deepEqual((await documentOf(page)).history.known, before);

    await services.getByText("How time is counted; units").click();
    await pick(page, "Distances are said in", "mi");
    await pick(page, "Pressures are said in", "psi");
    // The last service, opened, and what it read by meters.
    const last = services.locator("details").filter({ has: page.getByLabel("Service 4: date") });
    await last.locator("summary").first().click();
    await last.getByText("Dwell, timing, compression, leaks").click();
    const typed = async (label, text) => {
      await last.getByLabel(label).fill(text);
      await page.keyboard.press("Tab");
    };
    await typed(/^Dwell, left in/, "48");
    await last.getByText("Dwell: left was read later").click();
    await typed("Dwell, left read on", "2022-05-01");
    await typed(/^Ignition point, found/, "8");
    await typed(/^Ignition point, left in/, "10");
    await last.getByText("Ignition point: left was read later").click();
    await typed(/^Ignition point, left read at distance/, "33250");
    await typed(/^2 compression, left in/, "155");
    await last.getByText("2 compression: left was read later").click();
    await typed("2 compression, left read on", "2022-05-02");
    await typed(/^3 leak, found/, "0.8");
    await typed(/^3 leak, left in/, "0.3");
    await last.getByText("3 leak: left was read later").click();
    await typed("3 leak, left read on", "2022-05-03");
    const all = await documentOf(page);
    const { history } = all;
    assert.deepEqual([history.distance_unit, history.gauge_unit], ["mi", "psi"]);
    const { dwell, timing, compression, leak_area } = history.services.at(-1);
    assert.deepEqual(dwell, [
      { found: { shows: "50 deg" }, left: { shows: "48 deg" }, left_at: { date: "2022-05-01" } },
    ]);
    assert.deepEqual(timing, [
      {
        found: { shows: "8 deg BTDC" },
        left: { shows: "10 deg BTDC" },
        left_at: { distance: "33250 mi" },
      },
    ]);
    assert.deepEqual(compression[1], {
      cylinder: "2",
      found: { shows: "1040 kPa" },
      left: { shows: "155 psi" },
      left_at: { date: "2022-05-02" },
    });
    assert.deepEqual(leak_area, [
      {
        cylinder: "3",
        found: { shows: "0.8 mm2" },
        left: { shows: "0.3 mm2" },
        left_at: { date: "2022-05-03" },
      },
    ]);
    // The record is another than the one that was kept, and that is said as the kernel says it.
    const { record } = told(all).history;
    has(await shown(page, "[aria-label='What the years say']"), record.text);
    await shot(page, "history-meters-360", { whole: true });
    await services.getByRole("button", { name: "Forget what was kept" }).click();
    assert.equal((await documentOf(page)).history.known, undefined);
  }),
);

test(
  "cylinders under one head are typed as lists",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four-condition");
    await open("job");
    await openText(page, document);
    await page.locator(".cautions li").first().waitFor();
    await page.getByRole("button", { name: settle }).click();
    await page
      .getByRole("navigation", { name: "Parts of the condition" })
      .getByRole("button", { name: "To begin" })
      .click();
    await page.getByText("± of ratio and closing; heads").click();
    const label = "Cylinders side by side under each head";
    await type(page, label, "1 2, 3 4");
    const all = await kept(page);
    assert.deepEqual(all.condition.heads, [
      ["1", "2"],
      ["3", "4"],
    ]);
    // A leak between cylinders of two heads is none of a gasket.
    const { condition } = told(all);
    assert.notDeepEqual(condition.leak, told(document).condition.leak);
    await shot(page, "condition-heads-360", { whole: true });
    await type(page, label, "1 2 3 9");
    await page.getByText(label).waitFor();
    assert.ok((await page.locator(".faults").filter({ hasText: "9" }).count()) > 0);
    await type(page, label, "");
    assert.equal((await documentOf(page)).condition.heads, undefined);
  }),
);
