// The third step: the balance board, the idle, the air and the vacuum gauge, with the same answers as the native
// kernel; drawings at their numbers; its record on paper.
import assert from "node:assert/strict";
import test from "node:test";
import {
  DEMO,
  settle,
  document,
  told,
  refused,
  kept,
  squeezed,
  shown,
  has,
  answers,
  openPart,
  part,
  type,
  pick,
  hasAdvice,
  hasMeasured,
  hasBalance,
  straight,
  corners,
} from "./mixture-support.mjs";
import { DESKTOP, example, native, openText, PHONE, saved, setUp, shot, stage } from "./support.mjs";

const { on } = setUp();

test(
  "the third step is fetched when it is wanted, and begins with the cautions of the kernel",
  on(PHONE, async ({ page, open }) => {
    const asked = [];
    page.on("request", (request) => /lashwork_mixture/.test(request.url()) && asked.push(request.url()));
    await open("job");
    await openText(page, example("inline-four"));
    await page.getByRole("link", { name: "Mixture" }).waitFor();
    assert.deepEqual(asked, []);
    await page.getByRole("link", { name: "Mixture" }).click();
    await page
      .locator(".cautions li", { hasText: /petrol vapour/i })
      .first()
      .waitFor();
    assert.equal(asked.length, 1);
    const { cautions } = told({ ...example("inline-four"), mixture: {} });
    for (const danger of [
      /petrol vapour/i,
      /exhaust gas out of the room/i,
      /fan/i,
      /exhaust burn/i,
      /manual/i,
    ])
      assert.ok(
        cautions.some((caution) => danger.test(caution)),
        danger,
      );
    assert.deepEqual(await page.locator(".cautions li").allTextContents(), cautions);
    assert.equal(await page.getByRole("navigation", { name: "Parts of the mixture" }).count(), 0);
    await shot(page, "mixture-cautions-360", { whole: true });
    await page.getByRole("button", { name: settle }).click();
    await page.reload();
    await page.getByRole("heading", { name: "Order of work" }).waitFor();
    assert.equal(await page.locator(".card h2").last().textContent(), "To begin", "what is next");
    await shot(page, "mixture-begin-360", { whole: true });
  }),
);

test(
  "a balance typed on a phone is judged at every reading as by the native kernel",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document({}), "Balance");
    await shot(page, "mixture-balance-empty-360", { whole: true });
    await pick(page, "Carburettors or throttles", "3");
    await pick(page, "Read in", "mmhg");
    await page.getByText(/Still needed: .*reference/).waitFor();
    await pick(page, "The others are set to", "2");
    await pick(page, "Turned clockwise, it", "opens");
    const check = async () => {
      const typed = await kept(page);
      hasBalance(await answers(page), told(typed).mixture.balance);
      return typed.mixture.balance;
    };
    const looks = [
      ["1", 1, "200"],
      ["2", 1, "190"],
      ["3", 1, "230"],
    ];
    for (const [name, look, shows] of looks) {
      assert.equal(await page.getByLabel(`${name}, look 2`).count(), 0, "a round is not over");
      await type(page, `${name}, look ${look}`, shows);
      await check();
    }
    await shot(page, "mixture-balance-one-look-360", { whole: true });
    await type(page, "1, look 2", "202");
    await check();
    await type(page, "3, look 2", "228");
    await type(page, "Book: apart by at most", "20");
    const typed = await check();
    assert.deepEqual(typed, {
      throttles: ["1", "2", "3"],
      reference: "2",
      joints: [
        { between: ["1", "2"], by: "screw", clockwise: "opens" },
        { between: ["2", "3"], by: "screw" },
      ],
      unit: "mmhg",
      vacuum: {
        readings: [
          { throttle: "1", shows: ["200 mmHg", "202 mmHg"] },
          { throttle: "2", shows: ["190 mmHg"] },
          { throttle: "3", shows: ["230 mmHg", "228 mmHg"] },
        ],
        allowed: "20 mmHg",
      },
    });
    await page.getByRole("button", { name: "Add a trial" }).click();
    await type(page, "Turned clockwise by", "90");
    await type(page, "One beyond showed", "210");
    await type(page, "And after it", "200");
    await check();
    await page.getByLabel("Trial 1: screw").selectOption("2 – 3");
    const tried = await check();
    assert.deepEqual(tried.vacuum.trials, [
      { between: ["2", "3"], turn: "90 deg", before: "210 mmHg", after: "200 mmHg" },
    ]);
    const found = told(await kept(page)).mixture.balance;
    assert.ok(
      found.turns.some(({ degrees }) => degrees !== null),
      "and how far",
    );
    await shot(page, "mixture-balance-360", { whole: true });
    await pick(page, "Strictness", "iso_14253_1");
    assert.equal((await check()).rule, "iso_14253_1");
    // A compression that is not right is no matter of a screw.
    await type(page, "All opened alike", "0.02");
    await page.getByText("What was found of single cylinders").click();
    await pick(page, "Cylinder of 3: compression", "not_right");
    await pick(page, "Cylinder of 1: compression", "right");
    await pick(page, "Cylinder of 3: valve clearances", "right");
    assert.deepEqual((await check()).cylinders.found, [
      { throttle: "1", compression: "right" },
      { throttle: "3", compression: "not_right", clearances: "right" },
    ]);
    await pick(page, "Cylinder of 3: compression", "");
    await pick(page, "Cylinder of 3: valve clearances", "");
    await pick(page, "Cylinder of 1: compression", "");
    assert.deepEqual((await check()).cylinders, { set_alike: 0.02 });
    // A reading that is taken out takes its field with it.
    await type(page, "1, look 2", "");
    assert.deepEqual((await check()).vacuum.readings[0].shows, ["200 mmHg"]);
  }),
);

