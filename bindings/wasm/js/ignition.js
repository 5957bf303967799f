// Questions of the ignition that need no engine, by a WebAssembly file of their own, for browsers, workers
// and bundlers: `await init()` before the first call.

import load, * as wasm from "./glue/ignition.js";
import { bytesOf, unpacked } from "./arguments.js";
import { LashworkError } from "./errors.js";
import { instanceOf } from "./instance.js";

const { init, initSync, call } = instanceOf(load, wasm.initSync);

/** @type {typeof import("./ignition.js").ignitionCheck} */
export function ignitionCheck(check) {
  const bytes = bytesOf(check);
  return unpacked("ignition", call(() => wasm.ignition_check(bytes)));
}

/** @type {typeof import("./index.js").version} */
export function version() {
  return call(() => wasm.version());
}

export { LashworkError, init, initSync };
