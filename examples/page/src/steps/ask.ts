// What the kernel says of a later step of a job. A part before it that is not filled in, in which nothing is read
// yet, or which is wrong, is left out: it has nothing to say then, and the user may.

import { blank } from "../blank";
import { at, CLEARANCE, put } from "../draft";
import type { AnyReport, Document, Problem } from "../kernel";
import { valvesAlone } from "../progress";
import { ask } from "../whole";

/** The steps after the valves, in the order of work, by the part of the document and of the report they have. */
export type StepPart = "ignition" | "mixture";

export interface Found {
  report: AnyReport | null;
  problems: readonly Problem[];
  /** Whether the clearance part was asked too; what it finds goes before all of this. */
  withValves: boolean;
  /** Whether the ignition was asked too. */
  withIgnition: boolean;
}

const known = { ignition: new WeakMap<Document, Found>(), mixture: new WeakMap<Document, Found>() };

/** The report of a job on one of its steps; also of one that says nothing of it yet. */
export function found(document: Document, part: StepPart): Found {
  const before = known[part].get(document);
  if (before) return before;
  const fresh = find(document, part);
  known[part].set(document, fresh);
  return fresh;
}

function find(document: Document, part: StepPart): Found {
  const { ignition, mixture, ...rest } = LISTS.reduce(whole, document);
  const isRead = (document.clearance.readings ?? []).length > 0;
  const withValves = isRead && ask(valvesAlone(document)).report !== null;
  const first = (withValves ? rest : put(rest, CLEARANCE, undefined)) as Document;
  const own = { ignition, mixture };
  const before = part === "mixture" && ignition ? { ...first, ignition } : first;
  const withIgnition = part === "ignition" || (before !== first && ask(before).report !== null);
  const asked = { ...(withIgnition ? before : first), [part]: own[part] ?? {} };
  return { ...ask(asked), withValves, withIgnition };
}

/** Lists to which an item is added empty, and then filled in. */
const LISTS = [
  "float/chambers",
  "idle/readings",
  "balance/vacuum/trials",
  "balance/flow/trials",
  "jets/fitted",
];

/** The document without what is only begun at the end of a list: it is asked about when it is whole. */
function whole(document: Document, list: string): Document {
  const items = at(document, `/mixture/${list}`);
  if (!Array.isArray(items)) return document;
  const isWhole = (item: object) => !Object.values(item).includes("");
  const last = items.findLastIndex(isWhole);
  return last + 1 < items.length ? put(document, `/mixture/${list}`, items.slice(0, last + 1)) : document;
}

/** The document as text to keep: without a sheet for valves on which nothing is filled in. */
export function toKeep(document: Document): string {
  const isBlank = JSON.stringify(document.clearance) === JSON.stringify(blank().clearance);
  const kept = isBlank ? put(document, CLEARANCE, undefined) : document;
  return `${JSON.stringify(kept, null, 2)}\n`;
}
