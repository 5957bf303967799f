// The second step's drawings, leads, evenness, the point said every way, and its record on paper.
import assert from "node:assert/strict";
import test from "node:test";
import { DESKTOP, example, native, openText, PHONE, saved, setUp, shot, stage } from "./support.mjs";

const { on } = setUp();

const TITLE = "Invented inline-four";
/** An invented four whose valves are read elsewhere. */
const document = (ignition) => {
  const { clearance: _, ...rest } = example("inline-four");
  return { ...rest, title: TITLE, ignition: { valves: "settled", ...ignition } };
};

const told = (document) => {
  const { report, problems } = native(document);
  assert.equal(problems, undefined, JSON.stringify(problems));
  return report;
};

/** What the page has kept, without the empty sheet for valves. */
const kept = async (page) => {
  const { clearance: _, ...rest } = (await saved(page, "job")).document;
  return rest;
};

const squeezed = (text) => text.replace(/\s+/g, " ").toLowerCase();
const shown = async (page, where) => squeezed(await page.locator(where).innerText());
const has = (text, words) => assert.ok(text.includes(squeezed(words)), `${words} in ${text}`);
const settle = "I have read this and made the engine safe";

/** Opens a document of the ignition alone at one of its parts. */
async function openPart(page, open, document, name) {
  await open("job");
  await openText(page, document);
  await page.getByRole("button", { name: settle }).click();
  await part(page, name);
}

const part = (page, name) =>
  page.getByRole("navigation", { name: "Parts of the ignition" }).getByRole("button", { name }).click();

async function type(page, label, text, { nth = 0 } = {}) {
  const field = page.getByLabel(label).nth(nth);
  await field.fill(text);
  await field.press("Tab");
}

/** Places along an axis that runs straight: what is drawn at `drawn` where the numbers are `numbers`. */
function straight(drawn, numbers, what) {
  const [d0, n0, d1, n1] = [drawn[0], numbers[0], drawn.at(-1), numbers.at(-1)];
  drawn.forEach((d, i) => {
    const expected = d0 + ((numbers[i] - n0) / (n1 - n0)) * (d1 - d0);
    assert.ok(Math.abs(d - expected) < 0.2, `${what} ${numbers[i]}: ${d}, not ${expected}`);
  });
}

const CURVE = {
  limits: { from: "8 deg BTDC", to: "12 deg BTDC" },
  centrifugal: {
    distributor: [
      { speed: "500 rpm", least: "0 deg", most: "0 deg" },
      { speed: "1100 rpm", least: "9 deg", most: "11 deg" },
    ],
    ends: true,
  },
  curve: [
    [800, 10],
    [1400, 10],
    [1800, 14],
    [2600, 22],
  ].map(([rpm, deg]) => ({
    read: `${deg} deg BTDC`,
    running: { speed: `${rpm} rpm`, vacuum_hose: "plugged" },
  })),
};

test(
  "the advance is drawn: every reading and every corner of the band at its numbers",
  on(PHONE, async ({ page, open }) => {
    const asked = document({ timing: CURVE });
    await openPart(page, open, asked, "Advance");
    const { curve } = told(asked).ignition.timing;
    const picture = page.getByRole("img", { name: /^Advance by speed, 4 readings: / });
    has(squeezed(await picture.getAttribute("aria-label")), curve.summary);
    const dots = await picture
      .locator("circle")
      .evaluateAll((all) => all.map((c) => [+c.getAttribute("cx"), +c.getAttribute("cy")]));
    straight(
      dots.map(([x]) => x),
      curve.rows.map(({ speed }) => speed.rpm),
      "speed",
    );
    const band = await picture.locator(".band").getAttribute("d");
    const corners = [...band.matchAll(/([\d.]+) ([\d.]+)/g)].map(([, x, y]) => [+x, +y]);
    assert.equal(corners.length, 2 * curve.band.length);
    const [ys, degs] = [[], []];
    curve.band.forEach(({ least }, i) => (ys.push(corners[i][1]), degs.push(least.deg_btdc)));
    dots.forEach(([, y], i) => (ys.push(y), degs.push(curve.rows[i].sparks.deg_btdc)));
    ys.push(corners.at(-1)[1]);
    degs.push(curve.band[0].most.deg_btdc);
    // From the first corner of the band to the last reading: two places that are far apart.
    const order = degs.map((_, i) => i).sort((a, b) => degs[a] - degs[b]);
    straight(
      order.map((i) => ys[i]),
      order.map((i) => degs[i]),
      "advance",
    );
    await page.getByText("As numbers").click();
    const rows = await page.locator(".answer table tbody tr").allInnerTexts();
    curve.rows.forEach(({ speed, sparks, judged }, i) => {
      for (const one of [String(speed.rpm), sparks.deg_btdc.toFixed(1), judged.limits])
        has(squeezed(rows[i]), one);
    });
    await shot(page, "ignition-curve-360", { whole: true });
  }),
);

