// Whole jobs on two engines, compared with the native kernel; reload, undo, export and print in between.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import {
  chooseWay,
  countTaps,
  DESKTOP,
  example,
  native,
  openText,
  PHONE,
  saved,
  setUp,
  shot,
  stage,
  startJob,
  TABLET,
  tapLeaf,
  taps,
} from "./support.mjs";

const { on } = setUp();
const RECORD = {
  Date: "3 May",
  "Vehicle or machine": "invented launch",
  "Hours run": "1204 h",
  "Distance run": "none",
  Gauge: "my own",
  "Read by": "me",
};
const WORDS = { below: "Too tight", in_band: "In limits", above: "Too loose", cannot_say: "Not sure" };

/** The valves of a stop. */
const tiles = (page) => page.locator(".valves button");

/** Enters the readings of an example at the stop that is shown. */
async function readStop(page, document) {
  for (let i = 0; i < (await tiles(page).count()); i += 1) {
    await tiles(page).nth(i).click();
    const [, cylinder, kind] = /(\S+) (in|ex)/.exec(await tiles(page).nth(i).textContent());
    const valve = { in: "intake", ex: "exhaust" }[kind];
    const reading = document.clearance.readings.find((r) => r.cylinder === cylinder && r.valve === valve);
    for (const [side, leaf] of taps(reading)) await tapLeaf(page, `valve.${cylinder}.${valve}.1`, side, leaf);
    await page.locator(".valve-body .answer, .valve-body .first").first().waitFor();
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
  for (const valve of report.clearance.valves) {
    const [name, leaves, gap, verdict, todo] = found.find(([name]) => `cylinder ${name}` === valve.name);
    const [judged] = valve.judged;
    const marks = valve.reading.match(/[\d.]+(?= (?:mm|in)\b)/g) ?? [];
    // The last mark of a drag is its spread.
    const felt = /drags/.test(valve.reading) ? marks.slice(0, 1) : marks;
    for (const mark of felt) assert.ok(leaves.includes(mark), `${name}: ${leaves}, not ${valve.reading}`);
    assert.ok(verdict.includes(WORDS[judged.verdict]), `${name}: ${verdict}, not ${judged.verdict}`);
    assert.ok(
      todo.toLowerCase().includes(judged.advice.text.toLowerCase()),
      `${todo}: ${judged.advice.text}`,
    );
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
    await chooseWay(page, "Two stops");
    await readStop(page, document);
    const before = await saved(page, "job");
    await page.reload();
    assert.deepEqual(await saved(page, "job"), before, "nothing is lost on reload");
    await page.getByText("4 of 8 valves read").waitFor();
    await shot(page, "job-360", { whole: true });
    await page.getByRole("button", { name: "Turned 360° on, to stop 2" }).click();
    await readStop(page, document);
    await page.getByText("8 of 8 valves read").waitFor();
    await page.getByRole("button", { name: "To the report" }).click();
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
    await page.getByRole("link", { name: "Whole engine" }).click();
    await startJob(page, document.title);
    await chooseWay(page, "Cylinder by cylinder");
    await readStop(page, document);
    await page.getByRole("button", { name: "Turned 315° on, to stop 2" }).click();
    await readStop(page, document);
    await shot(page, "job-tablet");
    await page.getByRole("button", { name: "To the report" }).click();
    await compare(page, 4, true);
  }),
);

