// The third step's exhaust gas, jets and fuel level: the same answers as the native kernel, contradictions before numbers.
import assert from "node:assert/strict";
import test from "node:test";
import {
  document,
  told,
  refused,
  kept,
  squeezed,
  shown,
  has,
  answers,
  openPart,
  type,
  pick,
  hasAdvice,
  hasMeasured,
  straight,
} from "./mixture-support.mjs";
import { native, PHONE, setUp, shot } from "./support.mjs";

const { on } = setUp();

/** The air in which jets were right, and that they go to. */
const LOW = { altitude: "200 m" };
const HIGH = { altitude: "2200 m" };

test(
  "gases typed on a phone: lambda with its doubt, judged and turned as by the native kernel",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document({ fuel: "E10" }), "Exhaust gas");
    await shot(page, "mixture-gas-empty-360", { whole: true });
    await type(page, "CO in %", "5.5");
    const alone = told(await kept(page)).mixture.gas;
    assert.equal(alone.lambda.is_from_co_alone, true);
    has(await answers(page), alone.lambda.text);
    await type(page, "CO₂ in %", "11.5");
    await type(page, /^O₂ in %/, "0.6");
    await type(page, "HC in ppm", "250");
    await pick(page, "HC is shown as", "hexane");
    await pick(page, "The engine ran", "idle");
    await pick(page, "It was warm", "true");
    await pick(page, "Probe as deep", "true");
    await pick(page, "No air is put", "true");
    await pick(page, "Class on its plate", "0");
    await pick(page, "The mixture screw lets in", "fuel");
    await type(page, "CO, min", "1.5");
    await type(page, "CO, max", "3.5");
    const typed = await kept(page);
    assert.deepEqual(typed.mixture.gas, {
      co: "5.5 %",
      co2: "11.5 %",
      o2: "0.6 %",
      hc: { read: "250 ppm", shown_as: "hexane" },
      read_at: "idle",
      warm: true,
      probe_deep: true,
      air_injection_off: true,
      class: "0",
      screw: "fuel",
      limits: { co: { from: "1.5 %", to: "3.5 %" } },
    });
    const { gas } = told(typed).mixture;
    const text = await answers(page);
    has(text, gas.verdict_text);
    has(text, gas.lambda.text);
    hasMeasured(text, gas.judged.co);
    hasAdvice(text, gas.advice);
    assert.equal(gas.judged.co.verdict, "above");
    const scale = await page.locator(".card .answer svg").evaluate((svg) => {
      const at = [...svg.querySelectorAll("g text")].map((text) => [
        +text.textContent,
        +text.getAttribute("x"),
      ]);
      const bar = svg.querySelector(".shape").getBBox();
      return [...at, ["from", bar.x], ["to", bar.x + bar.width]];
    });
    const ends = { from: gas.lambda.from.lambda, to: gas.lambda.to.lambda };
    straight(
      scale.map(([, x]) => x),
      scale.map(([ratio]) => ends[ratio] ?? ratio),
      "lambda",
    );
    await shot(page, "mixture-gas-360", { whole: true });
  }),
);

test(
  "air drawn in at the probe is said before any number, and nothing is judged or turned",
  on(PHONE, async ({ page, open }) => {
    const gas = { co: "5.5 %", co2: "9.5 %", o2: "4.5 %", hc: { read: "250 ppm", shown_as: "hexane" } };
    const limits = { lambda: { from: "0.97 lambda", to: "1.03 lambda" } };
    const asked = document({ fuel: "E0", gas: { ...gas, limits, warm: true, class: "0" } });
    await openPart(page, open, asked, "Exhaust gas");
    const found = told(asked).mixture.gas;
    assert.ok(found.contradictions.length > 0 && !found.is_judged);
    const text = await answers(page);
    const place = (words) => (has(text, words), text.indexOf(squeezed(words)));
    for (const { text: what, causes } of found.contradictions) {
      assert.ok(place(what) < text.lastIndexOf(squeezed(found.lambda.text)), what);
      for (const cause of causes) (has(text, cause.text), has(text, cause.look));
    }
    hasAdvice(text, found.advice);
    assert.equal(await page.locator(".card .answer svg").count(), 0, "no picture of what is not the mixture");
    await shot(page, "mixture-gas-doubt-360", { whole: true });
  }),
);

test(
  "jets typed on a phone: every size with what it gives, theory and the book's steps side by side",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document({ air: HIGH }), "Jets");
    await shot(page, "mixture-jets-empty-360", { whole: true });
    await type(page, "Height of the place", "200");
    await page.getByRole("button", { name: "Add a main jet" }).click();
    await type(page, "Number on it", "120");
    await pick(page, "The number is", "flow");
    await type(page, "Sizes there are", "105 108 110 112 115 118 120");
    await type(page, "Lambda with it", "0.9");
    await type(page, "± lambda", "0.02");
    const typed = await kept(page);
    assert.deepEqual(typed.mixture.jets, {
      set_for: LOW,
      fitted: [
        {
          circuit: "main",
          number: 120,
          numbering: "flow",
          sizes: [105, 108, 110, 112, 115, 118, 120],
          lambda: "0.9 lambda",
          lambda_uncertainty: 0.02,
        },
      ],
    });
    const [jet] = told(typed).mixture.jets.jets;
    const text = await answers(page);
    has(text, jet.verdict_text);
    for (const one of [...jet.rules, ...jet.cautions]) has(text, one.text);
    has(text, jet.rules_text);
    hasAdvice(text, jet.advice);
    const rows = await page.locator(".card .answer tbody tr").allInnerTexts();
    const numbers = [...jet.sizes, jet.kept].map(({ number }) => number);
    assert.deepEqual(
      rows.map((row) => parseFloat(row)),
      [...new Set(numbers)].sort((a, b) => a - b),
    );
    for (const size of [...jet.sizes, jet.kept]) {
      const row = squeezed(rows.find((row) => parseFloat(row) === size.number));
      for (const value of [size.lambda_from, size.lambda_to, size.lambda_u, size.back, size.back_u])
        has(row, value.toFixed(2));
      assert.equal(/fit this/.test(row), size.number === jet.fit);
      assert.equal(/fitted/.test(row), size.number === jet.fitted);
    }
    await shot(page, "mixture-jets-360", { whole: true });
    // What a book prints goes by height and temperature of both places.
    await type(page, "Book: down per 1000 ft up", "1");
    await type(page, "Book: down per 10 °F hotter", "0.5");
    const [problem] = refused(await kept(page));
    has(await shown(page, ".card .faults"), problem.message);
  }),
);