const SIX = ["1", "5", "3", "6", "2", "4"];
/** An invented six whose cam runs out: late and early once a turn. */
const six = (evenness) => ({
  lashwork: 1,
  title: "Invented six",
  engine: {
    cycle: "four_stroke",
    cylinders: [1, 2, 3, 4, 5, 6].map((n) => ({ label: String(n) })),
    firing_order: SIX,
    firing: "even",
    rotation: { sense: "clockwise", seen_from: "free_end" },
    numbering: "free_end",
    ignition: "battery",
  },
  ignition: { valves: "settled", distributor: { rotor: "anticlockwise" }, ...(evenness && { evenness }) },
});
const READ = ["7.1", "8.6", "11.4", "12.9", "11.4", "8.6"];

test(
  "the timing of each cylinder is typed and drawn round the rotor's turn",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, six(), "Even sparks");
    await page.getByLabel("Read with").selectOption("timing");
    for (const [i, cylinder] of SIX.entries()) await type(page, `Cylinder ${cylinder} reads`, READ[i]);
    await type(page, "± of each", "0.3");
    await type(page, "Book: off its place by at most", "2");
    const asked = six({
      timing: {
        readings: SIX.map((cylinder, i) => ({ cylinder, reads: `${READ[i]} deg BTDC` })),
        uncertainty: "0.3 deg",
      },
      tolerance: "2 deg",
    });
    assert.deepEqual(await kept(page), asked);
    const { evenness } = told(asked).ignition;
    const answer = await shown(page, ".answer");
    for (const one of [evenness.verdict_text, evenness.advice.text, ...evenness.advice.causes])
      has(answer, one);
    const rows = await page.locator(".answer table tbody tr").allInnerTexts();
    evenness.lobes.forEach(({ cylinder, late_deg, judged }, i) => {
      const row = squeezed(rows[i]);
      assert.ok(row.startsWith(cylinder), row);
      for (const one of [late_deg.toFixed(1), judged.verdict_text]) has(row, one);
    });
    // Against the clock from the top, each at its place and as late as the scale says.
    const picture = page.getByRole("img", { name: /^6 sparks round a turn of the rotor: / });
    const [, scale] = /degree is drawn as ([\d.]+)°/.exec(
      await page.locator(".answer figcaption").innerText(),
    );
    const drawn = await picture
      .locator(".stop circle")
      .evaluateAll((all) => all.map((c) => [+c.getAttribute("cx"), +c.getAttribute("cy")]));
    const turn = (x, y) => (Math.atan2(160 - x, 160 - y) * 180) / Math.PI;
    drawn.forEach(([x, y], i) => {
      const { place, late_deg } = evenness.lobes[i];
      const off = turn(x, y) - (place.deg + scale * late_deg);
      assert.ok(Math.abs(((off + 540) % 360) - 180) < 0.1, `${i}: ${turn(x, y)}`);
    });
    await shot(page, "ignition-evenness-360", { whole: true });
  }),
);

