// Keys alone: a quick check and a job from choosing the engine to the report.
import assert from "node:assert/strict";
import test from "node:test";
import { DESKTOP, example, PHONE, setUp } from "./support.mjs";

const { on } = setUp();

/** Presses Tab until the thing that has the focus is called so. */
async function tabTo(page, name, most = 200) {
  for (let i = 0; i < most; i += 1) {
    await page.keyboard.press("Tab");
    const found = await page.evaluate(() => {
      const e = document.activeElement;
      // Between the last thing and the first nothing has the focus, and the whole page would be its text.
      if (e === document.body) return "";
      const label = e.labels?.[0]?.textContent ?? "";
      return `${e.id}|${e.getAttribute("aria-label") ?? ""}|${label}|${e.textContent}`;
    });
    if (name.test(found)) {
      const outlined = await page.evaluate(() => {
        const e = document.activeElement;
        const drawn = e.matches(".chip input") ? e.nextElementSibling : e;
        return getComputedStyle(drawn).outlineStyle !== "none";
      });
      assert.ok(outlined, `no focus ring on ${found}`);
      return;
    }
  }
  assert.fail(`${name} cannot be reached`);
}

test(
  "a quick check",
  on(DESKTOP, async ({ page, open }) => {
    await open();
    await tabTo(page, /^quick\.goes\.leaf\./);
    for (let i = 0; i < 3; i += 1) await page.keyboard.press("ArrowRight");
    await tabTo(page, /^quick\.refuses\.leaf\./);
    for (let i = 0; i < 3; i += 1) await page.keyboard.press("ArrowRight");
    await page.locator(".answer .sign").first().waitFor();
    assert.match(await page.locator(".answer .sign").first().textContent(), /Tight/);
  }),
);

test(
  "a job from the engine to the report",
  on(DESKTOP, async ({ page, open }) => {
    const { title } = example("v-twin");
    await open();
    await tabTo(page, /Whole job/);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Whole job" }).waitFor();
    await tabTo(page, new RegExp(title));
    await page.keyboard.press("Enter");
    await tabTo(page, /On to the engine/);
    await page.keyboard.press("Enter");
    await tabTo(page, /I have read this/);
    await page.keyboard.press("Space");
    await tabTo(page, /Go to the first stop/);
    await page.keyboard.press("Enter");
    for (let last = false; !last; ) {
      const valves = await page.locator(".valve-head").count();
      for (let i = 0; i < valves; i += 1) {
        if (i > 0) {
          await tabTo(page, /Next: /);
          await page.keyboard.press("Enter");
        }
        await tabTo(page, /\.goes\.typed\|/);
        await page.keyboard.type("0.10");
        await tabTo(page, /\.refuses\.typed\|/);
        await page.keyboard.type("0.12");
        await page.keyboard.press("Tab");
      }
      last = await page.getByRole("button", { name: "All stops done" }).isVisible();
      await tabTo(page, last ? /All stops done/ : /Turn the crank \d+/);
      await page.keyboard.press("Enter");
    }
    await page.getByRole("article", { name: "Report" }).waitFor();
    assert.equal(await page.locator(".sheet tbody tr").count(), 4);
  }),
);

test(
  "what has the focus is not under a bar of a phone",
  on(PHONE, async ({ page, open }) => {
    await open("job");
    await page.getByLabel("or paste its text").fill(JSON.stringify(example("inline-four")));
    await page.getByRole("button", { name: "Open this text" }).click();
    await page.getByRole("checkbox").check();
    await page.getByRole("button", { name: "Go to the first stop" }).click();
    await page.locator(".valve-head").first().click();
    await page.locator(".peek").waitFor();
    // The page may glide there, so it is looked at until the thing is free.
    const free = () => {
      const e = document.activeElement;
      const drawn = e.matches(".chip input") ? e.nextElementSibling : e;
      const { left, top, width, height } = drawn.getBoundingClientRect();
      const found = document.elementFromPoint(left + width / 2, top + height / 2);
      return drawn.contains(found) || found?.contains(drawn);
    };
    let last = false;
    for (let i = 0; i < 100 && !last; i += 1) {
      await page.keyboard.press("Tab");
      const name = await page.evaluate(() => document.activeElement.outerHTML.slice(0, 120));
      await page.waitForFunction(free).catch((why) => assert.fail(`${name} is covered: ${why}`));
      last = await page.evaluate(() => document.activeElement.matches(".job-foot *"));
    }
    assert.ok(last, "the foot of the page was reached");
  }),
);