test(
  "a plank is as long as the throttle is off, the doubt and what is allowed on the same scale",
  on(PHONE, async ({ page, open }) => {
    const asked = example(DEMO);
    await openPart(page, open, asked, "Balance");
    const { balance } = told(asked).mixture;
    hasBalance(await answers(page), balance);
    const [drawn, numbers] = [[], []];
    const planks = page.locator(".card svg.plank");
    for (const [i, throttle] of balance.throttles.entries()) {
      const plank = planks.nth(i);
      const band = corners((await plank.locator(".band").getAttribute("d")).replace(/[HV]/g, " "));
      drawn.push(band[0][0]);
      numbers.push(-balance.allowed);
      if (throttle.is_reference) {
        assert.equal(await plank.locator(".bar, .doubt").count(), 0);
        continue;
      }
      const bar = await plank.locator(".bar").getAttribute("d");
      const [, middle, end] = /^M([\d.]+) 8H([\d.]+)/.exec(bar);
      drawn.push(+middle, +end);
      numbers.push(0, throttle.over_reference);
      const doubt = await plank.locator(".doubt").getAttribute("d");
      const [, from, to] = /^M([\d.]+) .*H([\d.]+)m/.exec(doubt);
      drawn.push(+from, +to);
      numbers.push(
        throttle.over_reference - throttle.over_reference_u,
        throttle.over_reference + throttle.over_reference_u,
      );
    }
    straight(drawn, numbers, "over the reference");
    // As many arrows as screws whose way is known, each as long as its turn.
    const known = balance.turns.filter(({ clockwise }) => clockwise !== null);
    const arrows = await page
      .locator(".card .screw .way")
      .evaluateAll((all) => all.map((path) => path.getTotalLength()));
    assert.equal(arrows.length, known.length);
    arrows.forEach((length, i) => {
      const degrees = Math.min(Math.max(Math.abs(known[i].degrees), 12), 340);
      assert.ok(Math.abs(length - (28 * degrees * Math.PI) / 180) < 0.5, `${length} for ${degrees}`);
    });
    await shot(page, "mixture-demo-balance-360", { whole: true });
  }),
);

test(
  "throttles on one shaft, a flow, and a loop that cannot be",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document({}), "Balance");
    await pick(page, "Carburettors or throttles", "2");
    await pick(page, "The others are set to", "1");
    await pick(page, "Read in", "kg/h");
    await type(page, "1, look 1", "6.0");
    await type(page, "2, look 1", "5.0");
    await type(page, "Needle swings from", "5.9");
    await type(page, "Needle swings to", "6.1");
    await type(page, "Book: apart by at most", "0.5");
    const typed = await kept(page);
    assert.deepEqual(Object.keys(typed.mixture.balance).sort(), ["flow", "joints", "reference", "throttles"]);
    hasBalance(await answers(page), told(typed).mixture.balance);
    await pick(page, "They are joined by", "shaft");
    const shaft = told(await kept(page)).mixture.balance;
    assert.equal(shaft.advice.action, "find_cause");
    hasBalance(await answers(page), shaft);
    for (const { text } of shaft.shafts) has(await answers(page), text);
    await shot(page, "mixture-balance-shaft-360", { whole: true });
    await page.locator(".card").getByLabel("Joint 1: between").selectOption("2");
    const [problem] = refused(await kept(page));
    await page.locator(".faults").first().waitFor();
    has(await shown(page, ".card .faults"), problem.message);
  }),
);

