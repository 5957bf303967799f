// The functions of the package: arguments to bytes, one call, the answer to an object or an error.

import * as wasm from "./glue/lashwork.js";
import { LashworkError, misuse } from "./errors.js";
import { call } from "./instance.js";

const encoder = new TextEncoder();
const decoder = new TextDecoder("utf-8", { fatal: true });

/**
 * The bytes of a document given as text, as bytes or as an object.
 *
 * @param {unknown} document
 * @returns {Uint8Array}
 */
function bytesOf(document) {
  if (document instanceof Uint8Array) {
    return document;
  }
  if (typeof document === "string") {
    return encoder.encode(document);
  }
  if (typeof document !== "object" || document === null) {
    const got = document === null ? "null" : typeof document;
    throw misuse("package.argument", `a document was expected, not ${got}`, "give an object, JSON text or its bytes");
  }
  try {
    return encoder.encode(JSON.stringify(document));
  } catch (why) {
    throw Object.assign(
      misuse("package.argument", `the document cannot be written as JSON: ${why}`, "use plain data only"),
      { cause: why },
    );
  }
}

/**
 * The answer of one call, or the problems thrown.
 *
 * @param {"report" | "quick" | "refused" | "filled" | "text"} key
 * @param {Uint8Array} answer
 */
function unpacked(key, answer) {
  const { [key]: report, problems } = JSON.parse(decoder.decode(answer));
  if (report === undefined) {
    throw new LashworkError(problems);
  }
  return report;
}

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
  const sheet = call(() => wasm.job_sheet(bytes));
  return sheet ?? unpacked("report", call(() => wasm.run(bytes)));
}

/** @type {typeof import("./index.js").quickCheck} */
export function quickCheck(check) {
  const bytes = bytesOf(check);
  return unpacked("quick", call(() => wasm.quick_check(bytes)));
}

/** @type {typeof import("./index.js").judgeColumns} */
export function judgeColumns(columns, settings) {
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
      tight: { least: column(2), most: column(3) },
      in_band: { least: column(4), most: column(5) },
      loose: { least: column(6), most: column(7) },
      refused,
    };
  });
}

/**
 * Numbers as WebAssembly takes them: it would read text and nothing as numbers too.
 *
 * @param {Record<string, unknown>} numbers
 */
function needNumbers(numbers) {
  for (const [name, number] of Object.entries(numbers)) {
    if (typeof number !== "number") {
      throw misuse("package.argument", `${name} is no number`, "give all of them as numbers");
    }
  }
}

/** The most bins that are drawn; the kernel has the last word. */
const MOST_BINS = 4096;

/** @type {typeof import("./index.js").shares} */
export function shares(estimate, scale) {
  const { low, high, uncertainty } = estimate ?? {};
  const { from, to, bins } = scale ?? {};
  needNumbers({ low, high, uncertainty, from, to, bins });
  if (!Number.isInteger(bins) || bins < 0 || bins > MOST_BINS) {
    throw misuse("package.argument", `${bins} bins`, `give a whole number from 1 to ${MOST_BINS}`);
  }
  return call(() => {
    const out = new Float64Array(bins);
    unpacked("filled", wasm.shares(low, high, uncertainty, from, to, out));
    return out;
  });
}

/** @type {typeof import("./index.js").lashText} */
export function lashText(mm, unit, decimals) {
  needWriting({ mm, decimals }, unit);
  return call(() => unpacked("text", wasm.lash_text(mm, unit, decimals)));
}

/** @type {typeof import("./index.js").temperatureText} */
export function temperatureText(celsius, unit, decimals) {
  needWriting({ celsius, decimals }, unit);
  return call(() => unpacked("text", wasm.temperature_text(celsius, unit, decimals)));
}

/**
 * What is needed to write a number in a unit.
 *
 * @param {{ decimals: number, [name: string]: number }} numbers
 * @param {string} unit
 */
function needWriting({ decimals, ...rest }, unit) {
  needNumbers({ ...rest, decimals });
  if (typeof unit !== "string" || !Number.isInteger(decimals) || decimals < 0) {
    throw misuse("package.argument", `${decimals} decimals of ${unit}`, "give a unit and a whole number from 0");
  }
}

/** @type {typeof import("./index.js").VERDICTS} */
export const VERDICTS = Object.freeze(["refused", "in_band", "tight", "loose", "cannot_say"]);

/** @type {typeof import("./index.js").schema} */
export async function schema() {
  // A file of its own, loaded by those who ask: it is a fifth of the size of the WebAssembly file.
  return (await import("./schema.js")).default;
}

/** @type {typeof import("./index.js").version} */
export function version() {
  return call(() => wasm.version());
}

export { LashworkError };