test(
  "two leads that are exchanged are found by saying where each goes, and the cure is the kernel's",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document(), "Leads");
    await page.getByRole("button", { name: "Say where every lead goes" }).click();
    const order = document().engine.firing_order;
    const [first, second, ...rest] = order;
    const goes = [second, first, ...rest];
    for (const [i, cylinder] of goes.entries())
      await page.getByLabel("goes to cylinder").nth(i).selectOption(cylinder);
    await page.getByRole("button", { name: "Say where the rotor points" }).click();
    await page.getByText(/Still needed: .*stroke/).waitFor();
    await page.getByLabel("At firing TDC of").selectOption(first);
    await page.getByLabel("On compression, made sure").selectOption("true");
    await page.getByLabel("the rotor points to the tower of").selectOption(first);
    const looks = [
      ...order.map((tower_of, i) => ({ lead: { tower_of, goes_to: goes[i] } })),
      { rotor: { at_tdc_of: first, points_to: first, stroke_checked: true } },
    ];
    const asked = document({ leads: { looks } });
    assert.deepEqual((await kept(page)).ignition, asked.ignition);
    const { leads } = told(asked).ignition;
    assert.equal(leads.explanations[0].states[0].fault, "two_exchanged");
    assert.equal(leads.advice.action, "set");
    const answer = await shown(page, ".answer");
    for (const one of [leads.verdict_text, ...leads.advice.first, leads.advice.text, leads.advice.then_reads])
      has(answer, one);
    await shot(page, "ignition-leads-360", { whole: true });
    await page.getByRole("button", { name: "Take out look 5" }).click();
    assert.equal((await kept(page)).ignition.leads.looks.length, 4);
  }),
);

test(
  "an ignition point is said by every tool, and where the lamp flashes",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document(), "Point");
    await type(page, "Ignition point", "10");
    await page.getByLabel("Degree wheel on the crank").selectOption("true");
    await type(page, "Rim with the mark, across", "140");
    await page.getByLabel("Dial gauge").selectOption("yes");
    await page
      .getByText(/Still needed|Crank throw/)
      .first()
      .waitFor();
    for (const [label, value] of [
      ["Crank throw", "40"],
      ["Rod, eye to eye", "140"],
      ["Pin offset", "0"],
    ])
      await type(page, label, value);
    const asked = await kept(page);
    assert.deepEqual(asked.ignition.point, { at: "10 deg BTDC", wheel: true, dial: {} });
    const { point } = told(asked).ignition;
    assert.equal(point.ways.length, 4, "wheel, rim, rotor and dial");
    const answer = await shown(page, ".answer");
    for (const { text } of point.ways) has(answer, text);
    for (const { place } of point.flashes) has(answer, place);
    await shot(page, "ignition-point-360", { whole: true });
  }),
);

test(
  "the coil at speed and the voltage at the plugs are those of the native kernel",
  on(PHONE, async ({ page, open }) => {
    const { ignition } = example("opposed-four-ignition");
    const { resistors } = ignition.electrics;
    await openPart(page, open, document({ electrics: { resistors } }), "Coil, plugs");
    const groups = page.locator("fieldset.group");
    const fill = async (group, fields) => {
      for (const [label, value] of fields) {
        const field = groups.filter({ hasText: group }).getByLabel(label).first();
        await field.fill(value);
        await field.press("Tab");
      }
    };
    await fill("Coil at speed", [
      ["Supply", "13.5"],
      ["Inductance", "9"],
      ["Dwell", "49"],
      ["Weak below", "0.5"],
      ["At speeds", "1000, 4500"],
    ]);
    const coil = groups.filter({ hasText: "Coil at speed" });
    for (const [i, value] of ["0.2", "0.5"].entries()) {
      await coil.getByLabel("±").nth(i).fill(value);
      await coil.getByLabel("±").nth(i).press("Tab");
    }
    await fill("Plugs", [
      ["Plug gap", "0.7"],
      ["±", "0.02"],
    ]);
    await fill("Voltage for the spark", [
      ["Compression ratio", "8"],
      ["Spark comes", "20"],
      ["Coil gives", "22"],
      ["±", "1"],
    ]);
    const asked = await kept(page);
    assert.deepEqual(asked.ignition.electrics.coil.speeds, ["1000 rpm", "4500 rpm"]);
    const { electrics } = told(asked).ignition;
    assert.ok(electrics.charges.length === 2 && electrics.weak && electrics.plug.enough != null);
    const answer = await shown(page, ".answer");
    for (const { text } of [...electrics.charges, electrics.weak]) has(answer, text);
    for (const text of electrics.plug.text) has(answer, text);
    await shot(page, "ignition-coil-360", { whole: true });
  }),
);

