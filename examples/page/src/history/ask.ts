// What the kernel says of past services. The valves are asked with them where their sheet is right: what they
// read counts as the last service, and their book says when to look again.

import { CLEARANCE, put } from "../draft";
import type { AnyReport, Answer, Document } from "../kernel";
import { valvesAlone } from "../progress";
import { ask } from "../whole";

const known = new WeakMap<Document, Answer<AnyReport>>();

export function pastOf(document: Document): Answer<AnyReport> {
  const before = known.get(document);
  if (before) return before;
  const alone = valvesAlone(document);
  const first = ask(alone).report ? alone : put(alone, CLEARANCE, undefined);
  const fresh: Answer<AnyReport> = document.history
    ? ask({ ...first, history: document.history } as Document)
    : { report: null, problems: [] };
  known.set(document, fresh);
  return fresh;
}
