// The forms over a document: what is typed, what the kernel says to it, and what has no field stays.
import assert from "node:assert/strict";
import test from "node:test";
import { DESKTOP, example, native, PHONE, saved, setUp, TABLET } from "./support.mjs";

const { on } = setUp();

/** Opens a document and goes to its form. */
async function describe(page, document) {
  await page.getByLabel("or paste its text").fill(JSON.stringify(document));
  await page.getByRole("button", { name: "Open this text" }).click();
  await page.getByRole("button", { name: "Engine", exact: true }).click();
}

const fill = async (page, label, text) => {
  await page.getByLabel(label, { exact: true }).last().fill(text);
  await page.keyboard.press("Tab");
};

test(
  "an engine filled in from an empty sheet",
  on(DESKTOP, async ({ page, open }) => {
    await open("job");
    await page.getByRole("button", { name: "New engine" }).click();
    await page.getByLabel("Name of the job").fill("Invented single");
    await page.getByLabel("Title of the book or sheet").fill("Invented sheet");
    for (const [kind, set, from, to] of [
      ["intake", "0.10", "0.08", "0.12"],
      ["exhaust", "0.15", "0.13", "0.17"],
    ]) {
      const field = (step) => page.locator(`[id="at.specifications.0.${kind}.${step}"]`);
      await field("set_to").fill(set);
      await field("set.from").fill(from);
      await field("set.to").fill(to);
    }
    await page.keyboard.press("Tab");
    await page.getByRole("button", { name: "On to the engine" }).click();
    await page.getByRole("checkbox", { name: /I have read this/ }).check();
    await page.getByRole("button", { name: "Go to the first stop" }).click();
    await page.locator('label[for="valve.1.intake.1.goes.leaf.0.10 mm"]').click();
    await page.locator('label[for="valve.1.intake.1.refuses.leaf.0.12 mm"]').click();
    assert.match(await page.locator(".answer .sign").first().textContent(), /In band/);
  }),
);

test(
  "shims in the tin are filled in; the rest of the document stays",
  on(PHONE, async ({ page, open }) => {
    const document = example("v-eight-shims");
    await open("job");
    await describe(page, document);
    await page.getByRole("button", { name: "Take out shim 1" }).click();
    await page.getByRole("button", { name: "Add a shim" }).click();
    await fill(page, "Shim 3, marked in mm", "2,60");
    const { stock } = document.clearance.valves.shim;
    document.clearance.valves.shim.stock = [...stock.slice(1), { size: "2,60 mm", count: 1 }];
    assert.deepEqual((await saved(page, "job")).document, document);
    await page.getByRole("button", { name: "Report", exact: true }).click();
    await page.getByRole("heading", { name: /Which shim goes where/ }).waitFor();
  }),
);

test(
  "marks to stop at are filled in; the rest of the document stays",
  on(PHONE, async ({ page, open }) => {
    const document = example("v-eight-marks");
    const { marks } = document.clearance.plan;
    await open("job");
    await describe(page, document);
    await page.getByRole("button", { name: "Add a mark" }).click();
    await fill(page, `Mark ${marks.length + 1} reads`, "5/8");
    await page.getByLabel("After TDC in deg").last().fill("225");
    await page.keyboard.press("Tab");
    await page.getByLabel("Start with cylinder").selectOption(document.engine.firing_order[0]);
    marks.push({ label: "5/8", at: "225 deg" });
    [document.clearance.start] = document.engine.firing_order;
    assert.deepEqual((await saved(page, "job")).document, document);
    await page.getByRole("button", { name: "On to the engine" }).waitFor();
    await page.getByLabel("It can be stopped").selectOption("tdc");
    await page.locator('[id="at.plan.faults"], [id="at.plan.marks.faults"]').first().waitFor();
  }),
);

