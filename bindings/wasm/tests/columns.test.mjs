// Columns: the same numbers as one reading at a time, and what is refused.

import assert from "node:assert/strict";
import { test } from "node:test";
import { LashworkError, VERDICTS, judgeColumns, lashText, shares, temperatureText } from "../pkg/node.js";
import * as quick from "../pkg/quick-node.js";
import { answers } from "./support.mjs";

/** A band as a report prints it, what it is in the other unit left out, and as a document states it. */
const band = (text) => {
  const printed = text.replace(/ \([^)]*\)/g, "");
  const both = /^(\S+ \S+) to (\S+ \S+)$/.exec(printed);
  const one = /^at (least|most) (\S+ \S+)$/.exec(printed);
  return both ? { from: both[1], to: both[2] } : { [one[1] === "least" ? "from" : "to"]: one[2] };
};
const column = (...numbers) => Float64Array.from(numbers);

test("each row is judged as the whole job judges it, to the bit", () => {
  let compared = 0;
  for (const { id, answer } of answers.jobs) {
    const report = JSON.parse(answer).report?.clearance;
    // A column holds gaps at the book's temperature; where no gap is that, a job judges none.
    const off = new Set(report?.specifications.filter((s) => s.not_at_reference).map((s) => s.id));
    const all = report?.valves.flatMap((v) => v.judged.filter((j) => !off.has(j.specification))) ?? [];
    for (const { low, high, normal_uncertainty_mm, limits, ...judged } of all) {
      const columns = {
        low: column(low?.mm ?? -Infinity),
        high: column(high?.mm ?? Infinity),
        uncertainty: column(normal_uncertainty_mm),
      };
      const found = judgeColumns(columns, { limits: band(limits), rule: report.rule });
      assert.equal(VERDICTS[found.verdict[0]], judged.verdict, id);
      assert.equal(found.provable[0] === 1, judged.provable, id);
      for (const side of ["below", "in_band", "above"]) {
        const { least, most } = judged.probabilities[side];
        assert.deepEqual([found[side].least[0], found[side].most[0]], [least, most], `${id} ${side}`);
      }
      compared += 1;
    }
  }
  assert.ok(compared >= 30, `${compared} compared`);
});

const SETTINGS = { limits: { from: "0.15 mm", to: "0.25 mm" }, rule: "simple" };

test("a row that cannot be judged is marked and named, and the others go on", () => {
  const found = judgeColumns(
    { low: column(0.1, 0.3, NaN, -Infinity, 0.2), high: column(0.12, 0.2, 1, Infinity, 0.2), uncertainty: column(0, 0, 0, 0, -1) },
    SETTINGS,
  );
  assert.deepEqual([...found.verdict], [2, 0, 0, 0, 0]);
  assert.ok(Number.isNaN(found.below.least[1]) && found.below.least[0] === 1);
  assert.deepEqual(
    found.refused.map(({ place, code }) => `${place} ${code}`),
    [
      "/rows/1 tolerance.crossed-estimate",
      "/rows/2 quantity.out-of-range",
      "/rows/3 tolerance.no-end",
      "/rows/4 tolerance.uncertainty",
    ],
  );
});

const WARM = {
  low: column(0.16, 0.1, 0.25, 0.16),
  high: column(0.18, 0.15, 0.3, 0.18),
  uncertainty: column(0.002, 0.004, 0.003, 0.002),
  at: column(45, 12, 80, 70),
  mm_per_kelvin: column(0.0004, -0.0003, 0.0006, NaN),
};
const WARMTH = { at_uncertainty: "2 K", reference: "20 C", mm_per_kelvin_uncertainty: 0.00005 };

