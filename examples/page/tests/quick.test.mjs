// The quick check: three taps, typed leaves, impossible ones, and the time to the first answer.
import assert from "node:assert/strict";
import test from "node:test";
import { DESKTOP, example, native, PHONE, saved, setUp } from "./support.mjs";

const { on, ...shared } = setUp();
const GOAL_MS = 500;
const WORDS = { below: "Tight", in_band: "In band", above: "Loose", cannot_say: "Cannot tell yet" };

const tap = (page, side, leaf) => page.locator(`label[for="quick.${side}.leaf.${leaf}"]`).click();
const verdict = (page) => page.locator(".answer .verdict .sign").first();

/** A document that says something else of its clearances. */
const asked = (document, change) => ({ ...document, clearance: { ...document.clearance, ...change } });

/** The set of leaves that the page offers. */
async function leavesOf(page) {
  const all = await page.locator('[id^="quick.goes.leaf."]').evaluateAll((all) => all.map((e) => e.value));
  return { leaves: all.filter((value) => value !== "none"), stack_tolerance: "worst_case" };
}

test(
  "three taps from opening to the answer",
  on(PHONE, async ({ page, open }) => {
    await open();
    await page.getByText("Exhaust", { exact: true }).first().click();
    await tap(page, "goes", "0.22 mm");
    await tap(page, "refuses", "0.25 mm");
    assert.match(await verdict(page).textContent(), /Tight/);
    const quick = await saved(page, "quick");
    const settings = await saved(page, "settings");
    assert.equal(settings, undefined, "the settings were not touched");
    const reading = { cylinder: "1", valve: "exhaust", goes: ["0.22 mm"], refuses: ["0.25 mm"] };
    const gauge = await leavesOf(page);
    const { report } = native(asked(quick.base, { gauge, rule: "guarded_tight", readings: [reading] }));
    const [judged] = report.clearance.valves[0].judged;
    assert.equal(judged.verdict, "below");
    const shown = await page.locator(".answer").textContent();
    assert.ok(shown.toLowerCase().includes(judged.advice.text), `${judged.advice.text} in ${shown}`);
    const percent = (judged.probabilities.below.least * 100).toFixed(1);
    assert.ok(shown.includes(`${percent}\u00a0%`), `${percent} in ${shown}`);
    assert.ok(shown.includes(`${judged.low.mm.toFixed(3)} to ${judged.high.mm.toFixed(3)} mm`), shown);
    assert.match(await page.getByRole("status").filter({ hasText: "tight" }).textContent(), /tight: reset/);
    const whole = native(example("inline-four")).report;
    const apply = whole.clearance.specifications.filter((book) => book.applicability === "applies");
    assert.deepEqual(
      quick.base.clearance.specifications.map((book) => book.id),
      apply.map((book) => book.id),
      "it opens with the books that apply to its engine",
    );
  }),
);

/** Opens what the check is held against, and takes it from one of the invented engines. */
async function against(page, title) {
  await page.getByText("Checked against:").click();
  await page.getByLabel("Take engine, bands and screw from").selectOption({ label: title });
  await page.locator(".against-what summary").filter({ hasText: title }).waitFor();
}

