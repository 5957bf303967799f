// What the kernel says of the ignition of a job. A clearance part that is not filled in, or in which nothing is
// read yet, is left out: it has nothing to say of the valves then, and the user may.

import { blank } from "../blank";
import { CLEARANCE, put } from "../draft";
import type { AnyReport, Document, Problem } from "../kernel";
import { withoutIgnition } from "../progress";
import { ask } from "../whole";

export interface Found {
  report: AnyReport | null;
  problems: readonly Problem[];
  /** Whether the clearance part was asked too; what it finds goes before all of this. */
  withValves: boolean;
}

const known = new WeakMap<Document, Found>();

/** The report of a job on its ignition; also of one that says nothing of it yet. */
export function found(document: Document): Found {
  const before = known.get(document);
  if (before) return before;
  const fresh = find({ ...document, ignition: document.ignition ?? {} });
  known.set(document, fresh);
  return fresh;
}

function find(document: Document): Found {
  const isRead = (document.clearance.readings ?? []).length > 0;
  if (isRead && ask(withoutIgnition(document)).report) return { ...ask(document), withValves: true };
  return { ...ask(put(document, CLEARANCE, undefined)), withValves: false };
}

/** The document as text to keep: without a sheet for valves on which nothing is filled in. */
export function toKeep(document: Document): string {
  const isBlank = JSON.stringify(document.clearance) === JSON.stringify(blank().clearance);
  const kept = isBlank ? put(document, CLEARANCE, undefined) : document;
  return `${JSON.stringify(kept, null, 2)}\n`;
}
