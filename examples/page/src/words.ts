// Words for what the kernel answers with a code, and numbers as they are shown.

import type { Chance, Verdict } from "./kernel";

/** What the view for questions of the ignition is called. */
export const FIGURES = "Ignition figures";

/** A verdict in words, and the letter of its sign. */
export const VERDICTS: Record<Verdict, { word: string; sign: string }> = {
  below: { word: "Too tight", sign: "▼" },
  in_band: { word: "In limits", sign: "●" },
  above: { word: "Too loose", sign: "▲" },
  cannot_say: { word: "Not sure", sign: "?" },
};

/** The share that kept a verdict back. */
export const SIDES = {
  below: "too tight up to",
  above: "too loose up to",
  in_band: "certain only to",
} as const;

export const KINDS = { intake: "Intake", exhaust: "Exhaust" } as const;

export const METHODS: Record<string, string> = {
  cylinder_by_cylinder: "Cylinder by cylinder",
  two_position: "Two stops, one turn apart",
  fewest_stops: "Fewest stops",
  opposite_valve: "One valve full open, check its partner",
};

/** A way round the engine in words, also one that is newer than this page. */
export const methodName = (method: string): string => METHODS[method] ?? method.replaceAll("_", " ");

export const RULES = {
  guarded_tight: ["Rather loose than tight", "In limits only if it is 95 % sure not to be too tight."],
  simple: ["Even on both sides", "Whichever is more likely, tight and loose alike."],
  iso_14253_1: ["Careful on both sides", "In limits only if it is 95 % sure (ISO 14253-1)."],
} as const;

export const BOOKS = {
  applies: "applies to this engine",
  does_not_apply: "does not apply to this engine serial number, not used",
  cannot_tell: "may apply: the engine serial number is not said",
  not_stated: "states no serial numbers",
} as Record<string, string>;

/** The ends of an engine as one finds them. */
export const ENDS = {
  free: "pulley end",
  output: "flywheel end",
  free_end: "pulley end",
  output_end: "flywheel end",
} as const;

/** A unit as it is spoken of. */
export const unitName = (unit: string): string => (unit === "in" ? "inch" : unit);

/** A valve without the word that stands before all of them. */
export const short = (valve: string): string => valve.replace(/^cylinder /, "");

/** `1 valve`, `2 valves`. */
export const count = (n: number, one: string): string => `${n} ${one}${n === 1 ? "" : "s"}`;

const percent = new Intl.NumberFormat("en", { style: "percent", maximumFractionDigits: 1 });

/** A probability as words: `95.1 %`, `under 0.1 %`. */
export function chance({ least, most }: Chance): string {
  const [from, to] = [share(least), share(most)];
  return from === to ? from : `${from} to ${to}`;
}

/** One share as words. */
export const portion = (p: number): string => share(p);

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
