// Single readings by the small WebAssembly file, for browsers, workers and bundlers: `await init()`
// before the first call.

import load, * as wasm from "./glue/quick.js";
import { LashworkError } from "./errors.js";
import { instanceOf } from "./instance.js";
import { singleReadings } from "./single.js";
import { whole } from "./whole.js";

const { init, initSync, call } = instanceOf(load, wasm.initSync);
const small = singleReadings(wasm, call);
export const { shares, lashText, temperatureText, version } = small;

/** What is refused because only the whole file knows it. */
const LEFT_OUT = "build.left-out";

/** @type {typeof import("./index.js").quickCheck} */
export function quickCheck(check) {
  try {
    return small.quickCheck(check);
  } catch (why) {
    const isLeftOut = why instanceof LashworkError && why.problems.some(({ code }) => code === LEFT_OUT);
    const report = isLeftOut ? whole.quickCheck?.(check) : undefined;
    if (report === undefined) throw why;
    return report;
  }
}

export { LashworkError, init, initSync };
