// What the fingers said, between the buttons of the page and a reading of a document.

import { asText, withUnit, type Reading } from "./draft";

/** A button instead of a leaf: nothing goes in, or everything does. */
export const NONE = "none";

export type Side = "goes" | "refuses" | "drags";

/** What was felt, as the buttons show it; empty where nothing was said. */
export interface Felt {
  how: "between" | "drags";
  /** The leaf or stack that goes, `NONE` if the thinnest does not. */
  goes: string;
  /** The leaf or stack that does not, `NONE` if the thickest goes. */
  refuses: string;
  /** The leaf or stack that drags. */
  drags: string;
  /** How much the feel of the drag differs from try to try. */
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

/** Whether a valve is not begun, waits for its other side, or is done. */
export type Progress = "none" | "half" | "both";

export function progressOf({ how, goes, refuses, drags }: Felt): Progress {
  if (how === "drags") return drags ? "both" : "none";
  if (goes === NONE || refuses === NONE || (goes && refuses)) return "both";
  return goes || refuses ? "half" : "none";
}

/** A reading as buttons. */
export function fromReading(reading: Partial<Reading> | undefined, spread: string): Felt {
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

const OTHER = { goes: "refuses", refuses: "goes" } as const;

/**
 * After one more tap. What cannot be true any more is let go: the other side beside "none", and a leaf that
 * stands in the set on the wrong side of the new one.
 */
export function tapped(felt: Felt, side: Side, value: string, leaves: readonly string[]): Felt {
  if (side === "drags") return { ...felt, how: "drags", drags: value };
  const next: Felt = { ...felt, how: "between", [side]: value };
  const [goes, refuses] = [leaves.indexOf(next.goes), leaves.indexOf(next.refuses)];
  const crossed = goes >= 0 && refuses >= 0 && goes >= refuses;
  if (value === NONE || felt[OTHER[side]] === NONE || crossed) next[OTHER[side]] = "";
  return next;
}

/** What was understood: `0.10 goes, 0.15 not`. */
export function echo(felt: Felt): string {
  const { how, goes, refuses, drags } = felt;
  if (how === "drags") return drags ? `${bare(drags)} drags lightly` : "";
  if (goes === NONE) return "no leaf goes";
  if (refuses === NONE) return "every leaf goes";
  if (goes && refuses) return `${bare(goes)} goes, ${bare(refuses)} not`;
  if (goes) return `${bare(goes)} goes – what does not?`;
  return refuses ? `${bare(refuses)} does not – what goes?` : "";
}

/** Leaves without their unit. */
export const bare = (leaf: string): string => leaf.replace(/ (mm|in|thou|um)\b/g, "");

const stack = (text: string): string[] => text.split("+").map((leaf) => leaf.trim());

/** Typed leaves, each with its unit. */
export function typed(text: string, unit: string): string {
  return text
    .split("+")
    .map((leaf) => withUnit(leaf, unit))
    .join(" + ");
}

/** A set of leaves as it was typed: with semicolons, commas, spaces or new lines between. */
export function typedSet(text: string, unit: string): string[] {
  const leaves: string[] = [];
  for (const word of text.split(/[;\s]+|,\s+/).filter(Boolean)) {
    if (/^[a-z]+$/i.test(word) && leaves.length > 0) leaves.push(`${leaves.pop()} ${word}`);
    else leaves.push(word);
  }
  return leaves.map((leaf) => withUnit(leaf, unit));
}
