// What the fingers said, between the buttons of the page and a reading of a document.

import { asText, withUnit, type Reading } from "./draft";

/** A button instead of a leaf: nothing goes in, or everything does. */
export const NONE = "none";

/** What was felt, as the buttons show it; empty where nothing was said. */
export interface Felt {
  how: "between" | "drags";
  /** The leaf or stack that goes, `NONE` if the thinnest does not. */
  goes: string;
  /** The leaf or stack that does not, `NONE` if the thickest goes. */
  refuses: string;
  /** The leaf or stack that drags. */
  drags: string;
  /** How sure the feel of the drag is. */
  spread: string;
}

/** Nothing felt yet. */
export const untouched = (spread: string): Felt => ({
  how: "between",
  goes: "",
  refuses: "",
  drags: "",
  spread,
});

/** A reading as buttons. */
export function fromReading(reading: Reading | undefined, spread: string): Felt {
  if (!reading) return untouched(spread);
  return {
    how: reading.drags ? "drags" : "between",
    goes: reading.nothing_goes ? NONE : asText(reading.goes),
    refuses: reading.everything_goes ? NONE : asText(reading.refuses),
    drags: asText(reading.drags),
    spread: asText(reading.spread) || spread,
  };
}

/** The part of a reading that was felt; `undefined` if nothing was said yet. */
export function toReading(felt: Felt): Partial<Reading> | undefined {
  if (felt.how === "drags") {
    return felt.drags ? { drags: stack(felt.drags), spread: felt.spread } : undefined;
  }
  if (felt.goes === NONE) return { nothing_goes: true };
  if (felt.refuses === NONE) return { everything_goes: true };
  const reading: Partial<Reading> = {};
  if (felt.goes) reading.goes = stack(felt.goes);
  if (felt.refuses) reading.refuses = stack(felt.refuses);
  return felt.goes || felt.refuses ? reading : undefined;
}

/** After one more tap. "None" on one side says all there is to say, so the other side is cleared. */
export function tapped(felt: Felt, side: "goes" | "refuses" | "drags", value: string): Felt {
  const next = { ...felt, [side]: value };
  if (side === "goes" && (value === NONE || felt.refuses === NONE)) next.refuses = "";
  if (side === "refuses" && (value === NONE || felt.goes === NONE)) next.goes = "";
  return next;
}

const stack = (text: string): string[] => text.split("+").map((leaf) => leaf.trim());

/** Typed leaves, each with its unit. */
export function typed(text: string, unit: string): string {
  return text
    .split("+")
    .map((leaf) => withUnit(leaf, unit))
    .join(" + ");
}
