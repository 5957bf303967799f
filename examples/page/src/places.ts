// Places of a document in the words that stand at their fields.

import { asText, at, CLEARANCE, steps } from "./draft";

const WORDS: Record<string, string> = {
  set_to: "gap to set",
  set: "allowed when setting",
  leave_alone: "allowed when checking",
  from: "min",
  to: "max",
  specifications: "book",
  gauge: "leaves",
  goes: "goes in",
  refuses: "does not go",
  drags: "drags lightly",
  is: "temperature",
  number: "engine serial number",
  seat: "where the screw is",
  bank: "V angle",
  left: "as left",
};

/** The same where another word stands in the mixture. */
const OF_MIXTURE: Record<string, string> = {
  ...WORDS,
  gauge: "vacuum gauge",
  shows: "reading",
  out: "turns out",
  co: "CO",
  co2: "CO2",
  o2: "O2",
  hc: "HC",
};

/** Steps that say nothing to whoever reads them. */
const SILENT = new Set(["clearance", "engine", "valves"]);

/** A place in words: `4 intake, goes in`, `exhaust: gap to set`. */
export function placeWords(place: string, document?: unknown): string {
  const path = steps(place);
  if (path[0] === "readings" || (path[0] === "clearance" && path[1] === "readings")) {
    const at0 = path.indexOf("readings");
    const index = path[at0 + 1] ?? "";
    const reading = at(document, `${CLEARANCE}/readings/${index}`) ?? at(document, `/readings/${index}`);
    const name = `${asText(at(reading, "/cylinder"))} ${asText(at(reading, "/valve"))}`.trim();
    return [name || "a reading", ...said(path.slice(at0 + 2))].join(", ");
  }
  return said(path).join(": ");
}

const said = (path: readonly string[], words = path[0] === "mixture" ? OF_MIXTURE : WORDS): string[] =>
  path
    .filter((step) => !SILENT.has(step))
    .map((step) => (/^\d+$/.test(step) ? step : (words[step] ?? step.replaceAll("_", " "))))
    // The first of its kind needs no number.
    .flatMap((step, i, all) => {
      if (/^\d+$/.test(step)) return i > 0 ? [] : [step];
      const next = all[i + 1] ?? "";
      // Most have one book, and say nothing of it.
      if (step === WORDS.specifications && next === "0") return [];
      return [/^[1-9]\d*$/.test(next) ? `${step} ${Number(next) + 1}` : step];
    });
