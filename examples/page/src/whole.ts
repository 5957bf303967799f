// What answers a whole job: the other WebAssembly file. Only parts that are loaded later may import this.

import { init, run, type Document, type Report } from "lashwork";
import { asked, type Answer } from "./kernel";

/** Settles when whole jobs can be answered. */
export const wholeReady: Promise<void> = init();

const answers = new WeakMap<object, Answer<Report>>();

/** The answer to a document; documents are never changed in place, so it is kept. */
export function answer(document: Document): Answer<Report> {
  const known = answers.get(document);
  if (known) return known;
  const fresh = ask(document);
  answers.set(document, fresh);
  return fresh;
}

/** The answer to a document, or to text that may be none. */
export const ask = (document: Document | string): Answer<Report> => asked(() => run(document));
