// Columns against the shared direct calls, to the bit.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import {
  CONTRADICTIONS,
  LOOKS,
  LashworkError,
  densityColumns,
  driftColumns,
  judgeColumns,
  lambdaColumns,
  leakColumns,
} from "../pkg/node.js";
import { root } from "./support.mjs";

const casesOf = (name) => JSON.parse(readFileSync(join(root, `tests/direct/${name}.json`), "utf8")).cases;
const cases = casesOf("judging");
const OWN = ["lower", "upper", "at", "at_uncertainty", "reference", "mm_per_kelvin", "mm_per_kelvin_uncertainty"];
const RULES = [, "guarded_tight", "simple", "iso_14253_1"];
const mm = (nanometres) => `${nanometres / 1e6} mm`;

/** A number as the direct calls write it: the bits of a float, or a code. */
const bits = (number) => {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, Number.isNaN(number) ? NaN : number);
  return `0x${view.getBigUint64(0).toString(16).padStart(16, "0")}`;
};

test("columns are judged with the bits of the direct calls", () => {
  let rows = 0;
  for (const { id, call, in: given, out } of cases) {
    if (call !== "judge_columns" || out === undefined) {
      continue;
    }
    const [span, from, to, rule, , , ends, low, high, uncertainty, ...own] = given;
    const limits = { ...(span !== 3 && { from: mm(from) }), ...(span !== 2 && { to: mm(to) }) };
    // An end that is open is infinite here and of a span of its own in the cases.
    const stated = own.map((numbers) => {
      const all = typeof numbers === "number" ? low.map(() => numbers) : numbers;
      return all?.map((number) => number ?? NaN);
    });
    const found = judgeColumns(
      {
        low: Float64Array.from(low, (end, row) => (ends?.[row] === 3 ? -Infinity : end)),
        high: Float64Array.from(high, (end, row) => (ends?.[row] === 2 ? Infinity : end)),
        uncertainty: Float64Array.from(uncertainty),
        ...Object.fromEntries(OWN.flatMap((name, at) => (stated[at] ? [[name, Float64Array.from(stated[at])]] : []))),
      },
      { ...(span !== 0 && { limits }), rule: RULES[rule] },
    );
    const sides = [found.below, found.in_band, found.above].flatMap(({ least, most }) => [least, most]);
    const written = low.flatMap((_, row) => [
      found.verdict[row],
      found.provable[row],
      ...[...sides, found.low, found.high, found.uncertainty].map((numbers) => bits(numbers[row])),
      found.at_reference[row],
    ]);
    assert.deepEqual(written, out, id);
    rows += low.length;
  }
  assert.ok(rows >= 80, `${rows} rows`);
});

const floats = (numbers) => Float64Array.from(numbers);
const CLASSES = [, "00", "0", "I"];
const SHOWN_AS = [, , "hexane", "hexane_of_petrol", "propane", "carbon"];

test("lambda of columns has the bits of the direct calls", () => {
  let rows = 0;
  for (const { id, call, in: given, out } of casesOf("mixture_gas")) {
    if (call !== "lambda_of_columns" || out === undefined || SHOWN_AS[given[5]] === undefined) {
      continue;
    }
    const [co2, co, o2, hc] = given.map((column) => (Array.isArray(column) ? floats(column) : column));
    const settings = { fuel: `CH${given[7]}O${given[8]}N${given[9]}`, class: CLASSES[given[6]], shown_as: SHOWN_AS[given[5]] };
    const found = lambdaColumns({ co2, co, o2, hc }, settings);
    // The direct calls give each contradiction a bit, so that several fit into one number.
    const bit = (at) => (at === 0 ? 0 : 2 ** (at - 1));
    const written = given[0].flatMap((_, row) => [bits(found.lambda[row]), bits(found.uncertainty[row]), bit(found.contradiction[row])]);
    assert.deepEqual(written, out, id);
    const refused = given[0].map((_, row) => row).filter((row) => Number.isNaN(found.lambda[row]));
    assert.deepEqual(found.refused.map(({ place }) => place), refused.map((row) => `/rows/${row}`));
    rows += given[0].length;
  }
  assert.ok(rows >= 7, `${rows} rows`);
});

