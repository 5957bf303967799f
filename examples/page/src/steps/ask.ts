// What the kernel says of a later step of a job. A part before it that is not filled in, in which nothing is read
// yet, or which is wrong, is left out: it has nothing to say then, and the user may.

import { blank } from "../blank";
import { at, CLEARANCE, put } from "../draft";
import type { AnyReport, Answer, Document, Problem, ServiceReport } from "../kernel";
import { valvesAlone } from "../progress";
import { answer as ask, lacksFor } from "../whole";

/** The parts of a document that are steps of the service after the valves, in the order of work. */
const PARTS = ["condition", "ignition", "mixture"] as const;

export type StepPart = (typeof PARTS)[number];

export interface Found {
  report: AnyReport | null;
  problems: readonly Problem[];
  /** Whether the clearance part was asked too; what it finds goes before all of this. */
  withValves: boolean;
  /** Whether the ignition was asked too. */
  withIgnition: boolean;
}

/** Asks once of each document: it is never changed, only replaced. */
function once<T>(work: (document: Document) => T): (document: Document) => T {
  const known = new WeakMap<Document, { told: T }>();
  return (document) => {
    const kept = known.get(document) ?? { told: work(document) };
    known.set(document, kept);
    return kept.told;
  };
}

const known = {
  condition: once((document) => find(document, "condition")),
  ignition: once((document) => find(document, "ignition")),
  mixture: once((document) => find(document, "mixture")),
};

/** The report of a job on one of its steps; also of one that says nothing of it yet. */
export const found = (document: Document, part: StepPart): Found => known[part](document);

function find(document: Document, part: StepPart): Found {
  const own = LISTS.reduce(whole, document);
  const isRead = (document.clearance.readings ?? []).length > 0;
  const { asked, withValves } = before(own, PARTS.slice(0, PARTS.indexOf(part)), isRead);
  // The air around is said once.
  const air = part === "condition" && own.mixture?.air;
  const ground = air ? withPart(asked, "mixture", { air }) : asked;
  const withIgnition = part === "ignition" || asked.ignition != null;
  return { ...ask({ ...ground, [part]: own[part] ?? {} } as Document), withValves, withIgnition };
}

/** What comes first of a document, and those of its parts that are right; parts that are empty on demand. */
function before(document: Document, parts: readonly StepPart[], valvesToo: boolean, none?: object) {
  const { condition: _, ignition: __, mixture: ___, history: ____, causes: _____, ...rest } = document;
  // Mostly all of it is right, and then one question is enough.
  const said = parts
    .map((part) => [part, document[part] ?? none] as const)
    .filter(([, more]) => more != null);
  const all = { ...rest, ...Object.fromEntries(said) } as Document;
  if (valvesToo && ask(all).report) return { asked: all, withValves: true };
  const withValves = valvesToo && ask(valvesAlone(document)).report !== null;
  const first = (withValves ? rest : put(rest, CLEARANCE, undefined)) as Document;
  const asked = parts.reduce((asked, part) => withPart(asked, part, document[part] ?? none), first);
  return { asked, withValves };
}

/** The document with a part, if it is right with it. */
function withPart(document: Document, part: StepPart | "history", more: unknown): Document {
  const next = { ...document, [part]: more } as Document;
  return more != null && ask(next).report ? next : document;
}

/** The document with every step, begun or not. */
export const withAll = (document: Document): object => ({
  condition: {},
  ignition: {},
  mixture: {},
  ...document,
});

const ofAll = (document: Document): Answer<AnyReport> => {
  const { asked } = before(LISTS.reduce(whole, document), PARTS, true, {});
  return ask(asked);
};

const ofAllOnce = once(ofAll);

/** All steps of a job, with those that are not begun; a part that is wrong is left out. */
export const inAll = (document: Document): Answer<AnyReport> =>
  // What is answered before all of the kernel is there is not the last word.
  lacksFor(withAll(document)) ? ofAll(document) : ofAllOnce(document);

/** The whole service of a job. */
export const serviceOf = (document: Document): ServiceReport | null =>
  inAll(document).report?.service ?? null;

/**
 * What is said of past services. Valves that are read count as the last service, and their book says when to look
 * again; whether they count hangs on what they stand on.
 */
export const pastOf = once((document): Answer<AnyReport> => {
  const { history } = document;
  if (!history) return { report: null, problems: [] };
  const { asked } = before(LISTS.reduce(whole, document), PARTS, true);
  return ask({ ...asked, history } as Document);
});

/** What may be the matter by all of that; it is asked for where it is shown. */
export const causesOf = once((document): Answer<AnyReport> => {
  const { asked } = before(LISTS.reduce(whole, document), PARTS, true);
  const all = withPart(asked, "history", document.history);
  return ask({ ...all, causes: document.causes ?? {} } as Document);
});

/** Lists to which an item is added empty, and then filled in. */
const LISTS = [
  "condition/head/bolts",
  "mixture/float/chambers",
  "mixture/idle/readings",
  "mixture/balance/vacuum/trials",
  "mixture/balance/flow/trials",
  "mixture/jets/fitted",
];

/** The document without what is only begun at the end of a list: it is asked about when it is whole. */
function whole(document: Document, list: string): Document {
  const items = at(document, `/${list}`);
  if (!Array.isArray(items)) return document;
  const isWhole = (item: object) => !Object.values(item).includes("");
  const last = items.findLastIndex(isWhole);
  return last + 1 < items.length ? put(document, `/${list}`, items.slice(0, last + 1)) : document;
}

/** The document as text to keep: without a sheet for valves on which nothing is filled in. */
export function toKeep(document: Document): string {
  const isBlank = JSON.stringify(document.clearance) === JSON.stringify(blank().clearance);
  const kept = isBlank ? put(document, CLEARANCE, undefined) : document;
  return `${JSON.stringify(kept, null, 2)}\n`;
}
