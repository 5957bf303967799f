// The functions of the package: arguments to bytes, one call, the answer to an object or an error.

import load, * as wasm from "./glue/lashwork.js";
import { bytesOf, decoder, unpacked } from "./arguments.js";
import { LashworkError } from "./errors.js";
import { instanceOf } from "./instance.js";
import {
  CONTRADICTIONS,
  LOOKS,
  VERDICTS,
  columnsJudged,
  densityOfColumns,
  driftsOfColumns,
  lambdaOfColumns,
  leaksOfColumns,
} from "./columns.js";
import { PARTS, partsOfOne } from "./parts.js";
import { singleReadings } from "./single.js";
import { whole } from "./whole.js";

const { init: initMain, initSync: initMainSync, call, isReady, exported } = instanceOf(load, wasm.initSync);
const parts = partsOfOne();
// Each function by its name, and marked as pure: what a program does not ask for, its bundler then leaves out.
export const { quickCheck, shares, lashText, temperatureText, version } = singleReadings(
  {
    quick_check: wasm.quick_check,
    shares: wasm.shares,
    lash_text: wasm.lash_text,
    temperature_text: wasm.temperature_text,
    version: wasm.version,
  },
  call,
);
export const judgeColumns = /* @__PURE__ */ columnsJudged(
  { judge_columns: wasm.judge_columns, outputs: wasm.outputs },
  call,
);
export const lambdaColumns = /* @__PURE__ */ lambdaOfColumns({ lambda_columns: wasm.lambda_columns }, call);
export const densityColumns = /* @__PURE__ */ densityOfColumns({ density_columns: wasm.density_columns }, call);
export const leakColumns = /* @__PURE__ */ leaksOfColumns({ leak_columns: wasm.leak_columns }, call, () => parts.needThemFor({ condition: {} }));
export const driftColumns = /* @__PURE__ */ driftsOfColumns({ drift_columns: wasm.drift_columns }, call, () => parts.needThemFor({ history: {} }));
whole.quickCheck = (check) => (isReady() ? quickCheck(check) : undefined);

/** @type {typeof import("./index.js").init} */
export async function init(source, wanted = source === undefined ? PARTS : []) {
  const main = initMain(source);
  const there = () => main.then(exported);
  /** @typedef {Partial<Record<import("./index.js").Part, import("./index.js").Source>>} Sources */
  const sources = /** @type {Sources} */ (Array.isArray(wanted) ? {} : wanted);
  const names = PARTS.filter((part) => (Array.isArray(wanted) ? wanted.includes(part) : part in wanted));
  await Promise.all([main, parts.fetched(names, there, sources)]);
}

/** @type {typeof import("./index.js").initSync} */
export function initSync(module, given = {}) {
  initMainSync(module);
  for (const part of PARTS) {
    const source = given[part];
    if (source !== undefined) parts.put(part, source, exported());
  }
}

/** @type {typeof import("./index.js").missing} */
export const missing = (document) => parts.missingFor(document);

/** @type {typeof import("./index.js").bring} */
export async function bring(document) {
  const there = () => initMain().then(exported);
  await parts.fetched(parts.missingFor(document), there);
}

/**
 * The bytes of a document whose parts are there.
 *
 * @param {unknown} document
 */
function ready(document) {
  const bytes = bytesOf(document);
  parts.needThemFor(document);
  return bytes;
}

/** @type {typeof import("./index.js").run} */
export function run(document) {
  const bytes = ready(document);
  return unpacked("report", call(() => wasm.run(bytes)));
}

/** @type {typeof import("./index.js").runJson} */
export function runJson(document) {
  const bytes = ready(document);
  return decoder.decode(call(() => wasm.run(bytes)));
}

/** @type {typeof import("./index.js").jobSheet} */
export function jobSheet(document) {
  const bytes = ready(document);
  return unpacked("sheet", call(() => wasm.job_sheet(bytes)));
}

/** @type {typeof import("./index.js").fullSheet} */
export function fullSheet(document) {
  const bytes = ready(document);
  return unpacked("sheet", call(() => wasm.full_sheet(bytes)));
}

/** @type {typeof import("./index.js").schema} */
export async function schema() {
  // A file of its own, loaded by those who ask: it is a fifth of the size of the WebAssembly file.
  return (await import("./schema.js")).default;
}

export { CONTRADICTIONS, LOOKS, LashworkError, PARTS, VERDICTS };