test("density of columns has the bits of the direct calls", () => {
  let rows = 0;
  for (const { id, call, in: given, out } of casesOf("mixture_air")) {
    if (call !== "density_of_columns" || out === undefined) {
      continue;
    }
    const [pressure, temperature, humidity] = given.slice(0, 3).map(floats);
    const uncertainty = { pressure: `${given[3]} kPa`, temperature: `${given[4]} K`, humidity: `${given[5]} %` };
    const found = densityColumns({ pressure, temperature, humidity }, { uncertainty });
    const written = given[0].flatMap((_, row) => [found.density, found.uncertainty, found.altitude].map((column) => bits(column[row])));
    assert.deepEqual(written, out, id);
    rows += given[0].length;
  }
  assert.ok(rows >= 8, `${rows} rows`);
});

test("leaks of columns have the bits of the direct calls", () => {
  let rows = 0;
  for (const { id, call, in: given, out } of casesOf("condition_leak")) {
    if (call !== "leak_of_columns" || out === undefined) {
      continue;
    }
    const [supply, supplyU, orifice, orificeU, shown, air, shownU, airU] = given;
    const uncertainty = { supply: `${supplyU} kPa`, orifice: `${orificeU} mm`, shown: `${shownU} kPa`, air: `${airU} kPa` };
    const settings = { supply: `${supply} kPa`, orifice: `${orifice} mm`, uncertainty };
    const found = leakColumns({ shown: floats(shown), air: floats(air) }, settings);
    const written = shown.flatMap((_, row) => [found.area, found.uncertainty, found.hole].map((column) => bits(column[row])));
    assert.deepEqual(written, out, id);
    const refused = shown.map((_, row) => row).filter((row) => Number.isNaN(found.area[row]));
    assert.deepEqual(found.refused.map(({ place }) => place), refused.map((row) => `/rows/${row}`));
    rows += shown.length;
  }
  assert.ok(rows >= 7, `${rows} rows`);
});

const COUNTS = [, "hours", "distance", "days"];

test("drifts of columns have the bits of the direct calls", () => {
  let rows = 0;
  for (const { id, call, in: given, out } of casesOf("history")) {
    if (call !== "drift_of_columns" || out === undefined) {
      continue;
    }
    const [at, low, high, uncertainty, span, valve, state, count, , , , valves, ends, from, to, rule] = given;
    const columns = {
      at: floats(at),
      // An end that is open is infinite here and of a span of its own in the cases.
      low: Float64Array.from(low, (end, row) => (span?.[row] >= 3 ? -Infinity : end)),
      high: Float64Array.from(high, (end, row) => ([2, 4].includes(span?.[row]) ? Infinity : end)),
      uncertainty: floats(uncertainty),
      valve: floats(valve ?? at.map(() => 0)),
      ...(state && { state: floats(state) }),
    };
    const limits = { ...(ends !== 3 && { from: mm(from) }), ...(ends !== 2 && { to: mm(to) }) };
    const found = driftColumns(columns, valves, { limits, rule: RULES[rule], counted_by: COUNTS[count] });
    const all = Array.from({ length: valves }, (_, row) => row);
    const written = all.flatMap((row) => [
      bits(found.rate[row]),
      bits(found.uncertainty[row]),
      found.look[row],
      bits(found.at[row]),
    ]);
    assert.deepEqual(written, out, id);
    const refused = all.filter((row) => LOOKS[found.look[row]] === "refused");
    assert.deepEqual(found.refused.map(({ place }) => place), refused.map((row) => `/rows/${row}`));
    rows += valves;
  }
  assert.ok(rows >= 8, `${rows} rows`);
});

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
