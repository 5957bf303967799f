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

/** Its words are those of the clearances: the gauge of the mixture has no leaves. */
const wordOf = (step: string, [part]: readonly string[]) => (part === "mixture" ? undefined : WORDS[step]);

const said = (path: readonly string[]): string[] =>
  path
    .filter((step) => !SILENT.has(step))
    .map((step) => (/^\d+$/.test(step) ? step : (wordOf(step, path) ?? step.replaceAll("_", " "))))
    // The first of its kind needs no number.
    .flatMap((step, i, all) => {
      if (/^\d+$/.test(step)) return i > 0 ? [] : [step];
      const next = all[i + 1] ?? "";
      // Most have one book, and say nothing of it.
      if (step === WORDS.specifications && next === "0") return [];
      return [/^[1-9]\d*$/.test(next) ? `${step} ${Number(next) + 1}` : step];
    });
