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

/**
 * @param {Pick<typeof import("./glue/lashwork.js"), "judge_columns" | "outputs">} wasm
 * @param {<T>(work: () => T) => T} call
 * @returns {typeof import("./index.js").judgeColumns}
 */
export function columnsJudged(wasm, call) {
  return function judgeColumns(columns, settings) {
    const { low, high, uncertainty } = columns ?? {};
    needColumns({ low, high, uncertainty });
    const asked = bytesOf(settings);
    return call(() => {
      const { refused, column } = filled(low.length, wasm.outputs(), (out) => wasm.judge_columns(asked, low, high, uncertainty, out));
      return {
        verdict: Uint8Array.from(column(0)),
        provable: Uint8Array.from(column(1)),
        below: { least: column(2), most: column(3) },
        in_band: { least: column(4), most: column(5) },
        above: { least: column(6), most: column(7) },
        refused,
      };
    });
  };
}

/** Numbers of a row that lambda and density give. */
const OF_MIXTURE = 3;

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
      const { refused, column } = filled(co2.length, OF_MIXTURE, (out) => wasm.lambda_columns(asked, co2, co, o2, hc, out));
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
      const { refused, column } = filled(pressure.length, OF_MIXTURE, (out) =>
        wasm.density_columns(asked, pressure, temperature, humidity, out),
      );
      return { density: column(0), uncertainty: column(1), altitude: column(2), refused };
    });
  };
}
