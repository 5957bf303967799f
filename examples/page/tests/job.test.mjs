// Whole jobs on two engines, compared with the native kernel; reload, undo, export and print in between.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import {
  chooseWay,
  DESKTOP,
  example,
  native,
  PHONE,
  saved,
  setUp,
  shot,
  startJob,
  TABLET,
  taps,
} from "./support.mjs";

const { on } = setUp();
const WORDS = { below: "Tight", in_band: "In band", above: "Loose", cannot_say: "Cannot tell yet" };

/** Enters the readings of an example at the stop that is shown. */
async function readStop(page, document) {
  const heads = page.locator(".valve-head");
  for (let i = 0; i < (await heads.count()); i += 1) {
    const head = heads.nth(i);
    const [, cylinder, kind] = /Cylinder (\S+) (intake|exhaust)/.exec(await head.textContent());
    const reading = document.clearance.readings.find((r) => r.cylinder === cylinder && r.valve === kind);
    if ((await head.getAttribute("aria-expanded")) === "false") await head.click();
    if (reading.drags) await page.getByRole("button", { name: "One leaf drags lightly instead" }).click();
    for (const [side, leaf] of taps(reading)) {
      await page.locator(`label[for="valve.${cylinder}.${kind}.1.${side}.leaf.${leaf}"]`).click();
    }
    await page.locator(".valve-body .answer").first().waitFor();
  }
}

/** Saves the job as a file and gives the document in it. */
async function exported(page) {
  const waiting = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save as a file" }).click();
  return JSON.parse(readFileSync(await (await waiting).path(), "utf8"));
}

/** The rows of the report. */
const rows = (page) =>
  page
    .locator(".sheet tbody tr")
    .evaluateAll((all) => all.map((row) => [...row.cells].map((cell) => cell.textContent)));

async function compare(page, decimals, inch) {
  const { report, problems } = native(await exported(page));
  assert.equal(problems, undefined);
  const found = await rows(page);
  assert.equal(found.length, report.clearance.valves.length);
  for (const [i, valve] of report.clearance.valves.entries()) {
    const [name, leaves, gap, verdict, , todo] = found[i];
    const [judged] = valve.judged;
    assert.equal(`cylinder ${name}`, valve.name);
    assert.equal(leaves, valve.reading);
    assert.ok(verdict.includes(WORDS[judged.verdict]), `${name}: ${verdict}, not ${judged.verdict}`);
    assert.equal(todo, judged.advice.text);
    // 25.4 mm to the inch exactly: international yard and pound agreement of 1959.
    for (const end of [judged.low, judged.high].filter(Boolean)) {
      assert.ok(
        gap.includes((end.mm / (inch ? 25.4 : 1)).toFixed(decimals)),
        `${name}: ${gap}, not ${end.mm}`,
      );
    }
  }
  return report;
}

test(
  "inline four in two positions, with a reload in the middle",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await startJob(page, document.title);
    await chooseWay(page, "Two positions");
    await readStop(page, document);
    const before = await saved(page, "job");
    await page.reload();
    assert.deepEqual(await saved(page, "job"), before, "nothing is lost on reload");
    await page.getByText("4 of 8 valves read").waitFor();
    await shot(page, "job-360", { whole: true });
    await page.getByRole("button", { name: /Turn the crank 360° on, to stop 2/ }).click();
    await readStop(page, document);
    await page.getByText("8 of 8 valves read").waitFor();
    await page.getByRole("button", { name: "All stops done: report" }).click();
    const report = await compare(page, 3, false);
    assert.equal(report.clearance.valves.length, 8);
    const job = await saved(page, "job");
    const sorted = (all) => all.map((r) => JSON.stringify(Object.entries(r).sort())).sort();
    assert.deepEqual(
      sorted(job.document.clearance.readings),
      sorted(document.clearance.readings),
      "readings as in the example",
    );
  }),
);

test(
  "V-twin in inches, on a tablet",
  on(TABLET, async ({ page, open }) => {
    const document = example("v-twin");
    await open("settings");
    await page.getByText("inch", { exact: true }).click();
    await page.getByRole("link", { name: "Whole job" }).click();
    await startJob(page, document.title);
    await chooseWay(page, "Cylinder by cylinder");
    await readStop(page, document);
    await page.getByRole("button", { name: /Turn the crank 315° on, to stop 2/ }).click();
    await readStop(page, document);
    await shot(page, "job-tablet");
    await page.getByRole("button", { name: "All stops done: report" }).click();
    await compare(page, 4, true);
  }),
);

test(
  "a saved file opens again as it was",
  on(DESKTOP, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await page.getByLabel("or paste its text").fill(JSON.stringify(document));
    await page.getByRole("button", { name: "Open this text" }).click();
    await page.getByRole("button", { name: "Report", exact: true }).click();
    const text = await exported(page);
    assert.deepEqual(text, document);
    page.on("dialog", (dialog) => dialog.accept());
    await page.getByRole("button", { name: "Close the job" }).click();
    await page.locator("#job\\.file").setInputFiles({
      name: "job.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify(text)),
    });
    await page.getByRole("button", { name: "Report", exact: true }).click();
    assert.deepEqual(await exported(page), document);
  }),
);

