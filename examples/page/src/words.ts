// Words for what the kernel answers with a code, and numbers as they are shown.

import type { Chance, Verdict } from "./kernel";

/** A verdict in words, and the letter of its sign. */
export const VERDICTS: Record<Verdict, { word: string; say: string; sign: string }> = {
  below: { word: "Tight", say: "The gap is below its band.", sign: "▼" },
  in_band: { word: "In band", say: "The gap lies in its band.", sign: "●" },
  above: { word: "Loose", say: "The gap is above its band.", sign: "▲" },
  cannot_say: { word: "Cannot tell yet", say: "The reading leaves too much open.", sign: "?" },
};

export const KINDS = { intake: "Intake", exhaust: "Exhaust" } as const;

export const METHODS: Record<string, string> = {
  cylinder_by_cylinder: "Cylinder by cylinder",
  two_position: "Two positions, one turn apart",
  fewest_stops: "Fewest stops",
  opposite_valve: "By the opposite valve",
};

export const RULES = {
  guarded_tight: ["Careful on the tight side", "In band only if it is 95 % sure not to be tight."],
  simple: ["Even on both sides", "Whichever is more likely, tight and loose alike."],
  iso_14253_1: ["Careful on both sides", "In band only if it is 95 % sure (ISO 14253-1)."],
} as const;

export const BOOKS = {
  applies: "applies to this engine",
  does_not_apply: "does not apply to this engine number, not used",
  cannot_tell: "may apply: the engine number is not said",
  not_stated: "states no engine numbers",
} as Record<string, string>;

const percent = new Intl.NumberFormat("en", { style: "percent", maximumFractionDigits: 1 });

/** A probability as words: `95.1 %`, `under 0.1 %`. */
export function chance({ least, most }: Chance): string {
  const [from, to] = [share(least), share(most)];
  return from === to ? from : `${from} to ${to}`;
}

function share(p: number): string {
  if (p < 0.001) return "under 0.1\u00a0%";
  if (p > 0.999) return "over 99.9\u00a0%";
  return percent.format(p).replace("%", "\u00a0%");
}

/** Degrees as written on the page. */
export const degrees = (deg: number): string => `${Number(deg.toFixed(1))}°`;

/** A line of the kernel as a sentence. */
export const sentence = (text: string): string =>
  text === "" ? "" : `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? "" : "."}`;