test(
  "a saved file opens again as it was",
  on(DESKTOP, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await openText(page, document);
    await stage(page, "Report");
    const text = await exported(page);
    assert.deepEqual(text, document);
    await page.getByRole("button", { name: "Save and close" }).click();
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
  "undo takes back one entry at a time, says which, goes to it and can be put back",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await startJob(page, document.title);
    await chooseWay(page, "Cylinder by cylinder");
    const readings = async () => (await saved(page, "job")).document.clearance.readings;
    await tapLeaf(page, "valve.1.intake.1", "goes", "0.18 mm");
    await tapLeaf(page, "valve.1.intake.1", "refuses", "0.20 mm");
    const both = await readings();
    await page.getByRole("button", { name: /^Turned \d+° on, to stop 2/ }).click();
    await page.getByText("Stop 2 of").waitFor();
    await page.getByRole("button", { name: "Undo: 1 intake, 0.18 goes, 0.20 not" }).click();
    await page.getByText("Taken back: 1 intake, 0.18 goes, 0.20 not.").waitFor();
    await page.getByText("Stop 1 of").waitFor();
    assert.equal(
      await page
        .locator('.valves [aria-pressed="true"]')
        .textContent()
        .then((t) => t.slice(0, 4)),
      "1 in",
    );
    const half = [{ cylinder: "1", valve: "intake", goes: ["0.18 mm"] }];
    assert.deepEqual(await readings(), half);
    await page.getByRole("button", { name: "Undo: 1 intake" }).click();
    assert.deepEqual(await readings(), []);
    await page.getByRole("button", { name: "Put back" }).click();
    await page.getByRole("button", { name: "Put back" }).click();
    assert.deepEqual(await readings(), both);
  }),
);

test(
  "a valve takes at most four taps, and the bar leads on to the next, the next stop and the report",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await startJob(page, document.title);
    await chooseWay(page, "Two stops");
    await page.getByRole("group", { name: /^Stop 1 of 2/ }).waitFor();
    const counted = await countTaps(page);
    for (let read = 0; read < 8; read += 1) {
      const before = await counted();
      const name = await page.locator('.valves [aria-pressed="true"]').textContent();
      const [, cylinder, kind] = /^(\S+) (in|ex)/.exec(name);
      const valve = { in: "intake", ex: "exhaust" }[kind];
      const [goes, refuses] = valve === "intake" ? ["0.18 mm", "0.20 mm"] : ["0.30 mm", "0.32 mm"];
      await page.locator(`label[for="valve.${cylinder}.${valve}.1.goes.leaf.${goes}"]`).tap();
      const tapped = page.locator(`label[for="valve.${cylinder}.${valve}.1.refuses.leaf.${refuses}"]`);
      const [low, top] = await tapped.evaluate((e) => [
        e.getBoundingClientRect().bottom,
        document.querySelector(".peek").getBoundingClientRect().top,
      ]);
      assert.ok(low <= top, `${name}: the leaf is in sight without scrolling, ${low} over ${top}`);
      await tapped.tap();
      const bar = page.locator(".peek");
      const [one, other] = [goes, refuses].map((leaf) => leaf.replace(" mm", ""));
      assert.match(await bar.textContent(), new RegExp(`${one} goes, ${other} not`));
      const main = bar.locator(".main");
      const words = await main.textContent();
      const wanted = read === 3 ? /Turn 360° to stop 2/ : read === 7 ? /Report/ : /Next: /;
      assert.match(words, wanted);
      await main.tap();
      assert.ok((await counted()) - before <= 4, name);
    }
    await page.getByRole("article", { name: "Report" }).waitFor();
    assert.equal((await saved(page, "job")).document.clearance.readings.length, 8);
    await page.getByRole("button", { name: "Back to the engine" }).click();
    await page.getByRole("group", { name: /^Stop 2 of 2/ }).waitFor();
  }),
);

