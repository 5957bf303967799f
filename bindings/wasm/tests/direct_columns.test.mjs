// Columns against the shared direct calls, to the bit.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import * as lashwork from "../pkg/node.js";
import { CALLS } from "./doors/calls.mjs";
import { root } from "./support.mjs";

const { CONTRADICTIONS, LOOKS, LashworkError, densityColumns, driftColumns, lambdaColumns, leakColumns } = lashwork;
const floats = (numbers) => Float64Array.from(numbers);
const NOT_A_NUMBER = "0x7ff8000000000000";
const first = ([number]) => number === NOT_A_NUMBER;

/** Each call: the file of its cases, the fewest rows in them, and how a row shows that it was refused. */
const COLUMNS = {
  judge_columns: ["judging", 80, ([verdict]) => verdict === 0],
  lambda_of_columns: ["mixture_gas", 7, first],
  density_of_columns: ["mixture_air", 8, first],
  leak_of_columns: ["condition_leak", 7, first],
  drift_of_columns: ["history", 8, ([, , look]) => LOOKS[look] === "refused"],
};

for (const [name, [file, least, isRefused]] of Object.entries(COLUMNS)) {
  test(`${name} has the bits of the direct calls`, () => {
    let rows = 0;
    for (const { id, call, in: given, out } of JSON.parse(readFileSync(join(root, `tests/direct/${file}.json`), "utf8")).cases) {
      const answer = call === name && out !== undefined && CALLS[name](lashwork, given);
      if (answer) {
        assert.deepEqual(answer.out.flat(), out, id);
        const refused = answer.out.flatMap((row, at) => (isRefused(row) ? [`/rows/${at}`] : []));
        assert.deepEqual(answer.refused.map(({ place }) => place), refused, id);
        rows += answer.out.length;
      }
    }
    assert.ok(rows >= least, `${rows} rows`);
  });
}

test("wrong settings and columns of leaks and drifts are refused", () => {
  const code = (work) => {
    try {
      work();
    } catch (why) {
      assert.ok(why instanceof LashworkError);
      return why.problems.map((problem) => `${problem.place} ${problem.code}`).join(", ");
    }
    return "nothing thrown";
  };
  const leaks = { shown: floats([400]), air: floats([101]) };
  const uncertainty = { supply: "3 kPa", orifice: "0.01 mm", shown: "4 kPa", air: "0.5 kPa" };
  const tester = { supply: "80 psi", orifice: "0.040 in", uncertainty };
  assert.ok(leakColumns(leaks, tester).area[0] > 0.5);
  assert.equal(code(() => leakColumns(leaks, { ...tester, supply: "80" })), "/supply quantity.no-unit");
  assert.equal(code(() => leakColumns(leaks, { ...tester, orifice: "40 mm" })), " condition.leak-orifice");
  assert.equal(
    code(() => leakColumns(leaks, { ...tester, uncertainty: { ...uncertainty, shown: "-4 kPa" } })),
    "/uncertainty/shown tolerance.uncertainty",
  );
  assert.equal(code(() => leakColumns({ ...leaks, air: floats([]) }, tester)), " document.wrong-length");
  const gaps = floats([0.3, 0.28, 0.26]);
  const past = { at: floats([0, 50, 100]), low: gaps, high: gaps, uncertainty: floats([0, 0, 0]), valve: floats([0, 0, 0]) };
  const settings = { limits: { from: "0.20 mm" }, rule: "guarded_tight", counted_by: "hours" };
  assert.equal(LOOKS[driftColumns(past, 1, settings).look[0]], "at");
  assert.equal(code(() => driftColumns(past, 1, { ...settings, counted_by: "weeks" })), "/counted_by document.unknown-value");
  assert.equal(code(() => driftColumns(past, 1, { ...settings, bedding_in: "500 km" })), "/bedding_in history.meter");
  assert.equal(code(() => driftColumns({ ...past, valve: floats([0, 1, 0]) }, 2, settings)), " history.not-together");
  assert.equal(code(() => driftColumns({ ...past, valve: floats([0, 0, 0.5]) }, 1, settings)), "/valve/2 document.unknown-value");
  assert.equal(code(() => driftColumns({ ...past, state: floats([1, 1, 7]) }, 1, settings)), "/state/2 document.unknown-value");
  assert.equal(code(() => driftColumns({ ...past, low: floats([0.3]) }, 1, settings)), " history.column-lengths");
  assert.equal(code(() => driftColumns(past, 1.5, settings)), " package.argument");
});

test("wrong settings and columns of mixture are refused", () => {
  const code = (work) => {
    try {
      work();
    } catch (why) {
      assert.ok(why instanceof LashworkError);
      return why.problems.map((problem) => `${problem.place} ${problem.code}`).join(", ");
    }
    return "nothing thrown";
  };
  const one = floats([14]);
  const gas = { co2: one, co: floats([1]), o2: floats([0.5]), hc: floats([100]) };
  const settings = { fuel: "E10", class: "0", shown_as: "hexane" };
  assert.equal(CONTRADICTIONS[lambdaColumns(gas, settings).contradiction[0]], "none");
  assert.equal(code(() => lambdaColumns(gas, { ...settings, fuel: "petrol" })), "/fuel mixture.fuel-formula");
  assert.equal(code(() => lambdaColumns(gas, { ...settings, class: "II" })), "/class document.unknown-value");
  assert.equal(code(() => lambdaColumns(gas, { fuel: "E10", class: "0" })), " document.missing-field");
  assert.equal(code(() => lambdaColumns({ ...gas, hc: floats([]) }, settings)), " document.wrong-length");
  assert.equal(code(() => lambdaColumns({ ...gas, hc: [100] }, settings)), " package.argument");
  const air = { pressure: floats([101]), temperature: floats([20]), humidity: floats([50]) };
  const uncertainty = { pressure: "0.3 kPa", temperature: "1 K", humidity: "5 %" };
  assert.ok(densityColumns(air, { uncertainty }).density[0] > 1.1);
  assert.equal(code(() => densityColumns(air, { uncertainty: { ...uncertainty, pressure: "0.3" } })), "/uncertainty/pressure quantity.no-unit");
  assert.equal(code(() => densityColumns({ ...air, humidity: undefined }, { uncertainty })), " package.argument");
});