test(
  "idle typed on a phone: the crown is drawn at its numbers, and it says which screw is next",
  on(PHONE, async ({ page, open }) => {
    const idle = IDLE;
    await openPart(page, open, document({ balance: SETTLED }), "Idle");
    await pick(page, "The mixture screw lets in", "fuel");
    await type(page, "Idle speed, min", "1050");
    await type(page, "Idle speed, max", "1150");
    await type(page, "Mixture screw out", "2.75");
    await type(page, "Engine runs at", "1000");
    const ask = async () => {
      const typed = await kept(page);
      const found = told(typed).mixture.idle;
      hasAdvice(await answers(page), found.advice);
      has(await answers(page), found.verdict_text);
      if (found.speed) hasMeasured(await answers(page), found.speed);
      return { typed: typed.mixture.idle, found };
    };
    const slow = await ask();
    assert.match(slow.found.advice.text, /throttle stop/, "the speed first");
    await type(page, "Engine runs at", "1062");
    for (const [i, { out, speed }] of idle.readings.entries()) {
      await page.getByRole("button", { name: "Add a reading" }).click();
      await type(page, `Reading ${i + 1}: out`, out.split(" ")[0]);
      await page.locator(`[id="at.mixture.idle.readings.${i}.speed"]`).fill(speed.split(" ")[0]);
      await page.keyboard.press("Tab");
    }
    await type(page, "± of each speed", "8");
    const { typed, found } = await ask();
    assert.deepEqual(typed, idle);
    assert.match(found.advice.text, /mixture screw/);
    const picture = page.getByRole("img", {
      name: /^Speed over the place of the mixture screw, 5 readings: /,
    });
    has(squeezed(await picture.getAttribute("aria-label")), found.verdict_text);
    const dots = await picture
      .locator("circle")
      .evaluateAll((all) => all.map((c) => [+c.getAttribute("cx"), +c.getAttribute("cy")]));
    const line = corners(
      (await picture.locator("path[stroke-width='3']").getAttribute("d")).replace(/[ML]/g, " "),
    );
    assert.equal(line.length, found.points.length);
    const fan = corners((await picture.locator(".fan").getAttribute("d")).replace(/[ML]/g, " "));
    const under = fan.slice(0, found.points.length);
    const all = [...found.readings, ...found.points];
    straight(
      [...dots, ...line].map(([x]) => x),
      all.map(({ turns }) => turns),
      "place",
    );
    straight(
      [...dots, ...line].map(([, y]) => -y),
      all.map(({ rpm }) => rpm),
      "speed",
    );
    const inside = found.points.flatMap(({ low_rpm, rpm }, i) => (low_rpm > 960 ? [[i, low_rpm, rpm]] : []));
    straight(
      inside.flatMap(([i]) => [-under[i][1], -line[i][1]]),
      inside.flatMap(([, low, rpm]) => [low, rpm]),
      "band",
    );
    await picture.getByText("set here").waitFor();
    await page.getByText("As numbers").click();
    await shot(page, "mixture-idle-360", { whole: true });
    await pick(page, "It wants the screw", "lean");
    await page.getByText(/Still needed: .*drop/).waitFor();
    await type(page, "Fall in speed", "20");
    const lean = await ask();
    assert.deepEqual(lean.typed.beside, { side: "lean", drop: "20 rpm" });
    assert.notEqual(lean.found.wanted_turns, found.wanted_turns);
    await type(page, "Speed rises, leaned out", "30");
    const { rise } = (await ask()).found;
    assert.ok(rise.by_rules.length > 1, "rules that do not agree");
    for (const { text } of [rise, ...rise.by_rules]) has(await answers(page), text);
    await pick(page, "It wants the screw", "highest_speed");
    const highest = (await kept(page)).mixture.idle;
    assert.deepEqual([highest.set_to, highest.beside], ["highest_speed", undefined]);
    const isAssumed = (document) =>
      told(document).assumptions.some(({ place }) => place === "/mixture/idle/set_to");
    assert.ok(!isAssumed(await kept(page)), "what is said is not assumed");
    await pick(page, "It wants the screw", "");
    const { set_to, beside } = (await kept(page)).mixture.idle;
    assert.deepEqual([set_to, beside], [undefined, undefined]);
  }),
);