test("a warm reading is that of the cold metal, with what the correction leaves uncertain", () => {
  const found = judgeColumns(WARM, { ...SETTINGS, warmth: WARMTH });
  const rise = WARM.at.map((celsius) => celsius + 273.15 - (20 + 273.15));
  const [changes, u] = [rise.map((kelvin, row) => WARM.mm_per_kelvin[row] * kelvin), found.uncertainty];
  for (const row of [0, 1, 2]) {
    assert.deepEqual([found.low[row], found.high[row]], [WARM.low[row] - changes[row], WARM.high[row] - changes[row]]);
    const squares = [WARM.uncertainty[row], rise[row] * 0.00005, WARM.mm_per_kelvin[row] * 2].map((part) => part ** 2);
    assert.ok(Math.abs(u[row] / Math.sqrt(squares[0] + squares[1] + squares[2]) - 1) < 1e-14);
  }
  // The cold readings judged as they are.
  const cold = judgeColumns({ low: found.low, high: found.high, uncertainty: u }, SETTINGS);
  assert.deepEqual([...cold.verdict.subarray(0, 3)], [...found.verdict.subarray(0, 3)]);
  assert.deepEqual(cold.below, found.below);
  assert.deepEqual([...found.at_reference], [1, 1, 1, 0]);
  assert.equal(VERDICTS[found.verdict[3]], "cannot_say");
});

test("a column says of each row what the settings say of all", () => {
  const all = judgeColumns(WARM, { ...SETTINGS, warmth: WARMTH });
  const each = judgeColumns(
    {
      ...WARM,
      lower: column(0.15, 0.15, 0.15, 0.15),
      upper: column(0.25, 0.25, 0.25, 0.25),
      at_uncertainty: column(2, 2, 2, 2),
      reference: column(20, 20, 20, 20),
      mm_per_kelvin_uncertainty: column(0.00005, 0.00005, 0.00005, 0.00005),
    },
    { rule: SETTINGS.rule },
  );
  assert.deepEqual(each, all);
  const none = judgeColumns({ ...WARM, lower: column(0.15, NaN, NaN, -Infinity), upper: column(NaN, 0.2, NaN, 0.2) }, { rule: "simple", warmth: WARMTH });
  assert.deepEqual(none.refused.map(({ place, code }) => `${place} ${code}`), ["/rows/2 tolerance.no-limit"]);
});

test("the small file draws and writes with the bits of the whole one", () => {
  const [gap, scale] = [{ low: 0.12, high: 0.15, uncertainty: 0.004 }, { from: 0.1, to: 0.3, bins: 64 }];
  assert.deepEqual(quick.shares(gap, scale), shares(gap, scale));
  assert.equal(quick.lashText(0.15, "in", 4), lashText(0.15, "in", 4));
  assert.equal(quick.temperatureText(20, "F", 1), temperatureText(20, "F", 1));
  assert.equal(quick.LashworkError, LashworkError);
});

test("wrong settings and columns are refused", () => {
  const one = { low: column(0.1), high: column(0.2), uncertainty: column(0) };
  const code = (columns, settings) => {
    try {
      judgeColumns(columns, settings);
    } catch (why) {
      assert.ok(why instanceof LashworkError);
      return `${why.path} ${why.code}`;
    }
    return "nothing thrown";
  };
  assert.equal(code({ ...one, high: column() }, SETTINGS), " document.wrong-length");
  assert.equal(code({ ...one, high: [0.2] }, SETTINGS), " package.argument");
  assert.equal(code({ ...one, lower: [0.2] }, SETTINGS), " package.argument");
  assert.equal(code({ ...one, lower: column(0.1, 0.2) }, SETTINGS), " tolerance.column-lengths");
  assert.equal(code(one, { ...SETTINGS, warmth: { at: "60" } }), "/warmth/at quantity.no-unit");
  assert.equal(code(undefined, SETTINGS), " package.argument");
  assert.equal(code(one, { limits: SETTINGS.limits }), " document.missing-field");
  assert.equal(code(one, { ...SETTINGS, rule: "strict" }), "/rule document.unknown-value");
  assert.equal(code(one, { ...SETTINGS, limits: { from: 0.15 } }), "/limits/from quantity.no-unit");
});

test("a hundred thousand rows take one call", () => {
  const rows = 100_000;
  const low = Float64Array.from({ length: rows }, (_, row) => 0.1 + row * 1e-6);
  const high = low.map((mm) => mm + 0.03);
  const uncertainty = new Float64Array(rows).fill(0.004);
  const start = performance.now();
  const { verdict, below } = judgeColumns({ low, high, uncertainty }, SETTINGS);
  const took = performance.now() - start;
  assert.equal(verdict.length, rows);
  assert.ok(below.least.every((p, row) => row === 0 || p <= below.least[row - 1]), "P(below) falls as the gap grows");
  console.log(`100,000 readings in ${took.toFixed(0)} ms`);
});
