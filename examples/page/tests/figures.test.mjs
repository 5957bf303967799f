// Questions of the ignition without an engine: brought when opened, answered as by the native kernel, offline too.
import assert from "node:assert/strict";
import test from "node:test";
import { nativeFigures, PHONE, saved, setUp, shot } from "./support.mjs";
import { serve } from "../serve.mjs";

const { on } = setUp();

const squeezed = (text) => text.replace(/\s+/g, " ").toLowerCase();
const shown = async (page, where) => squeezed(await page.locator(where).innerText());
const has = (text, words) => assert.ok(text.includes(squeezed(words)), `${words} in ${text}`);
const question = (page, name) =>
  page.getByRole("navigation", { name: "Questions" }).getByRole("button", { name }).click();

/** Types into fields of the open question, or chooses there. */
async function type(page, fields, where = page.locator(".card")) {
  for (const [label, value] of fields) {
    const field = where.getByLabel(label).first();
    if (await field.evaluate((e) => e.tagName === "SELECT")) await field.selectOption(value);
    else {
      await field.fill(value);
      await field.press("Tab");
    }
  }
}

/** Opens a question, and gives back what was typed and what the native kernel answers to it. */
async function ask(page, open, name, key, fields) {
  await open("figures");
  await question(page, name);
  await type(page, fields);
  return answered(page, key);
}

async function answered(page, key) {
  const { [key]: typed } = (await saved(page, "figures")).typed;
  return { typed, found: nativeFigures({ [key]: typed })[key], answer: await shown(page, ".answer") };
}

test(
  "questions bring their own small file when they are opened, and no step of a whole engine",
  on(PHONE, async ({ page, open }) => {
    const asked = [];
    page.on("request", (request) => asked.push(new URL(request.url()).pathname));
    const some = (pattern) => asked.filter((name) => pattern.test(name)).length;
    await open();
    await page.getByRole("link", { name: "Ignition figures" }).waitFor();
    assert.equal(some(/ignition/), 0);
    await open("figures");
    await page.getByRole("heading", { name: "Ignition figures" }).waitFor();
    assert.equal(some(/ignition_bg.*wasm/), 1);
    assert.equal(some(/lashwork_(ignition|condition|mixture)/), 0, "a step");
  }),
);

test(
  "dwell in per cent against the book, and the gap that goes with it",
  on(PHONE, async ({ page, open }) => {
    const { typed, found, answer } = await ask(page, open, "Dwell", "dwell", [
      ["Lobes of the cam", "4"],
      ["Meter shows", "64 %"],
      ["±", "1"],
      ["Book, min", "46"],
      ["Book, max", "52"],
      ["Gap", "0.40"],
      ["Dwell in deg", "49"],
    ]);
    assert.deepEqual(typed, {
      lobes: 4,
      reading: { shows: "64 %", uncertainty: "1 deg" },
      limits: { from: "46 deg", to: "52 deg" },
      pair: { gap: "0.40 mm", dwell: "49 deg" },
    });
    assert.equal(found.judged.verdict, "above");
    has(answer, "Too large");
    has(answer, `dwell ${found.reading.value.deg.toFixed(1)} deg`);
    has(answer, `${found.percent.toFixed(1)} per cent`);
    has(answer, `goes with it: ${found.gap.value.mm.toFixed(3)} mm`);
    has(answer, `uncertainty ${found.gap.uncertainty.toFixed(3)} mm`);
    await shot(page, "figures-dwell-640");
    await shot(page, "figures-dwell-360", { whole: true });
    // A reading in degrees that may have been taken on another scale.
    await type(page, [["Meter shows", "34"]]);
    const other = await answered(page, "dwell");
    assert.equal(other.found.judged.verdict, "below");
    has(other.answer, "Too small");
    assert.ok(other.found.other_scales.length > 0);
    for (const { scale, dwell } of other.found.other_scales)
      has(other.answer, `stood on ${scale}: dwell ${dwell.value.deg.toFixed(1)} deg`);
    await page.reload();
    assert.equal(await page.getByLabel("Lobes of the cam").inputValue(), "4", "kept over a reload");
    await page.getByRole("button", { name: "Clear this question" }).click();
    assert.equal(await page.locator(".answer").count(), 0);
  }),
);

test(
  "one ignition point by every tool, whichever it is given by",
  on(PHONE, async ({ page, open }) => {
    const said = ({ shows }) => {
      const [tool, at] = Object.entries(shows)[0];
      if (tool === "rim") return `${at.along.mm.toFixed(3)} mm, ${at.side} of the TDC mark`;
      if (tool === "dial") return `${at.shows.mm.toFixed(3)} mm, piston ${at.travel.mm.toFixed(3)} mm down`;
      return `${Number(at.deg_btdc.toFixed(2))} deg BTDC`;
    };
    const same = async ({ found, answer }) => {
      assert.equal(found.ways.length, 4);
      const rows = await page.locator(".answer li").allInnerTexts();
      found.ways.forEach((way, i) => {
        has(squeezed(rows[i]), said(way));
        has(squeezed(rows[i]), `${way.uncertainty_deg.toFixed(2)} deg`);
      });
      has(answer, `${Number(found.at.deg_btdc.toFixed(2))} deg BTDC, the surest way first`);
    };
    await same(
      await ask(page, open, "Point", "point", [
        ["Ignition point", "7.5"],
        ["Turns of the crank", "2"],
        ["Rim with the mark", "155"],
        ["The mark on the rim", "true"],
        ["Dial gauge through", "yes"],
        ["Crank throw", "34"],
        ["Rod, eye to eye", "128"],
      ]),
    );
    await shot(page, "figures-point-360", { whole: true });
    await page.getByLabel("The point is given by").selectOption("at_rim");
    await page.getByText(/^Still needed: .*side/).waitFor();
    await type(page, [
      ["Along the rim", "13.5"],
      ["The mark stands", "ahead"],
    ]);
    const rim = await answered(page, "point");
    assert.deepEqual(rim.typed.at_rim, { along: "13.5 mm", side: "ahead" });
    assert.equal(rim.typed.at, undefined);
    await same(rim);
    await page.getByLabel("The point is given by").selectOption("at_dial");
    await type(page, [
      ["Dial shows", "0.50"],
      ["The piston stands", "before"],
    ]);
    await same(await answered(page, "point"));
  }),
);