/** Idle speeds of an engine that runs fastest at some two turns out. */
const IDLE = {
  screw: "fuel",
  wanted: {
    from: "1050 rpm",
    to: "1150 rpm",
  },
  readings: [
    {
      out: "1 turns",
      speed: "960 rpm",
    },
    {
      out: "1.5 turns",
      speed: "1060 rpm",
    },
    {
      out: "2 turns",
      speed: "1105 rpm",
    },
    {
      out: "2.5 turns",
      speed: "1090 rpm",
    },
    {
      out: "3 turns",
      speed: "1030 rpm",
    },
  ],
  uncertainty: "8 rpm",
  now: {
    out: "2.75 turns",
    speed: "1062 rpm",
  },
};

/** A pair that shares the work. */
const SETTLED = {
  throttles: ["1", "2"],
  reference: "1",
  joints: [{ between: ["1", "2"], by: "screw" }],
  vacuum: {
    readings: [
      { throttle: "1", shows: ["20 kPa"] },
      { throttle: "2", shows: ["20 kPa"] },
    ],
    scatter: "0.1 kPa",
    allowed: "2 kPa",
  },
};

test(
  "the air around: a barometer set to sea level is taken down to the place",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document({}), "Air");
    await type(page, "Barometer shows", "1016");
    await page.getByText(/Still needed: /).waitFor();
    await pick(page, "It is set to", "sea_level");
    assert.equal(await page.locator(".answer").count(), 0);
    await type(page, "Temperature of the intake air", "24");
    await type(page, "Humidity", "35");
    await type(page, "Height of the place", "1400");
    const { mixture } = await kept(page);
    assert.deepEqual(mixture.air, {
      barometer: { shows: "1016 hPa", set_to: "sea_level" },
      temperature: "24 C",
      humidity: "35 %",
      altitude: "1400 m",
    });
    const high = told(await kept(page)).mixture.air;
    has(await answers(page), high.text);
    await shot(page, "mixture-air-360", { whole: true });
    await pick(page, "It is set to", "place");
    const there = told(await kept(page)).mixture.air;
    assert.ok(there.ratio > high.ratio + 0.1 && there.doubt !== null);
    has(await answers(page), there.text);
    has(await answers(page), there.doubt);
  }),
);

test(
  "what a vacuum gauge shows is weighed as by the native kernel, the height's share taken off",
  on(PHONE, async ({ page, open }) => {
    const { air } = example(DEMO).mixture;
    await openPart(page, open, document({ air }), "Vacuum gauge");
    await shot(page, "mixture-gauge-empty-360", { whole: true });
    await pick(page, "Gauge is marked in", "inhg");
    await type(page, "It shows", "15");
    await pick(page, "The needle", "regular_drop");
    await type(page, "It moves by", "4");
    await pick(page, "Run faster, the needle", "same");
    await type(page, "Cylinders on this manifold", "4");
    await pick(page, "Camshaft with much overlap", "false");
    await pick(page, "Compression", "even");
    const typed = await kept(page);
    assert.deepEqual(typed.mixture.gauge, {
      unit: "inhg",
      level: "15 inHg",
      movement: "regular_drop",
      drop: "4 inHg",
      with_speed: "same",
      cylinders: 4,
      high_overlap: false,
      compression: "even",
    });
    const { gauge } = told(typed).mixture;
    const text = await answers(page);
    has(text, gauge.verdict_text);
    has(text, gauge.level_text);
    hasAdvice(text, gauge.advice);
    if (gauge.next) has(text, gauge.next.text);
    const bars = await page
      .locator(".card .answer .shape")
      .evaluateAll((all) => all.map((path) => path.getBBox().width));
    assert.equal(bars.length, gauge.causes.length);
    straight([0, ...bars, 320], [0, ...gauge.causes.map(({ probability }) => probability), 1], "chance");
    for (const { text: cause } of gauge.causes) has(text, cause);
    await shot(page, "mixture-gauge-360", { whole: true });
  }),
);