test(
  "a valve with one side read is half read, and a reload comes back to it and to that side",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await startJob(page, document.title);
    await chooseWay(page, "Two stops");
    const second = tiles(page).nth(1);
    await second.click();
    const [, cylinder, kind] = /^(\S+) (in|ex)/.exec(await second.textContent());
    const name = `valve.${cylinder}.${{ in: "intake", ex: "exhaust" }[kind]}.1`;
    await tapLeaf(page, name, "goes", "0.18 mm");
    const before = await saved(page, "job");
    await page.reload();
    await page.getByText("0 of 8 valves read").waitFor();
    assert.deepEqual(await saved(page, "job"), before, "nothing is lost, nothing is invented");
    assert.match(await second.textContent(), /half read/);
    assert.equal(await second.getAttribute("aria-pressed"), "true");
    assert.equal(await page.locator(`[id="${name}.refuses"]`).getAttribute("aria-pressed"), "true");
    assert.equal(await page.locator(".peek .main").count(), 0, "no next step before the other side");
    const leaf = page.locator(`label[for="${name}.refuses.leaf.0.20 mm"]`);
    const { top, bottom } = await leaf.evaluate((e) => e.getBoundingClientRect());
    const bar = await page.locator(".peek").evaluate((e) => e.getBoundingClientRect().top);
    assert.ok(top > 0 && bottom <= bar, `its leaves are in sight: ${top} to ${bottom}, bar at ${bar}`);
    await leaf.click();
    await page.getByText("1 of 8 valves read").waitFor();
  }),
);

test(
  "what is set is read again, and both stand in the report",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    await open("job");
    await startJob(page, document.title);
    await chooseWay(page, "Cylinder by cylinder");
    await tapLeaf(page, "valve.1.intake.1", "goes", "0.10 mm");
    await tapLeaf(page, "valve.1.intake.1", "refuses", "0.12 mm");
    await page.locator(".peek").getByRole("button", { name: "I set it" }).click();
    await tapLeaf(page, "valve.1.intake.1", "goes", "0.20 mm");
    await tapLeaf(page, "valve.1.intake.1", "refuses", "0.22 mm");
    await page.reload();
    assert.match(await tiles(page).first().textContent(), /In limits/);
    const job = await saved(page, "job");
    assert.deepEqual(job.document.clearance.readings, [
      {
        cylinder: "1",
        valve: "intake",
        goes: ["0.10 mm"],
        refuses: ["0.12 mm"],
        left: { goes: ["0.20 mm"], refuses: ["0.22 mm"] },
      },
    ]);
    await stage(page, "Report");
    const [row] = await rows(page);
    assert.match(row[3], /Too tight/, "as found");
    assert.match(row[5], /0\.20 goes, 0\.22 not.*In limits/, "as left");
    await page.getByText("Date, hours, machine, name").click();
    for (const [label, said] of Object.entries(RECORD))
      await page.getByLabel(label, { exact: true }).fill(said);
    await page.keyboard.press("Tab");
    const file = await exported(page);
    assert.deepEqual(file.clearance.readings, job.document.clearance.readings);
    assert.deepEqual(file.record, {
      date: "3 May",
      machine: "invented launch",
      hours: "1204 h",
      distance: "none",
      gauge: "my own",
      by: "me",
    });
    const { report } = native(file);
    const [valve] = report.clearance.valves;
    assert.equal(valve.left.judged[0].verdict, "in_band");
    assert.equal(valve.judged[0].verdict, "below");
    assert.equal(report.record.machine, "invented launch");
    // What a file carries is shown again.
    await page.getByRole("button", { name: "Save and close" }).click();
    await openText(page, file);
    await page.getByRole("button", { name: "Report", exact: true }).click();
    assert.match((await rows(page))[0][5], /0\.20 goes, 0\.22 not.*In limits/);
    assert.match(await page.locator(".record").textContent(), /invented launch.*1204 h/);
  }),
);

test(
  "a joint finding stands above the valves and is read before the next one",
  on(PHONE, async ({ page, open }) => {
    const document = example("exchanged-four");
    await open("job");
    await openText(page, document);
    await page.getByRole("checkbox").check();
    await page.getByRole("button", { name: "Go to the first stop" }).click();
    const finding = page.getByRole("alert", { name: "Settle this first" });
    await finding.waitFor();
    const { report } = native(document);
    const said = report.clearance.stop_work?.[0].text ?? report.clearance.diagnosis.text;
    assert.ok((await finding.textContent()).toLowerCase().includes(said.toLowerCase()), said);
    const bar = page.locator(".peek");
    await bar.locator(".stop-work").click();
    assert.equal(await finding.evaluate((e) => e === document.activeElement), true);
    assert.equal(await bar.locator(".stop-work").count(), 0, "read once is enough");
    await stage(page, "Report");
    await page.getByRole("heading", { name: "Settle this before anything is set" }).waitFor();
  }),
);

