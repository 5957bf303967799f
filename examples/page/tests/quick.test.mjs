// The quick check: three taps, typed leaves, impossible ones, and the time to the first answer.
import assert from "node:assert/strict";
import test from "node:test";
import { DESKTOP, native, PHONE, saved, setUp } from "./support.mjs";

const { on, ...shared } = setUp();
const GOAL_MS = 500;

const tap = (page, side, leaf) => page.locator(`label[for="quick.${side}.leaf.${leaf}"]`).click();
const verdict = (page) => page.locator(".answer .verdict .sign").first();

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
    const gauge = {
      leaves: await page
        .locator('[id^="quick.goes.leaf."]')
        .evaluateAll((all) => all.map((e) => e.value).filter((v) => v !== "none")),
      stack_tolerance: "worst_case",
    };
    const { report } = native({ ...quick.base, gauge, rule: "guarded_tight", readings: [reading] });
    const [judged] = report.valves[0].judged;
    assert.equal(judged.verdict, "below");
    const shown = await page.locator(".answer").textContent();
    assert.ok(shown.toLowerCase().includes(judged.advice.text), `${judged.advice.text} in ${shown}`);
    const percent = (judged.probabilities.below.least * 100).toFixed(1);
    assert.ok(shown.includes(`${percent}\u00a0%`), `${percent} in ${shown}`);
    assert.ok(shown.includes(`${judged.low.mm.toFixed(3)} to ${judged.high.mm.toFixed(3)} mm`), shown);
    assert.match(await page.getByRole("status").filter({ hasText: "tight" }).textContent(), /tight: reset/);
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
        if (document.querySelector(".answer .verdict .sign")) window.firstAnswer = performance.now();
        else if (tapped("quick.goes.leaf.0.12 mm") && tapped("quick.refuses.leaf.0.15 mm"))
          setTimeout(look, 1);
        else setTimeout(look, 4);
      };
      look();
    });
    const client = await page.context().newCDPSession(page);
    await client.send("Network.clearBrowserCache");
    await page.goto(address);
    await page.waitForFunction(() => window.firstAnswer !== undefined);
    const time = await page.evaluate(() => window.firstAnswer);
    const files = await page.evaluate(() =>
      performance
        .getEntriesByType("resource")
        .map((e) => `${e.name.split("/").pop()} ${e.responseEnd.toFixed(0)} ms`),
    );
    t.diagnostic(`first answer after ${time.toFixed(0)} ms (goal ${GOAL_MS} ms); ${files.join(", ")}`);
    assert.ok(time < GOAL_MS * 10, `${time} ms`);
  }),
);

void shared;
