// Arguments as a WebAssembly file takes them, and its answers as objects.

import { LashworkError, misuse } from "./errors.js";

const encoder = new TextEncoder();
export const decoder = new TextDecoder("utf-8", { fatal: true });

/**
 * The bytes of a document given as text, as bytes or as an object.
 *
 * @param {unknown} document
 * @returns {Uint8Array}
 */
export function bytesOf(document) {
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
 * @param {"report" | "sheet" | "quick" | "ignition" | "refused" | "filled" | "text"} key
 * @param {Uint8Array} answer
 */
export function unpacked(key, answer) {
  const { [key]: report, problems } = JSON.parse(decoder.decode(answer));
  if (report === undefined) {
    throw new LashworkError(problems);
  }
  return report;
}

/**
 * Numbers as WebAssembly takes them: it would read text and nothing as numbers too.
 *
 * @param {Record<string, unknown>} numbers
 */
export function needNumbers(numbers) {
  for (const [name, number] of Object.entries(numbers)) {
    if (typeof number !== "number") {
      throw misuse("package.argument", `${name} is no number`, "give all of them as numbers");
    }
  }
}

/**
 * What is needed to write a number in a unit.
 *
 * @param {{ decimals: number, [name: string]: number }} numbers
 * @param {string} unit
 */
export function needWriting({ decimals, ...rest }, unit) {
  needNumbers({ ...rest, decimals });
  if (typeof unit !== "string" || !Number.isInteger(decimals) || decimals < 0) {
    throw misuse("package.argument", `${decimals} decimals of ${unit}`, "give a unit and a whole number from 0");
  }
}
