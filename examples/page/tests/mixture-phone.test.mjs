// The third step on a small phone: the way to what comes next, nothing cut off or too small for a thumb, where the
// answer stays while readings are typed, and the rise of the idle without a reading of it.
import assert from "node:assert/strict";
import test from "node:test";
import {
  DEMO,
  document,
  told,
  kept,
  squeezed,
  shown,
  has,
  answers,
  openPart,
  part,
  type,
  pick,
} from "./mixture-support.mjs";
import { example, PHONE, setUp, shot } from "./support.mjs";

const { on } = setUp();

const PARTS = {
  gauge: "Vacuum gauge",
  float: "Fuel level",
  jets: "Jets",
  balance: "Balance",
  idle: "Idle",
  gas: "Exhaust gas",
};

const opened = (page) => page.evaluate(() => [...document.querySelectorAll(".card h2")].at(-1).textContent);

test(
  "the step that the report names is opened, and is one tap away from every other",
  on(PHONE, async ({ page, open }) => {
    const whole = example(DEMO);
    const { next, steps } = told(whole).mixture;
    assert.equal(next.step, "balance");
    assert.ok(
      steps.findIndex(({ standing }) => standing !== "settled") <
        steps.findIndex(({ step }) => step === next.step),
      "not merely the first that is not settled",
    );
    await openPart(page, open, whole);
    assert.equal(await opened(page), PARTS.balance);
    assert.equal(await page.getByRole("button", { name: /^Next: / }).count(), 0, "one is there");
    await part(page, "Vacuum gauge");
    await page.getByRole("button", { name: `Next: ${next.name}`, exact: true }).click();
    assert.equal(await opened(page), PARTS.balance);
  }),
);

test(
  "what comes before the mixture is stated in the first part",
  on(PHONE, async ({ page, open }) => {
    const bare = document({ valves: undefined, timing: undefined });
    assert.equal(told(bare).mixture.next.step, "valves");
    await openPart(page, open, bare, "Idle");
    await page.getByRole("button", { name: "Next: valve clearances" }).click();
    assert.equal(await opened(page), "To begin");
    for (const label of ["Valve clearances", "Timing"]) await pick(page, label, "settled");
    const after = told(await kept(page)).mixture.next;
    assert.equal(after.step, "float");
    await page.getByRole("button", { name: `Next: ${after.name}` }).click();
    assert.equal(await opened(page), PARTS.float);
  }),
);

/** What of a page a thumb cannot hit or an eye cannot read. */
const faults = (page) =>
  page.evaluate(() => {
    const bad = [];
    if (document.scrollingElement.scrollWidth > innerWidth) bad.push("the page is wider than the screen");
    for (const one of document.querySelectorAll(
      "main a, main button, main select, main input, main summary",
    )) {
      const { width, height } = one.getBoundingClientRect();
      if (width > 0 && (width < 44 || height < 44))
        bad.push(`${one.tagName} ${one.id || one.textContent}: ${width} by ${height}`);
    }
    for (const one of document.querySelectorAll("main .scroll, main select"))
      if (one.scrollWidth > one.clientWidth + 1) bad.push(`cut off: ${one.id || one.ariaLabel}`);
    return bad;
  });

for (const colorScheme of ["light", "dark"])
  for (const [what, mixture] of Object.entries({ whole: example(DEMO).mixture, empty: {} }))
    test(
      `nothing is cut off or too small on a ${colorScheme} phone, the mixture ${what}`,
      on(
        PHONE,
        async ({ page, open }) => {
          await openPart(page, open, { ...example(DEMO), mixture });
          for (const name of ["To begin", "Air", ...Object.values(PARTS)]) {
            await part(page, name);
            await page.evaluate(() => {
              for (const closed of document.querySelectorAll(".card details")) closed.open = true;
            });
            assert.deepEqual(await faults(page), [], name);
          }
          await page.getByRole("button", { name: "Report of the mixture" }).click();
          assert.deepEqual(await faults(page), [], "record");
        },
        { colorScheme },
      ),
    );

test(
  "a long choice is read whole",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, example(DEMO), "Vacuum gauge");
    const needle = page.locator(".card").getByLabel("The needle", { exact: true });
    await needle.selectOption("small_flick");
    assert.equal(await needle.evaluate((e) => getComputedStyle(e).whiteSpace), "normal");
    await shot(page, "mixture-long-choice-360");
  }),
);

test(
  "where the open step stands is in sight while its readings are typed",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document({ fuel: "E5" }), "Exhaust gas");
    has(await shown(page, ".peek"), "Next:");
    for (const [label, text] of [
      ["CO", "4.6"],
      ["CO₂", "11.9"],
      ["O₂", "0.7"],
      ["CO, min", "1.5"],
      ["CO, max", "3.5"],
    ])
      await type(page, new RegExp(`^${label}( in|$)`), text);
    const { steps } = told(await kept(page)).mixture;
    const { text } = steps.find(({ step }) => step === "gas");
    const bar = page.locator(".peek");
    has(await shown(page, ".peek"), text);
    const last = page.locator(".card").getByLabel(/^CO, max/);
    await last.focus();
    // It does not lie over the field; the page may have to scroll for that.
    await page.waitForFunction(() => {
      const { top, bottom } = document.activeElement.getBoundingClientRect();
      return top >= 0 && bottom <= document.querySelector(".peek").getBoundingClientRect().top;
    });
    await shot(page, "mixture-gas-typing-360");
    await bar.getByRole("button").click();
    await page.waitForFunction(() => {
      const { top } = [...document.querySelectorAll(".card h2")].at(-1).getBoundingClientRect();
      return top >= 0 && top < 100;
    });
    // Another part says its own.
    await part(page, "Air");
    has(await shown(page, ".peek"), "Next:");
  }),
);

test(
  "the rise of the idle is judged by the curve where it was not tried",
  on(PHONE, async ({ page, open }) => {
    const { rise, ...idle } = example(DEMO).mixture.idle;
    assert.deepEqual(rise, {});
    await openPart(page, open, document({ idle }), "Idle");
    assert.equal(told(await kept(page)).mixture.idle.rise, null);
    await pick(page, "Judge the rise", "curve");
    assert.deepEqual((await kept(page)).mixture.idle.rise, {});
    const check = async () => {
      const { rise } = told(await kept(page)).mixture.idle;
      const text = await answers(page);
      for (const one of [rise, ...rise.by_rules]) has(text, one.text);
      return rise;
    };
    const byCurve = await check();
    assert.ok(byCurve.rise.rpm > 0 && byCurve.by_rules.length > 1);
    await shot(page, "mixture-rise-360", { whole: true });
    // What was tried goes before the curve; taken back, nothing is judged.
    await type(page, "Speed rises, leaned out", "60");
    assert.deepEqual((await kept(page)).mixture.idle.rise, { reads: "60 rpm" });
    const tried = await check();
    assert.notEqual(tried.text, byCurve.text);
    await pick(page, "Judge the rise", "");
    assert.equal((await kept(page)).mixture.idle.rise, undefined);
    assert.ok(!(await answers(page)).includes(squeezed(tried.text)));
  }),
);

test(
  "which way a screw works is read whole",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, example(DEMO), "Balance");
    await page.locator("summary", { hasText: "4 throttles" }).click();
    const way = page.locator('[id="at.mixture.balance.joints.2.clockwise"]');
    assert.equal(await way.inputValue(), "opens");
    assert.equal(await way.locator("option:checked").innerText(), "opens the farther one");
  }),
);