test(
  "fuel levels typed on a phone: the fuel that is burnt, what must be sure, then which way and how far to bend",
  on(PHONE, async ({ page, open }) => {
    await openPart(page, open, document({ fuel: "E10" }), "Fuel level");
    await shot(page, "mixture-float-empty-360", { whole: true });
    const card = await shown(page, ".card");
    assert.ok(card.indexOf("no flame") < card.indexOf("level, min"), "what burns comes first");
    const add = () => page.getByRole("button", { name: "Add a float chamber" }).click();
    const level = async (i, text) => {
      await page.locator(`[id="at.mixture.float.chambers.${i}.level"]`).fill(text);
      await page.keyboard.press("Tab");
    };
    await type(page, "Book: level, min", "-0.5");
    await type(page, "Book: level, max", "0.5");
    await add();
    await level(0, "-2.4");
    await add();
    // What is only begun waits.
    assert.equal(told(await whole(page)).mixture.float.chambers.length, 1);
    has(await answers(page), "too low");
    await level(1, "-2.6");
    await add();
    await level(2, "3.1");
    await type(page, "± of each level", "0.2");
    const check = async () => {
      const typed = await kept(page);
      const { float } = told(typed).mixture;
      const text = await answers(page);
      for (const { judged, advice, at_jet_text } of float.chambers) {
        hasMeasured(text, judged);
        hasAdvice(text, advice);
        if (at_jet_text) has(text, at_jet_text);
      }
      if (float.fuel) {
        has(text, float.fuel.text);
        assert.ok(text.indexOf(squeezed(float.fuel.text)) < text.indexOf("bend the tang"), "the fuel first");
      }
      return { typed: typed.mixture.float, float };
    };
    const { float } = await check();
    assert.deepEqual(
      float.chambers.map(({ judged }) => judged.verdict),
      ["below", "below", "above"],
    );
    assert.match(float.chambers[0].advice.text, /away from the needle/);
    assert.match(float.chambers[2].advice.text, /toward the needle/);
    const [sure] = float.chambers[0].advice.first;
    assert.equal((await answers(page)).split(squeezed(sure)).length, 2, "said once for two alike");
    await shot(page, "mixture-float-360", { whole: true });

    // Read with another fuel than it burns: both densities and how deep the float sits are asked for.
    await type(page, "Level was read with", "E0");
    await type(page, /^Density of the other/, "0.735");
    await type(page, "± density of the other", "0.004");
    const [problem] = refused(await kept(page));
    has(await shown(page, ".card .faults"), problem.message);
    await type(page, "Density of what it burns", "0.765");
    await type(page, "± that density", "0.004");
    await type(page, "The float sits so deep", "12");
    await type(page, "± that depth", "1");
    await page.getByText("Jet and nozzle").click();
    await type(page, "Nozzle over the mark", "2");
    await type(page, "Depression at it", "1");
    const { typed, float: other } = await check();
    assert.deepEqual(typed, {
      limits: { from: "-0.5 mm", to: "0.5 mm" },
      chambers: [
        { name: "1", level: "-2.4 mm" },
        { name: "2", level: "-2.6 mm" },
        { name: "3", level: "3.1 mm" },
      ],
      uncertainty: "0.2 mm",
      read_with: { fuel: "E0", density: "0.735 kg/l", uncertainty: "0.004 kg/l" },
      density: "0.765 kg/l",
      density_uncertainty: "0.004 kg/l",
      immersion: { depth: "12 mm", uncertainty: "1 mm" },
      nozzle: { over_mark: "2 mm", depression: "1 kPa" },
    });
    assert.ok(other.fuel.rises_by < 0, "lower in the denser fuel");
    assert.equal(other.chambers[2].runs_over, true);
    has(await shown(page, ".card .answer .problems"), other.chambers[2].at_jet_text);
    await shot(page, "mixture-float-fuel-360", { whole: true });
    // The fuel taken back takes its density along.
    await type(page, "Level was read with", "");
    assert.equal((await kept(page)).mixture.float.read_with, undefined);
  }),
);

/** What is kept, without a float chamber that is only begun. */
async function whole(page) {
  const typed = await kept(page);
  const chambers = typed.mixture.float.chambers.filter(({ level }) => level);
  return { ...typed, mixture: { ...typed.mixture, float: { ...typed.mixture.float, chambers } } };
}