test(
  "undo takes back one entry at a time",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await startJob(page, document.title);
    await chooseWay(page, "Cylinder by cylinder");
    await page.locator('label[for="valve.1.intake.1.goes.leaf.0.18 mm"]').click();
    await page.locator('label[for="valve.1.intake.1.refuses.leaf.0.20 mm"]').click();
    const undo = page.getByRole("button", { name: "Undo the last entry" });
    await undo.click();
    assert.deepEqual((await saved(page, "job")).document.clearance.readings, [
      { cylinder: "1", valve: "intake", goes: ["0.18 mm"] },
    ]);
    await undo.click();
    assert.deepEqual((await saved(page, "job")).document.clearance.readings, []);
  }),
);

test(
  "an impossible reading is told at its valve; the others are judged",
  on(PHONE, async ({ page, open }) => {
    await open("job");
    await startJob(page, example("inline-four").title);
    await chooseWay(page, "Cylinder by cylinder");
    await page.locator('label[for="valve.1.intake.1.goes.leaf.0.18 mm"]').click();
    await page.locator('label[for="valve.1.intake.1.refuses.leaf.0.20 mm"]').click();
    await page.getByRole("button", { name: "Next: 1 exhaust" }).click();
    await page.locator('label[for="valve.1.exhaust.1.goes.leaf.0.35 mm"]').click();
    await page.locator('label[for="valve.1.exhaust.1.refuses.leaf.0.20 mm"]').click();
    await page.locator(".valve-body .faults").first().waitFor();
    const heads = await page.locator(".valve-head .state").allTextContents();
    assert.match(heads[0], /In band/);
    assert.match(heads[1], /look at this/);
    assert.equal((await saved(page, "job")).document.clearance.readings.length, 2);
  }),
);

test(
  "a torn file and a document with errors",
  on(PHONE, async ({ page, open }) => {
    await open("job");
    const text = page.getByLabel("or paste its text");
    await text.fill('{"lashwork": 1, "title": "To');
    await page.getByRole("button", { name: "Open this text" }).click();
    await page.getByRole("alert").waitFor();
    assert.equal(await text.inputValue(), '{"lashwork": 1, "title": "To');
    const { clearance: _, ...engineOnly } = example("inline-four");
    await text.fill(JSON.stringify(engineOnly));
    await page.getByRole("button", { name: "Open this text" }).click();
    await page.getByText("says nothing of clearances").first().waitFor();
    const wrong = example("inline-four");
    wrong.clearance.specifications[0].intake.set_to = "0.90 mm";
    wrong.engine.firing_order = ["1", "3", "4", "4"];
    await text.fill(JSON.stringify(wrong));
    await page.getByRole("button", { name: "Open this text" }).click();
    await page.locator("form.describe").waitFor();
    const order = page.locator('[id="at.engine.firing_order"]');
    assert.equal(await order.getAttribute("aria-invalid"), "true");
    assert.equal(await order.inputValue(), "1 3 4 4");
    await order.fill("1 3 4 2");
    await order.press("Tab");
    const setTo = page.locator('[id="at.specifications.0.intake.set_to"]');
    await setTo.fill("0,20");
    await setTo.press("Tab");
    await page.getByRole("button", { name: "On to the engine" }).waitFor();
    assert.equal((await saved(page, "job")).document.clearance.specifications[0].intake.set_to, "0,20 mm");
  }),
);

/** An engine of fifty-six valves, each of them read. */
function everyValveRead() {
  const document = example("radial-twenty-eight");
  const [goes, refuses] = document.clearance.gauge.leaves.slice(3, 5);
  const read = (cylinder) =>
    ["intake", "exhaust"].map((valve) => ({ cylinder, valve, goes: [goes], refuses: [refuses] }));
  const readings = document.engine.cylinders.flatMap(({ label }) => read(label));
  return { ...document, clearance: { ...document.clearance, readings } };
}

for (const [name, document] of [
  ...["inline-four", "v-eight-shims", "radial-nine", "upright-twin-warm"].map((name) => [
    name,
    example(name),
  ]),
  ["fifty-six-valves", everyValveRead()],
]) {
  test(
    `the report of ${name} prints on one A4 page`,
    on(DESKTOP, async ({ page, open }) => {
      await open("job");
      await page.getByLabel("or paste its text").fill(JSON.stringify(document));
      await page.getByRole("button", { name: "Open this text" }).click();
      await page.getByRole("button", { name: "Report", exact: true }).click();
      const pdf = await page.pdf({
        preferCSSPageSize: true,
        path: new URL(`../shots/${name}.pdf`, import.meta.url).pathname,
      });
      const pages = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;
      assert.equal(pages, 1, `${pages} pages`);
    }),
  );
}
