// A document while it is being written: text stays as it was typed, right or wrong, and the kernel
// says what is wrong with it. Changing gives a new document and leaves the old one as it was.

import type { Document } from "./kernel";

/** Where the clearances stand in a document. */
export const CLEARANCE = "/clearance";

export type Reading = Document["clearance"]["readings"][number];

/** What one book says. */
export type Book = Document["clearance"]["specifications"][number];

type Node = Record<string, unknown> | unknown[];

const isNode = (value: unknown): value is Node => typeof value === "object" && value !== null;

/** The steps of a JSON pointer. */
export function steps(pointer: string): string[] {
  const unescape = (step: string) => step.replaceAll("~1", "/").replaceAll("~0", "~");
  return pointer.split("/").slice(1).map(unescape);
}

/** What stands at a JSON pointer. */
export function at(document: unknown, pointer: string): unknown {
  const inside = (value: unknown, step: string) =>
    isNode(value) ? (value as Record<string, unknown>)[step] : undefined;
  return steps(pointer).reduce(inside, document);
}

/** The document with another value at a JSON pointer; `undefined` takes the key or item away. */
export function put<T>(document: T, pointer: string, value: unknown): T {
  return replaced(document, steps(pointer), value) as T;
}

function replaced(value: unknown, path: readonly string[], leaf: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return leaf;
  if (Array.isArray(value)) {
    const copy = [...value];
    if (rest.length === 0 && leaf === undefined) copy.splice(Number(step), 1);
    // An item from which all went stays, empty: the others keep their places.
    else copy[Number(step)] = replaced(copy[Number(step)], rest, leaf) ?? {};
    return copy;
  }
  const copy: Record<string, unknown> = isNode(value) ? { ...(value as Record<string, unknown>) } : {};
  const next = replaced(copy[step], rest, leaf);
  if (next !== undefined) copy[step] = next;
  else delete copy[step];
  // A part from which the last entry went is gone itself.
  return next === undefined && Object.keys(copy).length === 0 ? undefined : copy;
}

/** A quantity as text: `"0.15 mm"`, also when it was written as `{ "mm": 0.15 }`. */
export function asText(value: unknown): string {
  if (value === undefined || value === null) return "";
  if (Array.isArray(value)) return value.map(asText).join(" + ");
  if (isNode(value)) {
    const [unit, number] = Object.entries(value)[0] ?? ["", ""];
    return `${String(number)} ${unit}`.trim();
  }
  return String(value);
}

/** What was typed, with the unit that stands beside the field if none was typed. */
export function withUnit(typed: string, unit: string): string {
  const text = typed.trim();
  return /^[-+−]?[\d.,]+$/.test(text) ? `${text} ${unit}` : text;
}

/** A count or a ratio; text that is no number stays text, for the kernel to refuse. */
export function asNumber(typed: string): number | string | undefined {
  const text = typed.trim();
  if (text === "") return undefined;
  const number = Number(text.replace(",", "."));
  return Number.isFinite(number) ? number : text;
}

/** Whether a value is enough of a document to be shown in the form. */
export function isDocument(value: unknown): value is Document {
  const list = (pointer: string, needed: boolean) => {
    const found = at(value, pointer);
    return Array.isArray(found) ? found.every(isNode) : found === undefined && !needed;
  };
  const clearance = (part: string) => CLEARANCE + part;
  const objects = ["/engine", clearance("/valves"), clearance("/gauge")];
  const texts = [clearance("/gauge/leaves"), "/engine/firing_order"];
  return (
    objects.every((pointer) => isNode(at(value, pointer))) &&
    texts.every((pointer) => Array.isArray(at(value, pointer))) &&
    list("/engine/cylinders", true) &&
    list(clearance("/specifications"), true) &&
    list(clearance("/readings"), false)
  );
}