test(
  "cooling readings are filled in; the rest of the document stays",
  on(PHONE, async ({ page, open }) => {
    const document = example("upright-twin-warm");
    const { readings } = document.clearance.metal.cooling;
    await open("job");
    await describe(page, document);
    await page.getByRole("button", { name: "Add a reading" }).click();
    await fill(page, `Reading ${readings.length + 1}, after in min`, "70");
    const shows = page.getByLabel("Thermometer shows in C").last();
    await shows.fill("warm");
    await shows.press("Tab");
    assert.equal(await shows.getAttribute("aria-invalid"), "true");
    assert.equal(await shows.inputValue(), "warm");
    await shows.fill("34,5");
    await shows.press("Tab");
    readings.push({ after: "70 min", is: "34,5 C" });
    assert.deepEqual((await saved(page, "job")).document, document);
    await page.getByRole("button", { name: "On to the engine" }).waitFor();
  }),
);

test(
  "what is typed and not left yet outlives a closed tab",
  on(PHONE, async ({ page, context, open, address }) => {
    await open("job");
    await page.getByLabel("or paste its text").fill('{"lashwork": 1, "tit');
    await page.reload();
    assert.equal(await page.getByLabel("or paste its text").inputValue(), '{"lashwork": 1, "tit');
    await page.getByRole("button", { name: "New engine" }).click();
    const pitch = (of) => of.locator('[id="at.specifications.0.intake.set_to"]');
    await pitch(page).pressSequentially("0,1x");
    await page.close({ runBeforeUnload: true });
    const again = await context.newPage();
    await again.goto(`${address}#job`);
    assert.equal(await pitch(again).inputValue(), "0,1x");
    assert.equal(await pitch(again).getAttribute("aria-invalid"), "true");
    const text = again.locator('[id="document.text"]');
    await again.getByText("The document as text").click();
    await text.fill("{ torn");
    await again.reload();
    await again.getByText("The document as text").click();
    assert.equal(await text.inputValue(), "{ torn");
  }),
);

test(
  "a warmth without how sure it is takes what the kernel assumes, and says so",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    for (const one of document.clearance.metal.temperatures) delete one.uncertainty;
    await open("job");
    await page.getByLabel("or paste its text").fill(JSON.stringify(document));
    await page.getByRole("button", { name: "Open this text" }).click();
    await page.getByRole("button", { name: "Report", exact: true }).click();
    const { report } = native(document);
    const { text } = report.assumptions.find(({ code }) => code === "thermal.thermometer");
    await page.getByText(text, { exact: false }).first().waitFor();
    await page.getByRole("button", { name: "Engine", exact: true }).click();
    await page.getByText("How sure: not said").first().click();
    await page.getByText(text, { exact: false }).first().waitFor();
  }),
);

test(
  "the curve of gap against warmth follows the unit of warmth",
  on(TABLET, async ({ page, open }) => {
    await open("job");
    await page.getByLabel("or paste its text").fill(JSON.stringify(example("inline-four")));
    await page.getByRole("button", { name: "Open this text" }).click();
    await page.getByRole("link", { name: "Settings" }).click();
    await page.getByText("°F", { exact: true }).click();
    await page.getByRole("link", { name: "Charts" }).click();
    const curve = page.locator(".curve").first();
    assert.match(await curve.getAttribute("aria-label"), /at 40 °F to .* at 240 °F/);
    assert.match(await curve.textContent(), /°F/);
    await page.getByText("As numbers").first().click();
    // 40 F is 40/9 C: the set value as the native kernel gives it there.
    const document = example("inline-four");
    document.clearance.metal.curve = { from: "40 F", to: "240 F", step: "20 F" };
    const { report } = native(document);
    const cells = await page.locator("details[open] tbody tr").first().locator("td, th").allTextContents();
    const [point] = report.clearance.lash_curves[0].points;
    assert.deepEqual(cells.slice(0, 2), ["40 °F", `${point.lash.mm.toFixed(3)} mm`]);
  }),
);