for (const [name, valve, goes, refuses] of [
  ["upright-twin-warm", "Exhaust", "0.15 mm", "0.18 mm"],
  ["v-eight-shims", "Intake", "0.22 mm", "0.25 mm"],
  ["radial-nine", "Exhaust", "0.05 mm", "0.08 mm"],
]) {
  test(
    `one valve of ${name} is judged by each of its books as in a whole job`,
    on(DESKTOP, async ({ page, open }) => {
      const document = example(name);
      await open();
      await against(page, document.title);
      await page.getByText(valve, { exact: true }).first().click();
      await tap(page, "goes", goes);
      await tap(page, "refuses", refuses);
      await verdict(page).waitFor();
      const quick = await saved(page, "quick");
      const { label } = document.engine.cylinders[0];
      const reading = { cylinder: label, valve: valve.toLowerCase(), goes: [goes], refuses: [refuses] };
      const gauge = await leavesOf(page);
      const job = { crank_check: undefined, rule: "guarded_tight", gauge, readings: [reading] };
      const { report, problems } = native(asked(document, job));
      assert.deepEqual(problems, undefined);
      const { judged } = report.clearance.valves[0];
      const shown = await page.locator(".answer").allTextContents();
      assert.equal(shown.length, judged.length);
      assert.equal(quick.base.clearance.specifications.length, judged.length);
      const signs = new Set(judged.map((one) => WORDS[one.verdict]));
      const peek = await page.locator(".peek button").first().textContent();
      assert.equal(await page.locator(".peek .sign").count(), signs.size);
      for (const word of signs) assert.ok(peek.includes(word), peek);
      const alike = new Set(judged.map((one) => one.advice.text)).size === 1;
      assert.ok(peek.includes(alike ? judged[0].advice.text : "the books differ"), peek);
      for (const [i, { specification, advice, low, high, probabilities }] of judged.entries()) {
        const text = shown[i];
        assert.ok(text.includes(`(${specification})`), text);
        assert.ok(text.toLowerCase().includes(advice.text.toLowerCase()), `${advice.text} in ${text}`);
        assert.ok(text.includes(`${low.mm.toFixed(3)} to ${high.mm.toFixed(3)} mm`), text);
        const { least } = probabilities.in_band;
        if (least > 0.001 && least < 0.999)
          assert.ok(text.includes(`${Number((least * 100).toFixed(1))}`), text);
      }
    }),
  );
}

test(
  "a band that cannot be is told at its field, also for the other kind of valve",
  on(DESKTOP, async ({ page, open }) => {
    await open();
    await page.getByText("Checked against:").click();
    const from = page.locator('[id="at.specifications.0.exhaust.set.from"]');
    await from.fill("0.40");
    await from.press("Tab");
    await page.locator('[aria-invalid="true"], .faults').first().waitFor();
    const group = page.locator("fieldset.group").filter({ has: from });
    await group.locator(".faults").first().waitFor();
    const pitch = page.getByLabel("Pitch in mm");
    await pitch.fill("wide");
    await pitch.press("Tab");
    assert.equal(await pitch.getAttribute("aria-invalid"), "true");
  }),
);

test(
  "the next opening remembers, so that two taps are enough",
  on(PHONE, async ({ page, open }) => {
    await open();
    await page.getByText("Exhaust", { exact: true }).first().click();
    await page.getByRole("button", { name: /Warmth of the head: one degree more/ }).click();
    await page.reload();
    assert.equal(await page.getByLabel("Warmth of the head", { exact: true }).inputValue(), "27 C");
    await tap(page, "goes", "0.28 mm");
    await tap(page, "refuses", "0.30 mm");
    assert.match(await verdict(page).textContent(), /In band/);
  }),
);

test(
  "typed leaves take a comma, get their unit and may be stacked",
  on(DESKTOP, async ({ page, open }) => {
    await open();
    await page.getByLabel("Goes in", { exact: true }).last().fill("0,10 + 0,08");
    await page.getByLabel("Does not go", { exact: true }).last().fill("0,20");
    await page.keyboard.press("Tab");
    const { felt } = await saved(page, "quick");
    assert.equal(felt.goes, "0,10 mm + 0,08 mm");
    assert.match(await verdict(page).textContent(), /In band/);
  }),
);

test(
  "an impossible reading is told at its field and stays",
  on(PHONE, async ({ page, open }) => {
    await open();
    await tap(page, "goes", "0.30 mm");
    await tap(page, "refuses", "0.20 mm");
    const problem = page.locator(".problems, .faults").filter({ hasText: "0.30 mm" }).first();
    await problem.waitFor();
    assert.equal(await page.locator('[id="quick.goes.leaf.0.30 mm"]').isChecked(), true);
    const typed = page.locator('[id="quick.goes.typed"]');
    await typed.fill("0.313 mm");
    await typed.press("Tab");
    const told = page.locator('[id="quick.goes.faults"]');
    await told.getByText("0.313").waitFor();
    assert.equal(await typed.inputValue(), "0.313 mm");
    assert.equal(await typed.getAttribute("aria-invalid"), "true");
  }),
);

