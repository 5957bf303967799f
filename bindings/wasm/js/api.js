// The functions of the package: arguments to bytes, one call, the answer to an object or an error.

import load, * as wasm from "./glue/lashwork.js";
import { bytesOf, decoder, unpacked } from "./arguments.js";
import { LashworkError } from "./errors.js";
import { instanceOf } from "./instance.js";
import { CONTRADICTIONS, VERDICTS, columnsJudged, densityOfColumns, lambdaOfColumns } from "./columns.js";
import { singleReadings } from "./single.js";
import { whole } from "./whole.js";

const { init, initSync, call, isReady } = instanceOf(load, wasm.initSync);
export const { quickCheck, shares, lashText, temperatureText, version } = singleReadings(wasm, call);
export const judgeColumns = columnsJudged(wasm, call);
export const lambdaColumns = lambdaOfColumns(wasm, call);
export const densityColumns = densityOfColumns(wasm, call);
whole.quickCheck = (check) => (isReady() ? quickCheck(check) : undefined);

/** @type {typeof import("./index.js").run} */
export function run(document) {
  const bytes = bytesOf(document);
  return unpacked("report", call(() => wasm.run(bytes)));
}

/** @type {typeof import("./index.js").runJson} */
export function runJson(document) {
  const bytes = bytesOf(document);
  return decoder.decode(call(() => wasm.run(bytes)));
}

/** @type {typeof import("./index.js").jobSheet} */
export function jobSheet(document) {
  const bytes = bytesOf(document);
  return unpacked("sheet", call(() => wasm.job_sheet(bytes)));
}

/** @type {typeof import("./index.js").fullSheet} */
export function fullSheet(document) {
  const bytes = bytesOf(document);
  return unpacked("sheet", call(() => wasm.full_sheet(bytes)));
}

/** @type {typeof import("./index.js").schema} */
export async function schema() {
  // A file of its own, loaded by those who ask: it is a fifth of the size of the WebAssembly file.
  return (await import("./schema.js")).default;
}

export { CONTRADICTIONS, LashworkError, VERDICTS, init, initSync };
