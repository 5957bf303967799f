// Where a job stands: what is judged so far, and which reading belongs to which valve.

import type { Reading } from "./draft";
import { fromReading, progressOf, type Progress } from "./felt";
import type { CheckReport, Document, Problem, Report, ValveReport } from "./kernel";
import { answer, ask } from "./whole";

/** What names a valve. */
export type Valve = Pick<CheckReport, "cylinder" | "kind" | "number">;

export interface Standing {
  /** The report on everything that can be judged; none if the engine itself is not clear yet. */
  report: Report | null;
  /** Everything that is wrong. */
  problems: readonly Problem[];
}

/** The parts of a document that have views of their own. */
const LATER = ["condition", "ignition", "mixture", "history", "causes", "log"] as const;

/** The document without them: what is wrong there stops no valve. */
export function valvesAlone(document: Document): Document {
  const alone = { ...document };
  for (const part of LATER) delete alone[part];
  return alone;
}

/** The valves with what they stand on, the head's bolts and the order of what was done, where that is right. */
function grounded(document: Document): Document {
  const alone = valvesAlone(document);
  const { condition, log } = document;
  const ground = { ...(condition && { condition }), ...(log && { log }) };
  if (Object.keys(ground).length === 0) return alone;
  const { clearance: _, ...engine } = alone;
  const isRight = ask({ ...engine, condition: {}, ...ground } as Document).report !== null;
  return isRight ? { ...alone, ...ground } : alone;
}

const standings = new WeakMap<Document, Standing>();

/** The report; a reading that cannot be right is left out of it and stays among the problems. */
export function standing(document: Document): Standing {
  const known = standings.get(document);
  if (known) return known;
  const asked = grounded(document);
  const whole = answer(asked);
  const fresh: Standing = whole.report
    ? whole
    : { problems: whole.problems, report: rest(asked, whole.problems) };
  standings.set(document, fresh);
  return fresh;
}

function rest(document: Document, problems: readonly Problem[]): Report | null {
  const found = problems.map(({ place }) => /^\/clearance\/readings\/(\d+)(\/left)?/.exec(place));
  const isWrong = (i: number, left?: string) =>
    found.some((place) => place?.[1] === String(i) && place[2] === left);
  const readings = readingsOf(document).flatMap((reading, i) => {
    if (isWrong(i)) return [];
    return isWrong(i, "/left") ? { ...reading, left: undefined } : reading;
  });
  return answer(withReadings(document, readings)).report;
}

/** What was read; a document that is being written may lack the list. */
const readingsOf = ({ clearance }: Document): readonly Reading[] => clearance.readings ?? [];

const withReadings = (document: Document, readings: Reading[]): Document => ({
  ...document,
  clearance: { ...document.clearance, readings },
});

/** Whether two names mean one valve. */
export const same = (a: Valve, b: Valve): boolean =>
  a.cylinder === b.cylinder && a.kind === b.kind && a.number === b.number;

const valveOf = (reading: Reading): Valve => ({
  cylinder: reading.cylinder,
  kind: reading.valve,
  number: reading.number ?? 1,
});

/** Where the reading of a valve stands in the list; -1 if there is none. */
export const readingIndex = (document: Document, valve: Valve): number =>
  readingsOf(document).findIndex((reading) => same(valveOf(reading), valve));

/** What was judged of a valve. */
export const judgedOf = (report: Report, valve: Valve): ValveReport | undefined =>
  report.clearance.valves.find((found) => same(found, valve));

/** A name for a valve that can be written down. */
export const keyOf = ({ cylinder, kind, number }: Valve): string => `${cylinder}.${kind}.${number}`;

/** The reading of a valve in a list. */
export const readingOf = (readings: readonly Reading[], valve: Valve): Reading | undefined =>
  readings.find((reading) => same(valveOf(reading), valve));

/** Whether a valve is not begun, waits for its other side, or is done. A leaf that decides alone is enough. */
export function readSoFar(document: Document, report: Report, valve: Valve): Progress {
  const progress = progressOf(fromReading(readingOf(readingsOf(document), valve), ""));
  if (progress !== "half") return progress;
  const judged = judgedOf(report, valve)?.judged ?? [];
  return judged.length > 0 && judged.every(({ verdict }) => verdict !== "cannot_say") ? "both" : "half";
}

/** The document with what was felt at a valve, or with nothing said about it. */
export function withFelt(document: Document, valve: Valve, felt: Partial<Reading> | undefined): Document {
  const readings = readingsOf(document);
  const before = readingOf(readings, valve);
  if (!felt)
    return withReadings(
      document,
      readings.filter((one) => one !== before),
    );
  const several = Number(document.clearance.valves[`${valve.kind}_per_cylinder`]) > 1;
  const { shim, hollow, left } = before ?? {};
  const reading: Reading = {
    cylinder: valve.cylinder,
    valve: valve.kind,
    ...(several && { number: valve.number }),
    ...felt,
    ...(shim != null && { shim }),
    ...(hollow != null && { hollow }),
    ...(left != null && { left }),
  };
  const all = before ? readings.map((old) => (old === before ? reading : old)) : [...readings, reading];
  return withReadings(document, all);
}

/** The same with what it read after it was set. */
export function withLeft(document: Document, valve: Valve, felt: Partial<Reading> | undefined): Document {
  const readings = readingsOf(document);
  const before = readingOf(readings, valve);
  const { left, ...found } = before ?? {};
  const shim = left?.shim;
  const after = { ...found, ...(felt && { left: { ...felt, ...(shim != null && { shim }) } }) } as Reading;
  return withReadings(
    document,
    readings.map((old) => (old === before ? after : old)),
  );
}
