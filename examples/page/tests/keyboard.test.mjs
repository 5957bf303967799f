// Keys alone: a quick check and a job from choosing the engine to the report.
import assert from "node:assert/strict";
import test from "node:test";
import { DESKTOP, example, firstCheck, openText, PHONE, setUp } from "./support.mjs";

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
  "one valve",
  on(DESKTOP, async ({ page, open }) => {
    await open();
    await firstCheck(page, "Intake", { to: "0.20 mm", from: "0.18", until: "0.22" });
    await page.reload();
    await tabTo(page, /^quick\.goes\.leaf\./);
    for (let i = 0; i < 3; i += 1) await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Shift+Tab");
    await page.keyboard.press("Enter");
    await tabTo(page, /^quick\.refuses\.leaf\./);
    for (let i = 0; i < 3; i += 1) await page.keyboard.press("ArrowRight");
    await page.locator(".answer .sign").first().waitFor();
    assert.match(await page.locator(".answer .sign").first().textContent(), /Too tight/);
  }),
);

test(
  "a job from the engine to the report",
  on(DESKTOP, async ({ page, open }) => {
    const { title } = example("v-twin");
    await open();
    await tabTo(page, /Whole engine/);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Whole engine" }).waitFor();
    await tabTo(page, new RegExp(title));
    await page.keyboard.press("Enter");
    await tabTo(page, /Cautions, then stop 1/);
    await page.keyboard.press("Enter");
    await tabTo(page, /I have read this/);
    await page.keyboard.press("Space");
    await tabTo(page, /Go to the first stop/);
    await page.keyboard.press("Enter");
    for (let last = false; !last; ) {
      const valves = await page.locator(".valves button").count();
      for (let i = 0; i < valves; i += 1) {
        if (i > 0) {
          await tabTo(page, /Next: /);
          await page.keyboard.press("Enter");
        }
        for (const [side, leaf] of [
          ["goes", "0.10"],
          ["refuses", "0.12"],
        ]) {
          await tabTo(page, new RegExp(`\\.${side}\\|`));
          await page.keyboard.press("Enter");
          await tabTo(page, /Type it/);
          await page.keyboard.press("Enter");
          await tabTo(page, new RegExp(`\\.${side}\\.typed\\|`));
          await page.keyboard.type(leaf);
          await page.keyboard.press("Tab");
        }
      }
      const bar = page.locator(".peek .main");
      last = /Report/.test(await bar.textContent());
      await tabTo(page, last ? /^\|\|\|Report$/ : /Turn \d+/);
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
    await openText(page, example("inline-four"));
    await page.getByRole("checkbox").check();
    await page.getByRole("button", { name: "Go to the first stop" }).click();
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