test(
  "a winding at the book's temperature, and a coil at speed",
  on(PHONE, async ({ page, open }) => {
    const winding = await ask(page, open, "Winding", "winding", [
      ["Made of", "copper"],
      ["Reads", "4.6"],
      ["± reading", "0.02"],
      ["Measured at", "80"],
      ["± temperature", "5"],
      ["Book holds at", "20"],
      ["Book, min", "3.1"],
      ["Book, max", "3.5"],
    ]);
    assert.equal(winding.found.judged.verdict, "above");
    has(winding.answer, "Too high");
    has(winding.answer, `temperature ${winding.found.resistance.value.ohm.toFixed(3)} ohm`);
    has(winding.answer, `uncertainty ${winding.found.resistance.uncertainty.toFixed(3)} ohm`);
    const coil = await ask(page, open, "Coil", "coil", [
      ["Supply, contacts", "13.5"],
      ["± supply", "0.2"],
      ["Resistance of coil", "3.2"],
      ["± resistance", "0.1"],
      ["Inductance", "9"],
      ["± inductance", "0.5"],
      ["Dwell", "49"],
      ["± dwell", "1"],
      ["Lobes", "4"],
      ["The cam turns", "half_crank"],
      ["At speeds", "1000, 4500"],
      ["Weak below", "0.6"],
    ]);
    const { charges, weak_above } = coil.found;
    const rows = await page.locator(".answer li").allInnerTexts();
    assert.equal(rows.length, 3);
    charges.forEach(({ speed, closed, current, energy }, i) => {
      for (const one of [
        `${speed.rpm.toFixed(0)} rpm`,
        `${closed.milliseconds.toFixed(2)} ms`,
        `${current.value.amperes.toFixed(2)} ± ${current.uncertainty.toFixed(2)} A`,
        `${energy.value.millijoules.toFixed(1)} ± ${energy.uncertainty.toFixed(1)} mJ`,
      ])
        has(squeezed(rows[i]), one);
    });
    has(coil.answer, `weak above ${weak_above.value.rpm.toFixed(0)} rpm`);
    await shot(page, "figures-coil-360", { whole: true });
  }),
);

test(
  "a strobe reading is taken back to what the book prints; a hose that is not spoken of is asked for",
  on(PHONE, async ({ page, open }) => {
    await open("figures");
    await question(page, "Strobe");
    await type(page, [
      ["Read", "12"],
      ["± mark", "0.5"],
      ["At in rpm", "1400"],
      ["± speed", "20"],
      ["Lamp late by", "0"],
      ["Least", "8"],
      ["Most", "12"],
      ["Turns of the crank", "2"],
    ]);
    const group = page.locator("fieldset.group").filter({ hasText: "What the book prints, by speed" });
    for (const [i, [speed, least, most]] of [
      ["500", "0", "0"],
      ["1100", "9", "11"],
    ].entries()) {
      await group.getByRole("button", { name: "Add a point by speed, at the distributor" }).click();
      const row = group.locator(".part").nth(i);
      await type(page, [["distributor at", speed]], row);
      await type(page, [["Least", least]], row);
      await type(page, [["Most", most]], row);
    }
    await group.getByLabel("Beyond the last point").selectOption("true");
    await page.getByText(/^Still needed: .*hose/).waitFor();
    assert.equal(await page.locator(".answer").count(), 0);
    await page.getByLabel("Vacuum hose").selectOption("plugged");
    const { found, answer } = await answered(page, "advance");
    const { low, high, uncertainty_deg, to_set, judged } = found.point;
    assert.equal(judged.verdict, "below");
    has(answer, "Too late");
    assert.ok(low.deg_btdc < high.deg_btdc);
    const side = ({ deg_btdc: deg }) =>
      `${Number(Math.abs(deg).toFixed(2))} deg ${deg < 0 ? "ATDC" : "BTDC"}`;
    has(
      answer,
      `it is ${side(low)} to ${side(high)}, standard uncertainty ${uncertainty_deg.toFixed(2)} deg`,
    );
    has(answer, `where to set it is ${to_set.deg.toFixed(1)} deg earlier`);
    await shot(page, "figures-strobe-360", { whole: true });
  }),
);

test("questions are answered without a network after the first visit", async (t) => {
  const server = await serve(new URL("../dist", import.meta.url).pathname);
  await on(
    PHONE,
    async ({ page, context, complaints }) => {
      await page.goto(`${server.address}#settings`);
      await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
      await server.close();
      await context.setOffline(true);
      await page.goto(`${server.address}#figures`);
      await page.getByRole("heading", { name: "Ignition figures" }).waitFor();
      await type(page, [
        ["Lobes of the cam", "4"],
        ["Meter shows", "54"],
        ["±", "1"],
      ]);
      has(await shown(page, ".answer"), "60.0 per cent");
      complaints.splice(
        0,
        complaints.length,
        ...complaints.filter((one) => !/ERR_|Failed to load/.test(one)),
      );
    },
    { site: server.address, worker: true },
  )(t);
});