/** What a printer would get: the text that is there on paper. */
async function onPaper(page) {
  await page.emulateMedia({ media: "print" });
  const text = squeezed(await page.locator("body").innerText());
  await page.emulateMedia({ media: "screen" });
  return text;
}

test(
  "a document of the mixture alone is opened, printed and kept as it was",
  on(DESKTOP, async ({ page, open }) => {
    const asked = example(DEMO);
    await openPart(page, open, asked);
    await page.getByRole("button", { name: "Report of the mixture" }).click();
    const { mixture, cautions, assumptions } = told(asked);
    const text = await onPaper(page);
    for (const one of [...cautions, ...mixture.steps, ...assumptions]) has(text, one.text ?? one);
    has(text, mixture.air.text);
    hasBalance(text, mixture.balance);
    has(text, mixture.idle.advice.text);
    assert.ok(mixture.idle.advice.action === "settle_first" && !text.includes("set here"));
    assert.doesNotMatch(text, /still needed|take out|look 1/);
    await shot(page, "mixture-report-desktop", { whole: true });
    const downloaded = page.waitForEvent("download");
    await page.getByRole("button", { name: "Save as a file" }).click();
    let file = "";
    for await (const piece of await (await downloaded).createReadStream()) file += piece;
    assert.deepEqual(JSON.parse(file), asked);
  }),
);

test(
  "the report of a job holds its mixture beside the rest, each caution once",
  on(DESKTOP, async ({ page, open }) => {
    const { ignition } = example("opposed-four-ignition");
    const { mixture } = example(DEMO);
    const whole = { ...example("inline-four"), ignition: { contacts: ignition.contacts }, mixture };
    await open("job");
    await openText(page, whole);
    await stage(page, "Report");
    await page.getByRole("heading", { name: "Ignition: order of work" }).waitFor();
    await page.getByRole("heading", { name: "Mixture: order of work" }).waitFor();
    const report = told(whole);
    const text = await onPaper(page);
    for (const one of [...report.cautions, ...report.assumptions]) has(text, one.text ?? one);
    for (const { text: one } of report.mixture.stop_work) has(text, one);
    assert.equal(text.split("petrol vapour").length, 2);
    assert.equal(text.split("high voltage").length, 2);
    // What is not settled before it takes its amounts.
    hasBalance(text, report.mixture.balance);
    assert.equal(report.mixture.balance.advice.action, "settle_first");
  }),
);

test(
  "what is wrong in the mixture stops neither the valves nor the ignition, and the other way round",
  on(DESKTOP, async ({ page, open }) => {
    const broken = {
      ...example("inline-four"),
      ignition: { contacts: { dwell: { shows: "many" } } },
      mixture: { idle: { screw: "fuel", wanted: { from: "fast" } }, timing: "settled" },
    };
    await open("job");
    await openText(page, broken);
    const stages = page.getByRole("navigation", { name: "Stages" });
    assert.equal(await stages.getByRole("button", { name: "Report" }).isEnabled(), true);
    await page.getByRole("link", { name: "Mixture" }).click();
    await page.getByText(/^Petrol vapour/).waitFor();
    await page.getByRole("button", { name: settle }).click();
    await page.locator(".problems").waitFor();
    assert.doesNotMatch(await shown(page, ".problems"), /many/, "of the ignition");
    await part(page, "Idle");
    assert.equal(await page.getByLabel("Idle speed, min").getAttribute("aria-invalid"), "true");
    await type(page, "Idle speed, min", "800");
    await page.locator(".answer").waitFor();
    const { ignition: _, ...rest } = (await saved(page, "job")).document;
    const { steps, idle } = told(rest).mixture;
    const order = await shown(page, '[aria-label="Order of work"]');
    for (const { text } of steps) has(order, text);
    hasAdvice(await answers(page), idle.advice);
    await page.getByRole("link", { name: "Ignition" }).click();
    await page.getByRole("button", { name: settle }).click();
    assert.match(await shown(page, ".problems"), /many/);
  }),
);