test(
  "a second printed pair and the share where the contacts open are taken",
  on(PHONE, async ({ page, open }) => {
    const contacts = {
      dwell: { shows: "54 deg" },
      dwell_limits: { from: "57 deg", to: "63 deg" },
      pair: { gap: "0.40 mm", dwell: "60 deg" },
    };
    await openPart(page, open, document({ contacts }), "Contacts");
    await type(page, "Another gap", "0.30");
    await type(page, "Its dwell", "66");
    await type(page, "Share of a change", "0.6");
    const asked = await kept(page);
    const found = told(asked).ignition.contacts;
    const answer = await shown(page, ".answer");
    has(answer, found.second_pair);
    has(answer, found.spark.text);
    assert.equal(asked.ignition.contacts.opening_share, 0.6);
  }),
);

const MAGNETOS = "Invented opposed four, two magnetos";

/** All that is said of magnetos, in the order in which it has to stand. */
function hasMagnetos(text, { magnetos, apart, drop }) {
  for (const { e_gap, gap, spark, impulse, advice } of magnetos) {
    for (const { found, limits, verdict_text } of [e_gap, gap, spark])
      for (const one of [found, limits, verdict_text]) has(text, one);
    for (const one of [...(impulse ? [impulse] : []), advice.text]) has(text, one);
  }
  for (const one of [apart.judged.found, apart.judged.verdict_text, apart.advice.text]) has(text, one);
  for (const one of [...drop.judged, drop.difference]) has(text, one.found);
  for (const one of [drop.advice.text, ...(drop.advice.causes ?? [])]) has(text, one);
}

test(
  "the invented engine with two magnetos: dangers before all else, numbers of the native kernel, on paper too",
  on(PHONE, async ({ page, open }) => {
    await open("ignition");
    await page.getByRole("button", { name: MAGNETOS }).click();
    await page.getByRole("button", { name: settle }).click();
    const danger = page.getByRole("heading", { name: "Danger" });
    await danger.waitFor();
    const { y } = await danger.boundingBox();
    assert.ok(y > 0 && y < PHONE.viewport.height, `the danger is in sight, not at ${y}`);
    await part(page, "Magneto");
    const asked = example("opposed-four-magnetos");
    assert.deepEqual(await kept(page), asked);
    const { ignition } = told(asked);
    const { magneto, steps } = ignition;
    assert.ok(magneto.cautions.length >= 2 && magneto.magnetos.length === 2 && magneto.drop);
    hasMagnetos(await shown(page, ".card .answer"), magneto);
    const before = (text) => {
      const places = magneto.cautions.map(({ text: one }) => text.indexOf(squeezed(one)));
      assert.ok(
        places.every((at) => at >= 0),
        String(places),
      );
      const rest = [steps[0].name, magneto.magnetos[0].e_gap.found].map((one) =>
        text.lastIndexOf(squeezed(one)),
      );
      assert.ok(Math.max(...places) < Math.min(...rest), `${places} before ${rest}`);
    };
    before(await shown(page, "main"));
    await shot(page, "ignition-magnetos-360", { whole: true });
    await page.getByRole("button", { name: "Report of the ignition" }).click();
    const { text } = await onPaper(page);
    hasMagnetos(text, magneto);
    before(text);
    assert.ok(text.includes("demo"));
  }),
);

