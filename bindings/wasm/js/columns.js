// Columns of readings, over the whole WebAssembly file.

import { bytesOf, unpacked } from "./arguments.js";
import { misuse } from "./errors.js";

/** @type {typeof import("./index.js").VERDICTS} */
export const VERDICTS = Object.freeze(["refused", "in_band", "below", "above", "cannot_say"]);

/**
 * @param {Pick<typeof import("./glue/lashwork.js"), "judge_columns" | "outputs">} wasm
 * @param {<T>(work: () => T) => T} call
 * @returns {typeof import("./index.js").judgeColumns}
 */
export function columnsJudged(wasm, call) {
  return function judgeColumns(columns, settings) {
    const { low, high, uncertainty } = columns ?? {};
    for (const [name, column] of Object.entries({ low, high, uncertainty })) {
      if (!(column instanceof Float64Array)) {
        throw misuse("package.argument", `the column ${name} is no Float64Array`, "give three Float64Array of one length");
      }
    }
    const rows = low.length;
    const asked = bytesOf(settings);
    return call(() => {
      const out = new Float64Array(rows * wasm.outputs());
      const refused = unpacked("refused", wasm.judge_columns(asked, low, high, uncertainty, out));
      const column = (/** @type {number} */ at) => out.subarray(at * rows, (at + 1) * rows);
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