test(
  "no leaf goes, every leaf goes, one drags",
  on(PHONE, async ({ page, open }) => {
    await open();
    await tap(page, "goes", "none");
    assert.match(await verdict(page).textContent(), /Tight/);
    await tap(page, "refuses", "none");
    assert.match(await verdict(page).textContent(), /Loose/);
    await page.getByRole("button", { name: "One leaf drags lightly instead" }).click();
    await tap(page, "drags", "0.20 mm");
    assert.match(await verdict(page).textContent(), /In band/);
  }),
);

test(
  "inches as marked",
  on(PHONE, async ({ page, open }) => {
    await open("settings");
    await page.getByText("inch", { exact: true }).click();
    await page.getByRole("link", { name: "Quick check" }).click();
    await tap(page, "goes", "0.004 in");
    await tap(page, "refuses", "0.005 in");
    assert.match(await page.locator(".facts").first().textContent(), /0\.0040 to 0\.0050 in/);
  }),
);

/** Whether the file for whole jobs was asked for. */
const wholeFile = (request) => /lashwork_bg.*\.wasm$/.test(request.url());

test(
  "the first view runs on the small file; the other comes after the first answer",
  on(PHONE, async ({ page, address }) => {
    const asked = [];
    page.on("request", (request) => asked.push(request));
    await page.goto(address);
    await page.locator("main h1").waitFor();
    await page.waitForLoadState("networkidle");
    assert.match(await page.locator("link[rel=preload]").getAttribute("href"), /quick_bg.*\.wasm$/);
    assert.deepEqual(
      asked.filter(wholeFile).map((request) => request.url()),
      [],
      "before an answer",
    );
    const later = page.waitForRequest(wholeFile);
    await tap(page, "goes", "0.12 mm");
    await tap(page, "refuses", "0.15 mm");
    await verdict(page).waitFor();
    await later;
  }),
);

test(
  "another view brings what answers a whole job",
  on(PHONE, async ({ page, open }) => {
    await open();
    const later = page.waitForRequest(wholeFile);
    await page.getByRole("link", { name: "Whole job" }).click();
    await later;
    await page.getByRole("heading", { name: "Whole job" }).waitFor();
  }),
);

test(
  "a page that is left alone brings the rest too, for use without a network",
  on(PHONE, async ({ page, address }) => {
    await page.clock.install();
    await page.goto(address);
    await page.locator("main h1").waitFor();
    await page.waitForLoadState("networkidle");
    const later = page.waitForRequest(wholeFile);
    await page.clock.runFor(40_000);
    await later;
  }),
);

test(
  "time from navigation to the first answer, nothing cached",
  on(PHONE, async ({ page, address, t }) => {
    await page.addInitScript(() => {
      const tapped = (id) => {
        const found = document.getElementById(id);
        if (found && !found.checked) found.click();
        return found !== null;
      };
      const look = () => {
        if (document.querySelector(".answer .verdict .sign")) {
          const files = performance.getEntriesByType("resource");
          window.firstAnswer = {
            time: performance.now(),
            files: files.map((e) => [e.name.split("/").pop(), e.decodedBodySize, e.responseEnd]),
          };
        } else if (tapped("quick.goes.leaf.0.12 mm") && tapped("quick.refuses.leaf.0.15 mm"))
          setTimeout(look, 1);
        else setTimeout(look, 4);
      };
      look();
    });
    const client = await page.context().newCDPSession(page);
    await client.send("Network.clearBrowserCache");
    await page.goto(address);
    await page.waitForFunction(() => window.firstAnswer !== undefined);
    const { time, files } = await page.evaluate(() => window.firstAnswer);
    const bytes = files.reduce((sum, [, size]) => sum + size, 0);
    const each = files.map(([name, size, end]) => `${name} ${size} bytes ${end.toFixed(0)} ms`);
    t.diagnostic(
      `first answer after ${time.toFixed(0)} ms (goal ${GOAL_MS} ms), ${bytes} bytes: ${each.join(", ")}`,
    );
    assert.ok(time < GOAL_MS * 10, `${time} ms`);
  }),
);

void shared;
