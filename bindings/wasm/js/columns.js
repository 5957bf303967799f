// Columns of readings, over the whole WebAssembly file.

import { bytesOf, unpacked } from "./arguments.js";
import { misuse } from "./errors.js";

/** @type {typeof import("./index.js").VERDICTS} */
export const VERDICTS = Object.freeze(["refused", "in_band", "below", "above", "cannot_say"]);

/** @type {typeof import("./index.js").CONTRADICTIONS} */
export const CONTRADICTIONS = Object.freeze([
  "none",
  "oxygen_with_carbon_monoxide",
  "oxygen_with_hydrocarbons",
  "too_lean_to_burn",
  "beyond_running",
  "total_off",
  "something_else",
]);

/** @type {typeof import("./index.js").LOOKS} */
export const LOOKS = Object.freeze(["refused", "now", "at", "not_before", "not_known", "too_few"]);

/**
 * Refuses what is no column.
 *
 * @param {Record<string, unknown>} columns
 */
function needColumns(columns) {
  for (const [name, column] of Object.entries(columns)) {
    if (!(column instanceof Float64Array)) {
      throw misuse("package.argument", `the column ${name} is no Float64Array`, "give every column as Float64Array of one length");
    }
  }
}

/**
 * Fills so many columns in one call: the columns, and the rows that were refused.
 *
 * @param {number} rows
 * @param {number} outputs
 * @param {(out: Float64Array) => Uint8Array} fill
 */
function filled(rows, outputs, fill) {
  const out = new Float64Array(rows * outputs);
  const refused = unpacked("refused", fill(out));
  return { refused, column: (/** @type {number} */ at) => out.subarray(at * rows, (at + 1) * rows) };
}

/** Columns of readings that may be left out, in the order of the call. */
const MAY_LACK = /** @type {const} */ ([
  "lower",
  "upper",
  "at",
  "at_uncertainty",
  "reference",
  "mm_per_kelvin",
  "mm_per_kelvin_uncertainty",
]);
const NO_COLUMN = new Float64Array(0);

/**
 * @param {Pick<typeof import("./glue/lashwork.js"), "judge_columns" | "outputs">} wasm
 * @param {<T>(work: () => T) => T} call
 * @returns {typeof import("./index.js").judgeColumns}
 */
export function columnsJudged(wasm, call) {
  return function judgeColumns(columns, settings) {
    const { low, high, uncertainty } = columns ?? {};
    const given = MAY_LACK.map((name) => columns?.[name] ?? NO_COLUMN);
    needColumns({ low, high, uncertainty, ...Object.fromEntries(MAY_LACK.map((name, at) => [name, given[at]])) });
    const asked = bytesOf(settings);
    return call(() => {
      const [lower, upper, at, at_uncertainty, reference, slope, slope_uncertainty] = given;
      const { refused, column } = filled(low.length, wasm.outputs(), (out) =>
        wasm.judge_columns(asked, low, high, uncertainty, lower, upper, at, at_uncertainty, reference, slope, slope_uncertainty, out),
      );
      return {
        verdict: Uint8Array.from(column(0)),
        provable: Uint8Array.from(column(1)),
        below: { least: column(2), most: column(3) },
        in_band: { least: column(4), most: column(5) },
        above: { least: column(6), most: column(7) },
        low: column(8),
        high: column(9),
        uncertainty: column(10),
        at_reference: Uint8Array.from(column(11)),
        refused,
      };
    });
  };
}

/** Numbers of a row that lambda, density and leaks give, and that a drift gives. */
const OF_THREE = 3;
const OF_DRIFT = 4;

/**
 * @param {Pick<typeof import("./glue/lashwork.js"), "lambda_columns">} wasm
 * @param {<T>(work: () => T) => T} call
 * @returns {typeof import("./index.js").lambdaColumns}
 */
export function lambdaOfColumns(wasm, call) {
  return function lambdaColumns(columns, settings) {
    const { co2, co, o2, hc } = columns ?? {};
    needColumns({ co2, co, o2, hc });
    const asked = bytesOf(settings);
    return call(() => {
      const { refused, column } = filled(co2.length, OF_THREE, (out) => wasm.lambda_columns(asked, co2, co, o2, hc, out));
      return { lambda: column(0), uncertainty: column(1), contradiction: Uint8Array.from(column(2)), refused };
    });
  };
}

/**
 * @param {Pick<typeof import("./glue/lashwork.js"), "density_columns">} wasm
 * @param {<T>(work: () => T) => T} call
 * @returns {typeof import("./index.js").densityColumns}
 */
export function densityOfColumns(wasm, call) {
  return function densityColumns(columns, settings) {
    const { pressure, temperature, humidity } = columns ?? {};
    needColumns({ pressure, temperature, humidity });
    const asked = bytesOf(settings);
    return call(() => {
      const { refused, column } = filled(pressure.length, OF_THREE, (out) =>
        wasm.density_columns(asked, pressure, temperature, humidity, out),
      );
      return { density: column(0), uncertainty: column(1), altitude: column(2), refused };
    });
  };
}

/**
 * @param {Pick<typeof import("./glue/lashwork.js"), "leak_columns">} wasm
 * @param {<T>(work: () => T) => T} call
 * @param {() => void} needPart
 * @returns {typeof import("./index.js").leakColumns}
 */
export function leaksOfColumns(wasm, call, needPart) {
  return function leakColumns(columns, settings) {
    const { shown, air } = columns ?? {};
    needColumns({ shown, air });
    needPart();
    const asked = bytesOf(settings);
    return call(() => {
      const { refused, column } = filled(shown.length, OF_THREE, (out) => wasm.leak_columns(asked, shown, air, out));
      return { area: column(0), uncertainty: column(1), hole: column(2), refused };
    });
  };
}

/**
 * @param {Pick<typeof import("./glue/lashwork.js"), "drift_columns">} wasm
 * @param {<T>(work: () => T) => T} call
 * @param {() => void} needPart
 * @returns {typeof import("./index.js").driftColumns}
 */
export function driftsOfColumns(wasm, call, needPart) {
  return function driftColumns(columns, valves, settings) {
    const { at, low, high, uncertainty, valve, state = new Float64Array() } = columns ?? {};
    needColumns({ at, low, high, uncertainty, valve, state });
    if (!Number.isInteger(valves) || valves < 0) {
      throw misuse("package.argument", `${valves} is no number of valves`, "give how many valves there are, a whole number from 0");
    }
    needPart();
    const asked = bytesOf(settings);
    return call(() => {
      const { refused, column } = filled(valves, OF_DRIFT, (out) =>
        wasm.drift_columns(asked, at, low, high, uncertainty, valve, state, out),
      );
      return { rate: column(0), uncertainty: column(1), look: Uint8Array.from(column(2)), at: column(3), refused };
    });
  };
}