test(
  "magnetos typed on a phone are the document of the kernel, and judged as by it",
  on(PHONE, async ({ page, open }) => {
    const { magneto } = example("opposed-four-magnetos").ignition;
    const engine = { ...example("opposed-four-magnetos"), ignition: { valves: "settled" } };
    await openPart(page, open, engine, "Magneto");
    const labels = {
      which: "Which, as the switch",
      rotor: "Rotor turns",
      sparks_per_turn: "Sparks a turn",
      e_gap: "Contacts open, past neutral",
      e_gap_uncertainty: "± past neutral",
      look: "Faces of the contacts",
      sparks_at: "Sparks at",
      uncertainty: "± at the crank",
      impulse_lag: "Lag of its impulse",
    };
    const group = (i) => page.locator("fieldset.group").filter({ hasText: `Magneto ${i + 1}` });
    const fill = async (where, label, value) => {
      const field = where.getByLabel(label).first();
      if (await field.evaluate((e) => e.tagName === "SELECT")) return field.selectOption(value);
      await field.fill(String(value).split(" ")[0]);
      return field.press("Tab");
    };
    for (const [i, one] of magneto.magnetos.entries()) {
      await page.getByRole("button", { name: "Add a magneto" }).click();
      for (const [name, label] of Object.entries(labels))
        if (one[name] !== undefined) await fill(group(i), label, one[name]);
      const [, goes, refuses] = /^(\S+) mm goes, (\S+) mm/.exec(one.gap);
      await fill(group(i), "Thickest leaf", goes);
      await fill(group(i), "Thinnest that", refuses);
    }
    const whole = page.locator(".card");
    for (const [label, value] of [
      ["Spark, least", magneto.limits.from],
      ["Spark, most", magneto.limits.to],
      ["Two sparks apart", magneto.most_apart],
      ["Open past neutral, min", magneto.e_gap_limits.from],
      ["Open past neutral, max", magneto.e_gap_limits.to],
      ["Contact gap, min", magneto.gap_limits.from],
      ["Contact gap, max", magneto.gap_limits.to],
      ["On both", magneto.drop.both],
      ["On the left alone", magneto.drop.left],
      ["On the right alone", magneto.drop.right],
      ["Book: drop, at most", magneto.drop.most_drop],
      ["Book: drops differ", magneto.drop.most_difference],
    ])
      await fill(whole, label, value);
    await fill(page.locator("fieldset.group").filter({ hasText: "Each magneto alone" }), "±", "5");
    const typed = await kept(page);
    assert.deepEqual(typed.ignition.magneto, magneto);
    hasMagnetos(await shown(page, ".card .answer"), told(typed).ignition.magneto);
    await page.getByRole("button", { name: "Take out magneto 2" }).click();
    assert.equal((await kept(page)).ignition.magneto.magnetos.length, 1);
  }),
);

/** What a printer would get: the text that is there on paper. */
async function onPaper(page) {
  await page.emulateMedia({ media: "print" });
  const text = squeezed(await page.locator("body").innerText());
  const pages = (await page.pdf({ preferCSSPageSize: true }))
    .toString("latin1")
    .match(/\/Type\s*\/Page[^s]/g);
  await page.emulateMedia({ media: "screen" });
  return { text, pages: pages.length };
}

test(
  "a document of the ignition alone is opened, printed and kept as it was",
  on(DESKTOP, async ({ page, open }) => {
    const asked = example("opposed-four-ignition");
    await open("job");
    await openText(page, asked);
    await page.getByRole("button", { name: settle }).click();
    await page.getByRole("heading", { name: "Order of work" }).waitFor();
    await page.getByRole("button", { name: "Report of the ignition" }).click();
    const { ignition, cautions, assumptions } = told(asked);
    const { text } = await onPaper(page);
    for (const one of [
      ...ignition.stop_work,
      ...cautions,
      ...ignition.steps,
      ...assumptions,
      ...ignition.point.ways,
    ])
      has(text, one.text ?? one);
    has(text, ignition.contacts.advice.text);
    has(text, ignition.timing.advice.text);
    const inOrder = ["settle this before", "cautions", "order of work", "meter", "assumed"].map((words) =>
      text.indexOf(words),
    );
    assert.deepEqual(
      inOrder,
      [...inOrder].sort((a, b) => a - b),
    );
    assert.doesNotMatch(text, /still needed|take out|book, min/);
    const downloaded = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as a file" }).click();
    const stream = await (await downloaded).createReadStream();
    let saved = "";
    for await (const piece of stream) saved += piece;
    assert.deepEqual(JSON.parse(saved), asked);
  }),
);

test(
  "the report of a job holds its ignition: one record for both steps",
  on(DESKTOP, async ({ page, open }) => {
    const { ignition } = example("opposed-four-ignition");
    const whole = { ...example("inline-four"), ignition: { contacts: ignition.contacts } };
    await open("job");
    await openText(page, whole);
    await stage(page, "Report");
    await page.getByRole("heading", { name: "Ignition: order of work" }).waitFor();
    const report = told(whole);
    const { text } = await onPaper(page);
    for (const one of report.ignition.stop_work) has(text, one.text);
    for (const one of [...report.cautions, ...report.assumptions]) has(text, one.text ?? one);
    has(text, report.ignition.contacts.dwell.found);
    assert.equal(text.split("high voltage").length, 2, "each caution once");
    assert.ok(
      text.indexOf("settle the valve clearances") < text.indexOf("cautions"),
      "what stops the work first",
    );
  }),
);