test(
  "what no verdict hangs on is folded in the report, and stands on paper",
  on(PHONE, async ({ page, open }) => {
    const document = example("exchanged-four");
    const { assumptions } = native(document).report;
    const others = assumptions.filter((one) => one.bears_on === "other").length;
    assert.ok(others > 0 && others < assumptions.length);
    await open("job");
    await openText(page, document);
    await page.getByRole("checkbox").check();
    await page.getByRole("button", { name: "Go to the first stop" }).click();
    await stage(page, "Report");
    const assumed = page.locator(".sheet section", { has: page.getByRole("heading", { name: "Assumed" }) });
    const seen = () =>
      assumed.locator("li").evaluateAll((all) => all.filter((item) => item.checkVisibility()).length);
    await assumed.waitFor();
    assert.equal(await seen(), assumptions.length - others);
    await assumed.getByText(`What no verdict hangs on (${others})`).click();
    assert.equal(await seen(), assumptions.length);
    await page.emulateMedia({ media: "print" });
    assert.equal(await seen(), assumptions.length);
  }),
);

test(
  "jobs are put away and taken up again; none is lost for another",
  on(PHONE, async ({ page, open }) => {
    await open("job");
    await openText(page, example("v-twin"));
    await page.getByRole("button", { name: "Save and close" }).click();
    await openText(page, example("inline-four"));
    await page.getByRole("button", { name: "Save and close" }).click();
    await page.reload();
    await page.getByRole("heading", { name: "Jobs on this device" }).waitFor();
    await page
      .locator(".shelf")
      .getByRole("button", { name: example("v-twin").title })
      .first()
      .click();
    assert.deepEqual((await saved(page, "job")).document, example("v-twin"));
    await page.getByRole("button", { name: "Save and close" }).click();
    assert.equal((await saved(page, "shelf")).length, 2);
    page.on("dialog", (dialog) => dialog.accept());
    await page.getByRole("button", { name: `Delete ${example("v-twin").title}` }).click();
    assert.deepEqual(
      (await saved(page, "shelf")).map((job) => job.document),
      [example("inline-four")],
    );
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
    await page.getByRole("button", { name: "Cautions, then stop 1" }).click();
    await page.getByRole("heading", { name: "Before the crank is turned" }).waitFor();
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

/** The smallest letters of the report in points, as they are printed. */
const smallest = () => {
  const texts = [...document.querySelectorAll(".sheet *")].filter(
    (e) => e.checkVisibility() && [...e.childNodes].some((n) => n.nodeType === 3 && n.data.trim()),
  );
  return Math.min(...texts.map((e) => parseFloat(getComputedStyle(e).fontSize) * 0.75));
};

for (const [name, document, most] of [
  ...["inline-four", "v-eight-shims", "radial-nine", "upright-twin-warm"].map((name) => [
    name,
    example(name),
    2,
  ]),
  ["fifty-six-valves", everyValveRead(), 5],
]) {
  test(
    `the report of ${name} prints in letters of 9 points at least, cautions before the valves`,
    on(DESKTOP, async ({ page, open }) => {
      await open("job");
      await openText(page, document);
      await stage(page, "Report");
      const pdf = await page.pdf({
        preferCSSPageSize: true,
        path: new URL(`../shots/${name}.pdf`, import.meta.url).pathname,
      });
      const pages = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g).length;
      assert.ok(pages <= most, `${pages} pages`);
      await page.emulateMedia({ media: "print" });
      // 190 mm between the margins of A4: what is wider would be made smaller by the printer.
      await page.setViewportSize({ width: 718, height: 1000 });
      const wide = await page.evaluate(() => document.scrollingElement.scrollWidth);
      assert.ok(wide <= 718, `${wide} px wide on paper`);
      const points = await page.evaluate(smallest);
      assert.ok(points >= 9, `${points} points`);
      const order = await page.evaluate(() => {
        const seen = [...document.querySelectorAll(".sheet .mind, .sheet table")].filter((e) =>
          e.checkVisibility(),
        );
        return seen.map((e) => e.tagName);
      });
      assert.equal(order[0], "SECTION", "cautions first");
      for (const label of ["Date", "Hours run", "Read by"])
        assert.ok(await page.locator(".record dt", { hasText: label }).isVisible(), label);
      assert.ok(await page.locator(".box").first().isVisible(), "a box for what is set");
    }),
  );
}

test(
  "the head from above shows which valves are read here, what the book has, and what was found",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    document.clearance.readings = [];
    document.engine.cylinders.forEach((one, i) => (one.side = i % 2 ? "left" : "right"));
    await open("job");
    await openText(page, document);
    await page.getByRole("checkbox").check();
    await page.getByRole("button", { name: "Go to the first stop" }).click();
    const { plans, recommended } = native(document).report.clearance;
    const { stops } = plans[recommended.plan];
    const sorted = (all) => [...all].sort();
    /** What is drawn: of each cylinder its bank, the valves to tap, and how many others there are. */
    const drawn = () =>
      page.locator(".cylinder").evaluateAll((all) =>
        all.map((one) => ({
          side: one.parentElement.firstElementChild.textContent,
          name: one.firstElementChild.firstChild.textContent,
          lit: [...one.querySelectorAll("button")].map((e) => e.textContent),
          others: one.querySelectorAll("small > .seat").length,
        })),
      );
    const book = { intake: "0.20", exhaust: "0.30" };
    const short = { intake: "in", exhaust: "ex" };
    for (const { label, side } of document.engine.cylinders) {
      const one = (await drawn()).find(({ name }) => name === label);
      const here = stops[0].check.filter(({ cylinder }) => cylinder === label);
      assert.equal(one.side, side);
      assert.deepEqual(
        sorted(one.lit.map((text) => text.replace(", next", ""))),
        sorted(here.map(({ kind }) => `${label} ${short[kind]}${book[kind]}`)),
      );
      assert.equal(one.others, 2 - here.length, label);
    }
    const [first] = stops[0].check;
    const tile = tiles(page).filter({ hasText: `${first.cylinder} ${short[first.kind]}` });
    assert.equal(await tile.getAttribute("aria-pressed"), "true", "the first to read is ringed");
    const name = `valve.${first.cylinder}.${first.kind}.${first.number}`;
    await tapLeaf(page, name, "goes", "0.20 mm");
    await page.getByRole("button", { name: /half read/ }).waitFor();
    await tapLeaf(page, name, "refuses", "0.22 mm");
    await tile.getByText("In limits").waitFor();
    assert.doesNotMatch(await tile.textContent(), /0\.20/, "the verdict stands where the figure was");
    const next = page.locator(".valves .next");
    assert.equal(await next.count(), 1);
    // By keys alone to the ringed one.
    await next.focus();
    await page.keyboard.press("Enter");
    await page.locator(".valves .next").waitFor({ state: "detached" });
    await page.getByRole("button", { name: "Turned 360° on, to stop 2" }).click();
    await page.getByText("Stop 2 of").waitFor();
    const at = (await drawn()).findIndex(({ name }) => name === first.cylinder);
    const cylinder = page.locator(".cylinder").nth(at);
    assert.equal(await cylinder.locator("small > .seat.in_band").count(), 1, "it is still seen from stop 2");
  }),
);

test(
  "a reading as left that cannot be right is told, and what was found stays judged",
  on(PHONE, async ({ page, open }) => {
    const document = example("inline-four");
    document.clearance.readings[2].left = { goes: ["0.11 mm"] };
    await open("job");
    await openText(page, document);
    await stage(page, "Report");
    await page
      .getByRole("link", { name: /2 intake, as left/ })
      .or(page.getByText(/2 intake, as left/))
      .first()
      .waitFor();
    assert.equal((await rows(page)).length, 8);
  }),
);
