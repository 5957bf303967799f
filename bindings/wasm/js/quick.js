// Single readings by the small WebAssembly file, for browsers, workers and bundlers: `await init()`
// before the first call.

import load, * as wasm from "./glue/quick.js";
import { LashworkError } from "./errors.js";
import { instanceOf } from "./instance.js";
import { VERDICTS, singleReadings } from "./single.js";

const { init, initSync, call } = instanceOf(load, wasm.initSync);
export const { quickCheck, judgeColumns, shares, lashText, temperatureText, version } = singleReadings(wasm, call);

export { LashworkError, VERDICTS, init, initSync };
