// The histogram of a gap and gaps as text: against probabilities of reports and the size of an inch.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LashworkError, lashText, shares, temperatureText } from "../pkg/node.js";
import { answers } from "./support.mjs";

test("bins between the limits add up to the chance of being in band", () => {
  let compared = 0;
  for (const { id, answer } of answers.jobs) {
    const { report } = JSON.parse(answer);
    for (const judged of report?.clearance?.valves.flatMap((valve) => valve.judged) ?? []) {
      const { low, high, limit_low, limit_high, normal_uncertainty_mm: uncertainty, probabilities } = judged;
      if (!low || !high || !limit_low || !limit_high || limit_low.mm >= limit_high.mm) continue;
      // A reading without any doubt that lies on an edge counts in both bins that touch it.
      if (uncertainty === 0 && low.mm === high.mm) continue;
      const scale = { from: limit_low.mm, to: limit_high.mm, bins: 64 };
      const bins = shares({ low: low.mm, high: high.mm, uncertainty }, scale);
      const sum = bins.reduce((all, one) => all + one, 0);
      assert.ok(Math.abs(sum - probabilities.in_band.least) < 1e-9, `${id}: ${sum} ${probabilities.in_band.least}`);
      compared += 1;
    }
  }
  assert.ok(compared >= 20, `${compared} compared`);
});

test("gaps as text; 25.4 mm to the inch exactly", () => {
  assert.equal(lashText(0.254, "in", 4), "0.0100 in");
  assert.equal(lashText(0.1524, "thou", 1), "6.0 thou");
  assert.equal(lashText(0.2, "mm", 3), "0.200 mm");
});

test("temperatures as text; 0 C is 32 F and 273.15 K", () => {
  assert.equal(temperatureText(0, "F", 0), "32 F");
  assert.equal(temperatureText(0, "K", 2), "273.15 K");
  assert.equal(temperatureText(100, "F", 1), "212.0 F");
});

test("what is not a valid histogram or text is refused", () => {
  const gap = { low: 0.1, high: 0.2, uncertainty: 0 };
  const scale = { from: 0, to: 0.3, bins: 8 };
  const refused = (code, work) =>
    assert.throws(work, (why) => why instanceof LashworkError && why.code === code);
  refused("package.argument", () => shares({ ...gap, low: "0.1" }, scale));
  refused("package.argument", () => shares(gap, { ...scale, bins: 1e9 }));
  refused("package.argument", () => shares(gap));
  refused("tolerance.bins", () => shares(gap, { ...scale, bins: 0 }));
  refused("tolerance.crossed-estimate", () => shares({ ...gap, low: 0.3 }, scale));
  refused("quantity.out-of-range", () => lashText(Number.NaN, "mm", 3));
  refused("quantity.unknown-unit", () => lashText(0.2, "ft", 3));
  refused("document.too-fine", () => lashText(0.2, "mm", 10));
  refused("quantity.out-of-range", () => temperatureText(-300, "C", 0));
  refused("quantity.unknown-unit", () => temperatureText(20, "R", 0));
  refused("package.argument", () => temperatureText("20", "C", 0));
});
